#include "weatherstruck/works/clause_reader.h"

#include <algorithm>
#include <type_traits>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {
namespace {

constexpr std::size_t most_left_over = 8;  ///< words told back

}  // namespace

ClauseReader::ClauseReader(const Job& job, const TaskList& tasks, const NameWords& names,
                           const Surroundings& around, std::string_view clause, SaidBefore before)
    : job_(job),
      tasks_(tasks),
      names_(names),
      around_(around),
      clock_(job, around.now),
      words_(clause),
      before_(std::move(before)) {
  for (const Answer& answer : around.answers) {
    if (answer.words == clause) answers_.push_back(answer.choice);
  }
}

std::vector<Reading> ClauseReader::read() {
  if (words_.is(0, {"note"})) return {note()};
  if (words_.is(0, {"extra"})) return {extra()};
  take_again();
  if (words_.is(0, {"spent", "paid", "bought", "expense"})) return {expense()};
  if (stands_down()) return {stood_down()};
  if (words_.is(0, {"level", "levels"})) {
    take_times(ClockUse::work);
    return {level()};
  }
  if (words_.find({"canopy"})) return {canopy()};
  const bool came = words_.find({"delivered", "arrived", "came", "fetched"}).has_value();
  bool number = words_.find({"no", "none"}).has_value();
  bool in_gauge = words_.find({"gauge"}).has_value();
  for (std::size_t i = 0; i < words_.size(); ++i) {
    number = number || words_.number(i).has_value();
    in_gauge = in_gauge || (words_.number(i) && words_.is(i + 1, {"mm", "millimetres"}));
  }
  if (fallen() && !in_gauge) return {fell()};
  const bool counted = is_left_over();
  if (number && (counted || came)) return {stock(!counted)};
  const bool kind =
      words_.find({"hessian", "sheet", "sheets", "polythene", "plastic", "mat", "mats", "tarpaulin"})
          .has_value();
  const bool covers = words_.find({"covered", "cover", "covering", "sheeted"}).has_value();
  const bool off = words_.find({"uncovered", "uncovering"}).has_value() ||
                   ((kind || words_.find({"cover", "covers"})) && words_.find({"off"}));
  if (off) return {cover(true)};
  if (covers || (kind && words_.find({"on", "over"}))) return {cover(false)};
  if (in_gauge) return {gauge()};
  if (is_thermometer()) return {thermometer()};
  if (words_.find({"began", "begin", "begun", "started", "start", "starting", "beginning", "resumed"})) {
    return {begin()};
  }
  return done();
}

SaidBefore ClauseReader::said(const std::vector<Reading>& readings) const {
  SaidBefore out;
  const bool all = std::all_of(readings.begin(), readings.end(), [](const Reading& reading) {
    return std::holds_alternative<Understood>(reading);
  });
  if (!all && names_work_) {
    out.lost = true;
    return out;
  }
  out.task = before_.task;
  out.part = before_.part;
  out.lost = before_.lost && !names_work_;
  if (!all) return out;
  out.only_fell = said_.only_fell;
  out.took_fall = said_.took_fall;
  out.time = said_.time;
  out.until = said_.until;
  out.cause = said_.cause;
  if (!out.time && times_.span) {
    out.time = std::get<std::pair<ClockRead, ClockRead>>(*times_.span).second.at;
  } else if (!out.time && times_.at && std::get<ClockRead>(*times_.at).said) {
    out.time = std::get<ClockRead>(*times_.at).at;
  }
  if (!out.time) {
    out.time = before_.time;
    out.until = before_.until;
    out.cause = before_.cause;
  }
  std::set<Name> tasks;
  for (const Reading& reading : readings) {
    const What& what = std::get<Understood>(reading).what;
    if (const auto* begun = std::get_if<Begin>(&what)) tasks.insert(begun->task);
    if (const auto* done = std::get_if<Done>(&what)) tasks.insert(done->task);
    if (const auto* on = std::get_if<CoverOn>(&what)) out.part = on->part;
    if (const auto* off = std::get_if<CoverOff>(&what)) out.part = off->part;
  }
  if (tasks.size() == 1) {
    out.task = *tasks.begin();
    const Task* task = tasks_.find(*out.task);
    if (task != nullptr && !task->of.empty()) out.part = task->of;
  } else if (!tasks.empty()) {
    out.task.reset();
    out.part.reset();
    out.lost = true;
  }
  return out;
}

