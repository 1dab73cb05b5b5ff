#include "weatherstruck/account/quote.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"
#include "works/demo_job.h"

namespace weatherstruck::account {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

/// What every material of the demonstration's job costs, but those named.
Rates priced_rates(const std::vector<std::string>& without = {}) {
  Rates rates = usual_rates();
  rates.travel = TravelByTrip{gbp(9000)};
  for (const works::TotalLine& line : works::bill_of(works::demo_job()).totals) {
    if (std::find(without.begin(), without.end(), line.material) != without.end()) continue;
    rates.prices.push_back({line.material, gbp(1000), 1000});  // ten pounds for one of its unit
  }
  return rates;
}

Offer offered(const Terms& terms, const works::Job& job = works::demo_job()) {
  return offer_of(terms, job, works::derive_tasks(job), works::bill_of(job));
}

const Charge* line_of(const Charges& charges, const std::string& key) {
  for (const Charge& line : charges.lines) {
    if (line.key == key) return &line;
  }
  return nullptr;
}

TEST(Quote, ReckonsLabourMaterialsAndTravel) {
  const Offer offer = offered(Terms{priced_rates()});
  EXPECT_FALSE(offer.fixed);
  EXPECT_THAT(offer.charges.questions, IsEmpty());
  const Charge* const shelter = line_of(offer.charges, "labour/shelter");
  ASSERT_NE(shelter, nullptr);
  EXPECT_EQ(shelter->unit_price, gbp(2800));
  EXPECT_EQ(shelter->quantity % 250, 0) << "quarters of an hour";
  EXPECT_EQ(shelter->text, "Labour: the shelter");
  // 23 bags of 25 kg at ten pounds the kilogram are 5750.00; a tenth on it 6325.00.
  const Charge* const cement = line_of(offer.charges, "materials/cement");
  ASSERT_NE(cement, nullptr);
  EXPECT_EQ(cement->text, "Cement, 23 bags");
  EXPECT_EQ(net_of(*cement), gbp(632500));
  EXPECT_EQ(net_of(*line_of(offer.charges, "travel")), gbp(9000));
}

TEST(Quote, TheHoursOfItsLinesAreThoseOfTheWork) {
  const Offer offer = offered(Terms{priced_rates()});
  double hours = 0;
  double lines = 0;
  for (const Charge& line : offer.charges.lines) {
    if (line.kind != ChargeKind::day_work) continue;
    hours += static_cast<double>(line.quantity) / 1000;
    lines += 1;
  }
  EXPECT_NEAR(hours, offer.hours.value(), 0.125 * lines) << "each rounded to the quarter";
}

// 845.50 a thousand: a pack of 500 is 422.75.
TEST(Quote, APriceHoldsForAsMuchAsItSays) {
  Terms terms{priced_rates({"facing-brick"})};
  terms.rates.on_materials = 0;
  terms.rates.prices.push_back({"facing-brick", gbp(84550), 1'000'000});
  const Offer offer = offered(terms);
  EXPECT_EQ(net_of(*line_of(offer.charges, "materials/facing-brick")), gbp(42275));
}

TEST(Quote, WhatHasNoPriceIsAskedAbout) {
  const Offer offer = offered(Terms{priced_rates({"cement"})});
  EXPECT_THAT(questions_of(offer.charges), ElementsAre("material-price materials/cement"));
  EXPECT_THAT(offer.unpriced, ElementsAre("cement"));
  EXPECT_EQ(line_of(offer.charges, "materials/cement"), nullptr);
  Terms no_hours{priced_rates()};
  no_hours.rates.day_work.reset();
  EXPECT_THAT(questions_of(offered(no_hours).charges), ElementsAre("day-work-rate labour"));
}

TEST(Quote, AFixedPriceGoesBeforeAReckonedOne) {
  Terms terms{priced_rates()};
  terms.fixed_price = gbp(185000);
  terms.materials = Cover::in_the_price;
  terms.travel = Cover::in_the_price;
  terms.rates.usual_deposit = 2500;
  const Offer offer = offered(terms);
  EXPECT_TRUE(offer.fixed);
  EXPECT_THAT(offer.charges.questions, IsEmpty());
  ASSERT_EQ(offer.charges.lines.size(), 1U);
  EXPECT_EQ(net_of(offer.charges.lines[0]), gbp(185000));
  EXPECT_NE(line_of(offer.reckoned, "materials/cement"), nullptr);
}

TEST(Quote, StagesAreOfferedEachWithItsPrice) {
  Terms terms{priced_rates()};
  terms.materials = Cover::in_the_price;
  terms.travel = Cover::in_the_price;
  terms.stages = {{"When the base is down", gbp(74000), {"shelter"}},
                  {"The rest", gbp(111000), {"bed", "path"}}};
  EXPECT_THAT(lines_of(offered(terms).charges),
              ElementsAre("When the base is down: 740.00 GBP", "The rest: 1110.00 GBP"));
}

TEST(Quote, MaterialsOnTopOfAPriceAreReckonedAndUnsettledOnesAskedAbout) {
  Terms terms{priced_rates()};
  terms.fixed_price = gbp(185000);
  terms.travel = Cover::in_the_price;
  EXPECT_THAT(questions_of(offered(terms).charges), ElementsAre("materials-in-price materials"));
  terms.materials = Cover::on_top;
  const Offer offer = offered(terms);
  EXPECT_THAT(offer.charges.questions, IsEmpty());
  EXPECT_EQ(net_of(*line_of(offer.charges, "materials/cement")), gbp(632500));
}

TEST(Quote, WhatIsAtTheWorkIsNotCharged) {
  works::Job job = works::demo_job();
  job.supplies.on_site = {"cement"};
  const Offer offer = offered(Terms{priced_rates({"cement"})}, job);
  EXPECT_THAT(offer.charges.questions, IsEmpty());
  EXPECT_THAT(offer.there, ElementsAre("cement"));
}

TEST(Quote, EachLineHasItsTax) {
  Terms terms{priced_rates()};
  terms.rates.materials_tax = tax_at(500);
  const Offer offer = offered(terms);
  EXPECT_EQ(line_of(offer.charges, "materials/cement")->tax, tax_at(500));
  EXPECT_EQ(line_of(offer.charges, "labour/shelter")->tax, tax_at(2000));
  terms.tax = no_tax("Not registered.");
  EXPECT_EQ(line_of(offered(terms).charges, "materials/cement")->tax, *terms.tax);
}

// The hours come to nothing one would write down; what is left is reckoned the long way round.
TEST(Quote, HeSeesWhatAPriceLeavesHim) {
  Terms terms{priced_rates()};
  terms.fixed_price = gbp(9'000'000);
  terms.materials = Cover::in_the_price;
  terms.travel = Cover::on_top;
  const Offer offer = offered(terms);
  const ForHimself mine = for_himself(terms, offer);
  EXPECT_EQ(mine.agreed, gbp(9'000'000));
  EXPECT_EQ(mine.travel, gbp(9000));
  EXPECT_EQ(mine.reckoned, mine.labour + mine.materials + mine.put_on + mine.travel);
  const double left = static_cast<double>(9'000'000 - mine.materials.minor()) / mine.hours.value();
  ASSERT_TRUE(mine.an_hour);
  EXPECT_NEAR(static_cast<double>(mine.an_hour->minor()), left, 5) << "hours are taken to the thousandth";
  EXPECT_FALSE(for_himself(Terms{priced_rates()}, offered(Terms{priced_rates()})).an_hour);
}

TEST(Quote, TheSumsAreThoseOfAnInvoice) {
  const Offer offer = offered(Terms{priced_rates()});
  const Invoice sums = make_invoice(offer.charges, "A job", a_seller(), a_buyer(), {}, some_dates());
  EXPECT_THAT(faults_of(sums), IsEmpty());
  base::Money net = gbp(0);
  for (const Charge& line : offer.charges.lines)
    net = net + net_of(line);
  EXPECT_EQ(sums.net, net);
}

}  // namespace
}  // namespace weatherstruck::account
