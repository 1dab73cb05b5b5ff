#pragma once
// Rates, terms and a book in round figures, for the tests of bills.
#include <string>
#include <utility>
#include <vector>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/account/invoice.h"
#include "works/progress_support.h"

namespace weatherstruck::account {

inline base::Currency pounds() {
  return *base::Currency::from_code("GBP");
}
inline base::Currency euros() {
  return *base::Currency::from_code("EUR");
}
inline base::Money gbp(std::int64_t pence) {
  return {pence, pounds()};
}

/// 28 pounds an hour, 45 pence a mile, a tenth on materials, VAT at 20 %, 14 days.
inline Rates usual_rates() {
  Rates rates{pounds()};
  rates.day_work = gbp(2800);
  rates.travel = TravelByDistance{gbp(45), Unit::mile};
  rates.on_materials = 1000;
  rates.tax = tax_at(2000);
  return rates;
}

/// What charges_of says of the small list of work (dig, lay, point) and a book.
inline Charges charges_by(const Terms& terms, const std::vector<works::Entry>& entries = {},
                          const BilledBefore& before = {}) {
  static const works::Job job = works::demo_job();
  static const works::TaskList list = works::small_list();
  return charges_of(terms, job, list, works::fold(entries), before);
}

/// "code place" of each.
inline std::vector<std::string> codes_of(const base::Faults& faults) {
  std::vector<std::string> codes;
  for (const base::Fault& fault : faults)
    codes.push_back(fault.code + " " + fault.place);
  return codes;
}
/// "code about" of each.
inline std::vector<std::string> questions_of(const Charges& charges) {
  std::vector<std::string> codes;
  for (const Question& question : charges.questions)
    codes.push_back(question.code + " " + question.about);
  return codes;
}
/// "text: net" of each.
inline std::vector<std::string> lines_of(const Charges& charges) {
  std::vector<std::string> lines;
  for (const Charge& charge : charges.lines)
    lines.push_back(charge.text + ": " + net_of(charge).text());
  return lines;
}
/// "text: why" of each.
inline std::vector<std::string> kept_off(const Charges& charges) {
  std::vector<std::string> lines;
  for (const KeptOff& kept : charges.kept_off)
    lines.push_back(kept.text + ": " + kept.why);
  return lines;
}

inline base::LocalDay day_of(int year, unsigned month, unsigned day) {
  return base::LocalDay(
      std::chrono::year_month_day(std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)));
}
inline Seller a_seller() {
  return {"Ifan Treharne, mason", "3 Lime Yard, Brecon, LD3 0XX", "ifan@treharne.example", "GB 123 4567 89",
          "Sort code 00-00-00, account 00000000"};
}
inline Buyer a_buyer() {
  return {"Marged Penhallow-Rees", "Ty'r Odyn, Nant-y-Glaw"};
}
inline InvoiceDates some_dates() {
  return {day_of(2026, 2, 13), day_of(2026, 2, 27), day_of(2026, 2, 9), day_of(2026, 2, 12)};
}

}  // namespace weatherstruck::account
