#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/render/quantities_sheet.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::app {

Command quantities_command() {
  return {{"quantities",
           "what the job takes: what to buy, mixes, soil",
           "Each material net, with its waste, in whole packs, with what will be left over and its mass; the "
           "bricks of each wall course by course, to the brick; concrete and mortar in mixes, bags and gauge "
           "boxes; what lies at the work against what is needed and, where bricks run short, what to build "
           "otherwise; the soil that comes out; and which part wants what.",
           {{"JOB", "its name, or a file"}},
           false,
           {{"quantities shed.json", "before ordering"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
              const works::Bill bill = works::bill_of(open.job);
              return answer(
                  arguments, setting, [&] { return quantities_answer(open.job, bill); },
                  [&] { return render::quantities_sheet(open.job, bill, setting.ink); });
            };
          }};
}

}  // namespace weatherstruck::app
