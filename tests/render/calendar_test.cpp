#include "weatherstruck/render/calendar.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

namespace weatherstruck::render {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

// London in 2026: an hour on at 01:00 UTC on 29 March.
base::Instant at(int month, int day, int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year(2026) / month / day) + hours(hour) + minutes(minute);
}
base::Zone london() {
  return {"Europe/London", std::chrono::seconds(0), "GMT", {{at(3, 29, 1), hours(1), "BST"}}};
}

CalendarEvent work(std::string key, base::Instant from, int length = 2) {
  return {"work/" + key, EventKind::work, from, from + hours(length), "Do the " + key, "", minutes(0)};
}

Calendar next(const Calendar& before, const std::vector<CalendarEvent>& events, base::Instant now) {
  return renewed(before, events, now, "0123", london());
}

/// "uid sequence", a gone one with a dash behind it.
std::vector<std::string> marks(const Calendar& calendar) {
  std::vector<std::string> out;
  for (const KeptEvent& kept : calendar.events) {
    out.push_back(kept.uid.substr(0, kept.uid.find('.')) + " " + std::to_string(kept.sequence) +
                  (kept.gone ? " -" : ""));
  }
  return out;
}

TEST(Calendar, APlanThatIsTheSameLeavesEverythingAsItIs) {
  const std::vector<CalendarEvent> events{work("dig", at(2, 9, 8)), work("lay", at(2, 10, 8)),
                                          work("lay", at(2, 11, 8))};
  const Calendar first = next({}, events, at(2, 8, 12));
  EXPECT_THAT(marks(first), ElementsAre("work-dig-1 0", "work-lay-1 0", "work-lay-2 0"));
  const Calendar again = next(first, events, at(2, 8, 18));
  EXPECT_EQ(again, first);
  EXPECT_EQ(calendar_text(again, "A wall"), calendar_text(first, "A wall"));
}

TEST(Calendar, OnlyWhatMovedChangesAndNothingIsDoubled) {
  const Calendar first = next(
      {}, {work("dig", at(2, 9, 8)), work("lay", at(2, 10, 8)), work("lay", at(2, 11, 8))}, at(2, 8, 12));
  // The first day's laying slips by an hour; the second stays.
  const Calendar moved = next(
      first, {work("dig", at(2, 9, 8)), work("lay", at(2, 10, 9)), work("lay", at(2, 11, 8))}, at(2, 8, 20));
  EXPECT_THAT(marks(moved), ElementsAre("work-dig-1 0", "work-lay-1 1", "work-lay-2 0"));
  EXPECT_EQ(moved.events[0], first.events[0]);
  EXPECT_EQ(moved.events[2], first.events[2]);
  EXPECT_EQ(moved.events[1].stamp, at(2, 8, 20));
  // It slips by a day: the one uid follows.
  const Calendar later = next(
      moved, {work("dig", at(2, 9, 8)), work("lay", at(2, 11, 8)), work("lay", at(2, 12, 8))}, at(2, 8, 21));
  EXPECT_THAT(marks(later), ElementsAre("work-dig-1 0", "work-lay-2 0", "work-lay-1 2"));
}

TEST(Calendar, WhatIsPlannedNoMoreIsTakenOutAndComesBackAsTheSame) {
  const Calendar first = next({}, {work("dig", at(2, 9, 8)), work("bed", at(2, 10, 8))}, at(2, 8, 12));
  const Calendar without = next(first, {work("dig", at(2, 9, 8))}, at(2, 8, 13));
  EXPECT_THAT(marks(without), ElementsAre("work-dig-1 0", "work-bed-1 1 -"));
  EXPECT_EQ(next(without, {work("dig", at(2, 9, 8))}, at(2, 8, 14)), without) << "once is enough";
  const Calendar back = next(without, {work("dig", at(2, 9, 8)), work("bed", at(2, 10, 8))}, at(2, 8, 15));
  EXPECT_THAT(marks(back), ElementsAre("work-dig-1 0", "work-bed-1 2"));
}

