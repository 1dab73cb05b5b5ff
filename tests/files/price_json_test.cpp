#include "weatherstruck/files/price_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "files/job_support.h"

namespace weatherstruck::files {
namespace {

TEST(PriceJson, IsReadWithTheJobAndWrittenBackTheSame) {
  const SystemZones zones;
  const JobRead read = read_job(complete_text(), zones);
  ASSERT_TRUE(read.job);
  ASSERT_TRUE(read.job->price);
  const works::Price& price = *read.job->price;
  EXPECT_EQ(price.fixed->text(), "1840.00 GBP");
  ASSERT_EQ(price.stages.size(), 2U);
  EXPECT_EQ(price.stages[1].title, "On leaving");
  EXPECT_EQ(price.stages[1].price.minor(), 120000);
  EXPECT_EQ(price.stages[1].of, (std::vector<works::Name>{"store", "cold-frame"}));
  EXPECT_TRUE(price.by_the_hour);
  EXPECT_EQ(price.materials_on_top, false);
  EXPECT_EQ(price.travel_on_top, true);
  EXPECT_EQ(price.deposit->minor(), 20000);
  EXPECT_EQ(price.distance, 186.5);
  Reading reading;
  const Json written = price_json(price);
  const works::Price again = read_price({reading, written, "/price", "price"});
  EXPECT_TRUE(reading.faults().empty());
  EXPECT_EQ(price_json(again), written);
}

TEST(PriceJson, TaxesAndWhatIsTakenOffAreReadAndJudged) {
  const SystemZones zones;
  const JobRead read = read_job(complete_text(), zones);
  ASSERT_TRUE(read.job);
  const works::Price& price = *read.job->price;
  EXPECT_EQ(price.tax->category, "S");
  EXPECT_EQ(price.tax->rate, 500);
  EXPECT_EQ(price.off->amount->minor(), 4000);
  EXPECT_EQ(price.stages[0].tax->rate, 2000);
  EXPECT_EQ(price.stages[0].off->percent, 250);
  EXPECT_EQ(price.stages[0].off->reason, "Second stage of the same house");
  Reading reading;
  const Json wrong = {{"tax", {{"category", "exempt"}}}, {"off", {{"reason", "agreed"}}}};
  (void)read_price({reading, wrong, "/price", "price"});
  ASSERT_EQ(reading.faults().size(), 2U);
  EXPECT_EQ(reading.faults()[0].place, "/price/tax/reason");
  EXPECT_EQ(reading.faults()[1].code, "one-of-two");
  EXPECT_EQ(reading.faults()[1].place, "/price/off");
}

TEST(PriceJson, WhatWasNotSaidStaysUnsaid) {
  Reading reading;
  const Json empty = Json::object();
  const works::Price price = read_price({reading, empty, "/price", "price"});
  EXPECT_TRUE(reading.faults().empty());
  EXPECT_FALSE(price.fixed || price.materials_on_top || price.travel_on_top || price.deposit ||
               price.distance || price.tax || price.off);
  EXPECT_FALSE(price.by_the_hour);
}

TEST(PriceJson, AStageWithoutAPriceIsAFaultAndNotAStage) {
  Reading reading;
  const Json one = {{"stages", {{{"title", "Footings in"}, {"of", {"store"}}}}}};
  EXPECT_TRUE(read_price({reading, one, "/price", "price"}).stages.empty());
  ASSERT_EQ(reading.faults().size(), 1U);
  EXPECT_EQ(reading.faults().front().place, "/price/stages/0/price");
}

}  // namespace
}  // namespace weatherstruck::files
