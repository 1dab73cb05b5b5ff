#include <fmt/format.h>

#include <ostream>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/files/export.h"

namespace weatherstruck::app {

Command job_add_command() {
  return {
      {"job add",
       "keep a job from a file under its name",
       "From then on the name stands for it: its site book, forecasts and plans are kept with it. Nothing "
       "is kept of a document with a fault in it.",
       {{"FILE", "the job document"}},
       false,
       {{"job add shed.json", "once it is complete"},
        {"job add shed.json --replace", "after a change in the document; the site book stays"}},
       {{"--replace", "", "put it in the place of the kept job of that name", false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) {
          const desk::OpenJob read = desk::open_job(arguments.positionals.front(), setting.zones);
          const base::Instant now = moment_of(arguments, setting, read.job);
          const bool there = setting.shelf.store().job(read.job.name).has_value();
          const desk::OpenJob kept =
              there && arguments.has("--replace")
                  ? setting.shelf.replace(read.job.name, read.document, setting.zones, now)
                  : setting.shelf.add(read.document, read.source, setting.zones, now);
          return answer(
              arguments, setting,
              [&] {
                files::Json document = files::export_document("job-kept");
                document["job"] = kept.job.name;
                document["version"] = kept.kept->version;
                return document;
              },
              [&] {
                render::Page page(setting.ink);
                page.text(fmt::format("Kept as \"{}\"{}. Next: weatherstruck plan {}", kept.job.name,
                                      there ? fmt::format(", version {}", kept.kept->version) : "",
                                      kept.job.name));
                return page.str();
              });
        };
      }};
}

}  // namespace weatherstruck::app
