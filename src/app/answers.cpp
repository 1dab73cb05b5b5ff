#include "weatherstruck/app/answers.h"

#include "answer_basis.h"
#include "answer_parts.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/words.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::app {
namespace {

using files::Json;

Json span(const programme::Span& s) {
  return {{"from", base::iso_utc(s.from)}, {"to", base::iso_utc(s.to)}};
}

Json run(const programme::PlannedRun& r) {
  Json out = span(r.span);
  out["share"] = r.share;
  if (r.courses_after > 0) out["courses_after"] = r.courses_after;
  out["under_canopy"] = r.under_canopy;
  out["floodlit"] = r.floodlit;
  out["beyond_forecast"] = r.beyond_forecast;
  return out;
}

Json task(const desk::PlannedTrip& trip, std::size_t index) {
  const works::Task& work = trip.list.tasks[index];
  const programme::PlannedTask& planned = trip.result.plan.tasks[index];
  Json out = {{"name", work.name},
              {"title", work.title},
              {"part", work.of},
              {"operation", files::word_for(work.operation)},
              {"amount", work.amount},
              {"unit", work.unit},
              {"norm_hours", work.hours.value()},
              {"importance", files::word_for(work.importance)},
              {"called_for", planned.present},
              {"way", planned.way ? Json(*planned.way) : Json(nullptr)}};
  Json runs = Json::array();
  for (const auto& r : planned.runs)
    runs.push_back(run(r));
  out["runs"] = std::move(runs);
  return out;
}

Json cover(const programme::PlannedCover& c) {
  Json out = span(c.span);
  out["part"] = c.part;
  out["title"] = c.title;
  out["cover"] = files::word_for(c.kind);
  out["area_m2"] = c.area.value();
  out["stays_on"] = c.stays_on;
  return out;
}

Json sitting(const programme::CanopySitting& s) {
  Json out = span(s.over);
  out["part"] = s.part;
  out["pitch_from"] = base::iso_utc(s.pitch_from);
  out["struck_by"] = base::iso_utc(s.struck_by);
  return out;
}

Json wait(const programme::PlannedWait& w) {
  Json out = span(w.span);
  out["part"] = w.part;
  out["what"] = w.what;
  out["holds_up"] = w.next;
  return out;
}

Json objections(const programme::PlanResult& result) {
  Json out = Json::array();
  for (const auto& o : result.objections)
    out.push_back({{"code", o.code}, {"task", o.task}, {"at", base::iso_utc(o.at)}, {"message", o.text}});
  return out;
}

Json chance(const programme::Outlook& it) {
  return {{"weathers", it.weathers},
          {"home", it.home},
          {"home_and_sound", it.home_and_sound},
          {"chance", it.chance()},
          {"sampling_error", it.sampling_error()}};
}

Json outlook(const desk::PlannedTrip& trip) {
  if (!trip.result.outlook) return nullptr;
  const programme::Outlook& it = *trip.result.outlook;
  const auto tenths = [](const std::optional<programme::Tenths>& t) {
    return t ? Json::array({base::iso_utc(t->one), base::iso_utc(t->five), base::iso_utc(t->nine)})
             : Json(nullptr);
  };
  Json out = chance(it);
  out["home_10_50_90"] = tenths(it.back);
  Json starts = Json::object();
  for (std::size_t i = 0; i < it.starts.size(); ++i) {
    if (it.starts[i]) starts[trip.list.tasks[i].name] = tenths(it.starts[i]);
  }
  out["start_10_50_90"] = std::move(starts);
  Json late = Json::object();
  for (const auto& row : it.decides)
    late[row.task] = row.times;
  out["late_first"] = std::move(late);
  Json spoilt = Json::object();
  for (const auto& row : it.spoils)
    spoilt[row.part] = row.times;
  out["spoilt"] = std::move(spoilt);
  return out;
}

// What every answer about a plan begins with.
Json plan_head(const desk::PlannedTrip& trip, std::string_view kind) {
  const programme::Plan& plan = trip.result.plan;
  Json out = files::export_document(kind);
  out["job"] = trip.open.job.name;
  out["zone"] = trip.open.job.site.zone.name();
  out["now"] = base::iso_utc(trip.now);
  out["forecast_issued"] = moment(trip.series.issued);
  out["forecast_until"] = base::iso_utc(plan.forecast_until);
  out["stands_on"] = stands_on_json(trip.series, trip.open.job.trip.leave_home, trip.open.job.trip.home_by);
  out["beside"] = beside_json(trip.second);
  out["leaves_site"] = moment(plan.leaves_site);
  out["home"] = moment(plan.home);
  out["soonest_home"] = moment(plan.soonest_home);
  out["home_by"] = base::iso_utc(trip.open.job.trip.home_by);
  out["in_hand_seconds"] = plan.home ? Json(plan.in_hand.count()) : Json(nullptr);
  out["outlook"] = outlook(trip);
  out["left_out"] = plan.left_out;
  out["checked"] = trip.result.objections.empty();
  out["objections"] = objections(trip.result);
  Json assumed = Json::array();
  for (const std::string& words : plan.assumptions)
    assumed.push_back(words);
  for (const std::string& words : trip.remarks)
    assumed.push_back(words);
  out["assumptions"] = std::move(assumed);
  return out;
}

Json hindrance_json(const programme::Hindrance& fact) {
  using Kind = programme::Hindrance::Kind;
  const bool dated = fact.kind == Kind::rain || fact.kind == Kind::cold || fact.kind == Kind::heat ||
                     fact.kind == Kind::wind;
  return {{"hindrance", programme::key_of(fact.kind)},
          {"day", dated ? Json(base::iso_local(base::LocalTime(fact.day)).substr(0, 10)) : Json(nullptr)},
          {"part", fact.part.empty() ? Json(nullptr) : Json(fact.part)}};
}

Json day_tasks(const desk::PlannedTrip& trip, const render::TripDay& day) {
  return each(day.tasks, [&](const render::DayTask& t) {
    Json one = {{"letter", std::string(1, t.letter)},
                {"name", trip.list.tasks[t.task].name},
                {"title", trip.list.tasks[t.task].title},
                {"share", t.share}};
    if (t.courses_after > 0) one["courses_after"] = t.courses_after;
    one["goes_on"] = t.goes_on;
    one["runs"] = each(t.runs, run);
    return one;
  });
}

}  // namespace

