#include "weatherstruck/account/credit.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "weatherstruck/account/rounding.h"

namespace weatherstruck::account {

namespace {

class Maker {
 public:
  Maker(const Invoice& invoice, const std::vector<Invoice>& earlier)
      : invoice_(invoice), earlier_(earlier), currency_(invoice.net.currency()) {
    for (const InvoiceLine& line : invoice.lines)
      left_.push_back(line.charge.quantity);
    // A note's lines stand in the order of the invoice's, so of two that look alike the first is meant first.
    for (const Invoice& note : earlier) {
      for (const InvoiceLine& credited : note.lines)
        take(credited.charge);
    }
  }

  Invoice run(const std::vector<CreditLine>& wanted, const InvoiceNumber& number, base::LocalDay issued,
              const std::string& reason) {
    refuse_strange();
    const base::Money nought(0, currency_);
    Invoice note{number,
                 {issued, issued, invoice_.dates.work_from, invoice_.dates.work_to},
                 invoice_.title,
                 invoice_.seller,
                 invoice_.buyer,
                 {},
                 {},
                 nought,
                 nought,
                 nought,
                 nought,
                 nought};
    note.credited = Credited{invoice_.number, invoice_.dates.issued, reason};
    lines(wanted, note);
    throw_if_any();
    discounts(note);
    set_off(note);
    reckon(note);
    if (std::all_of(left_.begin(), left_.end(), [](std::int64_t left) { return left == 0; })) deposit(note);
    faults_ = faults_of(note);
    throw_if_any();
    return note;
  }

 private:
  void take(const Charge& credited) {
    for (std::size_t i = 0; i < left_.size(); ++i) {
      const Charge& line = invoice_.lines[i].charge;
      const bool holds = left_[i] < 0 ? credited.quantity >= left_[i] && credited.quantity < 0
                                      : credited.quantity <= left_[i] && credited.quantity > 0;
      if (line.key != credited.key || !(line.unit_price == credited.unit_price) || !holds) continue;
      left_[i] -= credited.quantity;
      return;
    }
  }

  void add(std::string code, std::string place, std::string found, std::string allowed, std::string remedy) {
    faults_.push_back(
        {std::move(code), std::move(place), std::move(found), std::move(allowed), std::move(remedy)});
  }
  void throw_if_any() {
    if (!faults_.empty()) throw base::InputError("the credit note", std::move(faults_));
  }

  void refuse_strange() {
    const std::string name = number_text(invoice_.number);
    if (invoice_.credited) {
      add("is-a-credit-note", "number", name, "an invoice", "Name the invoice that is to be taken back.");
    } else if (!invoice_.number.number) {
      add("not-issued", "number", name, "an invoice that was issued",
          "A draft needs no credit note; correct what it is made from.");
    } else if (std::all_of(left_.begin(), left_.end(), [](std::int64_t left) { return left == 0; })) {
      add("nothing-left", "number", fmt::format("{}, all of it credited already", name),
          "an invoice with something left to take back", "Look at the job's invoices.");
    }
    throw_if_any();
  }

  void line(const CreditLine& wanted, const std::string& place, Invoice& note) {
    const InvoiceLine& of = invoice_.lines[wanted.line];
    std::int64_t& left = left_[wanted.line];
    const std::int64_t quantity = wanted.thousandths.value_or(left);
    if (left == 0) {
      add("nothing-left", place, fmt::format("line {}, credited already", wanted.line + 1),
          "a line with something left", "Leave it out.");
      return;
    }
    const bool part = quantity != of.charge.quantity;
    if (wanted.thousandths && (left < 0 ? quantity != left : quantity < 1 || quantity > left)) {
      add("out-of-range", place, fmt::format("{} thousandths", quantity),
          left < 0 ? "the whole of what was taken off"
                   : fmt::format("more than nought, and at most the {} thousandths that are left", left),
          "Credit less, or leave the quantity out.");
      return;
    }
    if (part && of.charge.discount) {
      add("out-of-range", place, "a part of a line with a discount of its own", "the whole line",
          "Leave the quantity out, and bill what is to stay anew.");
      return;
    }
    Charge charge = of.charge;
    charge.quantity = quantity;
    const base::Money net = net_of(charge);
    note.lines.push_back({std::move(charge), net});
    left -= quantity;
  }

