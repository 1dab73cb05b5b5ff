#include "weatherstruck/render/invoice_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "weatherstruck/account/rounding.h"

namespace weatherstruck::render {

namespace {

std::string grouped(std::uint64_t value) {
  std::string digits = std::to_string(value);
  for (std::size_t at = digits.size(); at > 3;) {
    at -= 3;
    digits.insert(at, ",");
  }
  return digits;
}

constexpr std::uint64_t thousand = account::one_unit;

std::uint64_t size_of(std::int64_t value) {
  const auto bits = static_cast<std::uint64_t>(value);
  return value < 0 ? 0 - bits : bits;
}

}  // namespace

std::string amount_text(const base::Money& money) {
  std::uint64_t unit = 1;
  const int decimals = money.currency().decimals();
  for (int i = 0; i < decimals; ++i)
    unit *= 10;
  const std::uint64_t size = size_of(money.minor());
  const std::string sign = money.minor() < 0 ? "-" : "";
  if (decimals == 0) return sign + grouped(size);
  return fmt::format("{}{}.{:0{}}", sign, grouped(size / unit), size % unit, decimals);
}

std::string quantity_text(std::int64_t thousandths) {
  const std::uint64_t size = size_of(thousandths);
  std::string text = fmt::format("{}{}", thousandths < 0 ? "-" : "", grouped(size / thousand));
  if (size % thousand == 0) return text;
  text += fmt::format(".{:03}", size % thousand);
  return text.substr(0, text.find_last_not_of('0') + 1);
}

std::string long_date(base::LocalDay day) {
  static constexpr std::array<const char*, 12> months{"January",   "February", "March",    "April",
                                                      "May",       "June",     "July",     "August",
                                                      "September", "October",  "November", "December"};
  const std::chrono::year_month_day date(day);
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()),
                     months.at(static_cast<unsigned>(date.month()) - 1), static_cast<int>(date.year()));
}

std::vector<std::string> address_lines(std::string_view address) {
  std::vector<std::string> lines;
  std::string line;
  const auto close = [&] {
    const std::size_t from = line.find_first_not_of(' ');
    if (from != std::string::npos) lines.push_back(line.substr(from, line.find_last_not_of(' ') - from + 1));
    line.clear();
  };
  for (const char c : address) {
    if (c == ',' || c == '\n' || c == '\r') {
      close();
    } else {
      line += c;
    }
  }
  close();
  return lines;
}

std::string invoice_title(const account::Invoice& invoice) {
  const bool deposit = account::is_deposit_invoice(invoice);
  if (!invoice.number.number) {
    return invoice.credited ? "Draft of a credit note, not issued"
           : deposit        ? "Draft of a deposit invoice, not issued"
                            : "Draft of an invoice, not issued";
  }
  return (invoice.credited ? "Credit note "
          : deposit        ? "Deposit invoice "
                           : "Invoice ") +
         account::number_text(invoice.number);
}

std::string credited_words(const account::Invoice& invoice) {
  if (!invoice.credited) return {};
  return fmt::format("For invoice {} of {}: {}", account::number_text(invoice.credited->number),
                     long_date(invoice.credited->issued), invoice.credited->reason);
}

namespace {

void add_place(std::vector<std::string>& lines, const std::string& postcode, const std::string& town,
               const std::string& country, const std::string& other_country) {
  if (!postcode.empty() || !town.empty())
    lines.push_back(town + (town.empty() || postcode.empty() ? "" : ", ") + postcode);
  if (!country.empty() && country != other_country && !other_country.empty()) lines.push_back(country);
}

}  // namespace

std::vector<std::string> seller_lines(const account::Invoice& invoice) {
  const account::Seller& who = invoice.seller;
  std::vector<std::string> lines = address_lines(who.address);
  add_place(lines, who.postcode, who.town, who.country, invoice.buyer.country);
  if (!who.contact.empty()) lines.push_back(who.contact);
  if (std::string words = tax_number_words(invoice); !words.empty()) lines.push_back(std::move(words));
  if (!who.registration.empty()) lines.push_back("Registered as " + who.registration);
  return lines;
}

