// The clauses of covers and of the canopy.
#include <algorithm>
#include <utility>

#include "weatherstruck/trade/covers.h"
#include "weatherstruck/works/clause_reader.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {
namespace {

/// The kinds that the kit holds; all of them where it holds none.
std::vector<trade::CoverKind> kinds_in(const Kit& kit) {
  using trade::CoverKind;
  const bool hessian = kit.hessian.value() > 0;
  const bool sheet = kit.sheet.value() > 0;
  const bool mats = kit.mats.value() > 0;
  const bool none = !hessian && !sheet && !mats;
  std::vector<CoverKind> kinds;
  if (hessian || none) kinds.push_back(CoverKind::hessian);
  if (sheet || none) kinds.push_back(CoverKind::sheet);
  if ((hessian && sheet) || none) kinds.push_back(CoverKind::hessian_and_sheet);
  if (mats || none) kinds.push_back(CoverKind::mat);
  return kinds;
}

std::string said_as(trade::CoverKind kind) {
  switch (kind) {
    case trade::CoverKind::hessian:
      return "hessian";
    case trade::CoverKind::sheet:
      return "sheet";
    case trade::CoverKind::hessian_and_sheet:
      return "hessian and sheet";
    default:
      return "frost mat";
  }
}

}  // namespace

std::optional<trade::CoverKind> ClauseReader::take_cover_kind() {
  bool hessian = false;
  bool sheet = false;
  bool mat = false;
  while (words_.take({"hessian", "sacking"}))
    hessian = true;
  while (words_.take({"sheet", "sheets", "sheeting", "sheeted", "polythene", "plastic", "tarpaulin"}))
    sheet = true;
  while (words_.take({"mat", "mats", "blanket", "blankets"}))
    mat = true;
  if (mat) {
    words_.take({"frost"});
    if (hessian || sheet) return std::nullopt;
    return trade::CoverKind::mat;
  }
  if (hessian && sheet) {
    words_.take({"and", "under"});
    return trade::CoverKind::hessian_and_sheet;
  }
  if (hessian) return trade::CoverKind::hessian;
  if (sheet) return trade::CoverKind::sheet;
  return std::nullopt;
}

/// The part that is named, or "it": the one named last, else the one worked on last that day.
std::variant<Name, Reading> ClauseReader::covered_part(bool off, base::Instant at) {
  const std::vector<std::string> left = words_.left_over();
  const bool it = left.size() == 1 && (left.front() == "it" || left.front() == "that");
  if (!left.empty() && !it) return one_of(names_.part(left), "part");
  std::vector<std::string> parts = parts_written();
  if (const auto which = answered(parts)) return parts[*which];
  if (it && before_.part) return *before_.part;
  if (it && !before_.lost) {
    const base::Zone& zone = job_.site.zone;
    const auto last = std::find_if(around_.worked.rbegin(), around_.worked.rend(),
                                   [at](const WorkedOn& worked) { return worked.at <= at; });
    if (last != around_.worked.rend() && zone.day_of(last->at) == zone.day_of(at)) return last->part;
  }
  return Reading(Question{off ? "What was uncovered?" : "What was covered?", std::move(parts)});
}

/// Where no cover is named: the only one there is.
std::variant<trade::CoverKind, Reading> ClauseReader::cover_in_kit(const Name& part, base::Instant at) {
  const std::vector<trade::CoverKind> kinds = kinds_in(job_.kit);
  if (kinds.size() == 1) return kinds.front();
  Question question{"What was the " + spoken(part) + " covered with?", {}};
  for (const trade::CoverKind kind : kinds)
    question.candidates.push_back(said_as(kind));
  if (const auto which = answered(question.candidates)) return kinds[*which];
  question.about = Question::About::cover;
  question.at = at;
  question.part = part;
  return Reading(std::move(question));
}

Reading ClauseReader::cover(bool off) {
  names_work_ = true;
  take_times(ClockUse::work);
  const bool plain_off = words_.find({"uncovered", "uncovering"}).has_value();
  const auto kind = take_cover_kind();
  while (words_.take({"covered", "cover", "covers", "covering", "uncovered", "uncovering", "put", "laid",
                      "over", "with", "took", "taken", "pulled", "off", "up", "down", "overnight"})) {
  }
  const auto part = covered_part(off, about_when());
  if (const auto* reading = std::get_if<Reading>(&part)) return *reading;
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  const Name& name = std::get<Name>(part);
  if (off) return understood(CoverOff{name, plain_off ? std::nullopt : kind}, std::get<ClockRead>(at));
  if (kind) return understood(CoverOn{name, *kind}, std::get<ClockRead>(at));
  const auto usual = cover_in_kit(name, std::get<ClockRead>(at).at);
  if (const auto* reading = std::get_if<Reading>(&usual)) return *reading;
  return understood(CoverOn{name, std::get<trade::CoverKind>(usual)}, std::get<ClockRead>(at));
}

Reading ClauseReader::canopy() {
  names_work_ = true;
  take_times(ClockUse::work);
  words_.take({"canopy"});
  const bool down = words_.find({"down", "struck", "lowered", "packed"}).has_value();
  while (words_.take({"down", "struck", "lowered", "packed", "took", "taken", "put", "away"})) {
  }
  const auto at = moment();
  if (down) {
    if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
    return settled(CanopyDown{}, std::get<ClockRead>(at));
  }
  const bool up = words_.find({"up", "over", "pitched", "moved", "shifted", "raised"}).has_value();
  if (!up) return not_followed();
  while (words_.take({"up", "over", "pitched", "moved", "shifted", "raised", "to"})) {
  }
  Name name;
  if (words_.left_over().empty()) {
    std::vector<std::string> parts = parts_written();
    const auto which = answered(parts);
    if (!which) return Question{"Over which part does the canopy stand?", std::move(parts)};
    name = parts[*which];
  } else {
    const auto part = one_of(names_.part(words_.left_over()), "part");
    if (const auto* reading = std::get_if<Reading>(&part)) return *reading;
    name = std::get<Name>(part);
  }
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(CanopyUp{name}, std::get<ClockRead>(at));
}

}  // namespace weatherstruck::works