  void lines(std::vector<CreditLine> wanted, Invoice& note) {
    if (wanted.empty()) {
      for (std::size_t i = 0; i < left_.size(); ++i) {
        if (left_[i] != 0) wanted.push_back({i});
      }
    }
    std::stable_sort(wanted.begin(), wanted.end(),
                     [](const CreditLine& a, const CreditLine& b) { return a.line < b.line; });
    for (const CreditLine& one : wanted) {
      const std::string place = fmt::format("line/{}", one.line + 1);
      if (one.line >= invoice_.lines.size()) {
        add("no-such-line", place, std::to_string(one.line + 1),
            fmt::format("1 to {}", invoice_.lines.size()), "Count the lines of the invoice from the top.");
      } else {
        line(one, place, note);
      }
    }
  }

  void set_off(Invoice& note) const {
    for (const InvoiceLine& line : note.lines) {
      if (!takes_deposit_off(line.charge)) continue;
      std::size_t at = 0;
      for (const InvoiceLine& of : invoice_.lines) {
        if (!takes_deposit_off(of.charge)) continue;
        if (of.charge.key == line.charge.key) note.set_off.push_back(invoice_.set_off[at]);
        ++at;
      }
    }
  }

  /// The net of a tax's lines on one paper, as discounts are reckoned on it.
  [[nodiscard]] static std::int64_t net_on(const Invoice& paper, const Tax& tax) {
    std::int64_t net = 0;
    for (const InvoiceLine& line : paper.lines) {
      if (line.charge.tax == tax && !takes_deposit_off(line.charge)) net += line.net.minor();
    }
    return net;
  }

  void discounts(Invoice& note) const {
    for (const SumDiscount& given : invoice_.discounts) {
      std::int64_t rest = given.amount.minor();
      for (const Invoice& before : earlier_) {
        for (const SumDiscount& back : before.discounts) {
          if (back.tax == given.tax) rest -= back.amount.minor();
        }
      }
      bool last = true;
      for (std::size_t i = 0; i < left_.size(); ++i)
        last = last && (left_[i] == 0 || !(invoice_.lines[i].charge.tax == given.tax));
      const std::int64_t net = net_on(note, given.tax);
      const std::int64_t whole = net_on(invoice_, given.tax);
      // A line taken off may have made the whole smaller than what is credited now.
      const std::int64_t share =
          last || net >= whole
              ? rest
              : std::min(rest, share_of(given.amount.minor(), std::max<std::int64_t>(0, net), whole));
      const bool of_a_line = std::any_of(note.lines.begin(), note.lines.end(), [&](const InvoiceLine& line) {
        return line.charge.tax == given.tax;
      });
      if (share > 0 && of_a_line) note.discounts.push_back({given.tax, {share, currency_}, given.reason});
    }
  }

  void deposit(Invoice& note) const {
    std::int64_t rest = invoice_.deposit.minor();
    for (const Invoice& before : earlier_)
      rest -= before.deposit.minor();
    note.deposit = {std::min(rest, std::max<std::int64_t>(0, note.total.minor())), currency_};
    note.due = note.total - note.deposit;
  }

  const Invoice& invoice_;
  const std::vector<Invoice>& earlier_;
  base::Currency currency_;
  std::vector<std::int64_t> left_;  ///< thousandths of each line of the invoice
  base::Faults faults_;
};

}  // namespace

Invoice credit_note_of(const Invoice& invoice, const std::vector<Invoice>& earlier,
                       const std::vector<CreditLine>& lines, const InvoiceNumber& number,
                       base::LocalDay issued, const std::string& reason) {
  return Maker(invoice, earlier).run(lines, number, issued, reason);
}

}  // namespace weatherstruck::account
