#include "weatherstruck/render/invoice_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/bill_support.h"
#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

// The sums are worked by hand in tests/account/invoice_test.cpp.
TEST(InvoiceText, IsAPageThatACustomerReads) {
  EXPECT_EQ(invoice_text(sample::mason_bill(), Ink::plain),
            "Invoice 2026-7                                                  13 February 2026\n"
            "\n"
            "From        Ifan Treharne, mason\n"
            "            3 Lime Yard\n"
            "            Brecon\n"
            "            LD3 0XX\n"
            "            ifan@treharne.example\n"
            "            VAT number GB 123 4567 89\n"
            "\n"
            "To          Marged Penhallow-Rees\n"
            "            Ty'r Odyn\n"
            "            Nant-y-Glaw\n"
            "\n"
            "For         Potting shelter base, long bed, steps and path\n"
            "Work done   9 February 2026 to 12 February 2026\n"
            "\n"
            "                                                                    at       GBP\n"
            "Potting shelter base, long bed, steps and path                          1,850.00\n"
            "Moved the water butt (extra, agreed with Marged on       7.75 h  28.00    217.00\n"
            "Wed 11 Feb)\n"
            "Cement (receipt 4711), at cost and 10 %                                    41.75\n"
            "Travel                                              164.5 miles   0.45     74.03\n"
            "Gravel in place of flags: path                                           -120.00\n"
            "\n"
            "Net                                                                     2,062.78\n"
            "VAT 20 % on 2,062.78                                                      412.56\n"
            "Total                                                                   2,475.34\n"
            "Deposit paid                                                             -500.00\n"
            "To pay, GBP                                                             1,975.34\n"
            "\n"
            "Please pay by 27 February 2026.\n"
            "Bank transfer: sort code 00-00-00, account 00000000.\n");
}

TEST(InvoiceText, ADraftSaysThatItIsOne) {
  const std::string text = invoice_text(sample::mason_bill(account::tax_at(2000), std::nullopt), Ink::plain);
  EXPECT_THAT(text, StartsWith("Draft of an invoice, not issued"));
  EXPECT_THAT(text, Not(HasSubstr("2026-7")));
}

TEST(InvoiceText, WhyThereIsNoTaxIsPrinted) {
  const std::string text =
      invoice_text(sample::mason_bill(account::no_tax("Not registered for VAT.")), Ink::plain);
  EXPECT_THAT(text, HasSubstr("\nNot registered for VAT.\n"));
  EXPECT_THAT(text, Not(HasSubstr("VAT number")));
}

TEST(InvoiceText, WithTwoTaxesEachLineSaysIts) {
  account::Charges charges = sample::mason_charges(account::tax_at(2000));
  charges.lines[3].tax = account::tax_at(500);
  const account::Invoice base = sample::mason_bill();
  const std::string text = invoice_text(
      account::make_invoice(charges, "A wall", base.seller, base.buyer, {"", 8}, base.dates), Ink::plain);
  EXPECT_THAT(text, HasSubstr("  VAT 5 %   164.5 miles"));
  // 1850.00 + 217.00 + 41.75 - 120.00 = 1988.75, a fifth 397.75; 74.03 at 5 %: 3.7015
  EXPECT_THAT(text, HasSubstr("VAT 20 % on 1,988.75"));
  EXPECT_THAT(text, HasSubstr("VAT 5 % on 74.03"));
  EXPECT_THAT(text, HasSubstr("  3.70\n"));
  EXPECT_LE(sample::widest(text), page_width);
}

TEST(InvoiceText, LongNamesStayOnThePage) {
  account::Invoice invoice = sample::mason_bill();
  invoice.title = std::string(60, 'w') + " " + std::string(60, 'b');
  invoice.buyer.address = std::string(60, 'x') + " " + std::string(60, 'y');
  EXPECT_LE(sample::widest(invoice_text(invoice, Ink::plain)), page_width);
}

TEST(OpenMatters, AreQuestionsAndWhatIsKeptOff) {
  account::Charges charges = sample::mason_charges(account::tax_at(2000));
  EXPECT_EQ(open_matters_text(charges, Ink::plain), "");
  charges.questions = {{"hours", "extra/a", "How many hours went into the extra \"a drain\"?"}};
  charges.kept_off = {{"travel", "Travel", "in the fixed price"}};
  EXPECT_EQ(open_matters_text(charges, Ink::plain),
            "To be answered first\n"
            "  - How many hours went into the extra \"a drain\"?\n"
            "\n"
            "Not on this bill\n"
            "  - Travel: in the fixed price\n");
}

}  // namespace
}  // namespace weatherstruck::render
