#include "weatherstruck/account/invoice.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/account/rounding.h"

namespace weatherstruck::account {

namespace {

// Ten digits before the point in a currency with three decimals: far above any bill, far below what
// overflows.
constexpr std::int64_t largest_amount = 9'999'999'999'999;
constexpr std::int64_t largest_quantity = 1'000'000'000;  // a million of anything
constexpr std::size_t longest_series = 20;

bool fits_series(const std::string& series) {
  return series.size() <= longest_series && std::all_of(series.begin(), series.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' ||
                  c == '/';
         });
}

std::string deposit_key(const InvoiceNumber& number) {
  return "deposit/" + number_text(number);
}

bool same_tax(const Tax& a, const Tax& b) {
  return a.category == b.category && a.rate == b.rate;
}

// BR-CO-17: on the sum of the nets, once for each category and rate.
std::vector<TaxTotal> tax_totals(const Invoice& invoice) {
  const base::Currency& currency = invoice.net.currency();
  std::vector<TaxTotal> totals;
  const auto total_of = [&](const Tax& tax) {
    return std::find_if(totals.begin(), totals.end(),
                        [&](const TaxTotal& total) { return same_tax(total.tax, tax); });
  };
  for (const InvoiceLine& line : invoice.lines) {
    auto at = total_of(line.charge.tax);
    if (at == totals.end()) {
      totals.push_back({line.charge.tax, base::Money(0, currency), base::Money(0, currency)});
      at = totals.end() - 1;
    }
    at->net = at->net + line.net;
  }
  for (const SumDiscount& discount : invoice.discounts) {
    const auto at = total_of(discount.tax);  // one of no line is a fault of its own
    if (at != totals.end()) at->net = at->net - discount.amount;
  }
  for (TaxTotal& total : totals)
    total.amount = base::Money(scaled(total.net.minor(), total.tax.rate, whole_of_it), currency);
  return totals;
}

// Shared out by the running sum, rounded, so that the shares come to the whole.
std::vector<SumDiscount> discounts_of(const Off& off, const Invoice& invoice) {
  std::vector<TaxTotal> totals = tax_totals(invoice);
  totals.erase(
      std::remove_if(totals.begin(), totals.end(), [](const TaxTotal& t) { return t.net.minor() <= 0; }),
      totals.end());
  base::Money sum(0, invoice.net.currency());
  for (const TaxTotal& total : totals)
    sum = sum + total.net;
  std::vector<SumDiscount> made;
  if (sum.minor() > largest_amount) return made;  // the invoice is refused for it
  if (off.amount && !(off.amount->currency() == sum.currency()))
    throw std::invalid_argument("what is taken off must be of the invoice's currency");
  std::int64_t part = 0;
  std::int64_t given = 0;
  for (const TaxTotal& total : totals) {
    std::int64_t share = 0;
    if (off.amount) {
      part += total.net.minor();
      const std::int64_t upto = share_of(std::min(off.amount->minor(), sum.minor()), part, sum.minor());
      share = upto - given;
      given = upto;
    } else {
      share = scaled(total.net.minor(), off.percent, whole_of_it);
    }
    if (share > 0) made.push_back({total.tax, base::Money(share, sum.currency()), off.reason});
  }
  return made;
}

// Whatever the name it was billed under, tax of the same rate goes by the name that it has on this invoice.
const Tax& named_as_on(const Invoice& invoice, const Tax& tax) {
  for (const InvoiceLine& line : invoice.lines) {
    if (same_tax(line.charge.tax, tax)) return line.charge.tax;
  }
  return tax;
}

void take_deposits_off(const std::vector<BilledDeposit>& deposits, Invoice& made) {
  for (const BilledDeposit& deposit : deposits) {
    std::int64_t room = 0;
    for (const TaxTotal& total : tax_totals(made)) {
      if (same_tax(total.tax, deposit.tax)) room = total.net.minor();
    }
    const base::Money off(std::min(room, deposit.left.minor()), deposit.left.currency());
    if (off.minor() <= 0) continue;
    const std::string number = number_text(deposit.number);
    const Charge charge{deposit_key(deposit.number),
                        ChargeKind::deposit,
                        "Less the deposit of invoice " + number,
                        -one_unit,
                        Unit::each,
                        off,
                        named_as_on(made, deposit.tax)};
    made.lines.push_back({charge, net_of(charge)});
    made.set_off.push_back({deposit.number, deposit.issued});
  }
}

class Check {
 public:
  explicit Check(const Invoice& invoice) : invoice_(invoice), currency_(invoice.net.currency()) {}

