#include "weatherstruck/files/plan_json.h"

#include <stdexcept>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/files/words.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::files {
namespace {

using namespace programme;

// Moments as seconds since 1970: half of a plan's bytes are moments, and nobody reads them here.
std::int64_t seconds(base::Instant t) {
  return t.time_since_epoch().count();
}
base::Instant moment(const Json& json) {
  return base::Instant(std::chrono::seconds(json.get<std::int64_t>()));
}

Json span_json(const Span& span) {
  return Json::array({seconds(span.from), seconds(span.to)});
}
Span read_span(const Json& json) {
  return {moment(json.at(0)), moment(json.at(1))};
}

template <class Item, class Write>
Json list_json(const std::vector<Item>& items, Write&& write) {
  Json out = Json::array();
  for (const Item& item : items)
    out.push_back(write(item));
  return out;
}
template <class Item, class Read>
std::vector<Item> read_list(const Json& json, Read&& read) {
  std::vector<Item> out;
  for (const Json& item : json)
    out.push_back(read(item));
  return out;
}

Json run_json(const PlannedRun& run) {
  return Json::array({seconds(run.span.from), seconds(run.span.to), run.share, run.courses_after,
                      run.under_canopy, run.floodlit, run.beyond_forecast});
}
PlannedRun read_run(const Json& json) {
  return {{moment(json.at(0)), moment(json.at(1))},
          json.at(2).get<double>(),
          json.at(3).get<int>(),
          json.at(4).get<bool>(),
          json.at(5).get<bool>(),
          json.at(6).get<bool>()};
}

Json maybe(const std::optional<base::Instant>& t) {
  return t ? Json(seconds(*t)) : Json(nullptr);
}
std::optional<base::Instant> read_maybe(const Json& json) {
  return json.is_null() ? std::nullopt : std::optional(moment(json));
}

Json task_json(const PlannedTask& task) {
  return {{"task", task.task},
          {"way", task.way ? Json(*task.way) : Json(nullptr)},
          {"way_title", task.way_title},
          {"people", task.people},
          {"runs", list_json(task.runs, run_json)},
          {"present", task.present},
          {"turn", task.turn},
          {"held_until", maybe(task.held_until)},
          {"reasons", list_json(task.reasons, [](const Reason& reason) {
             return Json::array(
                 {seconds(reason.span.from), seconds(reason.span.to), reason.code, reason.text, reason.by});
           })}};
}
PlannedTask read_task(const Json& json) {
  PlannedTask task;
  task.task = json.at("task").get<std::string>();
  if (!json.at("way").is_null()) task.way = json.at("way").get<std::string>();
  task.way_title = json.at("way_title").get<std::string>();
  task.people = json.at("people").get<int>();
  task.runs = read_list<PlannedRun>(json.at("runs"), read_run);
  task.present = json.at("present").get<bool>();
  task.turn = json.at("turn").get<int>();
  task.held_until = read_maybe(json.at("held_until"));
  task.reasons = read_list<Reason>(json.at("reasons"), [](const Json& reason) {
    return Reason{{moment(reason.at(0)), moment(reason.at(1))},
                  reason.at(2).get<std::string>(),
                  reason.at(3).get<std::string>(),
                  // Plans kept by earlier versions do not have it.
                  reason.size() > 4 ? reason.at(4).get<std::string>() : std::string()};
  });
  return task;
}

Json cover_json(const PlannedCover& cover) {
  return {{"part", cover.part},           {"title", cover.title},       {"concrete", cover.concrete},
          {"kind", word_for(cover.kind)}, {"area", cover.area.value()}, {"span", span_json(cover.span)},
          {"stays_on", cover.stays_on}};
}
trade::CoverKind read_cover_kind(const std::string& text) {
  for (const auto& word : words_of<trade::CoverKind>()) {
    if (word.text == text) return word.value;
  }
  throw std::invalid_argument(text);
}
PlannedCover read_cover(const Json& json) {
  PlannedCover cover;
  cover.part = json.at("part").get<std::string>();
  cover.title = json.at("title").get<std::string>();
  cover.concrete = json.at("concrete").get<bool>();
  cover.kind = read_cover_kind(json.at("kind").get<std::string>());
  cover.area = base::SquareMetres(json.at("area").get<double>());
  cover.span = read_span(json.at("span"));
  cover.stays_on = json.at("stays_on").get<bool>();
  return cover;
}

Json sitting_json(const CanopySitting& sitting) {
  return Json::array({sitting.part, seconds(sitting.pitch_from), seconds(sitting.over.from),
                      seconds(sitting.over.to), seconds(sitting.struck_by)});
}
CanopySitting read_sitting(const Json& json) {
  return {json.at(0).get<std::string>(),
          moment(json.at(1)),
          {moment(json.at(2)), moment(json.at(3))},
          moment(json.at(4))};
}

Json wait_json(const PlannedWait& wait) {
  return Json::array({wait.part, wait.what, wait.next, static_cast<int>(wait.wait), seconds(wait.span.from),
                      seconds(wait.span.to)});
}
PlannedWait read_wait(const Json& json) {
  PlannedWait wait;
  wait.part = json.at(0).get<std::string>();
  wait.what = json.at(1).get<std::string>();
  wait.next = json.at(2).get<std::string>();
  const int kind = json.at(3).get<int>();
  if (kind < 0 || kind > static_cast<int>(works::Wait::hours)) throw std::invalid_argument("wait");
  wait.wait = static_cast<works::Wait>(kind);
  wait.span = {moment(json.at(4)), moment(json.at(5))};
  return wait;
}

Json tenths_json(const std::optional<programme::Tenths>& tenths) {
  if (!tenths) return nullptr;
  return Json::array({seconds(tenths->one), seconds(tenths->five), seconds(tenths->nine)});
}
std::optional<programme::Tenths> read_tenths(const Json& json) {
  if (json.is_null()) return std::nullopt;
  return programme::Tenths{moment(json.at(0)), moment(json.at(1)), moment(json.at(2))};
}

template <class Row>
Json counted_json(const std::vector<Row>& rows, std::string Row::*name) {
  Json list = Json::array();
  for (const Row& row : rows)
    list.push_back(Json::array({row.*name, row.times}));
  return list;
}
template <class Row>
std::vector<Row> read_counted(const Json& json) {
  std::vector<Row> rows;
  for (const Json& row : json)
    rows.push_back({row.at(0).get<std::string>(), row.at(1).get<int>()});
  return rows;
}

Json outlook_json(const std::optional<programme::Outlook>& outlook) {
  using programme::Outlook;
  if (!outlook) return nullptr;
  return {{"weathers", outlook->weathers},
          {"home", outlook->home},
          {"home_and_sound", outlook->home_and_sound},
          {"spoilt", outlook->spoilt},
          {"less", outlook->less},
          {"back", tenths_json(outlook->back)},
          {"starts", list_json(outlook->starts, tenths_json)},
          {"decides", counted_json(outlook->decides, &Outlook::Decides::task)},
          {"spoils", counted_json(outlook->spoils, &Outlook::Spoilt::part)}};
}
std::optional<programme::Outlook> read_outlook(const Json& json) {
  using programme::Outlook;
  if (json.is_null()) return std::nullopt;
  Outlook outlook;
  outlook.weathers = json.at("weathers").get<int>();
  outlook.home = json.at("home").get<int>();
  outlook.home_and_sound = json.at("home_and_sound").get<int>();
  outlook.spoilt = json.at("spoilt").get<int>();
  outlook.less = json.at("less").get<int>();
  outlook.back = read_tenths(json.at("back"));
  outlook.starts = read_list<std::optional<programme::Tenths>>(json.at("starts"), read_tenths);
  outlook.decides = read_counted<Outlook::Decides>(json.at("decides"));
  outlook.spoils = read_counted<Outlook::Spoilt>(json.at("spoils"));
  return outlook;
}

Plan read_plan_of(const Json& json) {
  const auto words = [](const Json& list) { return list.get<std::vector<std::string>>(); };
  Plan plan;
  plan.tasks = read_list<PlannedTask>(json.at("tasks"), read_task);
  plan.covers = read_list<PlannedCover>(json.at("covers"), read_cover);
  plan.canopy = read_list<CanopySitting>(json.at("canopy"), read_sitting);
  plan.waits = read_list<PlannedWait>(json.at("waits"), read_wait);
  const Span horizon = read_span(json.at("horizon"));
  plan.horizon_from = horizon.from;
  plan.horizon_to = horizon.to;
  plan.forecast_until = moment(json.at("forecast_until"));
  plan.leaves_site = read_maybe(json.at("leaves_site"));
  plan.home = read_maybe(json.at("home"));
  plan.soonest_home = read_maybe(json.at("soonest_home"));
  plan.in_hand = std::chrono::seconds(json.at("in_hand").get<std::int64_t>());
  plan.left_out = words(json.at("left_out"));
  plan.assumptions = words(json.at("assumptions"));
  plan.dangers = words(json.at("dangers"));
  plan.schedules = json.at("schedules").get<int>();
  return plan;
}

}  // namespace