Reading ClauseReader::understood(What what, ClockRead at) const {
  std::string sentence = shown_back(what, at.at, tasks_, job_.site.zone, around_.now);
  return Understood{std::move(what),        at.at, confidence_ * at.confidence, std::move(sentence),
                    at.said && !until_now_, again_};
}

Reading ClauseReader::settled(What what, ClockRead at) {
  return words_.left_over().empty() ? understood(std::move(what), at) : not_followed();
}

std::string ClauseReader::example() const {
  for (const Task& task : tasks_.tasks) {
    if (task.courses.size() > 1) return "did 2 courses of " + task.name + " at 16:10";
  }
  return tasks_.tasks.empty() ? "" : "did half of " + tasks_.tasks.back().name + " at 16:10";
}

Reading ClauseReader::not_followed(std::vector<std::string> nearest) const {
  const std::vector<std::string> left = words_.left_over();
  std::string text = left.empty() ? std::string("Nothing in it says what happened.")
                                  : "Not understood: \"" + left.front() + "\"";
  if (!left.empty()) {
    for (std::size_t i = 1; i < left.size() && i < most_left_over; ++i)
      text.insert(text.size() - 1, " " + left[i]);
    text += ". Say it like \"" + example() + "\", or write it as a note: \"note: ...\".";
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

void ClauseReader::take_times(ClockUse use, Until until) {
  times_ = clock_.take(words_, use);
  const auto settle = [this](auto& time) {
    if (!time) return;
    const auto* doubt = std::get_if<ClockDoubt>(&*time);
    const auto which = doubt != nullptr ? answered(doubt->candidates) : std::nullopt;
    if (!which) return;
    const auto [from, to] = doubt->meant.at(*which);
    if constexpr (std::is_same_v<decltype(time), decltype(times_.span)&>) {
      time = std::pair(ClockRead{from, 1}, ClockRead{to, 1});
    } else {
      time = ClockRead{from, 1};
    }
  };
  settle(times_.at);
  settle(times_.since);
  settle(times_.until);
  settle(times_.span);
  if (until == Until::is_when && !times_.at) times_.at = times_.until;
}

std::variant<ClockRead, Reading> ClauseReader::moment() {
  if (!times_.at) return ClockRead{clock_.now(), 1, false};
  if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.at)) return Reading(asked(*doubt));
  return std::get<ClockRead>(*times_.at);
}

base::Instant ClauseReader::about_when() const {
  if (times_.span) {
    if (const auto* span = std::get_if<0>(&*times_.span)) return span->second.at;
  }
  if (times_.at) {
    if (const auto* at = std::get_if<ClockRead>(&*times_.at)) return at->at;
  }
  return clock_.now();
}

std::optional<std::size_t> ClauseReader::answered(const std::vector<std::string>& candidates) const {
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (std::find(answers_.begin(), answers_.end(), candidates[i]) != answers_.end()) return i;
  }
  return std::nullopt;
}

std::variant<Name, Reading> ClauseReader::one_of(const NameMatch& match, const std::string& what) {
  if (match.names.size() == 1) {
    confidence_ *= match.confidence;
    return match.names.front();
  }
  if (match.names.size() > 1) {
    if (const auto which = answered(match.names)) return match.names[*which];
    Question question{"Which " + what + " is meant?", match.names};
    if (what == "task" && says_which_) question.about = Question::About::task;
    question.at = about_when();
    question.amount = amount_;
    return Reading(std::move(question));
  }
  return not_followed(match.nearest);
}

std::vector<std::string> ClauseReader::parts_written() const {
  std::vector<std::string> parts;
  for (const Part& written : job_.parts)
    parts.push_back(name_of(written));
  return parts;
}

}  // namespace weatherstruck::works
