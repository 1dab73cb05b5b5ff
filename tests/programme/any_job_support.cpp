#include <algorithm>
#include <cmath>
#include <random>

#include <fmt/format.h>

#include "programme/any_job.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/programme/site_check.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/works/check.h"
#include "weatherstruck/works/task_list.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

using base::Hours;
using base::Metres;

/// Draws that are the same with every library: no distribution of the standard's.
class Draw {
 public:
  explicit Draw(unsigned seed) : source_(seed) {}
  int whole(int from, int to) {  // both ends in
    return from + static_cast<int>(source_() % static_cast<unsigned>(to - from + 1));
  }
  double number(double from, double to) {
    return from + (to - from) * static_cast<double>(source_() % 10001U) / 10000.0;
  }
  bool chance(int percent) { return whole(1, 100) <= percent; }
  /// To centimetres, as sizes are given.
  Metres size(double from, double to) { return Metres(std::round(number(from, to) * 100) / 100); }

 private:
  std::mt19937 source_;
};

works::Base a_base(Draw& draw) {
  works::Base made;
  made.name = "store";
  made.length = draw.size(1.6, 4);
  made.width = draw.size(1.4, 3);
  if (draw.chance(50)) made.drop_along_length = draw.size(-0.3, 0.3);
  if (draw.chance(30)) made.drop_along_width = draw.size(-0.2, 0.2);
  made.courses_below = draw.whole(1, 4);
  made.courses = made.courses_below + draw.whole(2, 8);
  if (draw.chance(60)) made.door_side = static_cast<works::Side>(draw.whole(0, 3));
  made.door_width = draw.size(0.6, 0.9);
  made.footing_width = draw.size(0.4, 0.6);
  made.footing_thickness = draw.size(0.15, 0.225);
  made.footing_depth = made.footing_thickness + draw.size(0.15, 0.35);
  made.joints = static_cast<trade::JointFinish>(draw.whole(0, 2));
  made.plates = draw.chance(70);
  return made;
}

works::Bed a_bed(Draw& draw) {
  works::Bed made;
  made.name = "bed";
  made.length = draw.size(1.2, 4);
  made.width = draw.size(0.6, 1.5);
  made.courses = draw.whole(2, 9);
  made.sides = draw.whole(2, 4);
  if (draw.chance(40)) made.drop = draw.size(0, 0.3);
  made.joints = static_cast<trade::JointFinish>(draw.whole(0, 2));
  made.filled = draw.chance(80);
  return made;
}

void add_parts(Draw& draw, works::Job& job) {
  if (draw.chance(60)) job.parts.emplace_back(a_base(draw));
  if (draw.chance(50)) job.parts.emplace_back(a_bed(draw));
  if (draw.chance(40)) {
    works::Steps steps;
    steps.name = "steps";
    steps.count = draw.whole(1, 5);
    steps.width = draw.size(0.6, 1.5);
    job.parts.emplace_back(steps);
  }
  if (draw.chance(40)) {
    works::Path path;
    path.name = "path";
    path.length = draw.size(2, 12);
    path.width = draw.size(0.6, 1.2);
    path.surface = draw.chance(60) ? trade::Surface::flags : trade::Surface::gravel;
    job.parts.emplace_back(path);
  }
  if (draw.chance(30) || job.parts.empty()) {
    works::Box box;
    box.name = "box";
    box.length = draw.size(0.6, 2);
    box.width = draw.size(0.5, 1);
    box.courses = draw.whole(1, 4);
    job.parts.emplace_back(box);
  }
  for (const works::Part& part : job.parts) {
    if (draw.chance(30)) {
      job.importance.push_back(
          {works::name_of(part), draw.chance(50) ? works::Importance::should : works::Importance::may});
    }
  }
}