  base::Faults run() {
    words();
    dates();
    if (!currencies()) return std::move(faults_);
    sizes();
    if (faults_.empty()) discounts();
    deposits();
    if (!faults_.empty()) return std::move(faults_);  // sums of what is out of range would overflow
    taxes();
    sums();
    return std::move(faults_);
  }

 private:
  void add(std::string code, std::string place, std::string found, std::string allowed, std::string remedy) {
    faults_.push_back(
        {std::move(code), std::move(place), std::move(found), std::move(allowed), std::move(remedy)});
  }
  void needs(const std::string& text, const std::string& place, const std::string& what,
             const std::string& remedy) {
    if (text.empty()) add("missing", place, "nothing", what, remedy);
  }
  [[nodiscard]] bool has(TaxCategory category) const {
    return std::any_of(invoice_.lines.begin(), invoice_.lines.end(),
                       [&](const InvoiceLine& line) { return line.charge.tax.category == category; });
  }

  void words() {
    if (invoice_.credited) {
      needs(invoice_.credited->reason, "credited/reason", "why it is credited", "Say why.");
      if (!invoice_.credited->number.number || !fits_series(invoice_.credited->number.series)) {
        add("missing", "credited/number (BR-55)", number_text(invoice_.credited->number),
            "the number of an invoice that was issued", "Name the invoice.");
      }
    }
    for (std::size_t i = 0; i < invoice_.discounts.size(); ++i) {
      needs(invoice_.discounts[i].reason, fmt::format("discounts/{}/reason (BR-33)", i),
            "why it is taken off", "Say why.");
    }
    needs(invoice_.seller.name, "seller/name (BR-06)", "the name he trades under",
          "Write who sends the bill.");
    needs(invoice_.seller.address, "seller/address (BR-08)", "his postal address",
          "Write where he can be reached.");
    needs(invoice_.buyer.name, "buyer/name (BR-07)", "the customer's name",
          "Write it in the job's customer.");
    needs(invoice_.buyer.address, "buyer/address (BR-10)", "the customer's postal address",
          "Write it in the job's customer.");
    if (!fits_series(invoice_.number.series)) {
      add("out-of-range", "number/series", invoice_.number.series,
          "at most 20 letters, digits, dashes and slashes", "Choose a short one, such as the year.");
    }
    if (invoice_.number.number && *invoice_.number.number < 1) {
      add("out-of-range", "number (BR-02)", std::to_string(*invoice_.number.number), "a number from 1",
          "Let the record give the number.");
    }
    if (invoice_.lines.empty()) {
      add("missing", "lines (BR-16)", "no line", "at least one", "Bill something, or wait until there is.");
    }
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i) {
      needs(invoice_.lines[i].charge.text, fmt::format("lines/{}/text (BR-25)", i), "what it is for",
            "Say what is billed.");
      if (const auto& discount = invoice_.lines[i].charge.discount) {
        needs(discount->reason, fmt::format("lines/{}/discount/reason (BR-42)", i), "why it is taken off",
              "Say why.");
      }
    }
  }

  void dates() {
    const InvoiceDates& dates = invoice_.dates;
    if (dates.due < dates.issued) {
      add("out-of-range", "dates/due (BR-CO-25)", "a day before the invoice",
          "the day of the invoice or later", "Give days to pay in.");
    }
    if (dates.work_from && dates.work_to && *dates.work_to < *dates.work_from) {
      add("out-of-range", "dates/work-to (BR-29)", "a day before the work began", "its first day or later",
          "Swap them.");
    }
  }

