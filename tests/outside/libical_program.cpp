// Has a calendar from the standard input read by libical, and its lines looked at.
// Exit codes: 0 good, 1 not, 77 where the test was built without libical.
#include <iostream>
#include <iterator>
#include <string>

#ifdef WEATHERSTRUCK_LIBICAL
#include <libical/ical.h>

namespace {

int complain(const std::string& words) {
  std::cout << words << "\n";
  return 1;
}

}  // namespace

int main() {
  const std::string text((std::istreambuf_iterator<char>(std::cin)), std::istreambuf_iterator<char>());
  icalcomponent* calendar = icalparser_parse_string(text.c_str());
  if (calendar == nullptr) return complain("libical reads nothing");
  if (icalcomponent_count_errors(calendar) != 0) return complain("libical finds errors");
  // What each component must and must not have.
  if (icalrestriction_check(calendar) == 0) return complain("libical finds a property too many or too few");
  int events = 0;
  int alarms = 0;
  for (icalcomponent* event = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);
       event != nullptr; event = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT)) {
    ++events;
    const icaltimetype from = icalcomponent_get_dtstart(event);
    const icaltimetype to = icalcomponent_get_dtend(event);
    if (!icaltime_is_utc(from) || icaltime_compare(from, to) >= 0)
      return complain("a start that is no start");
    if (icalcomponent_get_uid(event) == nullptr || icaltime_is_null_time(icalcomponent_get_dtstamp(event)))
      return complain("an event without uid or stamp");
    if (icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT) != nullptr) ++alarms;
  }
  icalcomponent_free(calendar);
  std::cout << "libical: " << events << " events, " << alarms << " alarms\n";
  return events == 6 && alarms >= 3 ? 0 : 1;
}
#else
int main() {
  std::cout << "skipped: built without libical (on Debian: libical-dev)\n";
  return 77;
}
#endif
