#include "weatherstruck/account/tax.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace weatherstruck::account {
namespace {

using testing::ElementsAre;
using testing::Field;
using testing::IsEmpty;

auto fault(const char* code, const char* place) {
  return testing::AllOf(Field(&base::Fault::code, code), Field(&base::Fault::place, place));
}

// Letters: UNCL 5305 as EN 16931 restricts it, read in the code lists of the validation rules that CEN/TC
// 434's sponsors publish (github.com/ConnectingEurope/eInvoicing-EN16931, example 2 and rules BR-S to BR-O).
TEST(Tax, CategoriesHaveTheLettersOfTheStandard) {
  EXPECT_EQ(code_of(TaxCategory::standard), "S");
  EXPECT_EQ(code_of(TaxCategory::zero), "Z");
  EXPECT_EQ(code_of(TaxCategory::exempt), "E");
  EXPECT_EQ(code_of(TaxCategory::reverse_charge), "AE");
  EXPECT_EQ(code_of(TaxCategory::not_subject), "O");
}

TEST(Tax, RatesAreSaidWithoutNeedlessDecimals) {
  EXPECT_EQ(percent_text(2000), "20 %");
  EXPECT_EQ(percent_text(1750), "17.5 %");
  EXPECT_EQ(percent_text(825), "8.25 %");
  EXPECT_EQ(percent_text(805), "8.05 %");
  EXPECT_EQ(percent_text(5), "0.05 %");
  EXPECT_EQ(percent_text(0), "0 %");
  EXPECT_EQ(tax_words(tax_at(2000)), "VAT 20 %");
  EXPECT_EQ(tax_words(tax_at(0)), "VAT zero rated");
  EXPECT_EQ(tax_words(tax_at(825, "Sales tax")), "Sales tax 8.25 %");
  EXPECT_EQ(tax_words(no_tax("Not registered for VAT")), "no VAT");
}

TEST(Tax, OneThatCanBePrintedHasNoFault) {
  EXPECT_THAT(faults_of(tax_at(2000)), IsEmpty());
  EXPECT_THAT(faults_of(tax_at(10000)), IsEmpty());
  EXPECT_THAT(faults_of(tax_at(0)), IsEmpty());
  EXPECT_THAT(faults_of(no_tax("Not registered for VAT")), IsEmpty());
  EXPECT_THAT(faults_of(Tax{TaxCategory::reverse_charge, 0, "VAT", "Customer to account for the VAT"}),
              IsEmpty());
}

TEST(Tax, RateGoesWithItsCategory) {
  // BR-S-05: above nought; BR-Z-05, BR-E-05, BR-AE-05: nought; BR-O-05: none.
  EXPECT_THAT(faults_of(Tax{TaxCategory::standard, 0, "VAT", ""}),
              ElementsAre(fault("out-of-range", "tax/rate")));
  EXPECT_THAT(faults_of(Tax{TaxCategory::standard, 10001, "VAT", ""}),
              ElementsAre(fault("out-of-range", "tax/rate")));
  EXPECT_THAT(faults_of(Tax{TaxCategory::zero, 1, "VAT", ""}),
              ElementsAre(fault("out-of-range", "tax/rate")));
  EXPECT_THAT(faults_of(Tax{TaxCategory::not_subject, 2000, "VAT", "Not registered"}),
              ElementsAre(fault("out-of-range", "tax/rate")));
}

TEST(Tax, ReasonIsThereWhereNoneIsChargedAndNowhereElse) {
  // BR-E-10, BR-AE-10, BR-O-10 want one; BR-S-10, BR-Z-10 forbid it.
  for (const TaxCategory category :
       {TaxCategory::exempt, TaxCategory::reverse_charge, TaxCategory::not_subject}) {
    EXPECT_THAT(faults_of(Tax{category, 0, "VAT", ""}, "me/tax"),
                ElementsAre(fault("missing-reason", "me/tax/reason")));
  }
  EXPECT_THAT(faults_of(Tax{TaxCategory::standard, 2000, "VAT", "why not"}),
              ElementsAre(fault("reason-not-wanted", "tax/reason")));
  EXPECT_THAT(faults_of(Tax{TaxCategory::zero, 0, "VAT", "why not"}),
              ElementsAre(fault("reason-not-wanted", "tax/reason")));
}

TEST(Tax, HasANameThatFitsItsColumn) {
  EXPECT_THAT(faults_of(tax_at(2000, "")), ElementsAre(fault("bad-text", "tax/name")));
  EXPECT_THAT(faults_of(tax_at(2000, "Taxe sur la valeur ajoutée")),
              ElementsAre(fault("bad-text", "tax/name")));
}

}  // namespace
}  // namespace weatherstruck::account
