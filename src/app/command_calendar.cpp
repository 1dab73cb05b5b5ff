#include <fmt/format.h>

#include <ostream>
#include <string>

#include "commands.h"
#include "page_file.h"
#include "trip_command.h"
#include "weatherstruck/desk/calendar_desk.h"
#include "weatherstruck/files/calendar_json.h"

namespace weatherstruck::app {
namespace {

ExitCode calendar(const Arguments& arguments, const Setting& setting) {
  return with_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
    if (!trip.open.kept) {
      throw UsageError(fmt::format(
          "A file keeps no calendar, so a later one could not move what moved. Keep the job first: "
          "weatherstruck job add {}",
          arguments.positionals.front()));
    }
    record::Store& store = setting.shelf.store();
    const auto job = store.job(trip.open.job.name);
    if (!job) throw UsageError("The job is gone from the record.");
    const render::Calendar made = desk::renew_calendar(
        store, *job, trip.kept_as, render::calendar_events(trip.facts()), trip.now, trip.open.job.site.zone);
    std::string text = render::calendar_text(made, trip.open.job.title);
    const auto path = arguments.value("--file");
    if (path) write_page(*path, text);
    return answer(
        arguments, setting, [&] { return files::calendar_to_json(made); },
        [&] {
          if (!path) return text;
          std::size_t gone = 0;
          for (const render::KeptEvent& kept : made.events)
            gone += kept.gone ? 1U : 0U;
          return fmt::format("{}: {} events, {} of them given up. Read it in again after each new plan.\n",
                             *path, made.events.size(), gone);
        });
  });
}

}  // namespace

Command calendar_command() {
  return {{"calendar",
           "the plan for a calendar, with alarms",
           "Work, covers, canopy, merchant and leaving as iCalendar. What was handed out before is followed: "
           "read "
           "in again, it moves what moved, takes out what is planned no more and shows nothing twice.",
           {{"JOB", "its name"}},
           true,
           {{"calendar shed --file shed.ics", "on a phone"}},
           {{"--file", "FILE", "write it there instead of showing it", false, ""}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) { return calendar(arguments, setting); };
          }};
}

}  // namespace weatherstruck::app
