// Answers that no plan is needed for: amounts, loads, light, weather, and what is wrong with a document.
#include "answer_basis.h"
#include "answer_parts.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/shortage.h"

namespace weatherstruck::app {
namespace {

using files::Json;

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

Json faults_answer(const base::InputError& error) {
  Json out = files::export_document("faults");
  out["source"] = error.source();
  const auto* refused = dynamic_cast<const desk::JobRefused*>(&error);
  out["errors"] =
      files::faults_to_json(error.faults(), refused != nullptr ? refused->lines() : files::JsonLines{});
  return out;
}

}  // namespace weatherstruck::app
