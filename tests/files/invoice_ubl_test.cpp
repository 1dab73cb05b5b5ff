#include "weatherstruck/files/invoice_ubl.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "files/ubl_samples.h"
#include "weatherstruck/files/invoice_json.h"

namespace weatherstruck::files {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

TEST(InvoiceUbl, SameInvoiceSameBytes) {
  for (const account::Invoice& invoice : ubl_samples()) {
    const account::Invoice again = read_invoice(write_invoice(invoice), "kept");
    EXPECT_EQ(again, invoice);
    EXPECT_EQ(invoice_ubl(again), invoice_ubl(invoice));
  }
}

TEST(InvoiceUbl, SaysAmountsNumbersAndPartiesAsSoftwareReadsThem) {
  const std::string text = invoice_ubl(ubl_samples().front());
  EXPECT_THAT(text, StartsWith("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<Invoice "));
  for (const char* part :
       {"<cbc:CustomizationID>urn:cen.eu:en16931:2017</cbc:CustomizationID>", "<cbc:ID>2026-7</cbc:ID>",
        "<cbc:InvoiceTypeCode>380</cbc:InvoiceTypeCode>", "<cbc:DueDate>2026-02-27</cbc:DueDate>",
        "<cbc:CompanyID>GB123456789</cbc:CompanyID>", "<cbc:ID>GB82WEST12345698765432</cbc:ID>",
        "<cbc:PayableAmount currencyID=\"GBP\">1733.32</cbc:PayableAmount>",
        "<cbc:PrepaidAmount currencyID=\"GBP\">500.00</cbc:PrepaidAmount>",
        "<cbc:InvoicedQuantity unitCode=\"C62\">7.75</cbc:InvoicedQuantity>", "<cbc:Percent>20</cbc:Percent>",
        "<cbc:BuyerReference>kitchen side</cbc:BuyerReference>"})
    EXPECT_THAT(text, HasSubstr(part));
}

TEST(InvoiceUbl, ACreditNoteNamesItsInvoice) {
  const std::string text = invoice_ubl(ubl_samples()[6]);
  for (const char* part :
       {"<CreditNote ", "<cbc:CreditNoteTypeCode>381</cbc:CreditNoteTypeCode>", "<cac:BillingReference>",
        "<cbc:ID>2026-7</cbc:ID>", "<cbc:Note>wrong customer</cbc:Note>",
        "<cbc:CreditedQuantity unitCode=\"C62\">1</cbc:CreditedQuantity>"})
    EXPECT_THAT(text, HasSubstr(part));
  EXPECT_THAT(text, Not(HasSubstr("DueDate")));
}

// 386 of UNTDID 1001 is a prepayment invoice, and BR-CL-01 lets it stand. BG-3 is how a final invoice refers
// to it; BT-113 stays for what was paid without one.
TEST(InvoiceUbl, ADepositIsAPrepaymentInvoiceAndTheWorkRefersToIt) {
  const std::size_t count = ubl_samples().size();
  const std::string deposit = invoice_ubl(ubl_samples()[count - 3]);
  EXPECT_THAT(deposit, HasSubstr("<cbc:InvoiceTypeCode>386</cbc:InvoiceTypeCode>"));
  EXPECT_THAT(deposit, HasSubstr("<cbc:PayableAmount currencyID=\"GBP\">555.00</cbc:PayableAmount>"));
  EXPECT_THAT(deposit, Not(HasSubstr("BillingReference")));
  const std::string work = invoice_ubl(ubl_samples()[count - 2]);
  for (const char* part :
       {"<cbc:InvoiceTypeCode>380</cbc:InvoiceTypeCode>", "<cac:BillingReference>", "<cbc:ID>2026-6</cbc:ID>",
        "<cbc:IssueDate>2026-02-02</cbc:IssueDate>", "Less the deposit of invoice 2026-6",
        "<cbc:LineExtensionAmount currencyID=\"GBP\">-462.50</cbc:LineExtensionAmount>"})
    EXPECT_THAT(work, HasSubstr(part));
  EXPECT_THAT(work, Not(HasSubstr("PrepaidAmount")));
  EXPECT_THAT(invoice_ubl(ubl_samples()[count - 1]),
              HasSubstr("<cbc:CreditNoteTypeCode>381</cbc:CreditNoteTypeCode>"));
}

TEST(InvoiceUbl, WordsThatLookLikeMarkupAreWords) {
  account::Invoice invoice = ubl_samples().front();
  invoice.lines[0].charge.text = "<wall> & \"bed\" ]]>";
  EXPECT_THAT(invoice_ubl(invoice), HasSubstr("&lt;wall&gt; &amp; \"bed\" ]]&gt;"));
}

TEST(InvoiceUbl, IsRefusedAllAtOnceWithPlaceAndRemedy) {
  account::Invoice invoice = ubl_samples().front();
  invoice.number.number.reset();
  invoice.buyer.country.clear();
  invoice.seller.country = "Wales";
  try {
    (void)invoice_ubl(invoice);
    FAIL() << "nothing was thrown";
  } catch (const base::InputError& error) {
    EXPECT_EQ(account::codes_of(error.faults()),
              (std::vector<std::string>{"not-issued number (BR-02)", "bad-text seller/country (BR-09)",
                                        "missing buyer/country (BR-11)"}));
    for (const base::Fault& fault : error.faults())
      EXPECT_FALSE(fault.remedy.empty()) << fault.place;
  }
}

}  // namespace
}  // namespace weatherstruck::files
