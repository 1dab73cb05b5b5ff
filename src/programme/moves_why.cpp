#include "moves_why.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::programme::moves {
namespace {

using base::Instant;
using works::Name;

/// Codes of reasons that the weather makes; see ClockMaker and the reader of plans.
constexpr std::array<std::string_view, 6> weather_codes{"rain",   "cold",  "heat",
                                                        "canopy", "cover", "stiffening"};

bool is_weather(const Reason& reason) {
  return std::find(weather_codes.begin(), weather_codes.end(), reason.code) != weather_codes.end();
}

std::string spoken_time(std::chrono::seconds time) {
  const long all = std::lround(static_cast<double>(time.count()) / 60.0);
  const long hours = all / 60;
  const long rest = all % 60;
  if (hours == 0) return fmt::format("{} min", rest);
  return rest == 0 ? fmt::format("{} h", hours) : fmt::format("{} h {:02} min", hours, rest);
}

std::chrono::seconds time_on(const PlannedTask& task) {
  std::chrono::seconds sum{0};
  for (const PlannedRun& run : task.runs)
    sum += run.span.to - run.span.from;
  return sum;
}

/// What stands there at t, for which the new plan starts the task later.
const Reason* standing(const PlannedTask& task, Instant t) {
  const Reason* found = nullptr;
  for (const Reason& reason : task.reasons) {
    if (t < reason.span.from || t >= reason.span.to) continue;
    if (found == nullptr || (is_weather(reason) && !is_weather(*found))) found = &reason;
  }
  return found;
}

}  // namespace

Facts::Facts(const MoveRequest& request) : request_(request) {
  const auto in = [](const Plan& plan, const Name& name) -> const PlannedTask* {
    const auto found = std::find_if(plan.tasks.begin(), plan.tasks.end(),
                                    [&](const PlannedTask& task) { return task.task == name; });
    return found == plan.tasks.end() ? nullptr : &*found;
  };
  for (const works::Task& task : request.list.tasks)
    states_.push_back({&task, in(request.before, task.name), in(request.after, task.name)});
}

Why Facts::later(std::size_t i, Instant from, Instant to) const {
  Seen seen;
  return later(i, from, to, seen);
}

std::string Facts::clock(Instant t) const {
  return base::day_and_time(request_.zone.to_local(t));
}
std::string Facts::hours(const Span& span) const {
  const base::LocalTime to = request_.zone.to_local(span.to);
  const bool same = request_.zone.day_of(span.from) == request_.zone.day_of(span.to);
  return clock(span.from) + " to " + (same ? base::clock_time(to) : base::day_and_time(to));
}
std::string Facts::quoted(std::size_t i) const {
  return "\"" + works::short_title(*states_[i].task) + "\"";
}
std::optional<std::size_t> Facts::index(const Name& name) const {
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (states_[i].task->name == name) return i;
  }
  return std::nullopt;
}
std::optional<std::size_t> Facts::drive_home() const {
  for (std::size_t i = states_.size(); i-- > 1;) {
    if (states_[i].task->operation == trade::Operation::drive) return i;
  }
  return std::nullopt;
}
bool Facts::begun(std::size_t i) const {
  return states_[i].is_placed() && states_[i].after->start() < request_.now;
}

/// Start of what the new plan still has to do.
std::optional<Instant> Facts::still(std::size_t i) const {
  if (!states_[i].is_placed()) return std::nullopt;
  for (const PlannedRun& run : states_[i].after->runs) {
    if (run.span.to > request_.now) return std::max(run.span.from, request_.now);
  }
  return std::nullopt;
}
/// Start of the same in the earlier plan.
std::optional<Instant> Facts::was(std::size_t i) const {
  if (!states_[i].was_placed()) return std::nullopt;
  if (!begun(i)) return states_[i].before->start();
  for (const PlannedRun& run : states_[i].before->runs) {
    if (run.span.to > request_.now) return std::max(run.span.from, request_.now);
  }
  return states_[i].before->finish();
}

// ------------------------------------------------------------------------------------------------ facts

Why Facts::by_weather(const Reason& reason) const {
  return {Fact::weather, std::nullopt, reason.span, reason.text + ", " + hours(reason.span)};
}

std::optional<Why> Facts::stood_down(Instant from, Instant to) const {
  if (request_.progress == nullptr) return std::nullopt;
  for (const works::StandDown& down : request_.progress->stood_down) {
    if (down.from >= to || down.to <= from) continue;
    const Span span{down.from, down.to};
    return Why{Fact::stood_down, std::nullopt, span,
               "stood down" + (down.cause.empty() ? "" : " for " + down.cause) + ", " + hours(span)};
  }
  return std::nullopt;
}

