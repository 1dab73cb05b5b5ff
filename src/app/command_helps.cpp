#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/render/helps_sheet.h"

namespace weatherstruck::app {

Command helps_command() {
  return {
      {"helps",
       "what would make it surer to be home in time",
       "Before the trip: plans it again with one thing changed at a time (lights, a canopy, a labourer, "
       "longer days, mats, the delivery on arrival, a day sooner, without a part), follows each plan "
       "through the same weathers that may come of the forecast, and tells which change makes it surer to "
       "be home in time with nothing to make good, and by how much.",
       {{"JOB", "its name, or a file"}},
       true,
       {{"helps shed.json --forecast monday.json", "before leaving"}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) {
          return with_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
            const auto helps = desk::helps(trip, arguments.seed);
            if (!helps)
              throw UsageError(
                  "The trip has begun, and what is done cannot be planned otherwise. \"weatherstruck "
                  "morning\" "
                  "says what the day's turns ask for; --now asks for an earlier moment.");
            return answer(
                arguments, setting, [&] { return helps_answer(trip, *helps); },
                [&] { return render::helps_sheet(trip.facts(), *helps, setting.ink); });
          });
        };
      }};
}

}  // namespace weatherstruck::app