TEST(Calendar, WhatIsOverStaysAsItWasPlanned) {
  const Calendar first = next({}, {work("lay", at(2, 9, 8)), work("lay", at(2, 10, 8))}, at(2, 8, 12));
  // On the second morning what is left is another stretch of the same task.
  const Calendar second = next(first, {work("lay", at(2, 10, 9)), work("lay", at(2, 11, 8))}, at(2, 10, 6));
  EXPECT_THAT(marks(second), ElementsAre("work-lay-1 0", "work-lay-2 1", "work-lay-3 0"));
}

TEST(Calendar, TimesAreInUtcAndSoRightWhenTheClocksChange) {
  // 08:00 by the clock on both days: 08:00 UTC on the 28th, 07:00 on the 29th.
  const Calendar made = next({}, {work("a", at(3, 28, 8)), work("b", at(3, 29, 7))}, at(3, 27, 12));
  const std::string text = calendar_text(made, "A wall");
  EXPECT_THAT(text, HasSubstr("DTSTART:20260328T080000Z\r\nDTEND:20260328T100000Z\r\n"));
  EXPECT_THAT(text, HasSubstr("DTSTART:20260329T070000Z\r\nDTEND:20260329T090000Z\r\n"));
  EXPECT_THAT(text, HasSubstr("DTSTAMP:20260327T120000Z\r\n"));
}

TEST(Calendar, AlarmsStandBeforeWhatCannotWaitAndWentWithWhatIsGone) {
  CalendarEvent cover = work("wall", at(2, 9, 17));
  cover.kind = EventKind::cover;
  cover.alarm = minutes(20);
  const Calendar made = next({}, {cover}, at(2, 9, 6));
  EXPECT_THAT(
      calendar_text(made, "A wall"),
      HasSubstr("BEGIN:VALARM\r\nACTION:DISPLAY\r\nTRIGGER:-PT20M\r\nDESCRIPTION:Do the wall\r\nEND:VALARM"));
  const std::string gone = calendar_text(next(made, {}, at(2, 9, 7)), "A wall");
  EXPECT_THAT(gone, Not(HasSubstr("VALARM")));
  EXPECT_THAT(gone, HasSubstr("STATUS:CANCELLED"));
  EXPECT_THAT(gone, HasSubstr("SEQUENCE:1"));
}

/// The lines put together again, as RFC 5545 section 3.1 has it.
std::string unfolded(std::string text) {
  for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ", at))
    text.erase(at, 3);
  return text;
}

// No line over 75 octets, none begins or ends within a character, and nothing is lost.
RC_GTEST_PROP(Calendar, FoldsNoCharacterInTwo, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>("a", " ", "é", "ß", "木", "🧱", "x;y", "long word ", "\\"));
  CalendarEvent event = work("wall", at(2, 9, 8));
  event.title = "T";
  for (const std::string& piece : pieces)
    event.title += piece;
  const std::string text = calendar_text(next({}, {event}, at(2, 8, 8)), "A wall");
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = text.find("\r\n", from);
    RC_ASSERT(to != std::string::npos);
    RC_ASSERT(to - from <= 75U);
    const std::size_t first = text[from] == ' ' ? from + 1 : from;
    RC_ASSERT((static_cast<unsigned char>(text[first]) & 0xC0U) != 0x80U);
    from = to + 2;
  }
  std::string escaped;
  for (const char c : event.title) {
    if (c == ';' || c == '\\' || c == ',') escaped += '\\';
    escaped += c;
  }
  RC_ASSERT(unfolded(text).find("SUMMARY:" + escaped + "\r\n") != std::string::npos);
}

TEST(Calendar, LineBreaksAreWrittenAndOtherControlCharactersDropped) {
  CalendarEvent event = work("wall", at(2, 9, 8));
  event.note = "one\ntwo\x07, three";
  EXPECT_THAT(calendar_text(next({}, {event}, at(2, 8, 8)), "A wall"),
              HasSubstr("DESCRIPTION:one\\ntwo\\, three\r\n"));
}

}  // namespace
}  // namespace weatherstruck::render
