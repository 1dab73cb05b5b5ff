#include "weatherstruck/render/quote_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"
#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

using account::gbp;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

class Offered : public testing::Test {
 protected:
  works::Job job_ = works::demo_job();
  account::Terms terms_ = fixed();
  std::vector<std::string> not_included_;
  std::optional<base::Money> deposit_;

  static account::Terms fixed() {
    account::Terms terms{account::usual_rates()};
    terms.fixed_price = gbp(185000);
    terms.materials = account::Cover::in_the_price;
    terms.travel = account::Cover::in_the_price;
    return terms;
  }
  [[nodiscard]] QuoteSheet told() const {
    const works::Bill bill = works::bill_of(job_);
    const account::Offer offer = account::offer_of(terms_, job_, works::derive_tasks(job_), bill);
    account::Seller seller = account::a_seller();
    if (terms_.rates.tax.category == account::TaxCategory::not_subject) seller.tax_number.clear();
    const account::Invoice sums =
        account::make_invoice(offer.charges, job_.title, seller, account::a_buyer(), {},
                              {account::day_of(2026, 2, 1), account::day_of(2026, 3, 3), {}, {}});
    const works::Expansion expansion = works::expand(job_);
    return quote_sheet_of({job_, expansion, bill, terms_, offer, sums, not_included_, deposit_});
  }
  [[nodiscard]] std::string text() const { return quote_text(told(), Ink::plain); }
};

// 1850.00 and 20 % are 2220.00.
TEST_F(Offered, APriceWithItsTaxAndNothingToPayYet) {
  const std::string said = text();
  for (const char* words :
       {"Quotation", "VAT 20 % on 1,850.00", "Price, GBP", "2,220.00", "Good until 3 March 2026.",
        "an offer, not an invoice", "Bills are paid within 14 days.",
        "The price is fixed for the work described here."})
    EXPECT_THAT(said, HasSubstr(words));
  EXPECT_THAT(said, Not(HasSubstr("To pay")));
  EXPECT_THAT(said, Not(HasSubstr("deposit")));
}

TEST_F(Offered, WhatIsBuiltHasItsSizesAndNoLinesOfTheTrench) {
  const QuoteSheet sheet = told();
  ASSERT_FALSE(sheet.built.empty());
  EXPECT_EQ(sheet.built[0].title, "The shelter");
  EXPECT_THAT(sheet.built[0].sizes, Contains("Outside 3 x 1.8 m"));
  const std::string said = text();
  EXPECT_THAT(said, Not(HasSubstr("diagonal")));
  EXPECT_THAT(said, Not(HasSubstr("trench")));
  EXPECT_THAT(sheet.built_with, HasSubstr("facing bricks"));
  EXPECT_THAT(sheet.built_with, HasSubstr("concrete C20/25"));
}

TEST_F(Offered, SaysWhatWeatherMayLeaveUndoneInTheOrderInWhichItGoes) {
  job_.importance = {{"steps", works::Importance::should}, {"path", works::Importance::may}};
  job_.fallbacks = {{works::Fallback::Kind::gravel_for_flags, "path", gbp(12000)},
                    {works::Fallback::Kind::one_course_lower, "bed", {}}};
  const QuoteSheet sheet = told();
  EXPECT_THAT(sheet.weather,
              Contains("If the weather takes too much of the time, first left undone: the path; "
                       "then the steps."));
  EXPECT_THAT(sheet.weather,
              Contains("Or the path is made of gravel in place of flags, and 120.00 GBP come off the "
                       "price before tax."));
  EXPECT_THAT(
      sheet.weather,
      Contains("Or the bed is built one course lower, and what comes off the price is agreed first."));
  job_.importance.clear();
  EXPECT_THAT(told().weather,
              Contains(testing::StartsWith("If the weather takes too much of the time, the path is")));
}

TEST_F(Offered, SaysWhatIsNotInThePrice) {
  not_included_ = {"power and water"};
  job_.supplies.on_site = {"cement"};
  const QuoteSheet sheet = told();
  EXPECT_THAT(sheet.not_included, Contains("Power and water"));
  EXPECT_THAT(sheet.not_included, Contains("At the work already, and not charged: cement"));
  EXPECT_THAT(sheet.not_included,
              Contains(testing::StartsWith("Taking away the soil that is left over, about")));
  EXPECT_THAT(sheet.not_included, Contains(testing::StartsWith("Whatever is not described here")));
  EXPECT_THAT(sheet.not_included, Not(Contains(HasSubstr("Not priced"))))
      << "materials are in the fixed price, whether their cost is known or not";
}

TEST_F(Offered, TermsFollowWhatWasAgreed) {
  deposit_ = gbp(55500);
  EXPECT_THAT(told().terms,
              Contains("A deposit of 555.00 GBP, tax included, is asked for with the order. It comes "
                       "off the bill."));
  terms_.materials = account::Cover::on_top;
  EXPECT_THAT(told().terms,
              Contains("Materials are charged at what their receipts say and 10 %; the sums here are "
                       "what is expected."));
  EXPECT_THAT(told().not_included, Contains(testing::StartsWith("Not priced here: facing bricks")));
  terms_.materials = account::Cover::in_the_price;
  terms_.fixed_price.reset();
  terms_.stages = {{"When the base is down", gbp(74000), {"shelter"}}, {"The rest", gbp(111000), {"bed"}}};
  EXPECT_THAT(told().terms, Contains("The price is fixed. Each of its stages is billed when it is done."));
  EXPECT_THAT(text(), HasSubstr("When the base is down"));
  terms_.rates.tax = account::no_tax("Not registered for VAT.");
  EXPECT_THAT(told().terms, Contains("Not registered for VAT."));
}

TEST_F(Offered, WorkByTheHourIsAnEstimate) {
  terms_ = account::Terms{account::usual_rates()};
  terms_.by_the_hour = true;
  const QuoteSheet sheet = told();
  EXPECT_EQ(sheet.title, "Estimate");
  EXPECT_THAT(sheet.terms, Contains(HasSubstr("by the hours that the site book has of it")));
  EXPECT_THAT(text(), HasSubstr("Labour: the shelter"));
}

TEST_F(Offered, ThePageSaysWhatTheTextDoesAndAsksNothingOfAnyOther) {
  job_.title = "<script>alert(1)</script> & a wall";
  const std::string page = quote_html(told());
  for (const char* words : {"<h1>Quotation</h1>", "2,220.00", "<dt>The shelter</dt>",
                            "Good until 3 March 2026.", "&lt;script&gt;alert(1)&lt;/script&gt; &amp; a wall"})
    EXPECT_THAT(page, HasSubstr(words));
  for (const char* way : {"http:", "src=", "href=", "url(", "<script", "<link", "<img", "<form"})
    EXPECT_THAT(page, Not(HasSubstr(way))) << way;
}

TEST_F(Offered, WhatItLeavesHimStandsOnNoPage) {
  account::ForHimself mine{base::Hours(40.5), gbp(112700), gbp(50000),  gbp(5000),
                           gbp(9000),         gbp(176700), gbp(185000), gbp(3130)};
  const std::string said = for_himself_text(mine, Ink::plain);
  for (const char* words : {"Labour, 40.5 h in fair weather", "It is more by", "83.00", "31.30"})
    EXPECT_THAT(said, HasSubstr(words));
  mine.agreed = gbp(170000);
  EXPECT_THAT(for_himself_text(mine, Ink::plain), HasSubstr("It is less by"));
}

}  // namespace
}  // namespace weatherstruck::render
