#include "weatherstruck/files/job_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "job_sense.h"
#include "weatherstruck/files/part_reader.h"
#include "weatherstruck/files/reader.h"
#include "weatherstruck/works/check.h"

namespace weatherstruck::files {
namespace {

using base::Hours;
using base::Metres;
using std::chrono::hours;
using std::chrono::minutes;

// Hours on site where the document names none: common practice, no source.
constexpr works::DaySpan usual_day{hours(7), hours(20)};
constexpr Hours usual_longest_day{12};
// Noisy work: typical council hours, rules.md 9 (Liverpool, Stratford, Kent, Central Beds), verified there.
constexpr works::DaySpan noisy_weekday{hours(8), hours(18)};
constexpr works::DaySpan noisy_saturday{hours(8), hours(13)};
// A merchant's counter: common practice, no source.
constexpr works::DaySpan merchant_weekday{hours(7) + minutes(30), hours(17)};
constexpr works::DaySpan merchant_saturday{hours(8), hours(12)};

template <class E>
E word(ObjectReader& from, std::string_view key, E fallback) {
  return from.word<E>(key, words_of<E>(), fallback);
}

// An absent section reads as an empty object: its defaults stand in one place, and what it needs is told
// member by member.
ObjectReader section(ObjectReader& parent, std::string_view key, std::string_view shape) {
  static const Json empty = Json::object();
  const Json* value = parent.member(key);
  return {parent.reading(), value == nullptr ? empty : *value, parent.place(key), shape};
}

constexpr std::string_view zone_words = "the name of a time zone, such as \"Europe/London\"";

base::Zone read_zone(ObjectReader& from, std::string_view key, const ZoneSource& zones,
                     const base::Zone* fallback) {
  const Json* value = from.member(key, fallback == nullptr ? zone_words : "");
  base::Zone stand_in = fallback != nullptr ? *fallback : base::Zone::fixed("UTC", std::chrono::seconds(0));
  if (value == nullptr) return stand_in;
  if (!value->is_string()) {
    from.reading().add({"wrong-type", from.place(key), shown(*value), std::string(zone_words),
                        "Write the name in double quotes."});
    return stand_in;
  }
  auto read = zones.find(value->get_ref<const std::string&>());
  if (read.zone) return *std::move(read.zone);
  read.fault->place = from.place(key);
  read.fault->found = shown(*value);
  from.reading().add(std::move(*read.fault));
  return stand_in;
}

works::Route read_route(ObjectReader from) {
  works::Route route;
  route.name = from.name("name");
  route.length = from.metres("length", 1, 2000);
  route.rise = from.metres("rise", -30, 30, Metres(0));
  route.steps = from.whole("steps", 0, 200, route.steps);
  route.narrowest = from.metres("narrowest", 0.3, 10, Metres(0.9));
  route.shut_by = from.names("shut_by", 100);
  from.finish();
  return route;
}

works::NoisyHours read_noisy(ObjectReader from) {
  works::NoisyHours noisy;
  noisy.monday_to_friday = from.spans("monday_to_friday", {noisy_weekday});
  noisy.saturday = from.spans("saturday", {noisy_saturday});
  noisy.sunday = from.spans("sunday", {});
  from.finish();
  return noisy;
}

works::Site read_site(ObjectReader from, const ZoneSource& zones) {
  auto zone = read_zone(from, "zone", zones, nullptr);
  works::Site site{0, 0, {}, std::move(zone), trade::Soil::garden, {}, {}};
  site.latitude = from.number("latitude", {-90, 90, "degrees"});
  site.longitude = from.number("longitude", {-180, 180, "degrees"});
  if (from.member("altitude") != nullptr) site.altitude = from.metres("altitude", -450, 6000, Metres(0));
  site.soil = word(from, "soil", site.soil);
  const auto& routes = from.list("routes", 10, 1);
  for (std::size_t i = 0; i < routes.size(); ++i) {
    site.routes.push_back(
        read_route({from.reading(), routes[i], pointer_to(from.place("routes"), i), "route"}));
  }
  site.noisy = read_noisy(section(from, "noisy", "noisy"));
  from.finish();
  return site;
}

works::Trip read_trip(ObjectReader from, const ZoneSource& zones, const base::Zone& site_zone) {
  auto zone = read_zone(from, "home_zone", zones, &site_zone);
  const auto leave = from.moment("leave_home", zone);
  const auto back = from.moment("home_by", zone);
  const auto out = from.hours("drive_out", 0, 24);
  works::Trip trip{leave, back, out, {}, std::move(zone), {}, {}};
  trip.drive_back = from.hours("drive_back", 0, 24, out);
  trip.working_day = from.span("working_day", usual_day);
  trip.longest_day = from.hours("longest_day", 1, 16, usual_longest_day);
  from.finish();
  return trip;
}

works::Person read_person(ObjectReader from) {
  works::Person person;
  person.name = from.name("name");
  person.lays_bricks = from.truth("lays_bricks", person.lays_bricks);
  person.pace = from.number("pace", {0.2, 3, ""}, person.pace);
  from.finish();
  return person;
}

works::Canopy read_canopy(ObjectReader from) {
  works::Canopy canopy;
  canopy.length = from.metres("length", 1, 12);
  canopy.width = from.metres("width", 1, 12);
  const auto time = [&from](std::string_view key, minutes usual) {
    return minutes(from.whole(key, 0, 240, static_cast<int>(usual.count())));
  };
  canopy.pitch = time("pitch_minutes", canopy.pitch);
  canopy.move = time("move_minutes", canopy.move);
  canopy.strike = time("strike_minutes", canopy.strike);
  canopy.gust_limit =
      base::MetresPerSecond(from.number("gust_limit", {2, 30, "m/s"}, canopy.gust_limit.value()));
  from.finish();
  return canopy;
}

works::Kit read_kit(ObjectReader from) {
  works::Kit kit;
  // Mixers and barrows are sold and spoken of in litres.
  kit.mixer =
      base::CubicMetres(from.number("mixer_litres", {0, 1000, "litres"}, kit.mixer.value() * 1000) / 1000);
  kit.barrow =
      base::CubicMetres(from.number("barrow_litres", {10, 500, "litres"}, kit.barrow.value() * 1000) / 1000);
  const auto area = [&from](std::string_view key) {
    return base::SquareMetres(from.number(key, {0, 1000, "m2"}, 0.0));
  };
  kit.hessian = area("hessian");
  kit.sheet = area("sheet");
  kit.mats = area("mats");
  if (const Json* canopy = from.member("canopy")) {
    kit.canopy = read_canopy({from.reading(), *canopy, from.place("canopy"), "canopy"});
  }
  kit.floodlights = from.truth("floodlights", kit.floodlights);
  kit.van_payload = base::Kilograms(from.number("van_payload", {50, 20000, "kg"}, kit.van_payload.value()));
  kit.van_volume = base::CubicMetres(from.number("van_volume", {0.2, 60, "m3"}, kit.van_volume.value()));
  from.finish();
  return kit;
}

works::Limits read_limits(ObjectReader from) {
  works::Limits limits;
  limits.set = word(from, "set", limits.set);
  limits.cold_rule = word(from, "cold_rule", limits.cold_rule);
  const auto& list = from.list("overrides", 100);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader entry(from.reading(), list[i], pointer_to(from.place("overrides"), i), "override");
    works::LimitOverride one;
    one.key = entry.name("key");
    // What each limit may be stands in the limits table, which the check reads.
    one.value = entry.number("value", {-1000, 100000, ""});
    entry.finish();
    limits.overrides.push_back(std::move(one));
  }
  from.finish();
  return limits;
}

works::Practice read_practice(ObjectReader from) {
  works::Practice practice;
  practice.concrete = word(from, "concrete", practice.concrete);
  practice.cement = word(from, "cement", practice.cement);
  practice.wetness = word(from, "wetness", practice.wetness);
  practice.mortar = word(from, "mortar", practice.mortar);
  practice.mortar_below = word(from, "mortar_below", practice.mortar_below);
  practice.binder = word(from, "binder", practice.binder);
  const auto waste = [&from](std::string_view key, double usual) {
    return from.number(key, {0, 0.5, ""}, usual);
  };
  practice.brick_waste = waste("brick_waste", practice.brick_waste);
  practice.mortar_waste = waste("mortar_waste", practice.mortar_waste);
  practice.concrete_waste = waste("concrete_waste", practice.concrete_waste);
  practice.flag_waste = waste("flag_waste", practice.flag_waste);
  from.finish();
  return practice;
}

works::ExtraTask read_task(ObjectReader from) {
  works::ExtraTask task;
  task.name = from.name("name");
  task.title = from.text("title", 120, task.name);
  task.operation = word(from, "operation", task.operation);
  task.hours = from.hours("hours", 0.05, 200);
  task.people = from.whole("people", 1, 6, task.people);
  task.after = from.names("after", 100);
  task.importance = word(from, "importance", task.importance);
  task.noisy = from.truth("noisy", task.noisy);
  from.finish();
  return task;
}

works::Supplies read_supplies(ObjectReader from, const base::Zone& zone) {
  works::Supplies supplies;
  if (const Json* value = from.member("merchant")) {
    ObjectReader entry(from.reading(), *value, from.place("merchant"), "merchant");
    works::Merchant merchant;
    merchant.drive_each_way = entry.hours("drive_each_way", 0, 12);
    merchant.monday_to_friday = entry.spans("monday_to_friday", {merchant_weekday});
    merchant.saturday = entry.spans("saturday", {merchant_saturday});
    entry.finish();
    supplies.merchant = std::move(merchant);
  }
  const auto& list = from.list("deliveries", 100);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader entry(from.reading(), list[i], pointer_to(from.place("deliveries"), i), "delivery");
    works::Delivery delivery;
    delivery.material = entry.table_key("material");
    delivery.amount = entry.number("amount", {1e-6, 1e6, ""});
    delivery.at = entry.moment("at", zone);
    entry.finish();
    supplies.deliveries.push_back(std::move(delivery));
  }
  supplies.on_site = from.table_keys("on_site", 100);
  from.finish();
  return supplies;
}

