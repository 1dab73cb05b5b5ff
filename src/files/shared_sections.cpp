#include "shared_sections.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/files/job_reader.h"

namespace weatherstruck::files {
namespace {

using base::Metres;

constexpr std::string_view zone_words = "the name of a time zone, such as \"Europe/London\"";

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
  const auto time = [&from](std::string_view key, std::chrono::minutes usual) {
    return std::chrono::minutes(from.whole(key, 0, 240, static_cast<int>(usual.count())));
  };
  canopy.pitch = time("pitch_minutes", canopy.pitch);
  canopy.move = time("move_minutes", canopy.move);
  canopy.strike = time("strike_minutes", canopy.strike);
  canopy.gust_limit =
      base::MetresPerSecond(from.number("gust_limit", {2, 30, "m/s"}, canopy.gust_limit.value()));
  from.finish();
  return canopy;
}

// From cubic metres; thousandths of a litre are beyond any mixer, and dropping them keeps 0.09 at 90.
Json litres(base::CubicMetres value) {
  return number(std::round(value.value() * 1e6) / 1e3);
}

}  // namespace

ObjectReader section(ObjectReader& parent, std::string_view key, std::string_view shape) {
  static const Json empty = Json::object();
  const Json* value = parent.member(key);
  return {parent.reading(), value == nullptr ? empty : *value, parent.place(key), shape};
}

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

std::vector<works::Person> read_crew(ObjectReader& document) {
  if (document.member("crew") == nullptr) return {{"mason", true, 1.0}};
  std::vector<works::Person> out;
  const auto& crew = document.list("crew", 6, 1);
  for (std::size_t i = 0; i < crew.size(); ++i)
    out.push_back(
        read_person({document.reading(), crew[i], pointer_to(document.place("crew"), i), "person"}));
  return out;
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
  kit.gauge_box = base::CubicMetres(
      from.number("gauge_box_litres", {5, 100, "litres"}, kit.gauge_box.value() * 1000) / 1000);
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
  practice.coping_length = from.metres("coping_length", 0.2, 2, practice.coping_length);
  practice.frog = word(from, "frog", practice.frog);
  from.finish();
  return practice;
}

void read_version(ObjectReader& document, int known) {
  const Json* value = document.member("weatherstruck", "1");
  if (value == nullptr || (value->is_number() && value->get<double>() == known)) return;
  document.reading().add({"unknown-version", document.place("weatherstruck"), shown(*value),
                          fmt::format("{}, the version of the document that this program reads", known),
                          fmt::format("Write {}, or use the program the document was made for.", known)});
}

void in_order_of_text(base::Faults& faults, const JsonLines& lines) {
  std::stable_sort(faults.begin(), faults.end(), [&lines](const base::Fault& a, const base::Fault& b) {
    constexpr auto last = std::numeric_limits<std::size_t>::max();
    return line_of(lines, a.place).value_or(last) < line_of(lines, b.place).value_or(last);
  });
}

Json number(double value) {
  if (std::floor(value) == value && std::abs(value) < 1e15) return Json(static_cast<std::int64_t>(value));
  return Json(value);
}

Json duration(base::Hours value) {
  const double quarters = value.value() * 4;
  const auto text = duration_text(value);
  if (quarters == std::floor(quarters) || !text) return number(value);
  return Json(*text);
}

Json spans_json(const std::vector<works::DaySpan>& list) {
  Json out = Json::array();
  for (const auto& span : list)
    out.push_back(span_text(span));
  return out;
}

Json crew_json(const std::vector<works::Person>& crew) {
  Json out = Json::array();
  for (const auto& person : crew) {
    out.push_back(
        {{"name", person.name}, {"lays_bricks", person.lays_bricks}, {"pace", number(person.pace)}});
  }
  return out;
}

Json kit_json(const works::Kit& kit) {
  Json out = {{"mixer_litres", litres(kit.mixer)},
              {"barrow_litres", litres(kit.barrow)},
              {"hessian", number(kit.hessian)},
              {"sheet", number(kit.sheet)},
              {"mats", number(kit.mats)}};
  if (kit.canopy) {
    out["canopy"] = {
        {"length", number(kit.canopy->length)},         {"width", number(kit.canopy->width)},
        {"pitch_minutes", kit.canopy->pitch.count()},   {"move_minutes", kit.canopy->move.count()},
        {"strike_minutes", kit.canopy->strike.count()}, {"gust_limit", number(kit.canopy->gust_limit)}};
  }
  out["floodlights"] = kit.floodlights;
  out["gauge_box_litres"] = litres(kit.gauge_box);
  out["van_payload"] = number(kit.van_payload);
  out["van_volume"] = number(kit.van_volume);
  return out;
}

Json limits_json(const works::Limits& limits) {
  Json overrides = Json::array();
  for (const auto& one : limits.overrides)
    overrides.push_back({{"key", one.key}, {"value", number(one.value)}});
  Json out = {{"set", word_for(limits.set)}, {"cold_rule", word_for(limits.cold_rule)}};
  out["overrides"] = std::move(overrides);
  return out;
}

Json practice_json(const works::Practice& practice) {
  return {{"concrete", word_for(practice.concrete)},
          {"cement", word_for(practice.cement)},
          {"wetness", word_for(practice.wetness)},
          {"mortar", word_for(practice.mortar)},
          {"mortar_below", word_for(practice.mortar_below)},
          {"binder", word_for(practice.binder)},
          {"brick_waste", number(practice.brick_waste)},
          {"mortar_waste", number(practice.mortar_waste)},
          {"concrete_waste", number(practice.concrete_waste)},
          {"flag_waste", number(practice.flag_waste)},
          {"coping_length", number(practice.coping_length)},
          {"frog", word_for(practice.frog)}};
}

}  // namespace weatherstruck::files