  bool currencies() {
    bool same = true;
    const auto check = [&](const base::Money& money, const std::string& place) {
      if (money.currency() == currency_) return;
      same = false;
      add("wrong-currency", place, money.text(), "an amount in " + currency_.code(),
          "Bill in one currency only.");
    };
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i) {
      check(invoice_.lines[i].charge.unit_price, fmt::format("lines/{}/price", i));
      check(invoice_.lines[i].net, fmt::format("lines/{}/net", i));
      if (const auto& discount = invoice_.lines[i].charge.discount)
        check(discount->amount, fmt::format("lines/{}/discount", i));
    }
    for (std::size_t i = 0; i < invoice_.discounts.size(); ++i)
      check(invoice_.discounts[i].amount, fmt::format("discounts/{}/amount", i));
    for (std::size_t i = 0; i < invoice_.taxes.size(); ++i) {
      check(invoice_.taxes[i].net, fmt::format("taxes/{}/net", i));
      check(invoice_.taxes[i].amount, fmt::format("taxes/{}/amount", i));
    }
    check(invoice_.tax, "tax");
    check(invoice_.total, "total");
    check(invoice_.deposit, "deposit");
    check(invoice_.due, "due");
    return same;
  }

  void sizes() {
    const auto check = [&](std::int64_t value, std::int64_t low, std::int64_t high, const std::string& place,
                           const std::string& found, const std::string& allowed) {
      if (value >= low && value <= high) return;
      add("out-of-range", place, found, allowed, "Look for a slip of the point.");
    };
    const auto money = [&](const base::Money& amount, std::int64_t low, const std::string& place) {
      check(amount.minor(), low, largest_amount, place, amount.text(),
            low < 0    ? "13 digits at most"
            : low == 0 ? "nought or more, 13 digits at most"
                       : "more than nought, 13 digits at most");
    };
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i) {
      const InvoiceLine& line = invoice_.lines[i];
      check(line.charge.quantity, -largest_quantity, largest_quantity, fmt::format("lines/{}/quantity", i),
            fmt::format("{} thousandths", line.charge.quantity), "a million at most");
      money(line.charge.unit_price, 0, fmt::format("lines/{}/price (BR-27)", i));
      money(line.net, -largest_amount, fmt::format("lines/{}/net", i));
      if (line.charge.discount) money(line.charge.discount->amount, 1, fmt::format("lines/{}/discount", i));
    }
    for (std::size_t i = 0; i < invoice_.discounts.size(); ++i)
      money(invoice_.discounts[i].amount, 1, fmt::format("discounts/{}/amount", i));
    money(invoice_.net, -largest_amount, "net");
    money(invoice_.tax, -largest_amount, "tax");
    money(invoice_.total, -largest_amount, "total");
    money(invoice_.deposit, 0, "deposit");
    money(invoice_.due, -largest_amount, "due");
  }

  void discounts() {
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i) {
      const Charge& charge = invoice_.lines[i].charge;
      if (!charge.discount || charge.discount->amount.minor() <= gross_of(charge).minor()) continue;
      add("out-of-range", fmt::format("lines/{}/discount", i), charge.discount->amount.text(),
          "no more than the line itself, " + gross_of(charge).text(), "Take off less.");
    }
    for (std::size_t i = 0; i < invoice_.discounts.size(); ++i) {
      const Tax& tax = invoice_.discounts[i].tax;
      const bool of_a_line = std::any_of(invoice_.lines.begin(), invoice_.lines.end(),
                                         [&](const InvoiceLine& line) { return line.charge.tax == tax; });
      const auto before = invoice_.discounts.begin() + static_cast<std::ptrdiff_t>(i);
      const bool again = std::any_of(invoice_.discounts.begin(), before,
                                     [&](const SumDiscount& other) { return same_tax(other.tax, tax); });
      if (of_a_line && !again) continue;
      add("mixed-tax", fmt::format("discounts/{}/tax", i), tax_words(tax),
          again ? "one discount for each tax" : "the tax of one of the lines",
          "Take it off the lines that are billed.");
    }
  }

  void deposits() {
    std::size_t taken = 0;
    bool ask = false;
    bool other = false;
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i) {
      const Charge& charge = invoice_.lines[i].charge;
      if (!takes_deposit_off(charge)) {
        (charge.kind == ChargeKind::deposit ? ask : other) = true;
        continue;
      }
      const SetOff* of = taken < invoice_.set_off.size() ? &invoice_.set_off[taken] : nullptr;
      ++taken;
      if (of != nullptr && of->number.number && charge.key == deposit_key(of->number)) continue;
      add("missing", fmt::format("lines/{}/deposit (BR-55)", i), "no number of the deposit's invoice",
          "the invoice by which it was billed", "Restore the invoice from a copy of the record.");
    }
    if (taken < invoice_.set_off.size()) {
      add("not-wanted", "set-off (BR-55)", number_text(invoice_.set_off[taken].number),
          "one for each line that takes a deposit off", "Restore the invoice from a copy of the record.");
    }
    if (ask && (other || taken > 0)) {
      add("not-wanted", "lines", "a deposit asked for beside other lines", "an invoice of its own for it",
          "Bill the deposit by itself.");
    }
  }

  void taxes() {
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i) {
      const Tax& tax = invoice_.lines[i].charge.tax;
      for (base::Fault& fault : faults_of(tax, fmt::format("lines/{}/tax", i)))
        faults_.push_back(std::move(fault));
      for (std::size_t j = 0; j < i; ++j) {
        const Tax& other = invoice_.lines[j].charge.tax;
        if (!same_tax(tax, other) || tax == other) continue;
        add("mixed-tax", fmt::format("lines/{}/tax", i), tax_words(tax) + ", " + tax.reason,
            tax_words(other) + ", " + other.reason, "Give one name and reason for one tax.");
        break;
      }
    }
    const bool outside = has(TaxCategory::not_subject);
    const bool inside = std::any_of(
        invoice_.lines.begin(), invoice_.lines.end(),
        [](const InvoiceLine& line) { return line.charge.tax.category != TaxCategory::not_subject; });
    if (outside && inside) {
      add("mixed-tax", "lines (BR-O-11)", "lines with tax and lines outside it", "one or the other",
          "A seller is registered or is not.");
    }
    if (outside && !invoice_.seller.tax_number.empty()) {
      add("not-wanted", "seller/tax-number (BR-O-02)", invoice_.seller.tax_number,
          "none on a bill outside the tax", "Take the number out, or charge the tax.");
    }
    if (inside && invoice_.seller.tax_number.empty()) {
      add("missing", "seller/tax-number (BR-S-02)", "nothing", "the number he is registered under",
          "Write it, or say that he is not registered.");
    }
  }

  void equal(const base::Money& found, const base::Money& wanted, const std::string& place) {
    if (found == wanted) return;
    add("does-not-add-up", place, found.text(), wanted.text(), "Reckon the invoice again; do not send it.");
  }

  void sums() {
    base::Money net(0, currency_);
    for (std::size_t i = 0; i < invoice_.lines.size(); ++i) {
      const InvoiceLine& line = invoice_.lines[i];
      equal(line.net, net_of(line.charge), fmt::format("lines/{}/net (BT-131)", i));
      net = net + line.net;
    }
    net = net - taken_off(invoice_);
    equal(invoice_.net, net, "net (BR-CO-10, BR-CO-13)");
    const std::vector<TaxTotal> totals = tax_totals(invoice_);
    base::Money tax(0, currency_);
    if (totals.size() != invoice_.taxes.size()) {
      add("does-not-add-up", "taxes (BR-S-08)", fmt::format("{} sums of tax", invoice_.taxes.size()),
          fmt::format("{}, one for each tax of the lines", totals.size()),
          "Reckon the invoice again; do not send it.");
    } else {
      for (std::size_t i = 0; i < totals.size(); ++i) {
        if (!(invoice_.taxes[i].tax == totals[i].tax)) {
          add("does-not-add-up", fmt::format("taxes/{}/tax (BR-S-08)", i), tax_words(invoice_.taxes[i].tax),
              tax_words(totals[i].tax), "Reckon the invoice again; do not send it.");
        }
        equal(invoice_.taxes[i].net, totals[i].net, fmt::format("taxes/{}/net (BR-S-08)", i));
        equal(invoice_.taxes[i].amount, totals[i].amount, fmt::format("taxes/{}/amount (BR-CO-17)", i));
      }
    }
    for (const TaxTotal& total : totals)
      tax = tax + total.amount;
    equal(invoice_.tax, tax, "tax (BR-CO-14)");
    equal(invoice_.total, net + tax, "total (BR-CO-15)");
    equal(invoice_.due, invoice_.total - invoice_.deposit, "due (BR-CO-16)");
    if (invoice_.deposit.minor() > std::max<std::int64_t>(0, invoice_.total.minor())) {
      add("out-of-range", "deposit", invoice_.deposit.text(),
          "no more than the total, " + invoice_.total.text(), "Leave the rest for the next invoice.");
    }
  }

  const Invoice& invoice_;
  base::Currency currency_;
  base::Faults faults_;
};

}  // namespace

