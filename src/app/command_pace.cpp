#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "commands.h"
#include "talk_command.h"
#include "trip_command.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/desk/pace_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/pace_json.h"
#include "weatherstruck/render/pace_sheet.h"

namespace weatherstruck::app {
namespace {

// Moments are said in the time of home, where that is known.
base::Instant moment_at_home(const Arguments& arguments, const Setting& setting) {
  const std::optional<desk::KeptMe> kept = desk::kept_me(setting.shelf, setting.zones);
  return moment_in(arguments, setting,
                   kept ? kept->document.me.home_zone : base::Zone::fixed("UTC", std::chrono::seconds(0)));
}

ExitCode pace(const Arguments& arguments, const Setting& setting) {
  const base::Instant now = moment_at_home(arguments, setting);
  const std::string work = arguments.positionals.empty() ? "" : arguments.positionals.front();
  if (arguments.has("--forget")) {
    desk::forget_pace(setting.shelf.store(), setting.zones, work, now);
    setting.out << (work.empty() ? "Kept: what was logged until now counts for no pace any more.\n"
                                 : "Kept: what was logged of " + work + " until now counts no more.\n");
    return ExitCode::ok;
  }
  std::vector<works::LearntPace> learnt = desk::own_paces(setting.shelf.store(), setting.zones, now);
  if (!work.empty()) {
    const trade::Operation wanted = desk::work_of(work);
    learnt.erase(std::remove_if(learnt.begin(), learnt.end(),
                                [&](const works::LearntPace& one) { return one.operation != wanted; }),
                 learnt.end());
  }
  return answer(
      arguments, setting,
      [&] {
        files::Json document = files::export_document("own-pace");
        document["paces"] = files::paces_json(learnt);
        return document;
      },
      [&] { return render::pace_sheet(learnt, setting.ink); });
}

}  // namespace

Command pace_command() {
  return {{"pace",
           "what you get done in an hour, by your own site book",
           "The norms as your logged amounts and hours have moved them, by kind of work, with how many tasks "
           "that is from and how far the next may stray. Plans of kept jobs go by it, with what was logged "
           "before the trip. A job that sets the hours of a kind of work itself keeps them.",
           {{"WORK", "such as lay-facing", Positional::Kind::optional}},
           false,
           {{"pace", "all that is known"},
            {"pace lay-facing --forget", "new bricks, another trowel: begin again from the norm"}},
           {{"--forget", "", "what was logged until now counts no more, of that work or of all", false, ""}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) { return pace(arguments, setting); };
          }};
}

}  // namespace weatherstruck::app
