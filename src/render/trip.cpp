#include "weatherstruck/render/trip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using programme::PlannedRun;
using programme::PlannedTask;
using programme::Span;

constexpr std::string_view kLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

char letter_at(std::size_t position) {
  return position < kLetters.size() ? kLetters[position] : '+';
}

// The part of a run that falls on a day, its share by time.
PlannedRun clipped(const PlannedRun& run, Span day) {
  PlannedRun part = run;
  part.span = {std::max(run.span.from, day.from), std::min(run.span.to, day.to)};
  const auto whole = (run.span.to - run.span.from).count();
  if (whole > 0) {
    part.share = run.share * static_cast<double>((part.span.to - part.span.from).count()) / static_cast<double>(whole);
  }
  if (part.span.to < run.span.to) part.courses_after = 0;
  return part;
}

DayTask on_day(const PlannedTask& planned, std::size_t index, Span day) {
  DayTask out;
  out.task = index;
  for (const PlannedRun& run : planned.runs) {
    if (run.span.from < day.from) out.begun_before = true;
    if (run.span.to > day.to) out.goes_on = true;
    if (run.span.to <= day.from || run.span.from >= day.to) continue;
    out.runs.push_back(clipped(run, day));
    out.share += out.runs.back().share;
    out.courses_after = out.runs.back().courses_after;
  }
  return out;
}

}  // namespace

std::vector<TripDay> trip_days(const TripFacts& facts) {
  const base::Zone& zone = facts.job.site.zone;
  std::optional<base::Instant> first;
  std::optional<base::Instant> last;
  for (const PlannedTask& task : facts.plan.tasks) {
    if (!task.placed()) continue;
    first = std::min(first.value_or(task.start()), task.start());
    last = std::max(last.value_or(task.finish()), task.finish());
  }
  const base::Instant begin = std::min(first.value_or(facts.job.trip.leave_home), facts.job.trip.leave_home);
  const base::Instant end = last.value_or(begin + std::chrono::seconds(1));

  std::vector<TripDay> days;
  for (base::LocalDay day = zone.day_of(begin); zone.start_of(day) < end; day += std::chrono::days(1)) {
    const Span span{zone.start_of(day), zone.end_of(day)};
    if (span.from >= span.to) continue;  // a date that the zone skipped
    TripDay out{day, static_cast<int>(days.size()) + 1, span, {}};
    for (std::size_t i = 0; i < facts.plan.tasks.size(); ++i) {
      DayTask task = on_day(facts.plan.tasks[i], i, span);
      if (!task.runs.empty()) out.tasks.push_back(std::move(task));
    }
    std::stable_sort(out.tasks.begin(), out.tasks.end(),
                     [](const DayTask& a, const DayTask& b) { return a.start() < b.start(); });
    for (std::size_t i = 0; i < out.tasks.size(); ++i)
      out.tasks[i].letter = letter_at(i);
    days.push_back(std::move(out));
  }
  return days;
}

std::optional<std::size_t> find_task(const TripFacts& facts, std::string_view words) {
  for (std::size_t i = 0; i < facts.list.tasks.size(); ++i) {
    if (facts.list.tasks[i].name == words) return i;
  }
  if (words.size() != 5 || words[3] != '-') return std::nullopt;
  std::string wanted(words.substr(0, 3));
  std::transform(wanted.begin(), wanted.end(), wanted.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  std::optional<std::size_t> found;
  for (const TripDay& day : trip_days(facts)) {
    std::string name = weekday(day.day);
    name[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(name[0])));
    if (name != wanted) continue;
    for (const DayTask& task : day.tasks) {
      if (task.letter != words[4] || task.letter == '+') continue;
      if (found && *found != task.task) return std::nullopt;
      found = task.task;
    }
  }
  return found;
}

std::string portion(const TripFacts& facts, const DayTask& task) {
  if (!task.begun_before && !task.goes_on) return {};
  const auto& courses = facts.list.tasks[task.task].courses;
  if (task.courses_after > 0 && !courses.empty()) {
    return fmt::format("to course {} of {}", task.courses_after, courses.size());
  }
  return task.goes_on ? (task.begun_before ? "more of it" : "a first part") : "the rest";
}

std::string hours_of(const TripFacts& facts, const DayTask& task) {
  const base::Zone& zone = facts.job.site.zone;
  std::string text;
  base::LocalTime end{};
  for (const PlannedRun& run : task.runs) {
    const base::LocalTime from = to_quarter(zone.to_local(run.span.from));
    const base::LocalTime to = std::max(to_quarter(zone.to_local(run.span.to)), from + std::chrono::minutes(15));
    // Runs with no more than a quarter between them are one stretch to him who reads it.
    if (!text.empty() && from <= end) {
      text.resize(text.size() - 5);
    } else {
      text += fmt::format("{}{}-", text.empty() ? "" : ", ", base::clock_time(from));
    }
    end = std::max(end, to);
    const bool midnight = end == base::LocalTime(std::chrono::floor<std::chrono::days>(end)) && end > from;
    text += midnight ? "24:00" : base::clock_time(end);
  }
  return text;
}

std::string_view test_for(works::Wait wait) {
  switch (wait) {
    case works::Wait::concrete_to_lay:
    case works::Wait::concrete_to_lay_box:
    case works::Wait::concrete_to_lay_high:
      return "a boot heel leaves no mark";
    case works::Wait::mortar_to_point:
      return "a thumb leaves no print";
    case works::Wait::mortar_to_plate:
    case works::Wait::plate_to_strap:
      return "joints too hard for a thumbnail";
    case works::Wait::bed_to_grout:
      return "no flag rocks underfoot";
    case works::Wait::none:
    case works::Wait::mortar_to_fill_half:
    case works::Wait::mortar_to_fill:
    case works::Wait::hours:
      return {};
  }
  return {};
}

}  // namespace weatherstruck::render