std::optional<Why> Facts::short_of(std::size_t i) const {
  if (request_.progress == nullptr) return std::nullopt;
  for (const works::MaterialDraw& draw : states_[i].task->materials) {
    const works::Stock* stock = request_.progress->stock_of(draw.material);
    if (stock == nullptr || stock->short_by.value_or(0) <= 0) continue;
    const trade::Material* material = trade::find_material(draw.material);
    return Why{
        Fact::stock,
        i,
        {},
        fmt::format("short of {}", material == nullptr ? std::string_view(draw.material) : material->title)};
  }
  return std::nullopt;
}

/// The levels as read made another thing of what this task is on.
std::optional<Why> Facts::levels(std::size_t i) const {
  if (request_.progress == nullptr) return std::nullopt;
  const works::Task& task = *states_[i].task;
  const auto is_on = [&](const Name& part) {
    return part == task.part || part == task.of ||
           (!task.of.empty() && part.compare(0, task.of.size() + 1, task.of + "-") == 0);
  };
  for (const works::WallCourses& wall : request_.progress->walls) {
    if (wall.before == wall.now || !is_on(wall.wall)) continue;
    return Why{
        Fact::levels,
        i,
        {},
        fmt::format("by the levels read it has {} courses at the low end, not {}", wall.now, wall.before)};
  }
  for (const works::FootingRead& footing : request_.progress->footings) {
    const auto steps = static_cast<int>(footing.plan.steps.size());
    if (steps == footing.steps_before || !is_on(footing.footing)) continue;
    return Why{Fact::levels,
               i,
               {},
               fmt::format("by the levels read its footing has {} {}, not {}", steps,
                           steps == 1 ? "step" : "steps", footing.steps_before)};
  }
  return std::nullopt;
}

/// Of the tasks that must come first: the last to end, if it ends later than it was to.
std::optional<std::size_t> Facts::late_before(std::size_t i) const {
  std::optional<std::size_t> latest;
  for (const works::Link& link : request_.list.links) {
    if (link.to != states_[i].task->name) continue;
    const auto from = index(link.from);
    if (!from || !runs_late(*from)) continue;
    if (!latest || states_[*from].after->finish() > states_[*latest].after->finish()) latest = from;
  }
  return latest;
}
bool Facts::runs_late(std::size_t i) const {
  const State& state = states_[i];
  if (!state.is_placed()) return false;
  return state.was_placed() ? state.after->finish() > state.before->finish() + as_planned
                            : state.after->finish() > request_.now;
}

/// Whoever the new plan has at work at t.
std::optional<std::size_t> Facts::at_work(Instant t, std::size_t self) const {
  for (std::size_t i = 0; i < states_.size(); ++i) {
    if (i == self || !states_[i].is_placed()) continue;
    for (const PlannedRun& run : states_[i].after->runs) {
      if (run.span.from <= t && t < run.span.to) return i;
    }
  }
  return std::nullopt;
}

Why Facts::later(std::size_t i, Instant from, Instant to, Seen& seen) const {
  seen.insert(i);
  if (from < request_.now) {
    if (auto why = stood_down(from, std::min(to, request_.now))) return *why;
  }
  const Instant stood = std::max(from, request_.now);
  const Reason* reason = states_[i].after == nullptr ? nullptr : standing(*states_[i].after, stood);
  if (reason != nullptr && is_weather(*reason)) return by_weather(*reason);
  if (reason != nullptr && reason->code == "merchant") {
    if (auto why = short_of(i)) return *why;
  }
  // What must come first, or else whoever has the hands.
  std::vector<std::size_t> holding;
  if (const auto late = late_before(i)) holding.push_back(*late);
  if (const auto busy = at_work(stood, i)) holding.push_back(*busy);
  for (const std::size_t other : holding) {
    if (seen.count(other) > 0) continue;
    Why why = late_end(other, seen);
    if (why.fact != Fact::room) return why;
  }
  if (auto why = levels(i)) return *why;
  if (auto why = short_of(i)) return *why;
  if (from < request_.now && request_.progress != nullptr) return not_yet(i, from);
  if (!holding.empty()) return {Fact::room, holding.back(), {}, "its hours go to " + quoted(holding.back())};
  if (reason != nullptr) return {Fact::room, std::nullopt, reason->span, reason->text};
  return {Fact::room, std::nullopt, {}, "other work comes first"};
}