std::vector<works::FixedTime> read_fixed(ObjectReader& document, const base::Zone& zone) {
  std::vector<works::FixedTime> out;
  const auto& list = document.list("fixed_times", 100);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader entry(document.reading(), list[i], pointer_to(document.place("fixed_times"), i),
                       "fixed_time");
    works::FixedTime fixed;
    fixed.title = entry.text("title", 120);
    fixed.from = entry.moment("from", zone);
    fixed.to = entry.moment("to", zone);
    entry.finish();
    out.push_back(std::move(fixed));
  }
  return out;
}

std::vector<works::Fallback> read_fallbacks(ObjectReader& document) {
  std::vector<works::Fallback> out;
  const auto& list = document.list("fallbacks", 50);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader entry(document.reading(), list[i], pointer_to(document.place("fallbacks"), i), "fallback");
    works::Fallback fallback;
    fallback.kind = entry.word<works::Fallback::Kind>("kind", words_of<works::Fallback::Kind>());
    fallback.part = entry.name("part");
    fallback.price = entry.money("price");
    entry.finish();
    out.push_back(std::move(fallback));
  }
  return out;
}

void read_version(ObjectReader& document) {
  const Json* value = document.member("weatherstruck", "1");
  if (value == nullptr || (value->is_number() && value->get<double>() == job_schema_version)) return;
  document.reading().add(
      {"unknown-version", document.place("weatherstruck"), shown(*value),
       fmt::format("{}, the version of the document that this program reads", job_schema_version),
       fmt::format("Write {}, or use the program the document was made for.", job_schema_version)});
}

