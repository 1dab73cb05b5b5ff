#include "weatherstruck/files/calendar_json.h"

#include <gtest/gtest.h>

namespace weatherstruck::files {
namespace {

TEST(CalendarJson, ReadsBackAsItWasWritten) {
  const base::Instant at = std::chrono::sys_days(std::chrono::year(2026) / 2 / 9) + std::chrono::hours(8);
  render::Calendar calendar;
  int kind = 0;
  for (const bool gone : {false, true, false, true, false}) {
    const base::Instant next = at + std::chrono::hours(kind);
    calendar.events.push_back(
        {{"work/dig", static_cast<render::EventKind>(kind), next, next + std::chrono::hours(1), "Dig — é",
          kind == 0 ? "" : "note", std::chrono::minutes(5 * kind)},
         "work-dig-1.ab@weatherstruck",
         3 * kind,
         at,
         gone});
    ++kind;
  }
  EXPECT_EQ(read_calendar(calendar_to_json(calendar).dump(), "kept"), calendar);
}

TEST(CalendarJson, WhatIsNoCalendarIsRefusedWithItsPlace) {
  try {
    (void)read_calendar(R"({"schema": "weatherstruck/calendar", "version": 1, "events": [{"uid": "a"}]})",
                        "kept");
    FAIL() << "nothing was thrown";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.source(), "kept");
    EXPECT_EQ(error.faults().front().code, "missing-key");
  }
  EXPECT_THROW((void)read_calendar("", "kept"), base::InputError);
}

}  // namespace
}  // namespace weatherstruck::files
