#include "weatherstruck/works/clause_reader.h"

#include <algorithm>
#include <set>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {
namespace {

constexpr double taken_for_all = 0.8;  ///< "dug the trench": all of it, since nothing else was said
constexpr double roughly = 0.8;
constexpr std::size_t most_candidates = 8;

const std::set<std::string>& vague() {
  static const std::set<std::string> words{"some", "most",   "part",   "bit",
                                           "lot",  "little", "nearly", "almost"};
  return words;
}

}  // namespace

ClauseReader::ClauseReader(const Job& job, const TaskList& tasks, const NameWords& names,
                           const Surroundings& around, std::string_view clause)
    : job_(job), tasks_(tasks), names_(names), around_(around), clock_(job, around.now), words_(clause) {}

std::vector<Reading> ClauseReader::read() {
  if (words_.is(0, {"note"})) return {note()};
  if (words_.is(0, {"extra"})) return {extra()};
  take_again();
  if (words_.is(0, {"spent", "paid", "bought", "expense"})) return {expense()};
  const auto pair = [this](std::string_view first, std::string_view second) {
    for (std::size_t i = 0; i + 1 < words_.size(); ++i) {
      if (words_.text(i) == first && words_.text(i + 1) == second) return true;
    }
    return false;
  };
  if (pair("stood", "down") || pair("rained", "off")) return {stood_down()};
  if (words_.is(0, {"level", "levels"})) {
    times_ = clock_.take(words_, ClockUse::work);
    return {level()};
  }
  if (words_.find({"canopy"})) return {canopy()};
  const bool counted = words_.find({"counted", "left", "remaining"}).has_value();
  const bool came = words_.find({"delivered", "arrived", "came", "fetched"}).has_value();
  bool number = words_.find({"no", "none"}).has_value();
  bool rain = words_.is(0, {"gauge"});
  for (std::size_t i = 0; i < words_.size(); ++i) {
    number = number || words_.number(i).has_value();
    rain = rain || (words_.number(i) && words_.is(i + 1, {"mm", "millimetres"}));
  }
  if (number && (counted || came)) return {stock(!counted)};
  const bool kind =
      words_.find({"hessian", "sheet", "sheets", "polythene", "plastic", "mat", "mats", "tarpaulin"})
          .has_value();
  const bool covers = words_.find({"covered", "cover", "covering", "sheeted"}).has_value();
  const bool off = words_.find({"uncovered", "uncovering"}).has_value() ||
                   ((kind || words_.find({"cover", "covers"})) && words_.find({"off"}));
  if (off) return {cover(true)};
  if (covers || (kind && words_.find({"on", "over"}))) return {cover(false)};
  if (rain) return {gauge()};
  if (is_thermometer()) return {thermometer()};
  if (words_.find({"began", "begin", "begun", "started", "start", "starting", "beginning", "resumed"})) {
    return {begin()};
  }
  return done();
}

Reading ClauseReader::understood(What what, ClockRead at) const {
  std::string sentence = shown_back(what, at.at, tasks_, job_.site.zone, around_.now);
  return Understood{std::move(what),        at.at, confidence_ * at.confidence, std::move(sentence),
                    at.said && !until_now_, again_};
}

Reading ClauseReader::settled(What what, ClockRead at) {
  return words_.left_over().empty() ? understood(std::move(what), at) : not_followed();
}

Reading ClauseReader::not_followed(std::vector<std::string> nearest) const {
  const std::vector<std::string> left = words_.left_over();
  std::string text = left.empty() ? std::string("Nothing in it says what happened.")
                                  : "Not understood: \"" + left.front() + "\"";
  if (!left.empty()) {
    for (std::size_t i = 1; i < left.size() && i < most_candidates; ++i)
      text.insert(text.size() - 1, " " + left[i]);
    text += ". Say it like \"did 3 courses of bed-lay at 16:10\", or write it as a note.";
  }
  return NotUnderstood{std::move(text), std::move(nearest)};
}

