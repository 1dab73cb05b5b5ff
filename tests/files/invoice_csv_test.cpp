#include "weatherstruck/files/invoice_csv.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "files/ubl_samples.h"

namespace weatherstruck::files {
namespace {

using testing::HasSubstr;

// The first sample by hand: a wall at 1850.00 less 25.50 = 1824.50, gravel -120.00, 7.75 h at 28.33 = 219.56
// (from 219.5575); together 1924.06, less 5 % 96.20 = 1827.86, tax 365.57. Cement 3 x 13.33 = 39.99 less 2.00
// = 37.99, tax 1.90. Total 2233.32, less 500.00.
TEST(InvoiceCsv, HasARowForEachThing) {
  const std::string text = invoice_csv(ubl_samples().front());
  const std::string head = "invoice,2026-7,2026-02-13,2026-02-27,Marged Penhallow-Rees,";
  EXPECT_THAT(text, HasSubstr("line," + head + "wall,1,,1850.00,25.50,1824.50,S,20,,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("line," + head + "gravel for flags,-1,,120.00,,-120.00,S,20,,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("line," + head + "hours,7.75,,28.33,,219.56,S,20,,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("discount," + head + "5 % agreed,,,,,-96.20,S,20,,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("tax," + head + "VAT 20 %,,,,,1827.86,S,20,365.57,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("tax," + head + "VAT 5 %,,,,,37.99,S,5,1.90,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("total," + head + ",,,,,,,,2233.32,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("deposit," + head + ",,,,,,,,-500.00,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("due," + head + ",,,,,,,,1733.32,GBP\r\n"));
}

TEST(InvoiceCsv, ACreditNoteHasTheOtherSign) {
  const std::string text = invoice_csv(ubl_samples()[6]);
  const std::string head = "credit note,2026-8,2026-03-02,2026-03-02,Marged Penhallow-Rees,";
  EXPECT_THAT(text, HasSubstr("line," + head + "wall,-1,,1850.00,-25.50,-1824.50,S,20,,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("total," + head + ",,,,,,,,-2233.32,GBP\r\n"));
  EXPECT_THAT(text, HasSubstr("due," + head + ",,,,,,,,-1733.32,GBP\r\n"));
}

TEST(InvoiceCsv, AnOfferHasNeitherNumberNorAnythingToPay) {
  const std::string text = quote_csv(ubl_samples().front());
  EXPECT_THAT(text, HasSubstr("total,quotation,,2026-02-13,,Marged Penhallow-Rees,"));
  EXPECT_THAT(text, testing::Not(HasSubstr("due,")));
  EXPECT_THAT(text, testing::Not(HasSubstr("deposit,")));
}

// Every row has as many cells as the first.
TEST(InvoiceCsv, RowsAreAsLongAsTheirHead) {
  for (const account::Invoice& invoice : ubl_samples()) {
    const std::string text = invoice_csv(invoice);
    std::size_t cells = 0;
    for (std::size_t from = 0; from < text.size();) {
      const std::size_t to = text.find("\r\n", from);
      bool quoted = false;
      std::size_t here = 1;
      for (std::size_t i = from; i < to; ++i) {
        quoted = quoted != (text[i] == '"');
        here += text[i] == ',' && !quoted ? 1U : 0U;
      }
      if (cells == 0) cells = here;
      EXPECT_EQ(here, cells) << text.substr(from, to - from);
      from = to + 2;
    }
  }
}

}  // namespace
}  // namespace weatherstruck::files
