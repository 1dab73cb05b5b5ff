#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/render/light_table.h"

namespace weatherstruck::app {

Command light_command() {
  return {{"light",
           "first light, sunrise, sunset and last light of the trip",
           "For each day of the trip at the site, in the site's time, with the hours of the working day that "
           "have "
           "light to work by.",
           {{"JOB", "its name, or a file"}},
           false,
           {{"light shed.json", "how long the days are"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
              const std::vector<render::LightDay> days = render::light_days(open.job);
              return answer(
                  arguments, setting, [&] { return light_answer(open.job, days); },
                  [&] { return render::light_table(open.job, days, setting.ink); });
            };
          }};
}

}  // namespace weatherstruck::app
