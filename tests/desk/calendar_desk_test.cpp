#include "weatherstruck/desk/calendar_desk.h"

#include <gtest/gtest.h>

#include "record/scratch.h"

namespace weatherstruck::desk {
namespace {

using record::at_minute;
using render::CalendarEvent;
using render::EventKind;

class KeptCalendar : public testing::Test {
 protected:
  record::Scratch scratch_;
  record::Store store_{scratch_.file()};
  record::JobId id_ = record::add_wall(store_);
  const base::Zone zone_ = base::Zone::fixed("UTC", std::chrono::seconds(0));

  render::Calendar renew(int from, std::int64_t now) {
    const CalendarEvent lay{"work/lay", EventKind::work, at_minute(from), at_minute(from + 60), "Lay", "",
                            {}};
    return renew_calendar(store_, *store_.job("wall"), {}, {lay}, at_minute(now), zone_);
  }
  std::optional<record::Sheet> sheet() { return store_.latest_sheet(id_, "calendar"); }
};

TEST_F(KeptCalendar, TheNextOneFollowsTheLastOverTheRecord) {
  const render::Calendar first = renew(120, 0);
  ASSERT_EQ(first.events.size(), 1U);
  EXPECT_EQ(first.events[0].sequence, 0);
  const auto kept = sheet();
  ASSERT_TRUE(kept);
  EXPECT_EQ(renew(120, 5), first);
  EXPECT_EQ(sheet()->id, kept->id) << "nothing moved, nothing is kept";
  const render::Calendar moved = renew(180, 10);
  EXPECT_EQ(moved.events[0].uid, first.events[0].uid);
  EXPECT_EQ(moved.events[0].sequence, 1);
  EXPECT_NE(sheet()->id, kept->id);
}

TEST_F(KeptCalendar, TwoJobsNeverShareAUid) {
  store_.add_job("other", R"({"name":"other"})", 1, at_minute(0));
  EXPECT_NE(calendar_mark(store_, *store_.job("wall")), calendar_mark(store_, *store_.job("other")));
  EXPECT_EQ(calendar_mark(store_, *store_.job("wall")).size(), 16U);
}

TEST_F(KeptCalendar, OneThatCannotBeReadIsNotWrittenOver) {
  const auto kept = store_.put_sheet({id_, {}, "calendar", at_minute(0), "no calendar"});
  EXPECT_THROW(renew(120, 1), base::InputError);
  EXPECT_EQ(sheet()->id, kept);
}

}  // namespace
}  // namespace weatherstruck::desk
