#include <fmt/format.h>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/when_desk.h"
#include "weatherstruck/files/departures_json.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/render/when_sheet.h"

namespace weatherstruck::app {
namespace {

std::optional<base::LocalDay> day_of(const Arguments& arguments, const std::string& option) {
  const auto text = arguments.value(option);
  if (!text) return std::nullopt;
  const auto day = base::parse_iso_day(*text);
  if (!day) throw UsageError(fmt::format("{}: \"{}\" is no day. Write it like 2027-03-01.", option, *text));
  return day;
}

int every_of(const Arguments& arguments) {
  const auto text = arguments.value("--every");
  if (!text) return 14;
  const auto number = base::parse_number(*text);
  if (!number || *number < 1 || *number > 60 || *number != static_cast<int>(*number))
    throw UsageError(fmt::format("--every: \"{}\" is no number of days. Give 1 to 60.", *text));
  return static_cast<int>(*number);
}

files::Json when_answer(const desk::OpenJob& open, const desk::When& when) {
  files::Json out = files::export_document("when");
  out["job"] = open.job.name;
  out["region"] = when.past.region;
  out["kilometres"] = when.past.kilometres;
  out["first_year"] = when.past.first_year;
  out["last_year"] = when.past.last_year;
  out["attribution"] = when.past.attribution;
  out["departures"] = files::departures_json(when.departures);
  return out;
}

}  // namespace

Command when_command() {
  return {{"when",
           "when to go: days to set off, ranked by the weather of past years",
           "Sets the job's trip off every fortnight of a year, each in the weather that those days had in "
           "every past year that is kept, and ranks them by how often he would have been home in time with "
           "nothing to make good. Years are brought in once, from an hourly history as CSV, and kept.",
           {{"JOB", "its name, or a file"}},
           false,
           {{"when shed --past station.csv", "the first time"},
            {"when shed --from 2027-03-01 --to 2027-06-30 --every 7", "once years are kept"}},
           {{"--past", "FILE", "an hourly history to bring in; may be given again", true, ""},
            {"--from", "DATE", "first day to set off; else the job's weekday from tomorrow on", false, ""},
            {"--to", "DATE", "last day to set off; else a year from the first", false, ""},
            {"--every", "DAYS", "from one departure to the next; 14 if not given", false, ""}}},
          [](const Arguments& arguments) -> Run {
            desk::WhenAsk ask;
            const auto files = arguments.options.find("--past");
            if (files != arguments.options.end()) ask.files = files->second;
            ask.from = day_of(arguments, "--from");
            ask.to = day_of(arguments, "--to");
            ask.every = every_of(arguments);
            return [arguments, ask](const Setting& setting) {
              const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
              const base::Instant now = moment_of(arguments, setting, open.job);
              const desk::When when = desk::when_to_go(
                  setting.shelf, open, ask, now, {arguments.seed, setting.version, setting.zones.version()});
              return answer(
                  arguments, setting, [&] { return when_answer(open, when); },
                  [&] {
                    return render::when_sheet(
                        {open.job, when.departures, when.past.region, when.past.kilometres,
                         when.past.first_year, when.past.last_year, when.past.attribution, when.brought},
                        setting.ink);
                  });
            };
          }};
}

}  // namespace weatherstruck::app