namespace {

trade::OwnPaces read_own_pace(const Json& json) {
  trade::OwnPaces paces;
  const auto list = json.find("own_pace");
  if (list == json.end()) return paces;
  for (const Json& one : *list) {
    const auto operation = trade::operation_from_key(one.at("work").get<std::string>());
    if (!operation) throw std::invalid_argument("no such kind of work");
    paces.set(*operation, {one.at("times").get<double>(), one.at("sigma").get<double>()});
  }
  return paces;
}

}  // namespace

std::string write_plan(const KeptPlan& kept) {
  const Plan& plan = kept.plan;
  Json out = {{"version", plan_version},
              {"now", seconds(kept.now)},
              {"sound", kept.sound},
              {"tasks", list_json(plan.tasks, task_json)},
              {"covers", list_json(plan.covers, cover_json)},
              {"canopy", list_json(plan.canopy, sitting_json)},
              {"waits", list_json(plan.waits, wait_json)},
              {"horizon", span_json({plan.horizon_from, plan.horizon_to})},
              {"forecast_until", seconds(plan.forecast_until)},
              {"leaves_site", maybe(plan.leaves_site)},
              {"home", maybe(plan.home)},
              {"soonest_home", maybe(plan.soonest_home)},
              {"in_hand", plan.in_hand.count()},
              {"left_out", plan.left_out},
              {"assumptions", plan.assumptions},
              {"dangers", plan.dangers},
              {"schedules", plan.schedules},
              {"outlook", outlook_json(kept.outlook)}};
  for (const auto& [operation, pace] : kept.own_pace.all()) {
    out["own_pace"].push_back(
        {{"work", std::string(trade::row_for(operation).key)}, {"times", pace.times}, {"sigma", pace.sigma}});
  }
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::optional<KeptPlan> read_plan(std::string_view text) {
  // The library's own parser: these bytes were written above, and a fault in them has no author to be told.
  const Json json = Json::parse(text, nullptr, false);
  try {
    if (json.is_discarded() || json.at("version") != plan_version) return std::nullopt;
    return KeptPlan{moment(json.at("now")), read_plan_of(json), json.at("sound").get<bool>(),
                    read_outlook(json.at("outlook")), read_own_pace(json)};
  } catch (const Json::exception&) {
    return std::nullopt;
  } catch (const std::invalid_argument&) {
    return std::nullopt;
  }
}

}  // namespace weatherstruck::files
