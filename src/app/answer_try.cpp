#include "answer_try.h"

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/export.h"

namespace weatherstruck::app {
namespace {

using files::Json;

Json money(const std::optional<base::Money>& sum) {
  return sum ? Json(sum->text()) : Json(nullptr);
}

Json chance(const std::optional<programme::Outlook>& outlook) {
  if (!outlook) return nullptr;
  return {{"weathers", outlook->weathers},
          {"home", outlook->home},
          {"home_and_sound", outlook->home_and_sound},
          {"chance", outlook->chance()},
          {"sampling_error", outlook->sampling_error()}};
}

Json side(const render::TrySide& it) {
  const programme::Plan& plan = it.result.plan;
  Json out = {{"bricks", it.bill.bricks},
              {"concrete_m3", it.bill.concrete.value()},
              {"soil_away_m3", it.bill.soil_away.value()},
              {"work_hours", it.work.value()},
              {"work_hours_left", it.left.value()},
              {"home", plan.home ? Json(base::iso_utc(*plan.home)) : Json(nullptr)},
              {"in_hand_seconds", plan.home ? Json(plan.in_hand.count()) : Json(nullptr)},
              {"left_out", plan.left_out},
              {"keeps_promise", it.keeps_promise()},
              {"checked", it.result.objections.empty()},
              {"outlook", chance(it.result.outlook)}};
  Json batches = Json::array();
  for (const works::Batch& batch : it.bill.batches) {
    batches.push_back({{"part", batch.part},
                       {"what", batch.what},
                       {"mixes", batch.mixes},
                       {"cement_bags", batch.cement_bags}});
  }
  out["batches"] = std::move(batches);
  return out;
}

Json stock(const works::MaterialChange::Side& it) {
  return {{"needed", it.needed}, {"short_by", it.short_by}, {"spare", it.spare}, {"packs", it.packs}};
}

}  // namespace

Json try_answer(const render::TryFacts& facts) {
  Json out = files::export_document("try");
  out["job"] = facts.before.job.name;
  out["changes"] = facts.said;
  out["stands"] = facts.stands;
  out["as_it_is"] = side(facts.before);
  out["as_tried"] = side(facts.after);
  out["gain"] = facts.beside.gain;
  out["gain_error"] = facts.beside.error;
  out["shows"] = facts.beside.shows();
  out["materials"] = Json::array();
  for (const works::MaterialChange& one : facts.materials) {
    out["materials"].push_back({{"material", one.material},
                                {"unit", one.unit},
                                {"pack", one.pack},
                                {"there", one.there ? Json(*one.there) : Json(nullptr)},
                                {"as_it_is", stock(one.before)},
                                {"as_tried", stock(one.after)}});
  }
  const account::ChangePrice& price = facts.price;
  out["price"] = {{"agreed", money(price.agreed)},      {"an_hour", money(price.an_hour)},
                  {"by_the_hour", price.by_the_hour},   {"as_it_is", money(price.before)},
                  {"as_tried", money(price.after)},     {"apart", money(price.apart)},
                  {"taken_off", money(price.taken_off)}};
  out["advice"] = files::faults_to_json(facts.advice);
  return out;
}

Json trial_answer(const std::string& job, const std::string& state, const std::vector<std::string>& changes) {
  Json out = files::export_document("try-state");
  out["job"] = job;
  out["state"] = state;
  out["changes"] = changes;
  return out;
}

}  // namespace weatherstruck::app
