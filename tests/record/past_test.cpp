#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "record/scratch.h"
#include "weatherstruck/record/store.h"

namespace weatherstruck::record {
namespace {

base::Instant hour(int n) {
  return base::Instant(std::chrono::hours(400000 + n));
}
NewPast coast(const std::string& bytes) {
  return {"coast", 52100000, -3250000, "by the sea", hour(0), hour(2), bytes, hour(9)};
}

TEST(PastYears, ComeBackAsTheyWereGivenInTheOrderKept) {
  const Scratch scratch;
  Store store(scratch.file());
  EXPECT_TRUE(store.pasts(true).empty());
  const std::string with_null("a\0b", 3);
  store.put_past(coast(with_null));
  store.put_past(coast("newer"));
  const std::vector<Past> all = store.pasts(true);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].past.region, "coast");
  EXPECT_EQ(all[0].past.latitude, 52100000);
  EXPECT_EQ(all[0].past.longitude, -3250000);
  EXPECT_EQ(all[0].past.attribution, "by the sea");
  EXPECT_EQ(all[0].past.from, hour(0));
  EXPECT_EQ(all[0].past.to, hour(2));
  EXPECT_EQ(all[0].past.bytes, with_null);
  EXPECT_EQ(all[1].past.bytes, "newer");
  EXPECT_EQ(store.pasts(false)[1].past.bytes, "");
  EXPECT_NE(all[0].id, all[1].id);
}

TEST(PastYears, ThatCannotBeAreRefusedAndNothingIsKept) {
  const Scratch scratch;
  Store store(scratch.file());
  NewPast nameless = coast("x");
  nameless.region.clear();
  NewPast crooked = coast("x");
  crooked.from += std::chrono::minutes(1);
  NewPast backwards = coast("x");
  backwards.to = backwards.from;
  NewPast nowhere = coast("x");
  nowhere.latitude = 91000000;
  for (const NewPast& wrong : {nameless, crooked, backwards, nowhere, coast("")}) {
    EXPECT_THROW((void)store.put_past(wrong), RecordError);
    EXPECT_TRUE(store.pasts(false).empty());
  }
}

TEST(Reckoned, IsFoundByItsKeyAndTheFirstStays) {
  const Scratch scratch;
  Store store(scratch.file());
  EXPECT_FALSE(store.reckoned("a"));
  store.keep_reckoned("a", "one", hour(0));
  store.keep_reckoned("a", "two", hour(1));
  EXPECT_EQ(store.reckoned("a"), "one");
  EXPECT_FALSE(store.reckoned("b"));
}

TEST(Reckoned, IsFoundByHowItsKeyBegins) {
  const Scratch scratch;
  Store store(scratch.file());
  store.keep_reckoned("strip 2", "other", hour(0));
  store.keep_reckoned("strip 1 b", "second", hour(0));
  store.keep_reckoned("strip 1 a", "first", hour(0));
  store.keep_reckoned("strip", "short", hour(0));
  EXPECT_EQ(store.reckoned_under("strip 1 "), (std::vector<std::string>{"first", "second"}));
  EXPECT_TRUE(store.reckoned_under("strip 3").empty());
}

}  // namespace
}  // namespace weatherstruck::record
