#include "weatherstruck/files/quote_json.h"

#include <gtest/gtest.h>

#include "files/ubl_samples.h"

namespace weatherstruck::files {
namespace {

render::QuoteSheet a_sheet() {
  return {"Quotation",          ubl_samples().front(), "9 February 2026", {{"The wall", {"3 m long"}}},
          "Built with bricks.", {"Dry hours."},        {"Power"},         {"Fixed."}};
}

TEST(QuoteJson, HasLinesAndSumsAsAnInvoiceHasThemAndNothingToPay) {
  const account::Charges open{
      account::pounds(), {}, account::gbp(0), {{"receipt", "k", "Is there one?"}}, {}};
  const Json out = quote_json(a_sheet(), account::gbp(55500), open, nullptr);
  EXPECT_EQ(out["schema"], "weatherstruck/quotation");
  EXPECT_EQ(out["made"], "2026-02-13");
  EXPECT_EQ(out["good_until"], "2026-02-27");
  EXPECT_EQ(out["total"], "2233.32 GBP");
  EXPECT_EQ(out["lines"].size(), 4U);
  EXPECT_EQ(out["built"][0]["sizes"][0], "3 m long");
  EXPECT_EQ(out["deposit_asked"], "555.00 GBP");
  EXPECT_EQ(out["open"]["questions"][0]["code"], "receipt");
  for (const char* never : {"number", "series", "due", "deposit", "mine", "pay_by"})
    EXPECT_FALSE(out.contains(never)) << never;
}

TEST(QuoteJson, WhatHeAloneReadsIsThereWhereItIsAskedFor) {
  const account::ForHimself mine{base::Hours(10),     account::gbp(28000), account::gbp(5000),
                                 account::gbp(500),   account::gbp(0),     account::gbp(33500),
                                 account::gbp(40000), account::gbp(3500)};
  const Json out = quote_json(a_sheet(), {}, {account::pounds(), {}, account::gbp(0), {}, {}}, &mine);
  EXPECT_EQ(out["mine"]["left_an_hour"], "35.00 GBP");
  EXPECT_EQ(out["mine"]["hours"], 10.0);
  EXPECT_FALSE(out.contains("deposit_asked"));
}

}  // namespace
}  // namespace weatherstruck::files
