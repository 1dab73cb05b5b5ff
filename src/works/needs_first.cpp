#include "weatherstruck/works/needs_first.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/mortar_behaviour.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::works {
namespace {

namespace limit = trade::limit;

constexpr std::chrono::minutes one_after_another{5};  ///< between works whose hours nobody wrote down

}  // namespace

NeedsFirst::NeedsFirst(const Job& job, const TaskList& list, Progress& progress)
    : job_(job), list_(list), progress_(progress), limits_(limits_of(job)) {
  for (std::size_t i = 0; i < list_.tasks.size(); ++i)
    index_.emplace(list_.tasks[i].name, i);
}

std::string NeedsFirst::title(std::size_t task) const {
  return "\"" + short_title(list_.tasks[task]) + "\"";
}

bool NeedsFirst::there(std::size_t task) const {
  const auto& only = list_.tasks[task].only_if;
  if (!only || progress_.tasks[task].begun) return true;
  const auto parent = index_.find(only->task);
  if (parent == index_.end()) return true;
  const auto& way = progress_.tasks[parent->second].way;
  if (way) return *way == only->way;
  const auto& ways = list_.tasks[parent->second].ways;
  return ways.empty() || ways.front().key == only->way;
}

/// The task at the near end of a link that ends at `to`; none where it binds nothing here.
std::optional<std::size_t> NeedsFirst::needed_from(const Link& link, std::size_t to) const {
  if (link.to != list_.tasks[to].name) return std::nullopt;
  const auto from = index_.find(link.from);
  if (from == index_.end()) return std::nullopt;
  const Task& first = list_.tasks[from->second];
  // Who is at work on site has driven there.
  if (first.operation == trade::Operation::drive) return std::nullopt;
  // ... and work that may be left out holds up no other piece.
  if (first.importance != Importance::must && first.of != list_.tasks[to].of) return std::nullopt;
  return there(from->second) ? std::optional(from->second) : std::nullopt;
}

std::vector<std::size_t> NeedsFirst::missing(std::size_t task, bool at_finish) const {
  std::vector<std::size_t> missing;
  for (const Link& link : list_.links) {
    if ((link.kind == Link::Kind::finish_finish) != at_finish) continue;
    const auto from = needed_from(link, task);
    if (!from) continue;
    const TaskProgress& earlier = progress_.tasks[*from];
    const bool ready =
        link.kind == Link::Kind::start_start ? earlier.begun.has_value() : earlier.finished.has_value();
    if (!ready) missing.push_back(*from);
  }
  return missing;
}

void NeedsFirst::seen(std::size_t task, bool at_finish, const Entry& entry) {
  Wanting wanting{progress_.remarks.size(), task, at_finish, missing(task, at_finish)};
  if (wanting.missing.empty()) return;
  // Its words are not known before the last entry.
  progress_.remarks.push_back({Remark::Kind::advice, "needs-first", entry.key, ""});
  wanting_.push_back(std::move(wanting));
}

base::Hours NeedsFirst::must_go_by(const Link& link) const {
  const trade::LimitValues& values = limits_.values;
  const double slow = values.at(limit::fill_cold_factor);
  switch (link.wait) {
    case Wait::none:
      return base::Hours(0);
    case Wait::concrete_to_lay:
      return values.hours(limit::strip_wait_cold);
    case Wait::concrete_to_lay_box:
      return values.hours(limit::box_wait) *
             (values.at(limit::strip_wait_cold) / values.at(limit::strip_wait_mild));
    case Wait::concrete_to_lay_high:
      return values.hours(limit::high_wall_wait_cold);
    case Wait::mortar_to_fill_half:
      return values.hours(limit::fill_half_wait) * slow;
    case Wait::mortar_to_fill:
      return values.hours(limit::fill_rest_wait) * slow;
    case Wait::mortar_to_point:
      return trade::thumbprint_hours(job_.practice.mortar, job_.practice.binder, matter::Suction::slow).high;
    case Wait::plate_to_strap:
      return values.hours(limit::strap_wait);
    case Wait::bed_to_grout:
      return values.hours(limit::grout_wait);
    case Wait::hours:
      return link.hours;
  }
  return base::Hours(0);
}