works::Job a_job(Draw& draw) {
  using namespace std::chrono_literals;
  works::Job job = works::demo_job();
  job.name = "any";
  job.parts.clear();
  job.importance.clear();
  job.fallbacks.clear();
  job.supplies.deliveries.clear();
  job.site.routes.front().shut_by.clear();
  job.site.latitude = draw.number(40, 57);
  job.site.soil = static_cast<trade::Soil>(draw.whole(0, 4));
  add_parts(draw, job);
  const int month = draw.whole(1, 12);
  const auto day = std::chrono::sys_days(
      std::chrono::year(2026) / std::chrono::month(static_cast<unsigned>(month)) / draw.whole(1, 28));
  job.trip.leave_home = day + std::chrono::hours(draw.whole(4, 9));
  job.trip.home_by = day + std::chrono::days(draw.whole(2, 5)) + std::chrono::hours(draw.whole(14, 21));
  job.trip.drive_out = job.trip.drive_back = Hours(draw.whole(1, 20) / 4.0);
  job.trip.working_day = {std::chrono::hours(draw.whole(6, 8)), std::chrono::hours(draw.whole(17, 22))};
  job.trip.longest_day = Hours(draw.whole(8, 14));
  job.crew = {{"mason", true, draw.number(0.7, 1.4)}};
  if (draw.chance(25)) job.crew.push_back({"mate", draw.chance(40), draw.number(0.6, 1.1)});
  job.kit.hessian = base::SquareMetres(draw.chance(70) ? draw.whole(5, 30) : 0);
  job.kit.sheet = base::SquareMetres(draw.chance(70) ? draw.whole(5, 40) : 0);
  job.kit.mats = base::SquareMetres(draw.chance(30) ? draw.whole(5, 15) : 0);
  if (draw.chance(50)) job.kit.canopy.reset();
  job.kit.floodlights = draw.chance(50);
  job.limits.set = draw.chance(70) ? trade::LimitSet::uk : trade::LimitSet::us;
  job.limits.cold_rule = static_cast<trade::ColdRule>(draw.whole(0, 2));
  job.practice.concrete = static_cast<trade::ConcreteMix>(draw.whole(0, 4));
  job.practice.cement = static_cast<trade::CementSpeed>(draw.whole(0, 2));
  return job;
}

/// A day's wave, a slow drift, showers that come and go: enough to meet every limit now and then.
sky::Series a_week(Draw& draw, const works::Job& job) {
  using std::chrono::hours;
  const base::Instant start = job.trip.leave_home;
  const base::Instant end = job.trip.home_by + std::chrono::days(6);
  sky::SeriesBuilder builder(start, end);
  std::vector<sky::Moment> temperature;
  std::vector<sky::Moment> humidity;
  std::vector<sky::Moment> wind;
  std::vector<sky::Stretch> rain;
  double mean = draw.number(-1, 16);
  double blows = draw.number(1, 9);
  int wet_for = 0;
  double falls = 0;
  const int wetness = draw.whole(0, 12);
  for (base::Instant at = start; at < end; at += hours(1)) {
    const double of_day =
        std::chrono::duration<double, std::ratio<3600>>(at - std::chrono::floor<std::chrono::days>(at))
            .count();
    mean += draw.number(-0.25, 0.25);
    blows = std::clamp(blows + draw.number(-0.8, 0.8), 0.5, 16.0);
    if (wet_for == 0 && draw.chance(wetness)) {
      wet_for = draw.whole(1, 9);
      falls = draw.number(0.1, 3);
    }
    const bool wet = wet_for > 0;
    if (wet) --wet_for;
    temperature.push_back({at, mean + 4 * std::cos((of_day - 14) / 24 * 2 * 3.14159265)});
    humidity.push_back({at, wet ? 0.95 : draw.number(0.55, 0.9)});
    wind.push_back({at, blows});
    rain.push_back({at, at + hours(1), wet ? std::round(falls * 10) / 10 : 0.0});
  }
  builder.moments(sky::Layer::temperature, temperature, hours(6));
  builder.moments(sky::Layer::humidity, humidity, hours(6));
  builder.moments(sky::Layer::wind, wind, hours(6));
  builder.rain_totals(rain);
  builder.derive_gusts(sky::GustFactor::inland);
  sky::Series heading;
  heading.source = "invented";
  return builder.finish(heading);
}

}  // namespace

AnyJob any_job(unsigned seed) {
  Draw draw(seed);
  works::Job job = a_job(draw);
  sky::Series weather = a_week(draw, job);
  return {std::move(job), std::move(weather)};
}

std::string broken_rules(const AnyJob& any, int schedules) {
  std::string broken;
  for (const base::Fault& fault : works::check(any.job).faults)
    broken += fmt::format("the job itself: {} found {}\n", fault.place, fault.found);
  if (!broken.empty()) return broken;
  const works::TaskList list = works::derive_tasks(any.job);
  const auto limits = trade::limits_for(any.job.limits.set, any.job.limits.cold_rule);
  PlanRequest request{any.job, list, any.weather, limits.values, any.job.trip.leave_home};
  request.schedules = schedules;
  const PlanResult result = make_plan(request);
  for (const Objection& o : result.objections) {
    // What has no place is told; where not even the drive home has one, work may lie past the promise.
    if (o.code == "left-out" || (o.code == "outside-trip" && !result.plan.home)) continue;
    broken += fmt::format("{} {}: {}\n", o.code, o.task, o.text);
  }
  return broken;
}

}  // namespace weatherstruck::programme