void ClauseReader::take_again() {
  for (std::size_t i = 0; i < words_.size(); ++i) {
    const bool another = words_.is(i, {"another"});
    if (!another && !words_.is(i, {"again", "more"})) continue;
    // "Another course" and "3 more courses" are amounts too; "no more cement" is none.
    const bool amount = (another && words_.is(i + 1, {"course"})) || words_.is(i, {"more"});
    const bool none = i > 0 && words_.is(i - 1, {"no"});
    again_ = again_ || !none;
    if (!amount) words_.use(i);
  }
}

std::variant<ClockRead, Reading> ClauseReader::moment() {
  if (!times_.at) return ClockRead{clock_.now(), 1, false};
  if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.at))
    return Reading(Question{doubt->text, doubt->candidates});
  return std::get<ClockRead>(*times_.at);
}

std::variant<Name, Reading> ClauseReader::one_of(const NameMatch& match, const std::string& what) {
  if (match.names.size() == 1) {
    confidence_ *= match.confidence;
    return match.names.front();
  }
  if (match.names.size() > 1) {
    std::vector<std::string> some = match.names;
    const std::size_t more = some.size() > most_candidates ? some.size() - most_candidates : 0;
    if (more > 0) some.resize(most_candidates);
    return Reading(Question{"Which " + what + " is meant?" +
                                (more > 0 ? " (" + std::to_string(more) + " more fit.)" : std::string()),
                            std::move(some)});
  }
  return not_followed(match.nearest);
}

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

Reading ClauseReader::cover(bool off) {
  times_ = clock_.take(words_, ClockUse::work);
  const bool plain_off = words_.find({"uncovered", "uncovering"}).has_value();
  const auto kind = take_cover_kind();
  while (words_.take({"covered", "cover", "covers", "covering", "uncovered", "uncovering", "put", "laid",
                      "over", "with", "took", "taken", "pulled", "off", "up", "down", "overnight"})) {
  }
  const auto at = moment();
  const auto part = one_of(names_.part(words_.left_over()), "part");
  if (const auto* reading = std::get_if<Reading>(&part)) {
    if (words_.left_over().empty()) {
      std::vector<std::string> parts;
      for (const Part& written : job_.parts)
        parts.push_back(name_of(written));
      return Question{off ? "What was uncovered?" : "What was covered?", std::move(parts)};
    }
    return *reading;
  }
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  const Name& name = std::get<Name>(part);
  if (off) return understood(CoverOff{name, plain_off ? std::nullopt : kind}, std::get<ClockRead>(at));
  if (!kind) {
    return Question{"What was the " + spoken(name) + " covered with?",
                    {"hessian", "sheet", "hessian and sheet", "frost mat"}};
  }
  return understood(CoverOn{name, *kind}, std::get<ClockRead>(at));
}

Reading ClauseReader::canopy() {
  times_ = clock_.take(words_, ClockUse::work);
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
  if (words_.left_over().empty()) {
    std::vector<std::string> parts;
    for (const Part& written : job_.parts)
      parts.push_back(name_of(written));
    return Question{"Over which part does the canopy stand?", std::move(parts)};
  }
  const auto part = one_of(names_.part(words_.left_over()), "part");
  if (const auto* reading = std::get_if<Reading>(&part)) return *reading;
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(CanopyUp{std::get<Name>(part)}, std::get<ClockRead>(at));
}

Reading ClauseReader::begin() {
  times_ = clock_.take(words_, ClockUse::work);
  if (times_.span || times_.since) return not_followed();
  again_ = again_ || words_.find({"resumed"});
  while (words_.take(
      {"began", "begin", "begun", "started", "start", "starting", "beginning", "resumed", "with", "work"})) {
  }
  const auto at = moment();
  if (words_.left_over().empty()) return Question{"What was begun?", {}};
  const auto task = one_of(names_.task(words_.left_over(), {}, around_.finished), "task");
  if (const auto* reading = std::get_if<Reading>(&task)) return *reading;
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(Begin{std::get<Name>(task)}, std::get<ClockRead>(at));
}

