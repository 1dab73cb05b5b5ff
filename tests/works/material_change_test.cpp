#include "weatherstruck/works/material_change.h"

#include <gtest/gtest.h>

#include <cmath>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

std::vector<MaterialChange> changes(const Job& before, const Job& after) {
  const Bill was = bill_of(before);
  const Bill is = bill_of(after);
  return material_changes({before, was}, {after, is});
}
const MaterialChange* find(const std::vector<MaterialChange>& all, const std::string& material) {
  for (const MaterialChange& one : all) {
    if (one.material == material) return &one;
  }
  return nullptr;
}
Job higher_bed(int courses) {
  Job job = demo_job();
  std::get<Bed>(job.parts[1]).courses = courses;
  return job;
}

TEST(MaterialChange, WhatIsDeliveredIsHeldAgainstTheNeed) {
  const auto all = changes(demo_job(), higher_bed(5));
  const MaterialChange* bricks = find(all, "facing-brick");
  ASSERT_NE(bricks, nullptr);
  EXPECT_EQ(bricks->there, 1000);
  EXPECT_EQ(bricks->before.needed, std::ceil(bill_of(demo_job()).total_of("facing-brick") - 1e-6));
  EXPECT_EQ(bricks->before.spare, 1000 - bricks->before.needed);
  EXPECT_LT(bricks->after.spare, bricks->before.spare);
  EXPECT_EQ(bricks->after.short_by, 0);
  EXPECT_EQ(bricks->after.packs, 0);
}

TEST(MaterialChange, WhatFallsShortIsToldInWholePacks) {
  Job few = demo_job();
  few.supplies.deliveries[0].amount = 450;
  Job more = higher_bed(9);
  more.supplies.deliveries[0].amount = 450;
  const auto all = changes(few, more);
  const MaterialChange* bricks = find(all, "facing-brick");
  ASSERT_NE(bricks, nullptr);
  EXPECT_EQ(bricks->before.short_by, 0);
  EXPECT_EQ(bricks->after.short_by, bricks->after.needed - 450);
  EXPECT_GT(bricks->after.short_by, 0);
  EXPECT_GE(bricks->after.packs, 1);
}

TEST(MaterialChange, WhatIsTakenAlongIsComparedPackByPackAndWhatLiesAtTheWorkIsNot) {
  Job gravel = demo_job();
  std::get<Path>(gravel.parts[3]).surface = trade::Surface::gravel;
  const auto all = changes(demo_job(), gravel);
  const MaterialChange* flags = find(all, "flag-450");
  ASSERT_NE(flags, nullptr);
  EXPECT_FALSE(flags->there);
  EXPECT_EQ(flags->after.needed, 0);
  EXPECT_GT(flags->before.packs, 0);
  EXPECT_EQ(flags->after.packs, 0);
  const MaterialChange* stones = find(all, "gravel");
  ASSERT_NE(stones, nullptr);
  EXPECT_EQ(stones->before.packs, 0);
  EXPECT_GT(stones->after.packs, 0);
  gravel.supplies.on_site = {"gravel"};
  EXPECT_EQ(find(changes(demo_job(), gravel), "gravel"), nullptr);
}

TEST(MaterialChange, AStockThatTheBookCountedIsHeldAgainstWhatRemains) {
  Progress was;
  was.stock = {{"facing-brick", 300.0, std::nullopt, 0, 0, 300.0, 280, 0.0}};
  Progress is;
  is.stock = {{"facing-brick", 300.0, std::nullopt, 0, 0, 300.0, 346, 46.0}};
  const Job before = demo_job();
  const Job after = higher_bed(5);
  const Bill bill_was = bill_of(before);
  const Bill bill_is = bill_of(after);
  const auto all = material_changes({before, bill_was, &was}, {after, bill_is, &is});
  const MaterialChange* bricks = find(all, "facing-brick");
  ASSERT_NE(bricks, nullptr);
  EXPECT_EQ(bricks->there, 300);
  EXPECT_EQ(bricks->before.spare, 20);
  EXPECT_EQ(bricks->after.short_by, 46);
}

}  // namespace
}  // namespace weatherstruck::works
