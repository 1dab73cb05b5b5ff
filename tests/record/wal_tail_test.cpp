#include "weatherstruck/record/wal_tail.h"

#include <gtest/gtest.h>

#include <string>

#include "record/scratch.h"
#include "record/torn_log.h"

namespace weatherstruck::record {
namespace {

TEST(TornLog, CutAnywhereItOpensSoundWithTheFirstEntriesAndSaysWhatIsMissing) {
  const Left left = leave_entries();
  ASSERT_EQ((left.log.size() - log_head) % log_frame, 0U);
  const std::set<std::size_t> cuts = cuts_of(left);
  ASSERT_GE(cuts.size(), 200U);
  std::size_t turn = 0;
  for (const std::size_t cut : cuts) {
    ++turn;
    if (turn % 8 != 1) continue;
    SCOPED_TRACE(cut);
    // Where the machine was restarted the index is gone too.
    expect_prefix(left, left.log.substr(0, cut), whole_entries(left, cut), turn % 3 != 0);
    if (testing::Test::HasFailure()) return;
  }
}

TEST(TornLog, AByteThatWentWrongEndsItThere) {
  const Left left = leave_entries();
  for (std::size_t at = log_head + 5; at < left.log.size(); at += 11'003) {
    SCOPED_TRACE(at);
    std::string log = left.log;
    log[at] = static_cast<char>(log[at] ^ 0x10);
    const std::size_t page_begins = log_head + (at - log_head) / log_frame * log_frame;
    expect_prefix(left, log, whole_entries(left, page_begins), true);
  }
}

TEST(WalTail, AWholeLogHasLostNothing) {
  const Left left = leave_entries();
  const WalTail tail = read_wal_tail(left.log, left.index);
  EXPECT_TRUE(tail.left_open);
  EXPECT_EQ(tail.whole, static_cast<std::int64_t>((left.log.size() - log_head) / log_frame));
  EXPECT_EQ(tail.unfinished, 0);
  EXPECT_EQ(tail.lost, 0);
}

TEST(WalTail, CountsThePagesThatAreGone) {
  const Left left = leave_entries();
  const std::size_t after_third = left.log_after[2];
  const WalTail tail = read_wal_tail(left.log.substr(0, after_third), left.index);
  EXPECT_EQ(tail.whole, static_cast<std::int64_t>((after_third - log_head) / log_frame));
  EXPECT_EQ(tail.unfinished, 0);
  EXPECT_EQ(tail.lost, static_cast<std::int64_t>((left.log.size() - after_third) / log_frame));
  // Without the index nobody can know.
  EXPECT_EQ(read_wal_tail(left.log.substr(0, after_third), "").lost, 0);
  EXPECT_EQ(read_wal_tail(left.log.substr(0, after_third + 20), "").unfinished, 1);
}

TEST(WalTail, NonsenseClaimsNothing) {
  const Left left = leave_entries();
  EXPECT_FALSE(read_wal_tail("", "").left_open);
  EXPECT_FALSE(read_wal_tail(std::string(9000, 'x'), std::string(9000, 'x')).left_open);
  std::string index = left.index;
  index[17] = static_cast<char>(index[17] ^ 1);
  EXPECT_EQ(read_wal_tail(left.log.substr(0, left.log_after[2]), index).lost, 0) << "its two copies differ";
  std::string other_salt = left.log;
  other_salt[16] = static_cast<char>(other_salt[16] ^ 1);
  EXPECT_EQ(read_wal_tail(other_salt, left.index).lost, 0) << "the index of another log";
}

TEST(WalTail, APlainCloseLeavesNothing) {
  const Scratch scratch;
  { const Store store(scratch.file()); }
  EXPECT_FALSE(wal_tail_of(scratch.file()).left_open);
  EXPECT_FALSE(Store(scratch.file()).opening().tail.left_open);
}

TEST(WalTail, AFileThatThisProcessHasOpenWasNotLeft) {
  const Scratch scratch;
  Store first(scratch.file());
  add_wall(first);
  const Store second(scratch.file());
  EXPECT_FALSE(second.opening().tail.left_open);
}

}  // namespace
}  // namespace weatherstruck::record
