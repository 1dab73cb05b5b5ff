#include "weatherstruck/files/day_book_json.h"

#include <gtest/gtest.h>

#include <chrono>

namespace weatherstruck::files {
namespace {

using std::chrono::sys_days;
using namespace std::chrono_literals;

TEST(DayBookJson, HoldsWhatTheSheetDoesInMomentsOfUtc) {
  const base::Instant at = sys_days(2026y / 2 / 10) + 8h;
  render::DaySheet day{
      base::LocalDay(2026y / 2 / 10), "3 °C", "", {}, {}, {}, {}, {}, {}, {}, {}, {"a note"}, {}};
  day.work.push_back({at, at + 2h, "Dig the trench", "all of it", base::Hours(1.5)});
  day.work.push_back({at + 3h, at + 3h, "Lay courses", "2 courses", std::nullopt});
  day.stopped.push_back({at, at + 30min, "rain", {{at, "rain 2.1 mm"}}});
  const Json told = day_book_json({"Day sheet", "A wall", {day}, "As forecast."});
  EXPECT_EQ(told["days"][0]["day"], "2026-02-10");
  EXPECT_EQ(told["days"][0]["work"][0]["from"], "2026-02-10T08:00:00Z");
  EXPECT_EQ(told["days"][0]["work"][0]["hours"], 1.5);
  EXPECT_FALSE(told["days"][0]["work"][1].contains("hours"));
  EXPECT_EQ(told["days"][0]["stood_down"][0]["hours"][0]["weather"], "rain 2.1 mm");
  EXPECT_EQ(told["days"][0]["notes"][0], "a note");
  EXPECT_EQ(told["known"], "As forecast.");
}

}  // namespace
}  // namespace weatherstruck::files
