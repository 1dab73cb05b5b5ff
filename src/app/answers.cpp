#include "weatherstruck/app/answers.h"

#include "answer_basis.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/words.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/shortage.h"

namespace weatherstruck::app {
namespace {

using files::Json;

Json moment(const std::optional<base::Instant>& t) {
  return t ? Json(base::iso_utc(*t)) : Json(nullptr);
}

Json span(const programme::Span& s) {
  return {{"from", base::iso_utc(s.from)}, {"to", base::iso_utc(s.to)}};
}

template <class T>
Json value(const sky::Maybe<T>& v) {
  return v ? Json(v->value.value()) : Json(nullptr);
}

std::string_view origin_word(sky::Origin origin) {
  switch (origin) {
    case sky::Origin::given:
      return "given";
    case sky::Origin::split:
      return "split";
    case sky::Origin::held:
      return "held";
    case sky::Origin::derived:
      return "derived";
    case sky::Origin::measured:
      return "measured";
    case sky::Origin::climate:
      return "climate";
  }
  return "given";
}

// Only those that the source did not give itself.
template <class T>
void origin(Json& origins, const char* key, const sky::Maybe<T>& v) {
  if (v && v->origin != sky::Origin::given) origins[key] = origin_word(v->origin);
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

template <class List, class Make>
Json each(const List& list, Make make) {
  Json out = Json::array();
  for (const auto& item : list)
    out.push_back(make(item));
  return out;
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

Json quantities_answer(const works::Job& job, const works::Bill& bill) {
  Json out = files::export_document("quantities");
  out["job"] = job.name;
  out["totals"] = each(bill.totals, [](const works::TotalLine& l) {
    return Json{{"material", l.material},
                {"name", l.name},
                {"unit", l.unit},
                {"net", l.net},
                {"waste", l.waste},
                {"total", l.total},
                {"to_buy", l.to_buy},
                {"purchase", l.purchase},
                {"bought", l.bought},
                {"left_over", l.left_over},
                {"mass_kg", l.mass.value()},
                {"volume_m3", l.volume.value()},
                {"on_site", l.on_site},
                {"laid", l.laid},
                {"at_work", l.at_work}};
  });
  out["walls"] = each(bill.walls, [](const works::WallBricks& w) {
    return Json{{"part", w.part},
                {"wall", w.wall},
                {"laid_below", w.count.laid_below},
                {"laid_seen", w.count.laid_facing},
                {"to_cut", w.count.cut},
                {"weep_holes", w.weep_holes},
                {"courses", each(w.count.courses, [](const measure::Course& c) {
                   return Json{{"below", c.laid_below}, {"seen", c.laid_facing}};
                 })}};
  });
  out["stock"] = each(works::stock_of(job, bill), [&](const works::StockLine& s) {
    Json one = {{"material", s.material}, {"counted", s.counted},   {"delivered", s.delivered},
                {"needed", s.needed},     {"short_by", s.short_by}, {"spare", s.spare}};
    if (s.short_by > 0 && trade::material(s.material).unit == "bricks") {
      const works::CurePlan cure = works::cure(job, s.material, s.short_by);
      one["cures"] = each(cure.cures, [](const works::Cure& c) {
        const bool share = c.kind == works::Cure::Kind::share_out;
        Json way = {{"kind", share ? "share-out" : "shrink"},
                    {"part", c.part},
                    {"courses", c.courses},
                    {"frees", c.frees}};
        if (share) way["instead"] = c.instead;
        if (share) way["takes"] = c.takes;
        return way;
      });
      one["still_short"] = cure.still_short;
    }
    return one;
  });
  out["parts"] = each(bill.parts, [](const works::PartLine& l) {
    return Json{{"part", l.part}, {"material", l.material}, {"net", l.net}, {"total", l.total}};
  });
  out["batches"] = each(bill.batches, [](const works::Batch& b) {
    return Json{{"part", b.part},
                {"what", b.what},
                {"wet_m3", b.wet.value()},
                {"mixes", b.mixes},
                {"cement_bags", b.cement_bags},
                {"concrete", b.concrete},
                {"last_mix", b.last_mix},
                {"bags_a_mix", b.bags_a_mix},
                {"mix", each(b.mix, [](const works::Gauged& g) {
                   return Json{{"material", g.material}, {"boxes", g.boxes}, {"mass_kg", g.mass.value()}};
                 })}};
  });
  out["soil"] = {{"dug_m3", bill.dug.value()},
                 {"dug_loose_m3", bill.dug_loose.value()},
                 {"kept_m3", bill.soil_kept.value()},
                 {"away_m3", bill.soil_away.value()}};
  out["concrete_m3"] = bill.concrete.value();
  out["bricks"] = bill.bricks;
  out["mass_kg"] = bill.mass.value();
  return out;
}

Json van_answer(const render::VanFacts& facts) {
  Json out = files::export_document("van");
  out["payload_kg"] = facts.payload.value();
  out["room_m3"] = facts.room.value();
  out["fits"] = facts.plan.fits;
  out["over_kg"] = facts.plan.over_mass.value();
  out["over_m3"] = facts.plan.over_volume.value();
  out["loads"] = each(facts.plan.loads, [&](const measure::VanLoad& load) {
    return Json{{"mass_kg", load.mass.value()},
                {"volume_m3", load.volume.value()},
                {"items", each(load.pieces, [&](const measure::VanLoad::Piece& piece) {
                   const measure::VanItem& item = facts.items[piece.item];
                   const double part = static_cast<double>(piece.units) / static_cast<double>(item.units);
                   return Json{{"name", item.name},
                               {"units", piece.units},
                               {"of", item.units},
                               {"mass_kg", (item.mass * part).value()},
                               {"volume_m3", (item.volume * part).value()}};
                 })}};
  });
  out["too_big"] = each(facts.plan.too_big, [&](std::size_t i) { return Json(facts.items[i].name); });
  out["not_in_the_van"] = each(facts.brought, [](const render::Brought& b) {
    return Json{{"name", b.name}, {"amount", b.how_much}, {"how", b.how}};
  });
  return out;
}

Json light_answer(const works::Job& job, const std::vector<render::LightDay>& days) {
  Json out = files::export_document("light");
  out["job"] = job.name;
  out["zone"] = job.site.zone.name();
  out["days"] = each(days, [](const render::LightDay& day) {
    return Json{{"day", base::iso_local(base::LocalTime(day.day)).substr(0, 10)},
                {"dawn", moment(day.light.dawn())},
                {"sunrise", moment(day.light.sunrise())},
                {"sunset", moment(day.light.sunset())},
                {"dusk", moment(day.light.dusk())},
                {"working_light_seconds", day.working.count()}};
  });
  return out;
}

Json forecast_answer(const sky::Series& series) {
  Json out = files::export_document("forecast");
  out["source"] = series.source;
  out["attribution"] = series.attribution;
  out["issued"] = moment(series.issued);
  out["latitude"] = series.latitude;
  out["longitude"] = series.longitude;
  out["sources"] = sources_json(series);
  out["hours"] = each(series.hours, [](const sky::Hour& hour) {
    Json origins = Json::object();
    origin(origins, "temperature_c", hour.temperature);
    origin(origins, "dew_point_c", hour.dew_point);
    origin(origins, "humidity", hour.humidity);
    origin(origins, "wind_ms", hour.wind);
    origin(origins, "gust_ms", hour.gust);
    origin(origins, "cloud", hour.cloud);
    origin(origins, "rain_mm", hour.rain);
    origin(origins, "rain_chance", hour.rain_chance);
    Json one = {{"start", base::iso_utc(hour.start)},
                {"temperature_c", value(hour.temperature)},
                {"dew_point_c", value(hour.dew_point)},
                {"humidity", value(hour.humidity)},
                {"wind_ms", value(hour.wind)},
                {"gust_ms", value(hour.gust)},
                {"cloud", value(hour.cloud)},
                {"rain_mm", value(hour.rain)},
                {"rain_chance", value(hour.rain_chance)}};
    one["source"] = hour.part;
    if (hour.filled_from) one["filled_from"] = *hour.filled_from;
    if (!origins.empty()) one["origin"] = std::move(origins);
    return one;
  });
  out["notes"] = each(series.notes, [](const sky::SeriesNote& n) {
    return Json{{"code", n.code}, {"text", n.text}};
  });
  return out;
}

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

Json faults_answer(const base::InputError& error) {
  Json out = files::export_document("faults");
  out["source"] = error.source();
  const auto* refused = dynamic_cast<const desk::JobRefused*>(&error);
  out["errors"] =
      files::faults_to_json(error.faults(), refused != nullptr ? refused->lines() : files::JsonLines{});
  return out;
}

}  // namespace weatherstruck::app
