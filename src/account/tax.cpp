#include "weatherstruck/account/tax.h"

#include <fmt/format.h>

#include <stdexcept>

#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::account {

namespace {

constexpr std::size_t longest_name = 20;

bool gives_reason(TaxCategory category) {
  return category == TaxCategory::exempt || category == TaxCategory::reverse_charge ||
         category == TaxCategory::not_subject;
}

}  // namespace

std::string_view code_of(TaxCategory category) {
  switch (category) {
    case TaxCategory::standard:
      return "S";
    case TaxCategory::zero:
      return "Z";
    case TaxCategory::exempt:
      return "E";
    case TaxCategory::reverse_charge:
      return "AE";
    case TaxCategory::not_subject:
      return "O";
  }
  throw std::invalid_argument("no such tax category");
}

Tax tax_at(int hundredths, std::string name) {
  return {hundredths == 0 ? TaxCategory::zero : TaxCategory::standard, hundredths, std::move(name), {}};
}

Tax no_tax(std::string reason, std::string name) {
  return {TaxCategory::not_subject, 0, std::move(name), std::move(reason)};
}

std::string percent_text(int hundredths) {
  const int whole = hundredths / 100;
  const int rest = hundredths % 100;
  if (rest == 0) return fmt::format("{} %", whole);
  if (rest % 10 == 0) return fmt::format("{}.{} %", whole, rest / 10);
  return fmt::format("{}.{:02} %", whole, rest);
}

std::string tax_words(const Tax& tax) {
  switch (tax.category) {
    case TaxCategory::standard:
      return tax.name + " " + percent_text(tax.rate);
    case TaxCategory::zero:
      return tax.name + " zero rated";
    case TaxCategory::exempt:
      return tax.name + " exempt";
    case TaxCategory::reverse_charge:
      return tax.name + " reverse charge";
    case TaxCategory::not_subject:
      return "no " + tax.name;
  }
  throw std::invalid_argument("no such tax category");
}

base::Faults faults_of(const Tax& tax, const std::string& place) {
  base::Faults faults;
  const bool standard = tax.category == TaxCategory::standard;
  const int highest = standard ? static_cast<int>(whole_of_it) : 0;
  if (tax.rate < (standard ? 1 : 0) || tax.rate > highest) {
    faults.push_back({"out-of-range", place + "/rate", fmt::format("{} hundredths of a percent", tax.rate),
                      standard ? "more than 0 %, at most 100 %" : "0 % for tax that is not charged",
                      "Give the rate as the tax office prints it."});
  }
  if (tax.name.empty() || base::display_width(tax.name) > longest_name) {
    faults.push_back({"bad-text", place + "/name", tax.name, "1 to 20 characters",
                      "Name the tax as invoices do, such as VAT."});
  }
  if (gives_reason(tax.category) && tax.reason.empty()) {
    faults.push_back({"missing-reason", place + "/reason", "no reason",
                      "why no tax is charged, as the invoice must print it",
                      "Write it, for example \"Not registered for VAT\"."});
  }
  if (!gives_reason(tax.category) && !tax.reason.empty()) {
    faults.push_back({"reason-not-wanted", place + "/reason", tax.reason, "no reason beside a rate",
                      "Take it out, or choose a tax that is not charged."});
  }
  return faults;
}

}  // namespace weatherstruck::account