Json plan_answer(const desk::PlannedTrip& trip) {
  Json out = plan_head(trip, "plan");
  const programme::Plan& plan = trip.result.plan;
  Json tasks = Json::array();
  for (std::size_t i = 0; i < plan.tasks.size(); ++i)
    tasks.push_back(task(trip, i));
  out["tasks"] = std::move(tasks);
  out["covers"] = each(plan.covers, cover);
  out["canopy"] = each(plan.canopy, sitting);
  out["waits"] = each(plan.waits, wait);
  return out;
}

Json morning_answer(const desk::PlannedTrip& trip, const render::MorningFacts& morning) {
  const render::TripFacts facts = trip.facts();
  const std::vector<render::TripDay> days = render::trip_days(facts);
  const render::TripDay& day = days.at(morning.day);
  const programme::Plan& plan = trip.result.plan;
  Json out = plan_head(trip, "morning");
  out["day"] = base::iso_local(base::LocalTime(day.day)).substr(0, 10);
  out["day_number"] = day.number;
  out["days"] = days.size();
  out["tasks"] = day_tasks(trip, day);
  const auto of_today = [&](const auto& list, auto begins, auto ends, auto make) {
    Json made = Json::array();
    for (const auto& item : list) {
      if (begins(item) < day.span.to && ends(item) > day.span.from) made.push_back(make(item));
    }
    return made;
  };
  out["waits"] = of_today(
      plan.waits, [](const auto& w) { return w.span.from; }, [](const auto& w) { return w.span.to; }, wait);
  out["covers"] = of_today(
      plan.covers, [](const auto& c) { return c.span.from; }, [](const auto& c) { return c.span.to; }, cover);
  out["canopy"] = of_today(
      plan.canopy, [](const auto& s) { return s.pitch_from; }, [](const auto& s) { return s.struck_by; },
      sitting);
  const render::DayNeeds needs = render::needs_of(facts, day);
  const auto line = [](const render::DayNeeds::Line& l) {
    return Json{{"material", l.material}, {"amount", l.amount}};
  };
  out["needs"] = {{"bricks", each(needs.bricks, line)},
                  {"other", each(needs.other, line)},
                  {"concrete_m3", needs.concrete.value()},
                  {"mortar_m3", needs.mortar.value()}};
  out["cautions"] = each(morning.cautions, [](const trade::CautionRow* row) {
    return Json{{"key", std::string(row->key)}, {"text", std::string(row->text)}};
  });
  return out;
}

