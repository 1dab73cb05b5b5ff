#include <algorithm>
#include <ostream>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/promise_sheet.h"
#include "weatherstruck/render/why_sheet.h"

namespace weatherstruck::app {
namespace {

// Names that share a word with what was typed, else the nearest one.
std::string unknown_task(const desk::PlannedTrip& trip, const std::string& words) {
  std::vector<std::string> names;
  std::vector<std::string> alike;
  for (const works::Task& task : trip.list.tasks) {
    names.push_back(task.name);
    if (task.name.find(words) != std::string::npos) alike.push_back(task.name);
  }
  std::string text = "No task \"" + words + "\" in this job.";
  constexpr std::size_t most = 8;
  if (!alike.empty()) {
    text += " There are:";
    for (std::size_t i = 0; i < std::min(most, alike.size()); ++i)
      text += (i == 0 ? " " : ", ") + alike[i];
    if (alike.size() > most) text += ", and others";
    text += '.';
  } else if (const auto near = base::nearest_name(words, names)) {
    text += " Did you mean " + *near + "?";
  }
  return text + " Or name it by day and letter, as the plan shows it: tue-c.";
}

// A job may have a task of that name.
bool asks_for_home(const desk::PlannedTrip& trip, const std::string& words) {
  return words == "home" && trip.list.find("home") == nullptr;
}

ExitCode home(const Arguments& arguments, const Setting& setting, const desk::PlannedTrip& trip) {
  const auto promise = desk::promise(trip, arguments.seed);
  const programme::Promise* what = promise ? &*promise : nullptr;
  return answer(
      arguments, setting, [&] { return promise_answer(trip, what); },
      [&] { return render::promise_sheet(trip.facts(), what, setting.ink); });
}

}  // namespace

Command why_command() {
  return {{"why",
           "why a task is where it is, and not sooner",
           "The hours and the limit that stopped it, the person or the wait it stood behind, what it comes "
           "after, "
           "and how its days went by; then what it would gain, in hours of its own and of home, without each "
           "thing "
           "that held it or what it stood behind: each planned again by itself, and told too where it gains "
           "nothing. \"home\" in place of a task: what together forbids the promised hour, each thing needed "
           "or not "
           "settled, and the most of the work that can be home in time.",
           {{"JOB", "its name, or a file"},
            {"TASK",
             "its name, or day and letter as the plan shows it: tue-c; home: what forbids the promise, and "
             "what can "
             "be done by it instead"}},
           true,
           {{"why shed.json tue-c --forecast monday.json", "the third task of Tuesday"},
            {"why shed.json home --forecast monday.json", "when the plan is not home by the promise"}}},
          [](const Arguments& arguments) -> Run {
            return [arguments](const Setting& setting) {
              return with_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
                if (asks_for_home(trip, arguments.positionals.back())) return home(arguments, setting, trip);
                const auto task = render::find_task(trip.facts(), arguments.positionals.back());
                if (!task) {
                  setting.err << unknown_task(trip, arguments.positionals.back()) << '\n';
                  return ExitCode::usage;
                }
                const programme::Why why = desk::why(trip, *task, arguments.seed);
                return answer(
                    arguments, setting, [&] { return why_answer(trip, *task, why); },
                    [&] { return render::why_sheet(trip.facts(), *task, why, setting.ink); });
              });
            };
          }};
}

}  // namespace weatherstruck::app
