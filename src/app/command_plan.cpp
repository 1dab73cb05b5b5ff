#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/render/days.h"

namespace weatherstruck::app {

Command plan_command() {
  return {
      {"plan",
       "the trip day by day",
       "Each day as a course of tasks, with the sky above it and what has to be left alone below it, "
       "then the "
       "tasks with their times, the waits and the covers. Held against two checks before it is shown.",
       {{"JOB", "its name, or a file"}},
       true,
       {{"plan shed.json --forecast monday.json", "before leaving"},
        {"plan shed.json --forecast monday.json --forecast tuesday.json",
         "with the newer forecast where it reaches"}},
       {{"--schedules", "N", "plans that the search may try, 100 to 1000000; 600 if not given", false, ""},
        {"--weathers", "N",
         "possible weathers that the plan is followed through, 20 to 1000; 60 if not given", false, ""}}},
      [](const Arguments& arguments) -> Run {
        (void)budget_of(arguments);  // what is wrong with it is said before anything is done
        return [arguments](const Setting& setting) {
          return with_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
            return answer(
                arguments, setting, [&] { return plan_answer(trip); },
                [&] {
                  const auto late = desk::lateness(trip, arguments.seed);
                  return render::days_sheet(trip.facts(), setting.ink, late ? &*late : nullptr);
                });
          });
        };
      }};
}

}  // namespace weatherstruck::app
