#include "weatherstruck/works/van_list.h"

#include <cmath>

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

const measure::VanItem* item(const std::vector<measure::VanItem>& items, const std::string& name) {
  for (const measure::VanItem& i : items) {
    if (i.name == name) return &i;
  }
  return nullptr;
}

TEST(VanList, WhatIsDeliveredDoesNotRide) {
  Job job = demo_job();
  const auto items = van_items(job, bill_of(job));
  EXPECT_EQ(item(items, "facing bricks"), nullptr);
  ASSERT_NE(item(items, "flags 450 x 450"), nullptr);
  EXPECT_EQ(item(items, "flags 450 x 450")->units, 28);
  job.supplies.deliveries.clear();
  EXPECT_NE(item(van_items(job, bill_of(job)), "facing bricks"), nullptr);
}

// 400 kg, 16 bags of 25 kg, come by lorry; the other bags that the bill wants ride.
TEST(VanList, TheRestOfAPartDeliveryRides) {
  Job job = demo_job();
  for (Delivery& d : job.supplies.deliveries) {
    if (d.material == "cement") d.amount = 400;
  }
  const Bill bill = bill_of(job);
  const int bags = static_cast<int>(std::ceil(bill.total_of("cement") / 25));
  ASSERT_GT(bags, 16);
  const auto items = van_items(job, bill);
  ASSERT_NE(item(items, "cement"), nullptr);
  EXPECT_EQ(item(items, "cement")->units, bags - 16);
  EXPECT_NEAR(item(items, "cement")->mass.value(), 25 * (bags - 16), 1e-6);
}

TEST(VanList, KitRidesFirstAndCountsWhatTheJobHas) {
  Job job = demo_job();
  const double with = kit_mass(job).value();
  job.kit.canopy.reset();
  job.kit.floodlights = false;
  // Canopy with weights 100 kg and floodlights 15 kg by the kit table.
  EXPECT_NEAR(with - kit_mass(job).value(), 115, 1e-9);
  const auto items = van_items(job, bill_of(job));
  bool stock = false;
  for (const measure::VanItem& i : items) {
    EXPECT_FALSE(stock && i.rank == 0) << i.name << " comes after stock";
    stock = stock || i.rank > 0;
  }
  EXPECT_TRUE(stock);
}

TEST(VanList, TheDemosVanIsFullButNotOver) {
  const Job job = demo_job();
  const measure::VanPlan plan = van_plan(job, bill_of(job));
  EXPECT_TRUE(plan.fits);
  EXPECT_GT(plan.mass.value(), 500);
}

TEST(VanList, WithoutDeliveriesItIsFarOver) {
  Job job = demo_job();
  job.supplies.deliveries.clear();
  const measure::VanPlan plan = van_plan(job, bill_of(job));
  EXPECT_FALSE(plan.fits);
  EXPECT_GT(plan.over_mass.value(), 1000);
  EXPECT_GE(plan.loads.size(), 3U);
}

TEST(VanList, EveryRowOfTheKitHasMassRoomAndSource) {
  for (const KitRow& row : kit_table()) {
    EXPECT_GT(row.kg, 0) << row.key;
    EXPECT_GT(row.m3, 0) << row.key;
    EXPECT_FALSE(row.source.text.empty()) << row.key;
  }
}

}  // namespace
}  // namespace weatherstruck::works
