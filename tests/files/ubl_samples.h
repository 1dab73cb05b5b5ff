#pragma once
// Invoices and a credit note of every tax that a mason meets, with something taken off lines and wholes, a
// deposit and an account to pay to. Round invented figures.
#include <string>
#include <utility>
#include <vector>

#include "account/bill_support.h"
#include "weatherstruck/account/credit.h"
#include "weatherstruck/account/deposit.h"

namespace weatherstruck::files {

inline account::Seller registered_seller() {
  account::Seller seller = account::a_seller();
  seller.town = "Brecon";
  seller.postcode = "LD3 0XX";
  seller.country = "GB";
  // The example number of the IBAN registry (ISO 13616).
  seller.iban = "GB82 WEST 1234 5698 7654 32";
  seller.bic = "WESTGB2L";
  return seller;
}
inline account::Seller unregistered_seller() {
  account::Seller seller = registered_seller();
  seller.tax_number.clear();
  seller.registration = "00000000";
  return seller;
}
inline account::Buyer known_buyer() {
  account::Buyer buyer = account::a_buyer();
  buyer.country = "GB";
  buyer.reference = "kitchen side";
  buyer.purchase_order = "A-17";
  return buyer;
}
inline account::Buyer trading_buyer() {
  account::Buyer buyer = known_buyer();
  buyer.tax_number = "GB 999 9999 73";
  return buyer;
}

inline account::Charge charge(std::string text, std::int64_t thousandths, std::int64_t pence,
                              const account::Tax& tax, std::int64_t off = 0) {
  account::Charge made{"k/" + text,         account::ChargeKind::price, text, thousandths,
                       account::Unit::each, account::gbp(pence),        tax};
  if (off > 0) made.discount = account::Discount{account::gbp(off), "second of two"};
  return made;
}

inline account::Invoice ubl_invoice(std::vector<account::Charge> lines, const account::Seller& seller,
                                    const account::Buyer& buyer, std::int64_t deposit = 0) {
  account::Charges charges{account::pounds(), std::move(lines), account::gbp(deposit), {}, {}};
  charges.off = account::Off{500, {}, "5 % agreed"};
  return account::make_invoice(charges, "A wall by the lane", seller, buyer, {"2026", 7},
                               account::some_dates());
}

inline const std::vector<account::Invoice>& ubl_samples() {
  static const std::vector<account::Invoice> made = [] {
    using account::Tax;
    using account::TaxCategory;
    const Tax full = account::tax_at(2000);
    const Tax low = account::tax_at(500);
    const Tax zero = account::tax_at(0);
    const Tax exempt{TaxCategory::exempt, 0, "VAT", "Work on a place of worship"};
    const Tax reverse{TaxCategory::reverse_charge, 0, "VAT",
                      "Reverse charge: customer to account for the tax"};
    const Tax outside = account::no_tax("Not registered for VAT");
    const auto of = [](const Tax& tax) {
      return std::vector<account::Charge>{charge("wall", 1000, 185000, tax, 2550),
                                          charge("gravel for flags", -1000, 12000, tax),
                                          charge("hours", 7750, 2833, tax)};
    };
    std::vector<account::Invoice> out;
    std::vector<account::Charge> two = of(full);
    two.push_back(charge("cement", 3000, 1333, low));
    out.push_back(ubl_invoice(two, registered_seller(), known_buyer(), 50000));
    for (const Tax& tax : {zero, exempt})
      out.push_back(ubl_invoice(of(tax), registered_seller(), known_buyer(), 10000));
    out.push_back(ubl_invoice(of(reverse), registered_seller(), trading_buyer()));
    out.push_back(ubl_invoice(of(outside), unregistered_seller(), known_buyer()));
    std::vector<account::Charge> all = two;
    all.push_back(charge("lintel", 1000, 5000, zero));
    all.push_back(charge("vestry step", 1000, 9900, exempt));
    all.push_back(charge("plot nine", 1000, 70001, reverse));
    out.push_back(ubl_invoice(all, registered_seller(), trading_buyer()));
    const account::InvoiceNumber number{"2026", 8};
    for (const std::size_t credited : {0U, 4U}) {
      out.push_back(account::credit_note_of(out[credited], {}, {}, number, account::day_of(2026, 3, 2),
                                            "wrong customer"));
    }
    // A deposit billed by itself, the work less it, and the deposit taken back.
    account::Terms terms{account::usual_rates()};
    terms.fixed_price = account::gbp(185000);
    out.push_back(account::make_invoice(account::deposit_charges(terms, {2500, {}}), "A wall by the lane",
                                        registered_seller(), known_buyer(), {"2026", 6},
                                        {account::day_of(2026, 2, 2), account::day_of(2026, 2, 9), {}, {}}));
    const account::Invoice& deposit = out.back();
    account::Charges work{account::pounds(), two, account::gbp(0), {}, {}};
    work.off = account::Off{500, {}, "5 % agreed"};
    work.deposits = {{deposit.number, deposit.dates.issued, full, deposit.net, deposit.total}};
    account::Invoice taken_back =
        account::credit_note_of(deposit, {}, {}, {"2026", 9}, account::day_of(2026, 2, 8), "called off");
    out.push_back(account::make_invoice(work, "A wall by the lane", registered_seller(), known_buyer(),
                                        {"2026", 7}, account::some_dates()));
    out.push_back(std::move(taken_back));
    return out;
  }();
  return made;
}

}  // namespace weatherstruck::files