std::vector<std::string> buyer_lines(const account::Invoice& invoice) {
  const account::Buyer& who = invoice.buyer;
  std::vector<std::string> lines = address_lines(who.address);
  add_place(lines, who.postcode, who.town, who.country, invoice.seller.country);
  const std::string tax = invoice.taxes.empty() ? "Tax" : invoice.taxes.front().tax.name;
  if (!who.tax_number.empty()) lines.push_back(tax + " number " + who.tax_number);
  if (!who.registration.empty()) lines.push_back("Registered as " + who.registration);
  if (!who.reference.empty()) lines.push_back("Your reference " + who.reference);
  if (!who.purchase_order.empty()) lines.push_back("Your order " + who.purchase_order);
  return lines;
}

std::string discount_words(const account::Charge& charge) {
  if (!charge.discount) return {};
  return fmt::format("{}, less {}: {}", amount_text(account::gross_of(charge)),
                     amount_text(charge.discount->amount), charge.discount->reason);
}

std::string quantity_words(const account::Charge& charge) {
  if (charge.unit == account::Unit::each) {
    const bool one = charge.quantity == account::one_unit || charge.quantity == -account::one_unit;
    return one ? std::string() : quantity_text(charge.quantity);
  }
  return fmt::format("{} {}", quantity_text(charge.quantity), account::word_of(charge.unit));
}

std::string tax_number_words(const account::Invoice& invoice) {
  if (invoice.seller.tax_number.empty() || invoice.taxes.empty()) return {};
  return invoice.taxes.front().tax.name + " number " + invoice.seller.tax_number;
}

std::string work_days(const account::InvoiceDates& dates) {
  if (dates.work_from && dates.work_to && *dates.work_from != *dates.work_to)
    return long_date(*dates.work_from) + " to " + long_date(*dates.work_to);
  if (dates.work_to) return long_date(*dates.work_to);
  if (dates.work_from) return long_date(*dates.work_from);
  return {};
}

std::vector<SumRow> sum_rows(const account::Invoice& invoice) {
  const bool taxed = std::any_of(
      invoice.taxes.begin(), invoice.taxes.end(),
      [](const account::TaxTotal& total) { return total.tax.category != account::TaxCategory::not_subject; });
  std::vector<SumRow> rows;
  const bool several = invoice.taxes.size() > 1;
  for (const account::SumDiscount& discount : invoice.discounts) {
    rows.push_back({discount.reason + (several ? ", " + account::tax_words(discount.tax) : ""),
                    base::Money(0, discount.amount.currency()) - discount.amount, false});
  }
  if (taxed || !invoice.discounts.empty()) {
    rows.push_back({"Net", invoice.net, false});
    for (const account::TaxTotal& total : invoice.taxes) {
      if (total.tax.category == account::TaxCategory::not_subject) continue;
      rows.push_back({account::tax_words(total.tax) + " on " + amount_text(total.net), total.amount, false});
    }
  }
  const bool deposit = invoice.deposit.minor() != 0;
  if (taxed || deposit) rows.push_back({"Total", invoice.total, false});
  if (deposit) {
    rows.push_back({invoice.credited ? "Deposit, kept for the next invoice" : "Deposit paid",
                    base::Money(0, invoice.deposit.currency()) - invoice.deposit, false});
  }
  const char* const words = invoice.credited          ? "Credited, "
                            : invoice.due.minor() < 0 ? "To be paid back, "
                                                      : "To pay, ";
  rows.push_back({words + invoice.due.currency().code(), invoice.due, true});
  return rows;
}

std::vector<std::string> closing_words(const account::Invoice& invoice) {
  std::vector<std::string> words;
  if (invoice.credited) {
    words.push_back("It is set against the invoice, and what was paid beyond that is paid back.");
  } else if (invoice.due.minor() > 0) {
    words.push_back("Please pay by " + long_date(invoice.dates.due) + ".");
    if (!invoice.seller.pay_to.empty()) words.push_back(invoice.seller.pay_to);
    if (!invoice.seller.iban.empty()) {
      words.push_back("IBAN " + invoice.seller.iban +
                      (invoice.seller.bic.empty() ? "" : ", BIC " + invoice.seller.bic));
    }
  }
  if (account::is_deposit_invoice(invoice))
    words.emplace_back("This amount and its tax are taken off the invoice for the work.");
  for (const account::TaxTotal& total : invoice.taxes) {
    if (!total.tax.reason.empty()) words.push_back(total.tax.reason);
  }
  return words;
}

}  // namespace weatherstruck::render
