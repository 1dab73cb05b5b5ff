#include "weatherstruck/account/change_price.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::account {
namespace {

const base::Currency pounds = *base::Currency::from_code("GBP");
base::Money gbp(std::int64_t pence) {
  return {pence, pounds};
}
Rates at_38() {
  Rates rates{pounds};
  rates.day_work = gbp(3800);
  rates.on_materials = 1000;
  return rates;
}

// By hand: 1.5 h at 38.00 are 57.00; 37.9 h are 1440.20, 39.4 h 1497.20.
TEST(ChangePrice, TheHoursApartComeToWhatHeChargesForThem) {
  const Rates rates = at_38();
  const ChangePrice price = change_price(works::demo_job(), &rates, base::Hours(37.9), base::Hours(39.4), {});
  EXPECT_EQ(price.before, gbp(144020));
  EXPECT_EQ(price.after, gbp(149720));
  EXPECT_EQ(price.apart, gbp(5700));
  EXPECT_EQ(price.on_materials, 1000);
  EXPECT_FALSE(price.agreed);
  EXPECT_FALSE(price.taken_off);
  EXPECT_EQ(change_price(works::demo_job(), &rates, base::Hours(2), base::Hours(1), {}).apart, gbp(-3800));
}

TEST(ChangePrice, APriceInStagesIsTheirSumAndFallbacksComeOff) {
  works::Job job = works::demo_job();
  works::Price agreed;
  agreed.stages = {{"ground", gbp(100000), {"bed"}}, {"walls", gbp(50000), {"shelter"}}};
  job.price = agreed;
  const ChangePrice price = change_price(job, nullptr, base::Hours(2), base::Hours(1), job.fallbacks);
  EXPECT_EQ(price.agreed, gbp(150000));
  EXPECT_EQ(price.taken_off, gbp(12000));
  EXPECT_FALSE(price.apart) << "nothing is said of what an hour costs";
  job.price->fixed = gbp(140000);
  EXPECT_EQ(change_price(job, nullptr, base::Hours(2), base::Hours(1), {}).agreed, gbp(140000));
}

TEST(ChangePrice, ByTheHourIsTheJobsOwnWord) {
  works::Job job = works::demo_job();
  const Rates rates = at_38();
  EXPECT_FALSE(change_price(job, &rates, base::Hours(1), base::Hours(2), {}).by_the_hour);
  job.price = works::Price{};
  job.price->by_the_hour = true;
  EXPECT_TRUE(change_price(job, &rates, base::Hours(1), base::Hours(2), {}).by_the_hour);
}

}  // namespace
}  // namespace weatherstruck::account
