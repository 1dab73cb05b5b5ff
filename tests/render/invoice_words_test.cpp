#include "weatherstruck/render/invoice_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "render/bill_support.h"

namespace weatherstruck::render {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

base::Money money(std::int64_t minor, const char* code) {
  return {minor, *base::Currency::from_code(code)};
}

TEST(InvoiceWords, AmountsHaveTheDecimalsOfTheirCurrency) {
  EXPECT_EQ(amount_text(money(123450, "GBP")), "1,234.50");
  EXPECT_EQ(amount_text(money(5, "GBP")), "0.05");
  EXPECT_EQ(amount_text(money(-5, "GBP")), "-0.05");
  EXPECT_EQ(amount_text(money(99999, "GBP")), "999.99");
  EXPECT_EQ(amount_text(money(123456789, "JPY")), "123,456,789");
  EXPECT_EQ(amount_text(money(1500, "KWD")), "1.500");
  EXPECT_EQ(amount_text(money(std::numeric_limits<std::int64_t>::min(), "JPY")),
            "-9,223,372,036,854,775,808");
}

TEST(InvoiceWords, QuantitiesDropNeedlessDecimals) {
  EXPECT_EQ(quantity_text(1000), "1");
  EXPECT_EQ(quantity_text(7750), "7.75");
  EXPECT_EQ(quantity_text(125), "0.125");
  EXPECT_EQ(quantity_text(-500), "-0.5");
  EXPECT_EQ(quantity_text(1'250'000'100), "1,250,000.1");
  EXPECT_EQ(quantity_text(0), "0");
}

TEST(InvoiceWords, OneThingNeedsNoQuantity) {
  const account::Tax vat = account::tax_at(2000);
  EXPECT_EQ(quantity_words(sample::charge("a", 1000, account::Unit::each, 1, vat)), "");
  EXPECT_EQ(quantity_words(sample::charge("a", -1000, account::Unit::each, 1, vat)), "");
  EXPECT_EQ(quantity_words(sample::charge("a", 2000, account::Unit::each, 1, vat)), "2");
  EXPECT_EQ(quantity_words(sample::charge("a", 1000, account::Unit::hour, 1, vat)), "1 h");
  EXPECT_EQ(quantity_words(sample::charge("a", 164500, account::Unit::mile, 1, vat)), "164.5 miles");
}

TEST(InvoiceWords, AddressesArePartedAtCommasAndLines) {
  EXPECT_THAT(address_lines("3 Lime Yard, Brecon,\nLD3 0XX,, "),
              ElementsAre("3 Lime Yard", "Brecon", "LD3 0XX"));
  EXPECT_THAT(address_lines(""), IsEmpty());
}

TEST(InvoiceWords, DaysOfWorkAreSaidOnce) {
  account::InvoiceDates dates{sample::february(13), sample::february(27), {}, {}};
  EXPECT_EQ(work_days(dates), "");
  dates.work_to = sample::february(12);
  EXPECT_EQ(work_days(dates), "12 February 2026");
  dates.work_from = sample::february(12);
  EXPECT_EQ(work_days(dates), "12 February 2026");
  dates.work_from = sample::february(9);
  EXPECT_EQ(work_days(dates), "9 February 2026 to 12 February 2026");
}

std::vector<std::string> rows_of(const account::Invoice& invoice) {
  std::vector<std::string> rows;
  for (const SumRow& row : sum_rows(invoice))
    rows.push_back(row.words + " " + amount_text(row.amount) + (row.last ? " !" : ""));
  return rows;
}

TEST(InvoiceWords, RowsThatSayNothingAreLeftOut) {
  EXPECT_THAT(rows_of(sample::mason_bill()),
              ElementsAre("Net 2,062.78", "VAT 20 % on 2,062.78 412.56", "Total 2,475.34",
                          "Deposit paid -500.00", "To pay, GBP 1,975.34 !"));
  account::Charges charges = sample::mason_charges(account::no_tax("Not registered for VAT."));
  charges.deposit = sample::gbp(0);
  account::Seller seller = sample::mason_bill().seller;
  seller.tax_number.clear();
  const account::Invoice bare = account::make_invoice(charges, "A wall", seller, sample::mason_bill().buyer,
                                                      {"", 1}, sample::mason_bill().dates);
  EXPECT_THAT(rows_of(bare), ElementsAre("To pay, GBP 2,062.78 !"));
  EXPECT_THAT(closing_words(bare),
              ElementsAre("Please pay by 27 February 2026.",
                          "Bank transfer: sort code 00-00-00, account 00000000.", "Not registered for VAT."));
}

TEST(InvoiceWords, WhatIsTakenOffIsSaidWhereItIs) {
  account::Charges charges = sample::mason_charges(account::tax_at(2000));
  charges.lines.erase(charges.lines.begin() + 1, charges.lines.end());
  charges.lines[0].discount = account::Discount{sample::gbp(5000), "second of two"};
  charges.lines.push_back(sample::charge("Cement", 1000, account::Unit::each, 10000, account::tax_at(500)));
  charges.off = account::Off{1000, {}, "Agreed"};
  charges.deposit = sample::gbp(0);
  const account::Invoice bill = sample::mason_bill();
  const account::Invoice invoice =
      account::make_invoice(charges, "A wall", bill.seller, bill.buyer, bill.number, bill.dates);
  EXPECT_EQ(discount_words(invoice.lines[0].charge), "1,850.00, less 50.00: second of two");
  EXPECT_EQ(discount_words(invoice.lines[1].charge), "");
  // 1800.00 and 100.00, a tenth off each: 1620.00 and 90.00; 324.00 and 4.50 of tax.
  EXPECT_THAT(rows_of(invoice),
              ElementsAre("Agreed, VAT 20 % -180.00", "Agreed, VAT 5 % -10.00", "Net 1,710.00",
                          "VAT 20 % on 1,620.00 324.00", "VAT 5 % on 90.00 4.50", "Total 2,038.50",
                          "To pay, GBP 2,038.50 !"));
}

TEST(InvoiceWords, ACreditNoteSaysWhatItTakesBackAndAsksForNothing) {
  account::Invoice note = sample::mason_bill();
  note.number.number = 8;
  note.credited = account::Credited{{"2026", 7}, sample::february(13), "wrong customer"};
  EXPECT_EQ(invoice_title(note), "Credit note 2026-8");
  EXPECT_EQ(credited_words(note), "For invoice 2026-7 of 13 February 2026: wrong customer");
  EXPECT_EQ(rows_of(note).back(), "Credited, GBP 1,975.34 !");
  EXPECT_EQ(rows_of(note).end()[-2], "Deposit, kept for the next invoice -500.00");
  EXPECT_THAT(closing_words(note),
              ElementsAre("It is set against the invoice, and what was paid beyond that is paid back."));
  note.number.number.reset();
  EXPECT_EQ(invoice_title(note), "Draft of a credit note, not issued");
}

TEST(InvoiceWords, PartiesSayWhatIsKnownOfThem) {
  account::Invoice bill = sample::mason_bill();
  bill.seller.address = "3 Lime Yard";
  bill.seller.town = "Brecon";
  bill.seller.postcode = "LD3 0XX";
  bill.seller.country = "GB";
  bill.seller.iban = "GB82 WEST 1234 5698 7654 32";
  bill.seller.bic = "WESTGB2L";
  bill.buyer = {"Marged", "Ty'r Odyn", "", "", "IE", "IE 1", "2", "kitchen side", "A-17"};
  EXPECT_THAT(seller_lines(bill), ElementsAre("3 Lime Yard", "Brecon, LD3 0XX", "GB", "ifan@treharne.example",
                                              "VAT number GB 123 4567 89"));
  EXPECT_THAT(buyer_lines(bill), ElementsAre("Ty'r Odyn", "IE", "VAT number IE 1", "Registered as 2",
                                             "Your reference kitchen side", "Your order A-17"));
  EXPECT_EQ(closing_words(bill).back(), "IBAN GB82 WEST 1234 5698 7654 32, BIC WESTGB2L");
  bill.buyer.country = "GB";
  EXPECT_THAT(seller_lines(bill), ElementsAre("3 Lime Yard", "Brecon, LD3 0XX", "ifan@treharne.example",
                                              "VAT number GB 123 4567 89"))
      << "within one country it is not said";
}

TEST(InvoiceWords, MoneyGivenBackIsNotAskedFor) {
  const account::Tax vat = account::tax_at(2000);
  account::Charges charges = sample::mason_charges(vat);
  charges.lines = {sample::charge("Not built: path", -1000, account::Unit::each, 12000, vat)};
  const account::Invoice back =
      account::make_invoice(charges, "A wall", sample::mason_bill().seller, sample::mason_bill().buyer,
                            {"", 1}, sample::mason_bill().dates);
  EXPECT_EQ(rows_of(back).back(), "To be paid back, GBP -144.00 !");
  EXPECT_THAT(closing_words(back), IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::render