std::vector<Reading> ClauseReader::done() {
  times_ = clock_.take(words_, ClockUse::work);
  if (times_.since) return {not_followed()};
  const bool said_done =
      words_.find({"did", "done", "finished", "finish", "complete", "completed"}).has_value();
  while (words_.take({"did", "done", "finished", "finish", "complete", "completed", "with", "so", "far"})) {
  }
  if (words_.take({"about", "roughly"})) confidence_ *= roughly;
  const std::optional<Amount> amount = take_amount(words_);
  std::vector<std::string> left = words_.left_over();
  const bool past =
      std::any_of(left.begin(), left.end(), [](const std::string& word) { return is_past_of_work(word); });
  const bool is_vague =
      std::any_of(left.begin(), left.end(), [](const std::string& word) { return vague().count(word) > 0; });
  const bool exact_name = left.size() == 1 && tasks_.find(left.front()) != nullptr;
  // An amount tells tasks apart: only some are in courses, only some in its unit.
  std::set<Name> allowed;
  for (const Task& task : tasks_.tasks) {
    if (!amount) break;
    const auto* measured = std::get_if<Measured>(&*amount);
    const bool fits = std::holds_alternative<Courses>(*amount)
                          ? !task.courses.empty()
                          : measured != nullptr && measured->unit == task.unit;
    if (fits) allowed.insert(task.name);
  }
  // A unit that no task has still names the thing: "12 flags".
  if (const auto* measured = amount ? std::get_if<Measured>(&*amount) : nullptr;
      measured && allowed.empty()) {
    left.push_back(measured->unit);
  }
  if (left.empty()) {
    if (said_done || amount) return {Question{"What was done?", {}}};
    return {not_followed()};
  }
  if (is_vague) {
    left.erase(
        std::remove_if(left.begin(), left.end(), [](const std::string& w) { return vague().count(w) > 0; }),
        left.end());
  }
  const NameMatch match = names_.task(left, allowed, around_.finished);
  if (!said_done && !amount && !past) {
    const bool work = exact_name || std::all_of(left.begin(), left.end(), [&](const std::string& word) {
                        return is_word_of_work(word) || match.names.size() == 1;
                      });
    if (work && !match.names.empty() && match.confidence == 1) {
      return {Question{"Begun, or done?", match.names}};
    }
    return {not_followed(match.nearest.empty() ? match.names : match.nearest)};
  }
  const auto task = one_of(match, "task");
  if (const auto* reading = std::get_if<Reading>(&task)) return {*reading};
  const Name& name = std::get<Name>(task);
  const Task& row = *tasks_.find(name);
  if (is_vague) return {Question{"How much of \"" + short_title(row) + "\" was done?", {}}};
  if (amount) {
    if (const auto* measured = std::get_if<Measured>(&*amount);
        measured != nullptr && measured->unit != row.unit) {
      return {Question{"\"" + short_title(row) + "\" is measured in " + row.unit + ", not in " +
                           measured->unit + ". How much of it was done?",
                       {}}};
    }
    if (std::holds_alternative<Courses>(*amount) && row.courses.empty()) {
      return {Question{"\"" + short_title(row) + "\" is not laid in courses. How much of it was done, in " +
                           row.unit + "?",
                       {}}};
    }
  } else if (!said_done) {
    confidence_ *= taken_for_all;
  }
  const Done what{name, amount.value_or(Amount(Whole{}))};
  if (times_.span) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.span)) {
      return {Question{doubt->text, doubt->candidates}};
    }
    const auto& [from, to] = std::get<std::pair<ClockRead, ClockRead>>(*times_.span);
    return {understood(Begin{name}, from), understood(what, to)};
  }
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return {*doubt};
  return {understood(what, std::get<ClockRead>(at))};
}

}  // namespace weatherstruck::works
