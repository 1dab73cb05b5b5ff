#pragma once
// A bill in round figures, for the tests of its text and its HTML.
#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "weatherstruck/account/invoice.h"

namespace weatherstruck::render::sample {

inline base::Money gbp(std::int64_t pence) {
  return {pence, *base::Currency::from_code("GBP")};
}

inline base::LocalDay february(unsigned day) {
  return base::LocalDay(
      std::chrono::year_month_day(std::chrono::year(2026), std::chrono::February, std::chrono::day(day)));
}

inline account::Charge charge(std::string text, std::int64_t quantity, account::Unit unit, std::int64_t pence,
                              const account::Tax& tax) {
  return {text, account::ChargeKind::price, text, quantity, unit, gbp(pence), tax};
}

/// The one worked by hand in the tests of invoices: net 2062.78, VAT 412.56, deposit 500.00, due 1975.34.
inline account::Charges mason_charges(const account::Tax& tax) {
  using account::Unit;
  return {
      *base::Currency::from_code("GBP"),
      {charge("Potting shelter base, long bed, steps and path", 1000, Unit::each, 185000, tax),
       charge("Moved the water butt (extra, agreed with Marged on Wed 11 Feb)", 7750, Unit::hour, 2800, tax),
       charge("Cement (receipt 4711), at cost and 10 %", 1000, Unit::each, 4175, tax),
       charge("Travel", 164500, Unit::mile, 45, tax),
       charge("Gravel in place of flags: path", -1000, Unit::each, 12000, tax)},
      gbp(50000),
      {},
      {}};
}

inline account::Invoice mason_bill(const account::Tax& tax = account::tax_at(2000),
                                   std::optional<std::int64_t> number = 7) {
  account::Seller seller{"Ifan Treharne, mason", "3 Lime Yard, Brecon, LD3 0XX", "ifan@treharne.example",
                         "GB 123 4567 89", "Bank transfer: sort code 00-00-00, account 00000000."};
  if (tax.category == account::TaxCategory::not_subject) seller.tax_number.clear();
  return account::make_invoice(mason_charges(tax), "Potting shelter base, long bed, steps and path", seller,
                               {"Marged Penhallow-Rees", "Ty'r Odyn, Nant-y-Glaw"}, {"2026", number},
                               {february(13), february(27), february(9), february(12)});
}

}  // namespace weatherstruck::render::sample
