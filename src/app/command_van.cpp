#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/desk/van_desk.h"

namespace weatherstruck::app {

Command van_command() {
  return {{"van",
           "what rides in the van, and whether it fits",
           "Kit and material in loads that keep the payload and the room of the van, and what is delivered "
           "or lies at "
           "the work.",
           {{"JOB", "its name, or a file"}},
           false,
           {{"van shed.json", "the evening before leaving"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
              const render::VanFacts facts = desk::load_van(open.job, works::bill_of(open.job));
              return answer(
                  arguments, setting, [&] { return van_answer(facts); },
                  [&] { return render::van_sheet(facts, setting.ink); });
            };
          }};
}

}  // namespace weatherstruck::app
