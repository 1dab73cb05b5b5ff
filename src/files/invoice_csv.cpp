#include "weatherstruck/files/invoice_csv.h"

#include <utility>
#include <vector>

#include "plain_numbers.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/files/csv_text.h"

namespace weatherstruck::files {
namespace {

std::string rate(const account::Tax& tax) {
  return plain_decimal(tax.rate, 100, 2);
}

class Table {
 public:
  Table(const account::Invoice& invoice, bool offer) : invoice_(invoice), offer_(offer) {}

  std::string run() {
    out_ = invoice_csv_head();
    for (const account::InvoiceLine& line : invoice_.lines) {
      const account::Charge& charge = line.charge;
      row("line", charge.text,
          {quantity(charge), std::string(account::word_of(charge.unit)), amount(charge.unit_price, false),
           charge.discount ? amount(charge.discount->amount) : "", amount(line.net),
           std::string(account::code_of(charge.tax.category)), rate(charge.tax), ""});
    }
    for (const account::SumDiscount& discount : invoice_.discounts) {
      row("discount", discount.reason,
          {"", "", "", "", minus(discount.amount), std::string(account::code_of(discount.tax.category)),
           rate(discount.tax), ""});
    }
    for (const account::TaxTotal& total : invoice_.taxes) {
      row("tax", account::tax_words(total.tax),
          {"", "", "", "", amount(total.net), std::string(account::code_of(total.tax.category)),
           rate(total.tax), amount(total.amount)});
    }
    sum("net", invoice_.net);
    sum("total", invoice_.total);
    if (!offer_) {
      sum("deposit", base::Money(0, invoice_.deposit.currency()) - invoice_.deposit);
      sum("due", invoice_.due);
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] std::string quantity(const account::Charge& charge) const {
    return plain_decimal(invoice_.credited ? -charge.quantity : charge.quantity, account::one_unit, 3);
  }
  [[nodiscard]] std::string minus(const base::Money& money) const {
    return amount(base::Money(0, money.currency()) - money);
  }
  /// @param turned whether that of a credit note has the other sign
  [[nodiscard]] std::string amount(const base::Money& money, bool turned = true) const {
    const base::Money shown = invoice_.credited && turned ? base::Money(0, money.currency()) - money : money;
    return plain_amount(shown);
  }

  void row(const std::string& kind, const std::string& text, const std::vector<std::string>& rest) {
    std::vector<std::string> cells{kind,
                                   offer_              ? "quotation"
                                   : invoice_.credited ? "credit note"
                                                       : "invoice",
                                   offer_ ? "" : account::number_text(invoice_.number),
                                   iso_day(invoice_.dates.issued),
                                   offer_ ? "" : iso_day(invoice_.dates.due),
                                   invoice_.buyer.name,
                                   text};
    cells.insert(cells.end(), rest.begin(), rest.end());
    cells.push_back(invoice_.net.currency().code());
    out_ += csv_row(cells);
  }
  void sum(const std::string& kind, const base::Money& money) {
    row(kind, "", {"", "", "", "", "", "", "", amount(money)});
  }

  const account::Invoice& invoice_;
  bool offer_;
  std::string out_;
};

}  // namespace

std::string invoice_csv_head() {
  return csv_row({"row", "paper", "number", "issued", "pay_by", "customer", "text", "quantity", "unit",
                  "price", "taken_off", "net", "tax_category", "tax_percent", "amount", "currency"});
}

std::string invoice_csv(const account::Invoice& invoice) {
  return Table(invoice, false).run();
}

std::string quote_csv(const account::Invoice& sums) {
  return Table(sums, true).run();
}

}  // namespace weatherstruck::files
