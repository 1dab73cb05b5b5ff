#include <algorithm>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/render/forecast_table.h"
#include "weatherstruck/render/second_words.h"

namespace weatherstruck::app {

Command forecast_show_command() {
  return {{"forecast show",
           "the forecast over the trip, and which work it stops",
           "Three hours a line, from now or from leaving home to the promise, with marks where the source "
           "did not "
           "give a value itself. Several files are joined; hour by hour the later issue wins.",
           {{"JOB", "its name, or a file; gives the site"}},
           true,
           {{"forecast show shed.json --forecast monday.json", "what the week holds"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
              const base::Instant now = moment_of(arguments, setting, open.job);
              const desk::ForecastsAtHand forecasts = forecasts_of(arguments, setting, open, now);
              sky::Series series = desk::joined(forecasts.issues);
              for (const std::string& sentence : forecasts.remarks)
                series.notes.push_back({"at-hand", sentence});
              if (forecasts.beside) {
                const std::string beside = render::weather_beside(series, *forecasts.beside, open.job,
                                                                  std::max(now, open.job.trip.leave_home));
                if (!beside.empty()) series.notes.push_back({"beside", beside});
              }
              return answer(
                  arguments, setting, [&] { return forecast_answer(series); },
                  [&] { return render::forecast_table(open.job, open.limits, series, now, setting.ink); });
            };
          }};
}

}  // namespace weatherstruck::app
