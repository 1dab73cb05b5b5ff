// No job makes a plan that either checker objects to. The slow test draws many more.
#include "programme/any_job.h"

#include <gtest/gtest.h>

namespace weatherstruck::programme {
namespace {

TEST(AnyJob, NoneOfAFewMakesAPlanThatBreaksARule) {
  for (const unsigned seed : {1U, 2U, 3U, 4U})
    EXPECT_EQ(broken_rules(any_job(seed), 2), "") << "seed " << seed;
}

// In this one flags stiffen within a step of the site checker in which much rain falls.
TEST(AnyJob, CountsRainOnAJointOnlyUntilItIsStiff) {
  EXPECT_EQ(broken_rules(any_job(1912), 4), "");
}

}  // namespace
}  // namespace weatherstruck::programme