base::Instant NeedsFirst::at_the_latest(base::Instant start, base::Hours wait) const {
  if (wait.value() <= 0) return start;
  const base::Instant there_from =
      job_.trip.leave_home +
      std::chrono::seconds(static_cast<std::chrono::seconds::rep>(job_.trip.drive_out.value() * 3600));
  base::Instant by =
      start - std::chrono::seconds(static_cast<std::chrono::seconds::rep>(wait.value() * 3600));
  // Nobody poured in the night: the evening before.
  const base::Zone& zone = job_.site.zone;
  const auto of_day = zone.time_of_day(by);
  const DaySpan& working = job_.trip.working_day;
  if (of_day < working.from || of_day > working.to) {
    const base::LocalDay day = zone.day_of(by) - std::chrono::days(of_day < working.from ? 1 : 0);
    by = std::min(by, zone.to_instant_earliest(base::LocalTime(day) + working.to));
  }
  return std::max(by, std::min(there_from, start));
}

/// The first moment by which a task must have been finished; none where nothing says so.
std::optional<NeedsFirst::Needed> NeedsFirst::needed(std::size_t task,
                                                     const std::vector<Needed>& roots) const {
  std::optional<Needed> first;
  for (const Link& link : list_.links) {
    if (link.from != list_.tasks[task].name || link.kind != Link::Kind::finish_start) continue;
    const auto to = index_.find(link.to);
    if (to == index_.end() || needed_from(link, to->second) != task) continue;
    const TaskProgress& later = progress_.tasks[to->second];
    if (!later.begun) continue;
    const base::Instant start = later.taken ? *later.finished - one_after_another : *later.begun;
    const base::Instant by = at_the_latest(start, must_go_by(link));
    if (!first || by < first->by) first = Needed{by, roots[to->second].root};
  }
  return first;
}

std::vector<NeedsFirst::Taken> NeedsFirst::settle() {
  std::vector<Taken> taken;
  std::vector<Needed> roots;
  for (std::size_t i = 0; i < list_.tasks.size(); ++i)
    roots.push_back({{}, i});
  std::vector<std::vector<std::size_t>> taken_for(list_.tasks.size());
  // Backwards through the links, so that a whole chain of things not written down is seen.
  for (std::size_t i = list_.tasks.size(); i-- > 0;) {
    TaskProgress& state = progress_.tasks[i];
    if (state.finished || !there(i)) continue;
    const auto due = needed(i, roots);
    if (!due) continue;
    // He was at it after that, and did not say that he finished it.
    const auto named = last_named_.find(i);
    if (named != last_named_.end() && named->second >= *progress_.tasks[due->root].begun) continue;
    const base::Instant at =
        named == last_named_.end() ? due->by : std::max(due->by, named->second + one_after_another);
    roots[i].root = due->root;
    taken.push_back({i, state.done, at});
    taken_for[due->root].push_back(i);
    state.done = state.amount;
    state.courses_done = static_cast<int>(list_.tasks[i].courses.size());
    state.begun = state.begun.value_or(at);
    state.finished = at;
    state.taken = true;
  }
  for (auto& tasks : taken_for)
    std::reverse(tasks.begin(), tasks.end());
  say(taken_for);
  return taken;
}

void NeedsFirst::say(const std::vector<std::vector<std::size_t>>& taken_for) {
  const auto quoted = [this](const std::vector<std::size_t>& tasks) {
    std::vector<std::string> titles;
    for (const std::size_t task : tasks)
      titles.push_back(title(task));
    return base::join_and(titles);
  };
  for (const Wanting& wanting : wanting_) {
    Remark& remark = progress_.remarks[wanting.remark];
    std::vector<std::size_t> other_way;
    for (const std::size_t task : wanting.missing) {
      if (!progress_.tasks[task].taken) other_way.push_back(task);
    }
    const std::string which = title(wanting.task) + (wanting.at_finish ? " was finished" : " was begun");
    if (!other_way.empty()) {
      remark.kind = Remark::Kind::question;
      remark.text = which + ", but by the book " + quoted(other_way) +
                    (other_way.size() == 1 ? " comes" : " come") + " first and " +
                    (other_way.size() == 1 ? "was" : "were") +
                    " not finished then. Which of the two is wrong?";
    } else if (const auto& tasks = taken_for[wanting.task]; !tasks.empty()) {
      remark.code = "taken-as-done";
      remark.text = "Taken as done, since " + which + ": " + quoted(tasks) + ". Log " +
                    (tasks.size() == 1 ? "it" : "them") + " if you know when.";
    }
  }
  auto& remarks = progress_.remarks;
  remarks.erase(std::remove_if(remarks.begin(), remarks.end(),
                               [](const Remark& remark) { return remark.text.empty(); }),
                remarks.end());
}

}  // namespace weatherstruck::works
