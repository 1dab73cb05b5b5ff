#pragma once
// The plan as a calendar (RFC 5545): work, covers, canopy, merchant, leaving, with alarms for what cannot
// wait. A calendar that was handed out before is renewed, so that a programme which reads both moves what
// moved instead of showing it twice.
#include <chrono>
#include <string>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

enum class EventKind { work, cover, canopy, merchant, leaving };
/// "work", "cover", "canopy", "merchant", "leaving".
[[nodiscard]] std::string_view word_of(EventKind kind);

struct CalendarEvent {
  std::string key;  ///< what it is about, the same whenever: "work/shelter-north-lay"
  EventKind kind = EventKind::work;
  base::Instant from;
  base::Instant to;  ///< after `from`
  std::string title;
  std::string note;               ///< may be empty
  std::chrono::minutes alarm{0};  ///< so long before `from`; 0: none
  friend bool operator==(const CalendarEvent&, const CalendarEvent&) = default;
};

/// What of the plan ends after `facts.now`, by start.
[[nodiscard]] std::vector<CalendarEvent> calendar_events(const TripFacts& facts);

/// An event with what makes it the same one in every calendar.
struct KeptEvent {
  CalendarEvent event;
  std::string uid;      ///< unlike every other in the world
  int sequence = 0;     ///< how often it was changed
  base::Instant stamp;  ///< when it last was
  bool gone = false;    ///< planned no more; readers take it out
  friend bool operator==(const KeptEvent&, const KeptEvent&) = default;
};
struct Calendar {
  std::vector<KeptEvent> events;  ///< by start, then by uid
  friend bool operator==(const Calendar&, const Calendar&) = default;
};

/// The calendar that follows: an event is matched with one of the same key, of the same moment, else of the
/// same day, else in order. One that is the same is left as it is; one that changed keeps its uid and has its
/// sequence raised; one that is planned no more is marked so. What was over by `now` stays as it was planned.
/// @param mark of the job, put into each uid
[[nodiscard]] Calendar renewed(const Calendar& before, const std::vector<CalendarEvent>& events,
                               base::Instant now, const std::string& mark, const base::Zone& zone);

/// iCalendar in UTF-8: times in UTC, so that no change of the clocks can be misread; lines of at most 75
/// octets, no character cut, ended by CR LF.
/// @param title of the whole, such as the job's
[[nodiscard]] std::string calendar_text(const Calendar& calendar, const std::string& title);

}  // namespace weatherstruck::render
