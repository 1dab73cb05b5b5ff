#include "weatherstruck/account/charges.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "account/bill_support.h"

namespace weatherstruck::account {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using works::Begin;
using works::Done;
using works::entry;
using works::Expense;
using works::Extra;
using works::feb;
using works::Whole;

const std::vector<works::Entry> whole_job{
    entry("a", feb(10, 8), Begin{"dig"}),
    entry("b", feb(10, 12), Done{"dig", Whole{}}),
    entry("c", feb(11, 8), Begin{"lay"}),
    entry("d", feb(11, 15, 50), Done{"lay", Whole{}}),
};

std::vector<works::Entry> with(std::vector<works::Entry> entries, const std::vector<works::Entry>& more) {
  entries.insert(entries.end(), more.begin(), more.end());
  return entries;
}

Terms priced(std::int64_t pence) {
  Terms terms{usual_rates()};
  terms.fixed_price = gbp(pence);
  terms.materials = Cover::in_the_price;
  terms.travel = Cover::in_the_price;
  terms.deposit = gbp(0);
  return terms;
}

Terms by_time() {
  Terms terms{usual_rates()};
  terms.by_the_hour = true;
  terms.distance = 164'000;
  return terms;
}

TEST(Charges, AFixedPriceIsOneLine) {
  const Charges charges = charges_by(priced(185000), whole_job);
  ASSERT_EQ(charges.lines.size(), 1U);
  EXPECT_EQ(charges.lines[0],
            (Charge{"price", ChargeKind::price, "Potting shelter base, long bed, steps and path", 1000,
                    Unit::each, gbp(185000), tax_at(2000)}));
  EXPECT_THAT(charges.questions, IsEmpty());
  EXPECT_THAT(kept_off(charges), ElementsAre("Travel: in the fixed price"));
}

TEST(Charges, AnUnfinishedJobIsAskedAbout) {
  // Pointing is there only if the joints were raked, so nobody misses it.
  const Charges charges = charges_by(priced(185000), {});
  EXPECT_THAT(questions_of(charges), ElementsAre("unfinished price"));
  EXPECT_THAT(charges.questions[0].text,
              HasSubstr("Dig the trench (2 m3) and Lay courses 1 to 4 (100 bricks) are not."));
  EXPECT_EQ(charges.lines.size(), 1U);
}

TEST(Charges, AStageIsBilledWhenItsWorkIsDone) {
  Terms terms = priced(185000);
  terms.stages = {{"Groundwork", gbp(60000), {"dig"}}, {"Brickwork", gbp(125000), {"bed"}}};
  EXPECT_THAT(faults_of(terms), IsEmpty());
  const std::vector<works::Entry> dug(whole_job.begin(), whole_job.begin() + 2);
  const Charges first = charges_by(terms, dug);
  EXPECT_THAT(lines_of(first), ElementsAre("Groundwork: 600.00 GBP"));
  EXPECT_THAT(kept_off(first),
              ElementsAre("Brickwork: not done by the site book: Lay courses 1 to 4 (100 bricks)",
                          "Travel: in the fixed price"));
  // The second time what was billed stays off.
  const Charges second =
      charges_by(terms, whole_job, {{{"stage/Groundwork", 1000, gbp(60000), "2026-1"}}, {}});
  EXPECT_THAT(lines_of(second), ElementsAre("Brickwork: 1250.00 GBP"));
  EXPECT_THAT(kept_off(second),
              ElementsAre("Groundwork: billed on invoice 2026-1", "Travel: in the fixed price"));
}

TEST(Charges, AStageOfUnknownWorkIsAskedAbout) {
  Terms terms = priced(185000);
  terms.stages = {{"Roof", gbp(185000), {"thatch"}}};
  const Charges charges = charges_by(terms, whole_job);
  EXPECT_THAT(charges.lines, IsEmpty());
  EXPECT_THAT(questions_of(charges), ElementsAre("unknown-task stage/Roof"));
}

TEST(Charges, ExtrasWithAPriceAreBilledOnceAgreed) {
  const Charges charges = charges_by(
      priced(185000),
      with(whole_job, {entry("e", feb(11, 9), Extra{"one more course on the bed", "Marged", gbp(9500)}),
                       entry("f", feb(11, 10), Extra{"a drain", "", gbp(4000)})}));
  EXPECT_THAT(lines_of(charges),
              ElementsAre("Potting shelter base, long bed, steps and path: 1850.00 GBP",
                          "One more course on the bed (extra, agreed with Marged on Wed 11 Feb): 95.00 GBP"));
  EXPECT_THAT(questions_of(charges), ElementsAre("agreed-by extra/2026-02-11T10:00:00Z/a drain"));
}

TEST(Charges, ExtrasWithoutAPriceWantHours) {
  const auto book = with(whole_job, {entry("e", feb(11, 9), Extra{"moved the water butt", "Marged", {}})});
  Terms terms = priced(185000);
  const Charges asked = charges_by(terms, book);
  EXPECT_THAT(questions_of(asked), ElementsAre("hours extra/2026-02-11T09:00:00Z/moved the water butt"));
  EXPECT_EQ(asked.lines.size(), 1U);
  // 1.25 h at 28.00 = 35.00
  terms.day_work = {{"moved the water butt", 1250}};
  const Charges answered = charges_by(terms, book);
  EXPECT_THAT(answered.questions, IsEmpty());
  ASSERT_EQ(answered.lines.size(), 2U);
  EXPECT_EQ(answered.lines[1].unit, Unit::hour);
  EXPECT_EQ(net_of(answered.lines[1]), gbp(3500));
  // Without a rate it is asked about again, and the hours do not come up as other work.
  terms.rates.day_work = std::nullopt;
  EXPECT_THAT(questions_of(charges_by(terms, book)),
              ElementsAre("day-work-rate extra/2026-02-11T09:00:00Z/moved the water butt"));
}

TEST(Charges, HoursSaidForOtherWorkAreALineOfTheirOwn) {
  Terms terms = priced(185000);
  terms.day_work = {{"cleared the old path", 2500}};
  // 2.5 h at 28.00 = 70.00
  EXPECT_THAT(lines_of(charges_by(terms, whole_job)).back(), "Cleared the old path, day work: 70.00 GBP");
}

TEST(Charges, TwoLikeExtrasAreTwo) {
  const Extra same{"a barrow of topsoil", "Marged", gbp(500)};
  const Charges charges = charges_by(
      priced(185000), with(whole_job, {entry("e", feb(11, 9), same), entry("f", feb(11, 9), same)}));
  ASSERT_EQ(charges.lines.size(), 3U);
  EXPECT_EQ(charges.lines[1].key, "extra/2026-02-11T09:00:00Z/a barrow of topsoil");
  EXPECT_EQ(charges.lines[2].key, "extra/2026-02-11T09:00:00Z/a barrow of topsoil#2");
}

TEST(Charges, HoursOfTheBookAreBilledToTheQuarter) {
  // Dig 8-12: 4 h. Lay 8:00-15:50: 7.833 h, the nearest quarter is 7.75 h.
  // 4 x 28.00 = 112.00; 7.75 x 28.00 = 217.00; 164 miles x 0.45 = 73.80
  const Charges charges = charges_by(by_time(), whole_job);
  EXPECT_THAT(lines_of(charges),
              ElementsAre("Dig the trench (2 m3): 112.00 GBP", "Lay courses 1 to 4 (100 bricks): 217.00 GBP",
                          "Travel: 73.80 GBP"));
  EXPECT_EQ(charges.lines[1].quantity, 7750);
  EXPECT_THAT(charges.questions, IsEmpty());
}

TEST(Charges, OfHoursBilledBeforeOnlyTheRestIsBilled) {
  const BilledBefore before{{{"hours/dig", 4000, gbp(11200), "7"}, {"hours/lay", 3000, gbp(8400), "7"}}, {}};
  const Charges charges = charges_by(by_time(), whole_job, before);
  ASSERT_EQ(charges.lines.size(), 2U);
  EXPECT_EQ(charges.lines[0].quantity, 4750);  // 7.75 less 3
  EXPECT_THAT(kept_off(charges), ElementsAre("Dig the trench (2 m3): billed on invoice 7"));
}

TEST(Charges, FewerHoursThanWereBilledAreAskedAbout) {
  const BilledBefore before{{{"hours/dig", 5000, gbp(14000), "7"}}, {}};
  const Charges charges = charges_by(by_time(), whole_job, before);
  EXPECT_THAT(questions_of(charges), ElementsAre("changed-since hours/dig"));
  EXPECT_THAT(charges.questions[0].text,
              HasSubstr("billed on invoice 7 at 140.00 GBP and comes to 112.00 GBP now"));
}

TEST(Charges, WorkStillGoingOnIsNotBilled) {
  const std::vector<works::Entry> open{entry("a", feb(12, 14), Begin{"dig"})};
  const works::Job job = works::demo_job();
  const works::TaskList list = works::small_list();
  const Charges charges = charges_of(by_time(), job, list, works::fold(open, feb(12, 15)));
  EXPECT_THAT(questions_of(charges), ElementsAre("still-at-it hours/dig"));
}

TEST(Charges, MaterialsAreAtCostAndPercentWithTheirReceipt) {
  // 37.95 and a tenth: 37.95 x 1.10 = 41.745, rounded to 41.75
  const auto book = with(whole_job, {entry("e", feb(10, 7), Expense{"cement", gbp(3795), "4711"}),
                                     entry("f", feb(10, 7, 30), Expense{"sand", gbp(2000), std::nullopt})});
  const Charges charges = charges_by(by_time(), book);
  EXPECT_THAT(lines_of(charges), testing::Contains("Cement (receipt 4711), at cost and 10 %: 41.75 GBP"));
  EXPECT_THAT(questions_of(charges), ElementsAre("receipt materials/2026-02-10T07:30:00Z/sand"));
  Terms bare = by_time();
  bare.rates.on_materials = 0;
  EXPECT_THAT(lines_of(charges_by(bare, book)),
              testing::Contains("Cement (receipt 4711), at cost: 37.95 GBP"));
}

TEST(Charges, WhetherThePriceHoldsMaterialsAndTravelIsAskedOnce) {
  const auto book = with(whole_job, {entry("e", feb(10, 7), Expense{"cement", gbp(3795), "4711"}),
                                     entry("f", feb(10, 8), Expense{"sand", gbp(2000), "4712"})});
  Terms terms = priced(185000);
  terms.materials = std::nullopt;
  terms.travel = std::nullopt;
  const Charges charges = charges_by(terms, book);
  EXPECT_EQ(charges.lines.size(), 1U);
  EXPECT_THAT(questions_of(charges), ElementsAre("materials-in-price materials", "travel-in-price travel"));
  terms.materials = Cover::in_the_price;
  EXPECT_THAT(kept_off(charges_by(terms, book)),
              ElementsAre("Cement: in the fixed price", "Sand: in the fixed price"));
}

TEST(Charges, TravelIsByDistanceOrByTheTrip) {
  Terms terms = by_time();
  terms.distance = std::nullopt;
  EXPECT_THAT(questions_of(charges_by(terms, whole_job)), ElementsAre("distance travel"));
  terms.rates.travel = TravelByTrip{gbp(6000)};
  terms.trips = 2;
  EXPECT_THAT(lines_of(charges_by(terms, whole_job)).back(), "Travel, out and back: 120.00 GBP");
  // One of the two was billed before.
  EXPECT_THAT(lines_of(charges_by(terms, whole_job, {{{"travel", 1000, gbp(6000), "1"}}, {}})).back(),
              "Travel, out and back: 60.00 GBP");
  terms.rates.travel = std::monostate{};
  EXPECT_THAT(charges_by(terms, whole_job).lines.back().kind, ChargeKind::day_work);
}

TEST(Charges, AFallbackMadeUseOfIsTakenOff) {
  Terms terms = priced(185000);
  terms.fallbacks_used = {"path", "path", "pond"};
  const Charges charges = charges_by(terms, whole_job);
  ASSERT_EQ(charges.lines.size(), 2U);
  // The price stays above nought and the quantity goes below (EN 16931 BR-27).
  EXPECT_EQ(charges.lines[1].quantity, -1000);
  EXPECT_EQ(charges.lines[1].unit_price, gbp(12000));
  EXPECT_THAT(lines_of(charges).back(), "Gravel in place of flags: path: -120.00 GBP");
  EXPECT_THAT(questions_of(charges), ElementsAre("unknown-fallback fallback/pond"));
}

TEST(Charges, AFallbackWithoutAPriceIsAskedAboutAndItsWorkIsNotMissed) {
  works::Job job = works::demo_job();
  job.fallbacks = {{works::Fallback::Kind::drop, "bed", std::nullopt}};
  Terms terms = priced(185000);
  terms.fallbacks_used = {"bed"};
  const Charges charges = charges_of(terms, job, works::small_list(), works::fold({}));
  EXPECT_THAT(questions_of(charges), ElementsAre("fallback-price fallback/bed"));
}

TEST(Charges, MoneyOfAnotherCurrencyIsAskedAbout) {
  const auto book =
      with(whole_job, {entry("e", feb(10, 7), Expense{"cement", base::Money(3795, euros()), "4711"})});
  EXPECT_THAT(questions_of(charges_by(by_time(), book)),
              ElementsAre("currency materials/2026-02-10T07:00:00Z/cement"));
}

TEST(Charges, ADepositIsLeftForTheInvoiceLessWhatWasUsed) {
  Terms terms = priced(185000);
  terms.deposit = gbp(50000);
  EXPECT_EQ(charges_by(terms, whole_job).deposit, gbp(50000));
  EXPECT_EQ(charges_by(terms, whole_job, {{}, gbp(20000)}).deposit, gbp(30000));
  EXPECT_THAT(questions_of(charges_by(terms, whole_job, {{}, gbp(60000)})),
              ElementsAre("changed-since deposit"));
  terms.deposit = std::nullopt;
  EXPECT_THAT(charges_by(terms, whole_job).questions, IsEmpty());
  terms.rates.usual_deposit = 2500;
  EXPECT_THAT(questions_of(charges_by(terms, whole_job)), ElementsAre("deposit deposit"));
  EXPECT_THAT(charges_by(terms, whole_job).questions[0].text, HasSubstr("deposit of 25 %"));
}

TEST(Charges, APriceThatChangedSinceItWasBilledIsAskedAbout) {
  const Charges charges = charges_by(priced(185000), whole_job, {{{"price", 1000, gbp(180000), "3"}}, {}});
  EXPECT_THAT(charges.lines, IsEmpty());
  EXPECT_THAT(questions_of(charges), ElementsAre("changed-since price"));
}

TEST(Terms, AreThoseOfTheJobsDocument) {
  EXPECT_FALSE(terms_of(usual_rates(), std::nullopt).fixed_price);
  const works::Price price{gbp(185000), {{"Brickwork", gbp(185000), {"bed"}}}, false, true, false, gbp(50000),
                           164.5};
  const Terms terms = terms_of(usual_rates(), price);
  EXPECT_THAT(faults_of(terms), IsEmpty());
  EXPECT_EQ(terms.fixed_price, gbp(185000));
  ASSERT_EQ(terms.stages.size(), 1U);
  EXPECT_EQ(terms.stages[0].price, gbp(185000));
  EXPECT_THAT(terms.stages[0].tasks, ElementsAre("bed"));
  EXPECT_EQ(terms.materials, Cover::on_top);
  EXPECT_EQ(terms.travel, Cover::in_the_price);
  EXPECT_EQ(terms.deposit, gbp(50000));
  EXPECT_EQ(terms.distance, 164'500);
}

TEST(Terms, FaultsAreToldAllAtOnce) {
  Terms terms{usual_rates()};
  terms.fixed_price = gbp(100000);
  terms.stages = {{"Walls", gbp(60000), {}}, {"Walls", gbp(30000), {"lay"}}};
  terms.by_the_hour = true;
  terms.day_work = {{"", 0}};
  terms.distance = -1;
  terms.trips = 101;
  terms.deposit = gbp(-1);
  EXPECT_THAT(codes_of(faults_of(terms)),
              ElementsAre("out-of-range terms/deposit", "no-tasks terms/stages/0/tasks",
                          "same-title terms/stages/1/title", "stages-differ terms/stages",
                          "price-and-hours terms/by-the-hour", "out-of-range terms/day-work/0/what",
                          "out-of-range terms/day-work/0/hours", "out-of-range terms/distance",
                          "out-of-range terms/trips"));
}

TEST(Terms, OtherCurrenciesAreRefused) {
  Terms terms{usual_rates()};
  terms.fixed_price = base::Money(100000, euros());
  terms.stages = {{"Walls", base::Money(100000, euros()), {"lay"}}};
  EXPECT_THAT(codes_of(faults_of(terms)),
              ElementsAre("wrong-currency terms/fixed-price", "wrong-currency terms/stages/0/price"));
}

TEST(ChargeKinds, HaveWords) {
  EXPECT_EQ(word_of(ChargeKind::day_work), "day-work");
  EXPECT_EQ(word_of(ChargeKind::fallback), "fallback");
}

}  // namespace
}  // namespace weatherstruck::account