works::Job read_document(Reading& reading, const Json& value, const ZoneSource& zones) {
  ObjectReader document(reading, value, "", "job_document");
  read_version(document);
  auto head = section(document, "job", "job");
  auto name = head.name("name");
  auto title = head.text("title", 120, name);
  head.finish();
  auto who = section(document, "customer", "customer");
  works::Customer customer{who.text("name", 120, ""), who.text("address", 300, "")};
  who.finish();
  auto site = read_site(section(document, "site", "site"), zones);
  auto trip = read_trip(section(document, "trip", "trip"), zones, site.zone);
  works::Job job{std::move(name),
                 std::move(title),
                 std::move(customer),
                 std::move(site),
                 std::move(trip),
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {}};
  if (document.member("crew") == nullptr) {
    job.crew.push_back({"mason", true, 1.0});
  } else {
    const auto& crew = document.list("crew", 6, 1);
    for (std::size_t i = 0; i < crew.size(); ++i) {
      job.crew.push_back(read_person({reading, crew[i], pointer_to("/crew", i), "person"}));
    }
  }
  job.kit = read_kit(section(document, "kit", "kit"));
  job.limits = read_limits(section(document, "limits", "limits"));
  job.practice = read_practice(section(document, "practice", "practice"));
  read_parts(document, job);
  const auto& tasks = document.list("tasks", 200);
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    job.tasks.push_back(read_task({reading, tasks[i], pointer_to("/tasks", i), "task"}));
  }
  job.supplies = read_supplies(section(document, "supplies", "supplies"), job.site.zone);
  job.fixed = read_fixed(document, job.site.zone);
  job.fallbacks = read_fallbacks(document);
  document.finish();
  return job;
}

void in_order_of_text(base::Faults& faults, const JsonLines& lines) {
  std::stable_sort(faults.begin(), faults.end(), [&lines](const base::Fault& a, const base::Fault& b) {
    constexpr auto last = std::numeric_limits<std::size_t>::max();
    return line_of(lines, a.place).value_or(last) < line_of(lines, b.place).value_or(last);
  });
}

}  // namespace

JobRead read_job(std::string_view text, const ZoneSource& zones) {
  JobRead out;
  auto parsed = parse_json(text, JsonLimits::job_document());
  out.lines = std::move(parsed.lines);
  if (!parsed.value) {
    out.faults = std::move(parsed.faults);
    return out;
  }
  Reading reading;
  auto job = read_document(reading, *parsed.value, zones);
  out.faults = reading.take_faults();
  out.shapes = std::move(reading.shapes());
  auto sense = findings_beside(works::check(job), job, out.faults);
  out.faults.insert(out.faults.end(), sense.faults.begin(), sense.faults.end());
  out.advice = std::move(sense.advice);
  in_order_of_text(out.faults, out.lines);
  in_order_of_text(out.advice, out.lines);
  if (out.faults.empty()) out.job = std::move(job);
  return out;
}

std::optional<std::size_t> line_of(const JsonLines& lines, std::string_view pointer) {
  if (!pointer.empty() && pointer[0] != '/') return {};
  while (true) {
    const auto at = lines.find(pointer);
    if (at != lines.end()) return at->second;
    if (pointer.empty()) return {};
    pointer = pointer.substr(0, pointer.find_last_of('/'));
  }
}

}  // namespace weatherstruck::files
