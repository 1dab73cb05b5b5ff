// The clauses of work: what was begun, and what was done.
#include <algorithm>
#include <set>
#include <utility>

#include "weatherstruck/works/clause_reader.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::works {
namespace {

constexpr double taken_for_all = 0.8;  ///< "dug the trench": all of it, since nothing else was said
constexpr double roughly = 0.8;

bool is_vague(const std::string& word) {
  static const std::set<std::string> words{"some", "most",   "part",   "bit",
                                           "lot",  "little", "nearly", "almost"};
  return words.count(word) > 0;
}

/// Names of work that mean all there are of the kind.
bool means_several(const std::string& word) {
  return word == "trenches" || word == "footings" || word == "foundations";
}

}  // namespace

Reading ClauseReader::begin() {
  names_work_ = true;
  take_times(ClockUse::work);
  if (times_.span || times_.since) return not_followed();
  again_ = again_ || words_.find({"resumed"});
  while (words_.take(
      {"began", "begin", "begun", "started", "start", "starting", "beginning", "resumed", "with", "work"})) {
  }
  if (words_.left_over().empty()) return Question{"What was begun?", {}};
  return begun_of(names_.task(words_.left_over()));
}

/// "It": the task named last, if the other words are of it.
std::variant<Name, Reading> ClauseReader::same_task(const std::vector<std::string>& left,
                                                    const std::set<Name>& allowed) {
  if (!before_.task) return Reading(Question{"What is \"it\"? Say the name of the work instead.", {}});
  if (left.empty()) return *before_.task;
  const NameMatch match = names_.task(left, allowed);
  if (std::find(match.names.begin(), match.names.end(), *before_.task) != match.names.end())
    return *before_.task;
  return not_followed(match.names);
}

/// "3 courses on the left": where nothing in the place is a word of this job, the place is asked for.
std::optional<Reading> ClauseReader::unknown_place(const std::vector<std::string>& left,
                                                   const std::set<Name>& allowed) const {
  std::string place;
  for (const std::string& word : left) {
    const NameMatch known = names_.task({word});
    const bool figure = WordList(word).number(0).has_value();
    if (figure || (!known.names.empty() && known.confidence == 1)) return std::nullopt;
    place += (place.empty() ? "" : " ") + word;
  }
  return Question{"\"" + place + "\" is no name of this job. Which task is meant?",
                  {allowed.begin(), allowed.end()}};
}

std::vector<Reading> ClauseReader::done() {
  names_work_ = true;
  take_times(ClockUse::work);
  if (times_.since) return {not_followed()};
  bool said_done = words_.find({"did", "done", "finished", "finish", "complete", "completed"}).has_value();
  while (words_.take({"did", "done", "finished", "finish", "complete", "completed", "with", "so", "far"})) {
  }
  if (words_.take({"about", "roughly"})) confidence_ *= roughly;
  const std::optional<Amount> amount = amount_ = take_amount(words_);
  std::vector<std::string> left = words_.left_over();
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
  const auto without = [&left](const auto& is) {
    const std::size_t before = left.size();
    left.erase(std::remove_if(left.begin(), left.end(), is), left.end());
    return left.size() < before;
  };
  const bool past =
      std::any_of(left.begin(), left.end(), [](const std::string& word) { return is_past_of_work(word); });
  says_which_ =
      (amount && !std::holds_alternative<Whole>(*amount)) ||
      std::any_of(left.begin(), left.end(), [](const std::string& word) { return is_word_of_work(word); });
  const bool vague = without(is_vague);
  const bool it = without([](const std::string& word) { return word == "it"; });
  NameMatch match = it ? NameMatch{} : names_.task(left, allowed);
  if (!said_done && !amount && !past && !times_.by && !it) {
    const bool work = exact_name || std::all_of(left.begin(), left.end(), [&](const std::string& word) {
                        return is_word_of_work(word) || match.names.size() == 1;
                      });
    if (!work || match.names.empty() || match.confidence < 1)
      return {not_followed(match.nearest.empty() ? match.names : match.nearest)};
    const std::vector<std::string> ways{"begun", "done"};
    const auto which = answered(ways);
    if (!which) {
      const std::string of =
          match.names.size() > 1 ? "" : "\"" + short_title(*tasks_.find(match.names[0])) + "\": ";
      return {Question{of + "Begun, or done?", ways}};
    }
    if (*which == 0) return {begun_of(match)};
    said_done = true;
  }
  if (!amount && !said_done) confidence_ *= taken_for_all;
  const trade::Operation first =
      match.names.empty() ? trade::Operation::other : tasks_.find(match.names[0])->operation;
  const bool whole = !amount || std::holds_alternative<Whole>(*amount);
  if (match.names.size() > 1 && whole && !vague && !times_.span &&
      std::any_of(left.begin(), left.end(), means_several) &&
      std::all_of(match.names.begin(), match.names.end(),
                  [&](const Name& name) { return tasks_.find(name)->operation == first; })) {
    // Levels reduced for a path are dug too, but are no trenches.
    const auto no_trench = [&](const Name& name) {
      return tasks_.find(name)->title.find("trench") == std::string::npos;
    };
    auto& names = match.names;
    if (first == trade::Operation::dig && !std::all_of(names.begin(), names.end(), no_trench))
      names.erase(std::remove_if(names.begin(), names.end(), no_trench), names.end());
    std::vector<Reading> all;
    for (const Name& name : names) {
      for (Reading& reading : done_of(name, Whole{}))
        all.push_back(std::move(reading));
    }
    return all;
  }
  if (match.names.empty() && !it && !vague && !allowed.empty()) {
    const std::vector<std::string> names(allowed.begin(), allowed.end());
    if (const auto question = unknown_place(left, allowed)) {
      const auto which = answered(names);
      return which ? done_of(names[*which], amount.value_or(Amount(Whole{})))
                   : std::vector<Reading>{*question};
    }
  }
  const auto task = it ? same_task(left, allowed) : one_of(match, "task");
  if (const auto* reading = std::get_if<Reading>(&task)) return {*reading};
  const Name& name = std::get<Name>(task);
  if (vague) return {Question{"How much of \"" + short_title(*tasks_.find(name)) + "\" was done?", {}}};
  return done_of(name, amount.value_or(Amount(Whole{})));
}

Reading ClauseReader::begun_of(const NameMatch& match) {
  const auto task = one_of(match, "task");
  if (const auto* reading = std::get_if<Reading>(&task)) return *reading;
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(Begin{std::get<Name>(task)}, std::get<ClockRead>(at));
}

std::vector<Reading> ClauseReader::done_of(const Name& name, const Amount& amount) {
  const Task& row = *tasks_.find(name);
  if (const auto* measured = std::get_if<Measured>(&amount);
      measured != nullptr && measured->unit != row.unit) {
    return {Question{"\"" + short_title(row) + "\" is measured in " + row.unit + ", not in " +
                         measured->unit + ". How much of it was done?",
                     {}}};
  }
  if (std::holds_alternative<Courses>(amount) && row.courses.empty()) {
    return {Question{
        "\"" + short_title(row) + "\" is not laid in courses. How much of it was done, in " + row.unit + "?",
        {}}};
  }
  const Done what{name, amount};
  if (times_.span) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.span)) return {asked(*doubt)};
    const auto& [from, to] = std::get<std::pair<ClockRead, ClockRead>>(*times_.span);
    return {understood(Begin{name}, from), understood(what, to)};
  }
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return {*doubt};
  return {understood(what, std::get<ClockRead>(at))};
}

}  // namespace weatherstruck::works
