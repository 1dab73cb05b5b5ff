// What an electronic invoice needs that paper does not, by the code of the rule that wants it.
#include "weatherstruck/account/einvoice.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"

namespace weatherstruck::account {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Invoice ready(const Tax& tax = tax_at(2000), const std::string& currency = "GBP") {
  const base::Currency money = *base::Currency::from_code(currency);
  Seller seller = a_seller();
  seller.country = "GB";
  if (tax.category == TaxCategory::not_subject) {
    seller.tax_number.clear();
    seller.registration = "00000000";
  }
  Buyer buyer = a_buyer();
  buyer.country = "GB";
  if (tax.category == TaxCategory::reverse_charge) buyer.tax_number = "GB 999 9999 73";
  const Charges charges{money,
                        {{"price", ChargeKind::price, "wall", 1000, Unit::each, {185000, money}, tax}},
                        base::Money(0, money),
                        {},
                        {}};
  return make_invoice(charges, "A wall", seller, buyer, {"2026", 7}, some_dates());
}

std::vector<std::string> faults(Invoice invoice, const std::function<void(Invoice&)>& change) {
  change(invoice);
  for (const base::Fault& fault : einvoice_faults(invoice))
    EXPECT_FALSE(fault.remedy.empty() || fault.expected.empty()) << fault.place;
  return codes_of(einvoice_faults(invoice));
}

TEST(EInvoice, IsReadyWhereEverythingIsSaidInEveryTax) {
  const Tax exempt{TaxCategory::exempt, 0, "VAT", "A place of worship"};
  const Tax reverse{TaxCategory::reverse_charge, 0, "VAT", "Reverse charge"};
  for (const Tax& tax : {tax_at(2000), tax_at(0), exempt, reverse, no_tax("Not registered")})
    EXPECT_THAT(einvoice_faults(ready(tax)), IsEmpty()) << tax_words(tax);
}

TEST(EInvoice, BR_02_wants_a_number) {
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.number.number.reset(); }),
              ElementsAre("not-issued number (BR-02)"));
}
TEST(EInvoice, BR_06_BR_08_want_name_and_address_of_the_seller) {
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.seller.name = i.seller.address = ""; }),
              ElementsAre("missing seller/name (BR-06)", "missing seller/address (BR-08)"));
}
TEST(EInvoice, BR_09_wants_the_country_of_the_seller) {
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.seller.country.clear(); }),
              ElementsAre("missing seller/country (BR-09)"));
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.seller.country = "UK"; }),
              ElementsAre("bad-text seller/country (BR-09)"));
}
TEST(EInvoice, BR_11_wants_the_country_of_the_buyer) {
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.buyer.country.clear(); }),
              ElementsAre("missing buyer/country (BR-11)"));
  Invoice invoice = ready();
  invoice.buyer.country.clear();
  EXPECT_THAT(einvoice_faults(invoice)[0].remedy, HasSubstr("--with buyer/country="));
}
TEST(EInvoice, BR_50_wants_an_account_that_can_be_one) {
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.seller.iban = "GB82 WEST 1234 5698 7654 33"; }),
              ElementsAre("bad-text seller/iban (BR-50)"));
}
TEST(EInvoice, BR_CO_09_wants_the_country_before_a_tax_number) {
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.seller.tax_number = "123 4567 89"; }),
              ElementsAre("bad-text seller/tax-number (BR-CO-09)"));
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.buyer.tax_number = "GB"; }),
              ElementsAre("bad-text buyer/tax-number (BR-CO-09)"));
  for (const char* good : {"EL 123456789", "XI123456789", "de123456789"})
    EXPECT_THAT(faults(ready(), [&](Invoice& i) { i.buyer.tax_number = good; }), IsEmpty()) << good;
}
TEST(EInvoice, BR_CO_26_wants_a_number_of_the_seller) {
  EXPECT_THAT(faults(ready(no_tax("Not registered")), [](Invoice& i) { i.seller.registration.clear(); }),
              ElementsAre("missing seller/registration (BR-CO-26)"));
}
TEST(EInvoice, BR_S_02_BR_Z_02_BR_E_02_want_the_tax_number_of_the_seller) {
  const Tax exempt{TaxCategory::exempt, 0, "VAT", "A place of worship"};
  for (const Tax& tax : {tax_at(2000), tax_at(0), exempt})
    EXPECT_THAT(faults(ready(tax), [](Invoice& i) { i.seller.tax_number.clear(); }),
                Contains("missing seller/tax-number (BR-S-02)"));
}
TEST(EInvoice, BR_AE_02_wants_a_number_of_the_customer) {
  const Tax reverse{TaxCategory::reverse_charge, 0, "VAT", "Reverse charge"};
  EXPECT_THAT(faults(ready(reverse), [](Invoice& i) { i.buyer.tax_number.clear(); }),
              ElementsAre("missing buyer/tax-number (BR-AE-02)"));
  EXPECT_THAT(faults(ready(reverse),
                     [](Invoice& i) {
                       i.buyer.tax_number.clear();
                       i.buyer.registration = "00000001";
                     }),
              IsEmpty());
}
TEST(EInvoice, BR_O_02_wants_no_tax_numbers) {
  EXPECT_THAT(
      faults(ready(no_tax("Not registered")), [](Invoice& i) { i.buyer.tax_number = "GB 999 9999 73"; }),
      ElementsAre("not-wanted buyer/tax-number (BR-O-02)"));
}
TEST(EInvoice, BR_E_10_BR_AE_10_BR_O_10_want_a_reason_and_the_others_none) {
  const Tax exempt{TaxCategory::exempt, 0, "VAT", "A place of worship"};
  EXPECT_THAT(faults(ready(exempt), [](Invoice& i) { i.lines[0].charge.tax.reason.clear(); }),
              Contains("missing-reason lines/0/tax/reason"));
  EXPECT_THAT(faults(ready(), [](Invoice& i) { i.lines[0].charge.tax.reason = "why not"; }),
              Contains("reason-not-wanted lines/0/tax/reason"));
}

