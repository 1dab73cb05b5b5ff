#include <gtest/gtest.h>

#include "programme/any_job.h"

namespace weatherstruck::programme {
namespace {

// A run of its own over seeds 1000 to 1999 is quiet as well.
TEST(AnyJob, NoneOfFortyMakesAPlanThatBreaksARule) {
  for (unsigned seed = 1000; seed < 1040; ++seed)
    EXPECT_EQ(broken_rules(any_job(seed), 4), "") << "seed " << seed;
}

}  // namespace
}  // namespace weatherstruck::programme
