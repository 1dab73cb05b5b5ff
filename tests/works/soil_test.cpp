#include "weatherstruck/works/soil.h"

#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

TEST(Soil, WhatComesOutGoesSomewhere) {
  const Job job = demo_job();
  const SoilAccount account = soil_of(job, expand(job));
  EXPECT_GT(account.dug.value(), 3);
  EXPECT_NEAR((account.backfilled + account.into_beds + account.away).value(), account.dug_loose.value(),
              1e-9);
  EXPECT_EQ(account.to_buy.value(), 0);
  // Bulking read on a page: soil a fifth.
  EXPECT_NEAR(account.dug_loose.value(), account.dug.value() * 1.2, 1e-9);
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
