#include <ostream>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/render/fault_list.h"

namespace weatherstruck::app {

Command job_check_command() {
  return {{"job check",
           "read a job and list everything wrong with it",
           "Every fault at once, each with its place, what stands there, what is allowed and how to put it "
           "right. "
           "Advice is shown and stops nothing.",
           {{"FILE", "the job"}},
           false,
           {{"job check shed.json", "look it over before anything else"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
              return answer(
                  arguments, setting,
                  [&] {
                    files::Json document = files::export_document("job-check");
                    document["job"] = open.job.name;
                    document["advice"] = files::faults_to_json(open.advice, open.lines);
                    return document;
                  },
                  [&] {
                    render::Page page;
                    if (!open.advice.empty()) {
                      page.text(render::advice_list(open.advice, [&](const std::string& place) {
                        return files::line_of(open.lines, place);
                      }));
                      page.gap();
                    }
                    page.text(open.source + (open.advice.empty()
                                                 ? ": no fault found."
                                                 : ": no fault found; the advice above stops nothing."));
                    return page.str();
                  });
            };
          }};
}

}  // namespace weatherstruck::app