// Every currency of no decimals and of three: the standard allows two at most, and amounts that need fewer or
// more would be other amounts.
TEST(EInvoice, BR_DEC_refuses_currencies_of_other_than_two_decimals) {
  for (const char* code : {"JPY", "ISK", "KRW", "CLP", "KWD", "TND", "BHD"}) {
    const Invoice invoice = ready(tax_at(1000), code);
    EXPECT_THAT(codes_of(einvoice_faults(invoice)), ElementsAre("unfit-currency currency (BR-DEC-12)"))
        << code;
    EXPECT_THAT(einvoice_faults(invoice)[0].remedy, HasSubstr("PDF"));
  }
  for (const char* code : {"EUR", "NOK", "CHF", "USD"})
    EXPECT_THAT(einvoice_faults(ready(tax_at(1000), code)), IsEmpty()) << code;
}

TEST(EInvoice, AFactIsAddedAndNoneIsContradicted) {
  Invoice invoice = ready();
  invoice.buyer.country.clear();
  add_fact(invoice.seller, invoice.buyer, "buyer/country", "IE");
  add_fact(invoice.seller, invoice.buyer, "buyer/purchase-order", "A-17");
  EXPECT_EQ(invoice.buyer.country, "IE");
  EXPECT_EQ(invoice.buyer.purchase_order, "A-17");
  const auto code = [&](const char* place, const std::string& value) -> std::string {
    try {
      add_fact(invoice.seller, invoice.buyer, place, value);
    } catch (const base::InputError& error) {
      return error.faults()[0].code;
    }
    return "none";
  };
  EXPECT_EQ(code("buyer/country", "IE"), "none");
  EXPECT_EQ(code("buyer/country", "FR"), "said-already");
  EXPECT_EQ(code("buyer/name", "Somebody Else"), "unknown-fact");
  EXPECT_EQ(code("seller/town", ""), "bad-text");
  EXPECT_EQ(code("seller/town", std::string(121, 'x')), "bad-text");
}

// The example numbers of the IBAN registry, release 99, from memory; and one digit off.
TEST(Iban, IsJudgedByItsCheckDigits) {
  for (const char* good : {"GB82 WEST 1234 5698 7654 32", "DE89370400440532013000", "NO9386011117947",
                           "fr14 2004 1010 0505 0001 3m02 606"})
    EXPECT_TRUE(is_iban(good)) << good;
  for (const char* bad : {"GB82 WEST 1234 5698 7654 23", "DE8937040044053201300", "", "12345678901234567",
                          "GB8", "GB82 WEST 1234 5698 7654 3-"})
    EXPECT_FALSE(is_iban(bad)) << bad;
}

}  // namespace
}  // namespace weatherstruck::account