/// Why this ends later than it was to.
Why Facts::late_end(std::size_t i, Seen& seen) const {
  const State& state = states_[i];
  if (!state.was_placed()) return taken_in(i);
  if (!state.is_placed()) return {};
  const auto longer = time_on(*state.after) - time_on(*state.before);
  const auto put_off = state.after->start() - state.before->start();
  if (put_off > as_planned && put_off >= longer)
    return later(i, state.before->start(), state.after->start(), seen);
  const Instant from = state.before->start();
  if (auto why =
          stood_down(std::min(from, state.after->start()), std::min(state.after->finish(), request_.now))) {
    return *why;
  }
  if (longer > as_planned && begun(i)) {
    if (auto why = levels(i)) return *why;
    const Span span{state.after->start(), state.after->finish()};
    const bool over = span.to <= request_.now;
    return {Fact::took_longer, i, span,
            fmt::format("{} {} {}, planned {}", quoted(i), over ? "took" : "takes",
                        spoken_time(time_on(*state.after)), spoken_time(time_on(*state.before)))};
  }
  if (longer > as_planned) {
    if (auto why = levels(i)) return *why;
  }
  if (state.after->finish() <= state.before->finish() + as_planned) return {};
  // It stops and goes on: what stands in the gap.
  const auto rest = still(i);
  const auto planned = was(i);
  if (rest && planned && *rest > *planned + as_planned) return later(i, *planned, *rest, seen);
  for (const Reason& reason : state.after->reasons) {
    if (is_weather(reason) && reason.span.to > from) return by_weather(reason);
  }
  return {};
}

Why Facts::not_yet(std::size_t i, Instant from) const {
  if (still(i) || !states_[i].is_placed())
    return {Fact::not_done, i, {}, quoted(i) + " is not done by the book"};
  const Instant begun_at = states_[i].after->start();
  return {Fact::not_done,
          i,
          {from, begun_at},
          fmt::format("{} was begun {}, planned {}", quoted(i), clock(begun_at), clock(from))};
}

/// What ended sooner than it was to: of what must come first the last, else of all.
std::optional<std::size_t> Facts::early_before(std::size_t i) const {
  std::optional<std::size_t> early;
  const auto look = [&](std::size_t other) {
    const State& state = states_[other];
    if (other == i || !state.was_placed() || !state.is_placed()) return;
    if (state.after->finish() > request_.now || state.after->finish() > state.before->finish() - as_planned) {
      return;
    }
    if (!early || state.after->finish() > states_[*early].after->finish()) early = other;
  };
  for (const works::Link& link : request_.list.links) {
    const auto other = index(link.from);
    if (link.to == states_[i].task->name && other) look(*other);
  }
  if (early) return early;
  for (std::size_t other = 0; other < states_.size(); ++other)
    look(other);
  return early;
}

Why Facts::earlier(std::size_t i, Instant from, Instant to) const {
  const Reason* stood = states_[i].before == nullptr ? nullptr : standing(*states_[i].before, to);
  if (stood != nullptr && is_weather(*stood))
    return {Fact::weather, std::nullopt, stood->span,
            "no longer in the way: " + stood->text + ", " + hours(stood->span)};
  if (const auto early = early_before(i)) {
    const State& state = states_[*early];
    return {Fact::finished_early,
            *early,
            {state.after->finish(), state.before->finish()},
            fmt::format("{} was finished {}, planned {}", quoted(*early), clock(state.after->finish()),
                        clock(state.before->finish()))};
  }
  // Whoever had these hours before.
  for (std::size_t other = 0; other < states_.size(); ++other) {
    if (other == i || !states_[other].was_placed()) continue;
    for (const PlannedRun& run : states_[other].before->runs) {
      if (run.span.from > to || run.span.to <= to) continue;
      Seen seen{i};
      const auto rest = still(other);
      const auto planned = was(other);
      if (!rest || !planned || *rest <= *planned + as_planned) continue;
      return later(other, *planned, *rest, seen);
    }
  }
  return {Fact::room, std::nullopt, {to, from}, "the hours have come free"};
}

Why Facts::left_out(std::size_t i) const {
  if (auto why = short_of(i)) return *why;
  const std::vector<Reason>& reasons = states_[i].after->reasons;
  if (const auto from = was(i)) {
    const Reason* reason = standing(*states_[i].after, std::max(*from, request_.now));
    if (reason != nullptr && is_weather(*reason)) return by_weather(*reason);
    // Whoever has its hours now, if that was put off.
    if (const auto busy = at_work(std::max(*from, request_.now), i)) {
      Seen seen{i};
      Why why = late_end(*busy, seen);
      if (why.fact != Fact::room) return why;
    }
  }
  for (const Reason& reason : reasons) {
    if (is_weather(reason)) return by_weather(reason);
  }
  if (auto why = levels(i)) return *why;
  if (!reasons.empty()) return {Fact::room, std::nullopt, reasons.front().span, reasons.front().text};
  return {Fact::room, std::nullopt, {}, "no hours are left for it"};
}

Why Facts::taken_in(std::size_t i) const {
  if (auto why = levels(i)) return *why;
  if (states_[i].task->operation == trade::Operation::fetch) {
    if (auto why = short_of(i)) return *why;
  }
  return {Fact::room, std::nullopt, {}, "there are hours for it now"};
}

Why Facts::other_way(std::size_t i) const {
  for (const Reason& reason : states_[i].after->reasons) {
    if (is_weather(reason)) return by_weather(reason);
  }
  return {Fact::room, std::nullopt, {}, "it fits the hours better"};
}

}  // namespace weatherstruck::programme::moves
