#include <ostream>

#include "commands.h"
#include "talk_command.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/job_writer.h"
#include "weatherstruck/render/job_recap.h"
#include "weatherstruck/works/turn.h"

namespace weatherstruck::app {
namespace {

files::Json take_json(const works::PartTake& take) {
  files::Json out = files::Json::object();
  out["bricks"] = take.bricks;
  out["steps"] = take.steps();
  out["concrete_m3"] = take.concrete.value();
  out["trench_m3"] = take.trench.value();
  out["runs"] = files::Json::array();
  for (const works::RunTake& run : take.runs)
    out["runs"].push_back({{"name", run.name}, {"courses", run.courses}, {"steps", run.steps}});
  return out;
}

works::Quarter way_of(const Arguments& arguments) {
  if (arguments.positionals.size() < 3 || arguments.positionals[2] == "right") return works::Quarter::right;
  if (arguments.positionals[2] == "left") return works::Quarter::left;
  throw UsageError("\"job turn\": found \"" + arguments.positionals[2] + "\"; allowed: left or right.");
}

ExitCode turn_it(const Arguments& arguments, works::Quarter quarter, const Setting& setting) {
  const std::string& job = arguments.positionals[0];
  const std::string& part = arguments.positionals[1];
  if (desk::is_path(job))
    throw UsageError("job turn changes a kept job. \"job add " + job + "\" keeps the one in the file.");
  const desk::OpenJob open = setting.shelf.open(job, setting.zones);
  auto outcome = works::turn(open.job, part, quarter);
  if (auto* fault = std::get_if<base::Fault>(&outcome)) throw base::InputError(job, {std::move(*fault)});
  const auto& turned = std::get<works::Turned>(outcome);
  (void)setting.shelf.replace(job, files::write_job(turned.job), setting.zones,
                              moment_in(arguments, setting, open.job.site.zone));
  if (arguments.json) {
    files::Json document = files::export_document("job-turn");
    document["job"] = open.job.name;
    document["part"] = part;
    document["before"] = take_json(turned.before);
    document["after"] = take_json(turned.after);
    setting.out << files::export_text(document);
  } else {
    setting.out << render::turn_sheet(turned, open.job, part)
                << "\nKept. Turning it the other way undoes it.\n";
  }
  return ExitCode::ok;
}

}  // namespace

Command job_turn_command() {
  return {
      {"job turn",
       "turn a base or a bed by a quarter",
       "Length, width and door turn; the ground stays as it lies, and its falls go with the sides they lie "
       "along now. Says what that changes in courses, bricks and steps of the footings. Comments in the "
       "job's document are lost.",
       {{"JOB", "a kept job"},
        {"PART", "a base, or a bed built on all four sides"},
        {"WAY", "right (clockwise, if nothing is said) or left", Positional::Kind::optional}},
       false,
       {{"job turn valley-shelter shelter left", "the long side up the slope"}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) { return turn_it(arguments, way_of(arguments), setting); };
      }};
}

}  // namespace weatherstruck::app
