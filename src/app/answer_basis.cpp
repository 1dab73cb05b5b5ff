#include "answer_basis.h"

#include <optional>
#include <string_view>

#include "weatherstruck/base/text.h"
#include "weatherstruck/sky/basis.h"

namespace weatherstruck::app {
namespace {

using files::Json;
using sky::Basis;

Json moment(const std::optional<base::Instant>& t) {
  return t ? Json(base::iso_utc(*t)) : Json(nullptr);
}

std::string_view word_for(Basis::Kind kind) {
  switch (kind) {
    case Basis::Kind::forecast:
      return "forecast";
    case Basis::Kind::read_on_site:
      return "read-on-site";
    case Basis::Kind::observed:
      return "observed";
    case Basis::Kind::past_years:
      return "past-years";
    case Basis::Kind::nothing:
      break;
  }
  return "nothing";
}

Json source_json(const sky::Part& part) {
  return {{"source", part.source}, {"issued", moment(part.issued)}, {"attribution", part.attribution}};
}

}  // namespace

Json stands_on_json(const sky::Series& series, base::Instant from, base::Instant to) {
  Json out = Json::array();
  for (const Basis& basis : sky::bases_of(series, from, to)) {
    Json one = {{"from", base::iso_utc(basis.from)},
                {"to", base::iso_utc(basis.to)},
                {"kind", word_for(basis.kind)},
                {"source", basis.source.empty() ? Json(nullptr) : Json(basis.source)},
                {"issued", moment(basis.issued)}};
    if (!basis.filled_from.empty()) {
      one["filled_from"] = basis.filled_from;
      one["filled_issued"] = moment(basis.filled_issued);
    }
    out.push_back(std::move(one));
  }
  return out;
}

Json beside_json(const std::optional<programme::SecondOpinion>& second) {
  if (!second) return nullptr;
  return {{"source", second->source},
          {"issued", moment(second->issued)},
          {"until", base::iso_utc(second->until)},
          {"differs", second->differs()},
          {"home", moment(second->home)},
          {"later_seconds", second->later ? Json(second->later->count()) : Json(nullptr)},
          {"in_time", second->in_time},
          {"left_out", second->left_out},
          {"spoilt", second->spoilt}};
}

Json sources_json(const sky::Series& series) {
  Json out = Json::array();
  if (series.parts.empty()) out.push_back(source_json(sky::part_of(series, 0)));
  for (const sky::Part& part : series.parts)
    out.push_back(source_json(part));
  return out;
}

}  // namespace weatherstruck::app
