#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"

namespace weatherstruck::app {

Command morning_command() {
  return {{"morning",
           "one sheet for the day",
           "Light, weather, tasks with their times, what to leave alone and until about when, covers and "
           "canopy, what "
           "to do if it rains, what the day needs, and what has to stand by tonight. The day is that of "
           "--now; once "
           "the working day is over, the next.",
           {{"JOB", "its name, or a file"}},
           true,
           {{"morning shed.json --forecast tuesday.json", "with the kettle on"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              return with_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
                const render::MorningFacts morning = desk::take_morning(trip);
                desk::take_turns(trip, morning);
                return answer(
                    arguments, setting, [&] { return morning_answer(trip, morning); },
                    [&] { return render::morning_sheet(trip.facts(), morning, setting.ink); });
              });
            };
          }};
}

}  // namespace weatherstruck::app
