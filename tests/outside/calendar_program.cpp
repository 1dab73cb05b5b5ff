// Prints a calendar for readers that are not ours, then the one that followed it after a new plan.
// usage: outside_calendar_program first|second
#include <iostream>
#include <string>
#include <vector>

#include "weatherstruck/render/calendar.h"

namespace {

using namespace weatherstruck;
using render::CalendarEvent;
using render::EventKind;
using std::chrono::hours;
using std::chrono::minutes;

base::Instant at(int month, int day, int hour) {
  return std::chrono::sys_days(std::chrono::year(2026) / month / day) + hours(hour);
}

// Two days with the change of the clocks in London between them, words that have to be escaped and folded.
std::vector<CalendarEvent> events(int lay_at) {
  return {{"work/dig", EventKind::work, at(3, 28, 8), at(3, 28, 11), "Dig the footings; 0.9 m3, by hand",
           "Ty'r Odyn — the ground is wet, so the spoil goes on boards und zwar über Bohlen, "
           "木の板の上に置く, \\ and "
           "not on the grass",
           minutes(0)},
          {"work/lay", EventKind::work, at(3, 29, lay_at), at(3, 29, lay_at + 3), "Lay the dwarf wall", "",
           minutes(0)},
          {"cover/wall", EventKind::cover, at(3, 29, 15), at(3, 29, 16),
           "Cover the wall: hessian under sheet", "2.4 m2", minutes(20)},
          {"canopy/wall", EventKind::canopy, at(3, 29, 6), at(3, 29, 7), "Pitch the canopy over the wall", "",
           minutes(20)},
          {"merchant/sand", EventKind::merchant, at(3, 28, 12), at(3, 28, 13), "Fetch sand", "", minutes(30)},
          {"leave", EventKind::leaving, at(3, 29, 17), at(3, 29, 20), "Leave for home", "", minutes(60)}};
}

}  // namespace

int main(int count, char** words) {
  const std::string wanted = count == 2 ? words[1] : "";
  if (wanted != "first" && wanted != "second") {
    std::cerr << "usage: outside_calendar_program first|second\n";
    return 2;
  }
  const base::Zone zone("Europe/London", std::chrono::seconds(0), "GMT", {{at(3, 29, 1), hours(1), "BST"}});
  const std::string mark = "00c0ffee";
  render::Calendar calendar = render::renewed({}, events(8), at(3, 27, 18), mark, zone);
  if (wanted == "second") {
    std::vector<CalendarEvent> later = events(10);
    later.erase(later.begin() + 4);  // the sand came by itself
    calendar = render::renewed(calendar, later, at(3, 27, 20), mark, zone);
  }
  std::cout << render::calendar_text(calendar, "A wall by the lane");
  return 0;
}
