#include "weatherstruck/desk/van_desk.h"

#include <gtest/gtest.h>

#include "weatherstruck/desk/job_desk.h"

namespace weatherstruck::desk {
namespace {

TEST(VanDesk, WhatIsDeliveredDoesNotRide) {
  const OpenJob open =
      open_job(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/job.json", files::SystemZones());
  const render::VanFacts facts = load_van(open.job, works::bill_of(open.job));
  EXPECT_EQ(facts.brought.size(), open.job.supplies.deliveries.size());
  EXPECT_EQ(facts.payload, open.job.kit.van_payload);
  base::Kilograms sum{0};
  for (const measure::VanItem& item : facts.items) {
    EXPECT_NE(item.name, "facing bricks");
    sum += item.mass;
  }
  EXPECT_NEAR(sum.value(), facts.plan.mass.value(), 1e-6);
}

}  // namespace
}  // namespace weatherstruck::desk
