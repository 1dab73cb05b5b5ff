#include "weatherstruck/works/soil.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

TEST(Soil, WhatComesOutGoesSomewhere) {
  const Job job = demo_job();
  const SoilAccount account = soil_of(job, expand(job));
  EXPECT_NEAR((account.backfilled + account.into_beds + account.away).value(), account.dug_loose.value(),
              1e-9);
  EXPECT_EQ(account.to_buy.value(), 0);
  // Bulking read on a page: soil a fifth.
  EXPECT_NEAR(account.dug_loose.value(), account.dug.value() * 1.2, 1e-9);
}

// By hand: a trench 4 m long, .45 wide and .45 deep is .81 m3; a fifth more in the barrow is .972. Beside a
// half-brick wall from the top of the strip, .15 m, to the ground, .3 x (.45 - .1025) x 4 = .417 m3 goes
// back, and as much looser.
TEST(Soil, ALevelTrenchIsDugToItsMeasure) {
  Job job = demo_job();
  Wall run;
  run.name = "run";
  run.footing = "strip";
  run.length = base::Metres(4);
  run.courses = 8;
  using base::Metres;
  job.parts = {Footing{"strip", Metres(4), Metres(0.45), Metres(0.15), Metres(0.45), Metres(0)}, run};
  const SoilAccount account = soil_of(job, expand(job));
  EXPECT_NEAR(account.dug.value(), 0.81, 1e-9);
  EXPECT_NEAR(account.dug_loose.value(), 0.972, 1e-9);
  EXPECT_NEAR(account.backfilled.value(), 0.417 * 1.2, 1e-9);
  EXPECT_NEAR(account.away.value(), 0.972 - 0.5004, 1e-9);
}

TEST(Soil, ABedThatTheDiggingCannotFillBuysTopsoil) {
  Job job = demo_job();
  Bed bed = std::get<Bed>(job.parts[1]);
  bed.width = base::Metres(3);
  bed.courses = 6;
  job.parts = {bed};
  const SoilAccount account = soil_of(job, expand(job));
  EXPECT_GT(account.to_buy.value(), 0);
  EXPECT_NEAR((account.to_buy + account.into_beds).value(), expand(job).groups[0].fill.value(), 1e-9);
  EXPECT_NEAR(account.away.value(), 0, 1e-9);
}

}  // namespace
}  // namespace weatherstruck::works