Json helps_answer(const desk::PlannedTrip& trip, const programme::Helps& helps) {
  Json out = plan_head(trip, "helps");
  const auto row = [](const programme::Help& help) {
    Json one = {{"home", moment(help.home)},
                {"in_hand_seconds", help.home ? Json(help.in_hand.count()) : Json(nullptr)},
                {"left_out", help.left_out},
                {"outlook", chance(help.outlook)}};
    return one;
  };
  out["as_it_is"] = row(helps.as_it_is);
  Json list = Json::array();
  for (const programme::Help& help : helps.helps) {
    Json one = row(help);
    one["change"] = programme::key_of(help.kind);
    one["part"] = help.part;
    one["gain"] = help.gain;
    one["gain_error"] = help.error;
    one["shows"] = help.shows();
    list.push_back(std::move(one));
  }
  out["helps"] = std::move(list);
  return out;
}

Json why_answer(const desk::PlannedTrip& trip, std::size_t index, const programme::Why& why) {
  Json out = files::export_document("why");
  out["job"] = trip.open.job.name;
  out["task"] = task(trip, index);
  out["what_for"] = trip.list.tasks[index].why;
  Json links = Json::array();
  for (const works::Link& link : trip.list.links) {
    if (link.to != trip.list.tasks[index].name) continue;
    links.push_back({{"after", link.from}, {"why", link.why}});
  }
  out["links"] = std::move(links);
  out["reasons"] = each(trip.result.plan.tasks[index].reasons, [](const programme::Reason& r) {
    Json one = span(r.span);
    one["code"] = r.code;
    one["text"] = r.text;
    return one;
  });
  const auto held = [](const programme::Held& one) {
    Json row = span(one.span);
    row["code"] = one.code;
    row["text"] = one.text;
    row["by"] = one.by.empty() ? Json(nullptr) : Json(one.by);
    return row;
  };
  out["before"] = each(why.before, held);
  out["within"] = each(why.within, held);
  out["days"] = each(why.days, [](const programme::HeldDay& day) {
    return Json{{"day", base::iso_local(base::LocalTime(day.day)).substr(0, 10)},
                {"seconds", each(day.shares, [](const auto& share) {
                   return Json{{"code", share.code}, {"seconds", share.time.count()}};
                 })}};
  });
  out["at_work_seconds"] = why.at_work.count();
  out["in_fair_weather_hours"] = why.in_fair_weather.value();
  out["behind"] = why.behind;
  out["without"] = each(why.lifted, [](const programme::Lifted& one) {
    Json row = hindrance_json(one.hindrance);
    row["sooner_seconds"] = one.sooner ? Json(one.sooner->count()) : Json(nullptr);
    row["home_sooner_seconds"] = one.home_sooner ? Json(one.home_sooner->count()) : Json(nullptr);
    row["had_place"] = one.had_place;
    row["found"] = moment(one.found);
    row["gains"] = one.gains();
    return row;
  });
  return out;
}

Json promise_answer(const desk::PlannedTrip& trip, const programme::Promise* promise) {
  Json out = plan_head(trip, "why-home");
  out["kept"] = promise == nullptr;
  if (promise == nullptr) return out;
  out["kept_after_all"] = moment(promise->kept_after_all);
  out["together"] = each(promise->together, [](const programme::Forbids& one) {
    Json row = hindrance_json(one.hindrance);
    row["mark"] = one.mark == programme::Forbids::Mark::needed ? "needed" : "not-settled";
    row["alone"] = one.alone;
    row["home"] = moment(one.home);
    return row;
  });
  out["beside"] = each(promise->beside, hindrance_json);
  out["proved"] = promise->proved;
  out["instead"] = nullptr;
  if (promise->instead) {
    out["instead"] = {{"home", base::iso_utc(promise->instead->home)},
                      {"without", promise->instead->without},
                      {"left_out", promise->instead->left_out},
                      {"used", each(promise->instead->used, [](const works::Fallback& fallback) {
                         return Json{{"kind", files::word_for(fallback.kind)}, {"part", fallback.part}};
                       })}};
  }
  out["plans"] = promise->plans;
  return out;
}

}  // namespace weatherstruck::app
