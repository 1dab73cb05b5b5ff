#include "weatherstruck/app/answers.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/words.h"

namespace weatherstruck::app {
namespace {

using files::Json;

Json figure(const trade::ListedFigure& one) {
  Json out = Json::object();
  if (!one.what.empty()) out["what"] = one.what;
  out["value"] = one.value;
  out["unit"] = one.unit;
  if (one.low) out["low"] = *one.low;
  if (one.high) out["high"] = *one.high;
  return out;
}

template <class T, class Word>
Json word(const std::optional<T>& value, Word word_of) {
  return value ? Json(std::string(word_of(*value))) : Json(nullptr);
}

std::string_view set_word(trade::LimitSet set) {
  return set == trade::LimitSet::uk ? "uk" : "us";
}

}  // namespace

Json limits_answer(const render::LimitsFacts& facts) {
  Json out = files::export_document("limits");
  out["job"] = facts.job ? Json(*facts.job) : Json(nullptr);
  out["set"] = word(facts.set, set_word);
  out["cold_rule"] = word(facts.rule, files::word_for<trade::ColdRule>);
  Json rows = Json::array();
  for (const trade::ListedRow& row : facts.rows) {
    Json one = {{"table", trade::table_word(row.table)},
                {"group", trade::group_title(row.group)},
                {"key", row.key},
                {"title", row.title}};
    Json figures = Json::array();
    for (const trade::ListedFigure& f : row.figures)
      figures.push_back(figure(f));
    one["figures"] = std::move(figures);
    one["class"] = word(row.cls, trade::class_word);
    one["set"] = word(row.set, set_word);
    one["cold_rule"] = word(row.rule, files::word_for<trade::ColdRule>);
    one["standing"] = trade::words_for(row.source.standing);
    one["source"] = row.source.text;
    if (row.may_be) one["may_be"] = {row.may_be->first, row.may_be->second};
    one["set_in"] = row.set_in.empty() ? Json(nullptr) : Json(row.set_in);
    if (facts.job) {
      const render::OwnFigure* own = render::own_figure(facts, row);
      one["set_by_job"] = own != nullptr;
      if (own != nullptr) one["job_value"] = own->value;
    }
    rows.push_back(std::move(one));
  }
  out["rows"] = std::move(rows);
  return out;
}

}  // namespace weatherstruck::app
