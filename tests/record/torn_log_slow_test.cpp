#include <gtest/gtest.h>

#include "record/torn_log.h"

namespace weatherstruck::record {
namespace {

TEST(TornLog, CutAtEveryPageItOpensSoundWithTheFirstEntriesAndSaysWhatIsMissing) {
  const Left left = leave_entries();
  ASSERT_EQ((left.log.size() - log_head) % log_frame, 0U);
  const std::set<std::size_t> cuts = cuts_of(left);
  ASSERT_GE(cuts.size(), 200U);
  std::size_t turn = 0;
  for (const std::size_t cut : cuts) {
    ++turn;
    SCOPED_TRACE(cut);
    // Where the machine was restarted the index is gone too.
    expect_prefix(left, left.log.substr(0, cut), whole_entries(left, cut), turn % 3 != 0);
    if (testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace weatherstruck::record