std::string number_text(const InvoiceNumber& number) {
  if (!number.number) return "draft";
  if (number.series.empty()) return std::to_string(*number.number);
  return fmt::format("{}-{}", number.series, *number.number);
}

Invoice make_invoice(const Charges& charges, const std::string& title, const Seller& seller,
                     const Buyer& buyer, const InvoiceNumber& number, const InvoiceDates& dates) {
  const base::Money nought(0, charges.currency);
  Invoice made{number, dates, title, seller, buyer, {}, {}, nought, nought, nought, charges.deposit, nought};
  for (const Charge& charge : charges.lines) {
    made.lines.push_back({charge, net_of(charge)});
  }
  if (charges.off) made.discounts = discounts_of(*charges.off, made);
  take_deposits_off(charges.deposits, made);
  reckon(made);
  made.deposit = base::Money(std::min(charges.deposit.minor(), std::max<std::int64_t>(0, made.total.minor())),
                             charges.currency);
  made.due = made.total - made.deposit;
  base::Faults faults = faults_of(made);
  if (!faults.empty()) throw base::InputError("the invoice", std::move(faults));
  return made;
}

bool takes_deposit_off(const Charge& charge) {
  return charge.kind == ChargeKind::deposit && charge.quantity < 0;
}

bool is_deposit_invoice(const Invoice& invoice) {
  return !invoice.credited && !invoice.lines.empty() &&
         std::all_of(invoice.lines.begin(), invoice.lines.end(), [](const InvoiceLine& line) {
           return line.charge.kind == ChargeKind::deposit && line.charge.quantity > 0;
         });
}

base::Money lines_net(const Invoice& invoice) {
  base::Money net(0, invoice.net.currency());
  for (const InvoiceLine& line : invoice.lines)
    net = net + line.net;
  return net;
}

base::Money taken_off(const Invoice& invoice) {
  base::Money off(0, invoice.net.currency());
  for (const SumDiscount& discount : invoice.discounts)
    off = off + discount.amount;
  return off;
}

void reckon(Invoice& invoice) {
  invoice.net = lines_net(invoice) - taken_off(invoice);
  invoice.taxes = tax_totals(invoice);
  invoice.tax = base::Money(0, invoice.net.currency());
  for (const TaxTotal& total : invoice.taxes)
    invoice.tax = invoice.tax + total.amount;
  invoice.total = invoice.net + invoice.tax;
  invoice.due = invoice.total - invoice.deposit;
}

base::Faults faults_of(const Invoice& invoice) {
  return Check(invoice).run();
}

}  // namespace weatherstruck::account
