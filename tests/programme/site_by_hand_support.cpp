#include "programme/site_by_hand.h"

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::programme {

using base::Instant;
using namespace std::chrono_literals;
using trade::CoverKind;
using trade::Operation;
using works::FreshWork;
using works::Wait;

Instant feb(unsigned day, int hour, int minute) {
  using namespace std::chrono;
  return sys_days(year_month_day(std::chrono::year(2026), February, std::chrono::day(day))) +
         std::chrono::hours(hour) + minutes(minute);
}

std::vector<Objection> SiteByHand::check() const {
  std::vector<trade::LimitSetting> settings;
  for (const works::LimitOverride& o : job.limits.overrides)
    settings.push_back({o.key, o.value});
  const trade::ResolvedLimits limits = trade::limits_for(trade::LimitSet::uk, cold_rule, settings);
  return check_on_site(job, list, weather, limits.values, plan);
}

std::set<std::string> SiteByHand::codes() const {
  std::set<std::string> found;
  for (const Objection& o : check())
    found.insert(o.code);
  return found;
}

std::string SiteByHand::said() const {
  std::string text;
  for (const Objection& o : check()) {
    text += o.code + " " + o.task + " " + base::iso_utc(o.at) + ": " + o.text + "\n";
  }
  return text;
}

works::Task& SiteByHand::task(const std::string& name) {
  for (works::Task& t : list.tasks) {
    if (t.name == name) return t;
  }
  throw std::logic_error("no task " + name);
}

PlannedTask& SiteByHand::planned(const std::string& name) {
  for (PlannedTask& t : plan.tasks) {
    if (t.task == name) return t;
  }
  throw std::logic_error("no planned task " + name);
}

void SiteByHand::place(const std::string& name, Instant from, Instant to) {
  PlannedRun run;
  run.span = {from, to};
  run.share = 1;
  run.courses_after = static_cast<int>(task(name).courses.size());
  planned(name).runs = {run};
  planned(name).present = true;
}

void SiteByHand::link(const std::string& from, const std::string& to, Wait wait) {
  works::Link l;
  l.from = from;
  l.to = to;
  l.wait = wait;
  list.links.push_back(l);
}

void SiteByHand::rain(Instant from, Instant to, double mm_per_hour) {
  hours(from, to,
        [&](sky::Hour& h) { h.rain = sky::Value<base::Millimetres>{base::Millimetres(mm_per_hour)}; });
}

void SiteByHand::temperature(Instant from, Instant to, double celsius) {
  hours(from, to, [&](sky::Hour& h) { h.temperature = sky::Value<base::Celsius>{base::Celsius(celsius)}; });
}

void SiteByHand::gust(Instant from, Instant to, double metres_per_second) {
  hours(from, to, [&](sky::Hour& h) {
    h.gust = sky::Value<base::MetresPerSecond>{base::MetresPerSecond(metres_per_second)};
  });
}

void SiteByHand::uncover(std::size_t index) {
  plan.covers.erase(plan.covers.begin() + static_cast<std::ptrdiff_t>(index));
}

void drives_home(SiteByHand& site, Instant from, Instant to) {
  site.place("drive-back", from, to);
  site.plan.leaves_site = from;
  site.plan.home = to;
  site.plan.in_hand = site.job.trip.home_by - to;
}

namespace {

works::Job job_by_hand() {
  const base::Zone zone = base::Zone::fixed("GMT", 0s);
  works::Job job{
      .name = "by-hand",
      .title = "A dwarf wall",
      .customer = {},
      .site = {.latitude = 52.06,
               .longitude = -3.61,
               .altitude = {},
               .zone = zone,
               .soil = trade::Soil::garden,
               .routes = {},
               .noisy = {{{8h, 18h}}, {{8h, 13h}}, {}}},
      .trip = {.leave_home = feb(9, 5),
               .home_by = feb(12, 20),
               .drive_out = base::Hours(3),
               .drive_back = base::Hours(3),
               .home_zone = zone,
               .working_day = {7h, 19h},
               .longest_day = base::Hours(10)},
      .crew = {{"mason", true, 1.0}},
      .kit = {},
      .limits = {},
      .practice = {},
      .parts = {},
      .importance = {},
      .tasks = {},
      .supplies = {},
      .fixed = {},
      .fallbacks = {},
  };
  job.kit.hessian = base::SquareMetres(10);
  job.kit.sheet = base::SquareMetres(10);
  job.kit.canopy = works::Canopy{base::Metres(3), base::Metres(3)};
  job.kit.floodlights = true;
  return job;
}

FreshWork fresh(FreshWork::Kind kind, double cover, double course = 0) {
  FreshWork f;
  f.quick_suction = kind != FreshWork::Kind::mortar_below;  // engineering bricks below
  f.kind = kind;
  f.cover = base::SquareMetres(cover);
  f.course_height = base::Metres(course);
  f.top_width = base::Metres(0.1);
  return f;
}

void add(works::TaskList& list, const std::string& name, Operation operation, double amount, double hours,
         const std::string& part) {
  const trade::OperationRow& row = trade::row_for(operation);
  works::Task task;
  task.name = name;
  task.title = name;
  task.part = part;
  task.of = part;
  task.operation = operation;
  task.amount = amount;
  task.unit = std::string(row.unit);
  task.hours = base::Hours(hours);
  task.set_up = base::Hours(operation == Operation::drive || operation == Operation::clear_up ? 0.0 : 0.25);
  task.noisy = row.noisy();
  task.outdoors = operation != Operation::drive;
  list.tasks.push_back(task);
}

void list_by_hand(SiteByHand& site) {
  works::TaskList& list = site.list;
  add(list, "drive-out", Operation::drive, 3, 3, "");
  add(list, "dig", Operation::dig, 0.5, 1.2, "strip");
  add(list, "pour", Operation::pour, 0.3, 0.9, "strip");
  add(list, "below", Operation::lay_below, 60, 1.1, "wall");
  add(list, "facing", Operation::lay_facing, 120, 2.5, "wall");
  add(list, "point", Operation::point, 1, 1.1, "wall");
  add(list, "plates", Operation::bed_plate, 4, 0.5, "wall");
  add(list, "straps", Operation::strap_plate, 2, 0.4, "wall");
  add(list, "fill", Operation::fill_bed, 0.3, 0.45, "wall");
  add(list, "clear-up", Operation::clear_up, 0.5, 0.5, "");
  add(list, "drive-back", Operation::drive, 3, 3, "");

  site.task("pour").fresh = fresh(FreshWork::Kind::concrete, 2);
  site.task("below").fresh = fresh(FreshWork::Kind::mortar_below, 3, 0.075);
  site.task("below").courses = {30, 30};
  site.task("facing").fresh = fresh(FreshWork::Kind::mortar_facing, 3, 0.075);
  site.task("facing").courses = {30, 30, 30, 30};
  const base::Hours laying = site.task("facing").hours;
  site.task("facing").ways = {{"strike", "struck", laying + base::Hours(0.3)}, {"rake", "raked", laying}};
  site.task("point").fresh = fresh(FreshWork::Kind::pointing, 3);
  site.task("point").only_if = works::OnlyIf{"facing", "rake"};
  site.task("plates").fresh = fresh(FreshWork::Kind::plate_bed, 1);
  site.task("fill").importance = works::Importance::should;

  site.link("drive-out", "dig");
  site.link("dig", "pour");
  site.link("pour", "below", Wait::concrete_to_lay);
  site.link("below", "facing");
  site.link("facing", "point", Wait::mortar_to_point);
  site.link("facing", "plates");
  site.link("plates", "straps", Wait::plate_to_strap);
  site.link("facing", "fill", Wait::mortar_to_fill_half);
  site.link("straps", "clear-up");
  site.link("clear-up", "drive-back");
}

void weather_by_hand(SiteByHand& site) {
  for (Instant t = feb(9, 0); t < feb(14, 0); t += 1h) {
    sky::Hour hour;
    hour.start = t;
    hour.temperature = sky::Value<base::Celsius>{base::Celsius(8)};
    hour.humidity = sky::Value<base::Fraction>{base::Fraction(0.8)};
    hour.wind = sky::Value<base::MetresPerSecond>{base::MetresPerSecond(3)};
    hour.gust = sky::Value<base::MetresPerSecond>{base::MetresPerSecond(6)};
    hour.rain = sky::Value<base::Millimetres>{base::Millimetres(0)};
    site.weather.hours.push_back(hour);
  }
}

void plan_by_hand(SiteByHand& site) {
  Plan& plan = site.plan;
  for (const works::Task& task : site.list.tasks) {
    PlannedTask planned;
    planned.task = task.name;
    plan.tasks.push_back(planned);
  }
  site.place("drive-out", feb(9, 5), feb(9, 8, 15));
  site.place("dig", feb(9, 8, 30), feb(9, 10));
  site.place("pour", feb(9, 10), feb(9, 11, 20));
  site.place("below", feb(10, 8), feb(10, 9, 30));
  site.place("facing", feb(10, 9, 30), feb(10, 12, 30));
  site.planned("facing").way = "rake";
  site.place("point", feb(11, 9), feb(11, 10, 30));
  site.place("plates", feb(11, 10, 30), feb(11, 11, 30));
  site.place("fill", feb(12, 10), feb(12, 11));
  site.place("straps", feb(12, 11, 45), feb(12, 12, 30));
  site.place("clear-up", feb(12, 12, 30), feb(12, 13));
  drives_home(site, feb(12, 13), feb(12, 16, 15));

  const auto cover = [&](const std::string& part, bool concrete, double area, Instant from, Instant to) {
    PlannedCover c;
    c.part = part;
    c.concrete = concrete;
    c.kind = CoverKind::hessian;
    c.area = base::SquareMetres(area);
    c.span = {from, to};
    plan.covers.push_back(c);
  };
  cover("strip", true, 2, feb(9, 12), feb(10, 8));
  cover("wall", false, 3, feb(10, 13), feb(11, 8, 45));
  cover("wall", false, 3, feb(11, 12), feb(12, 9));
  plan.horizon_from = feb(9, 5);
  plan.horizon_to = feb(14, 0);
  plan.forecast_until = feb(14, 0);
}

}  // namespace

SiteByHand sound_site() {
  SiteByHand site{.job = job_by_hand(), .list = {}, .weather = {}, .plan = {}};
  list_by_hand(site);
  weather_by_hand(site);
  plan_by_hand(site);
  return site;
}

SiteByHand under_canopy() {
  SiteByHand site = sound_site();
  site.job.crew.push_back({"mate", false, 1.0});
  site.plan.canopy = {{"wall", feb(10, 9, 15), {feb(10, 9, 30), feb(10, 12, 30)}, feb(10, 12, 45)}};
  site.planned("facing").runs.front().under_canopy = true;
  return site;
}

}  // namespace weatherstruck::programme
