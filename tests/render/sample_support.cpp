#include <algorithm>
#include <sstream>

#include "render/sample.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::render::sample {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

works::Job job() {
  const base::Zone zone = base::Zone::fixed("Site/Fixed", std::chrono::seconds(0));
  works::Job job{
      "two-days",
      "A wall by the lane",
      {},
      {52.0, -3.0, std::nullopt, zone, trade::Soil::garden, {}, {}},
      {at(9, 6), at(10, 20), base::Hours(1), base::Hours(1), zone, {hours(7), hours(19)}, base::Hours(11)},
      {{"mason", true, 1.0}},
      {},
      {},
      {},
      {},
      {},
      {},
      {},
      {},
      {}};
  job.kit.canopy = works::Canopy{base::Metres(3), base::Metres(3)};
  return job;
}

works::Task task(const char* name, const char* title, trade::Operation operation, double amount,
                 const char* unit) {
  works::Task task;
  task.name = name;
  task.title = title;
  task.of = "wall";
  task.operation = operation;
  task.amount = amount;
  task.unit = unit;
  task.hours = base::Hours(2);
  task.why = "It is needed.";
  return task;
}

works::TaskList list() {
  works::TaskList list;
  list.tasks.push_back(task("drive-out", "Drive to the site", trade::Operation::drive, 1, "hours"));
  list.tasks.back().of.clear();
  list.tasks.back().outdoors = false;
  list.tasks.push_back(
      task("wall-dig", "Dig the trench of the wall (0.5 m3)", trade::Operation::dig, 0.5, "m3"));
  list.tasks.push_back(
      task("wall-pour", "Pour the footing of the wall (0.3 m3, 4 mixes)", trade::Operation::pour, 0.3, "m3"));
  list.tasks.back().part = "wall-footing";
  list.tasks.back().fresh = works::FreshWork{};
  list.tasks.back().materials = {{"cement", 90}, {"sharp-sand", 0.15}};
  list.tasks.push_back(
      task("wall-lay", "Lay the wall (120 facing bricks)", trade::Operation::lay_facing, 120, "bricks"));
  list.tasks.back().courses = std::vector<double>(6, 20.0);
  list.tasks.back().materials = {{"facing-brick", 126}, {"building-sand", 0.08}, {"cement", 18}};
  list.tasks.push_back(task("drive-back", "Drive home", trade::Operation::drive, 1, "hours"));
  list.tasks.back().of.clear();
  list.tasks.back().outdoors = false;
  list.links.push_back({"wall-pour", "wall-lay", works::Link::Kind::finish_start,
                        works::Wait::concrete_to_lay, base::Hours(0), "The concrete must bear the bricks."});
  return list;
}

sky::Series series() {
  sky::Series series;
  series.source = "Hand";
  series.issued = at(9, 3);
  for (base::Instant t = at(9, 0); t < at(11, 0); t += hours(1)) {
    sky::Hour hour;
    hour.start = t;
    const bool night = t >= at(10, 0) && t < at(10, 6);
    hour.temperature = {base::Celsius(night ? -1 : 6)};
    hour.wind = {base::MetresPerSecond(4)};
    hour.gust = {base::MetresPerSecond(t >= at(10, 16) ? 12 : 8), sky::Origin::derived};
    hour.rain = {base::Millimetres(t == at(9, 11) ? 0.4 : t == at(9, 12) ? 2.5 : 0)};
    hour.cloud = {base::Fraction(0.5)};
    series.hours.push_back(hour);
  }
  return series;
}

programme::PlannedTask placed(const char* name, std::vector<programme::PlannedRun> runs) {
  programme::PlannedTask task;
  task.task = name;
  task.runs = std::move(runs);
  return task;
}

programme::PlannedRun run(base::Instant from, base::Instant to, double share, int courses = 0) {
  programme::PlannedRun run;
  run.span = {from, to};
  run.share = share;
  run.courses_after = courses;
  return run;
}

programme::Plan plan() {
  programme::Plan plan;
  plan.tasks.push_back(placed("drive-out", {run(at(9, 6), at(9, 7), 1)}));
  plan.tasks.push_back(
      placed("wall-dig", {run(at(9, 7, 5), at(9, 9), 0.6), run(at(9, 9, 30), at(9, 10, 40), 0.4)}));
  plan.tasks.push_back(placed("wall-pour", {run(at(9, 14), at(9, 15, 25), 1)}));
  plan.tasks.push_back(
      placed("wall-lay", {run(at(9, 18), at(9, 18, 30), 0.5, 3), run(at(10, 9), at(10, 11), 0.5, 6)}));
  plan.tasks[3].runs[0].floodlit = true;
  plan.tasks[3].runs[1].under_canopy = true;
  plan.tasks[3].reasons = {{{at(9, 15, 25), at(10, 9)}, "wait", "waits for: Pour the footing of the wall"}};
  plan.tasks.push_back(placed("drive-back", {run(at(10, 12), at(10, 13), 1)}));
  plan.waits.push_back({"wall-footing",
                        "wall-footing",
                        "wall-lay",
                        works::Wait::concrete_to_lay,
                        {at(9, 15, 25), at(10, 8, 50)}});
  plan.covers.push_back({"wall-footing",
                         "the footing of the wall",
                         true,
                         trade::CoverKind::hessian_and_sheet,
                         base::SquareMetres(2),
                         {at(9, 15, 25), at(10, 8, 50)},
                         false});
  plan.canopy.push_back({"wall", at(10, 8, 50), {at(10, 9), at(10, 11)}, at(10, 11, 10)});
  plan.horizon_from = at(9, 6);
  plan.horizon_to = at(12, 0);
  plan.forecast_until = at(11, 0);
  plan.leaves_site = at(10, 12);
  plan.home = at(10, 13);
  plan.in_hand = hours(7);
  return plan;
}

}  // namespace

base::Instant at(int day, int hour, int minute) {
  const std::chrono::sys_days date(std::chrono::year(2026) / std::chrono::February /
                                   std::chrono::day(static_cast<unsigned>(day)));
  return date + hours(hour) + minutes(minute);
}

Trip trip() {
  return {job(), list(), series(), trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values,
          plan()};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  return lines;
}

std::size_t widest(const std::string& text) {
  std::size_t most = 0;
  for (const std::string& line : lines_of(text))
    most = std::max(most, base::display_width(line));
  return most;
}

}  // namespace weatherstruck::render::sample
