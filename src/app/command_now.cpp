#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/render/now_sheet.h"

namespace weatherstruck::app {

Command now_command() {
  return {
      {"now",
       "from this minute: what is under way, what comes next, what if it turns",
       "At most fifteen lines: the work at hand, the next, the light and the dry hours that are left, and "
       "what to do instead if it rains, blows or gets late.",
       {{"JOB", "its name, or a file"}},
       true,
       {{"now shed --offline", "drizzle, and two hours of light"}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) {
          return with_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
            const render::MorningFacts morning = desk::take_morning(trip);
            desk::take_turns(trip, morning);
            return answer(
                arguments, setting, [&] { return morning_answer(trip, morning); },
                [&] { return render::now_sheet(trip.facts(), setting.ink); });
          });
        };
      }};
}

}  // namespace weatherstruck::app
