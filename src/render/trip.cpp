#include "weatherstruck/render/trip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::render {
namespace {

using programme::PlannedRun;
using programme::PlannedTask;
using programme::Span;

constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

char letter_at(std::size_t position) {
  return position < letters.size() ? letters[position] : '+';
}

// The part of a run that falls on a day, its share by time.
PlannedRun clipped(const PlannedRun& run, Span day) {
  PlannedRun part = run;
  part.span = {std::max(run.span.from, day.from), std::min(run.span.to, day.to)};
  const auto whole = (run.span.to - run.span.from).count();
  if (whole > 0) {
    part.share =
        run.share * static_cast<double>((part.span.to - part.span.from).count()) / static_cast<double>(whole);
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

std::vector<std::string> hours_of(const TripFacts& facts, const DayTask& task) {
  const base::Zone& zone = facts.job.site.zone;
  struct Stretch {
    base::LocalTime from;
    base::LocalTime to;
  };
  std::vector<Stretch> stretches;
  for (const PlannedRun& run : task.runs) {
    const base::LocalTime from = to_quarter(zone.to_local(run.span.from));
    const base::LocalTime to =
        std::max(to_quarter(zone.to_local(run.span.to)), from + std::chrono::minutes(15));
    if (!stretches.empty() && from <= stretches.back().to) {
      stretches.back().to = std::max(stretches.back().to, to);
    } else {
      stretches.push_back({from, to});
    }
  }
  std::vector<std::string> out;
  for (const Stretch& stretch : stretches) {
    const std::string end = base::clock_time(stretch.to);
    out.push_back(base::clock_time(stretch.from) + '-' + (end == "00:00" ? "24:00" : end));
  }
  return out;
}

std::string words_in(const TripFacts& facts, const DayTask& task, std::size_t columns) {
  std::string words = words_for(facts, task);
  if (base::display_width(words) <= columns) return words;
  const std::string& title = facts.list.tasks[task.task].title;
  return words.replace(0, title.size(), without_sizes(title));
}

std::string words_for(const TripFacts& facts, const DayTask& task) {
  const works::Task& work = facts.list.tasks[task.task];
  std::string words = work.title;
  if (const std::string part = portion(facts, task); !part.empty()) words += ", " + part;
  std::vector<std::string> stretches = hours_of(facts, task);
  stretches.erase(stretches.begin());
  if (!stretches.empty()) words += "; again " + base::join_and(stretches);
  const auto any = [&](bool PlannedRun::*flag) {
    return std::any_of(task.runs.begin(), task.runs.end(), [&](const PlannedRun& run) { return run.*flag; });
  };
  if (any(&PlannedRun::under_canopy)) words += "; canopy";
  if (any(&PlannedRun::floodlit) && work.outdoors) words += "; lights";
  if (any(&PlannedRun::beyond_forecast)) words += "; beyond the forecast";
  return words;
}

std::vector<std::string> left_alone(const TripFacts& facts, const TripDay& day, bool fresh_only) {
  const base::Zone& zone = facts.job.site.zone;
  const base::Instant starts =
      zone.to_instant_earliest(base::LocalTime(day.day) + facts.job.trip.working_day.from);
  struct Until {
    std::string when;
    std::vector<Piece> pieces;
  };
  struct Kind {
    std::string how;  ///< what tells that it is over, or else what it waits for
    std::vector<Until> lines;
  };
  std::vector<Kind> kinds;
  for (const programme::PlannedWait& wait : facts.plan.waits) {
    if (wait.span.from >= day.span.to || wait.span.to <= std::max(day.span.from, starts)) continue;
    if (fresh_only && wait.span.from < day.span.from) continue;
    std::string how;
    const works::Task* next = facts.list.find(wait.next);
    if (const std::string_view test = test_for(wait.wait); !test.empty()) {
      how = fmt::format(" ({})", test);
    } else if (next != nullptr) {
      how = fmt::format(", then {}", trade::row_for(next->operation).title);
    }
    auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return k.how == how; });
    if (kind == kinds.end()) kind = kinds.insert(kinds.end(), Kind{how, {}});
    const std::string when = until_when(facts.job, day.day, wait.span.to);
    auto line =
        std::find_if(kind->lines.begin(), kind->lines.end(), [&](const Until& u) { return u.when == when; });
    if (line == kind->lines.end()) line = kind->lines.insert(kind->lines.end(), Until{when, {}});
    line->pieces.push_back(piece_left(facts.list, wait));
  }
  struct Left {
    std::string what;
    std::string until;
  };
  std::vector<Left> left;
  for (const Kind& kind : kinds) {
    const std::string what = together(kind.lines.front().pieces);
    std::string until = " until " + kind.lines.front().when;
    for (std::size_t i = 1; i < kind.lines.size(); ++i)
      until += ", " + together(kind.lines[i].pieces) + " until " + kind.lines[i].when;
    const auto same = std::find_if(left.begin(), left.end(), [&](const Left& l) { return l.what == what; });
    if (same == left.end() || kind.lines.size() > 1) {
      left.push_back({what, until + kind.how});
    } else {
      same->until += ';' + until + kind.how;
    }
  }
  std::vector<std::string> out;
  for (const Left& line : left)
    out.push_back(line.what + line.until);
  return out;
}

std::string until_when(const works::Job& job, base::LocalDay today, base::Instant t) {
  const base::LocalTime local = to_quarter(job.site.zone.to_local(t));
  base::LocalDay day = std::chrono::floor<std::chrono::days>(local);
  const auto clock = local - base::LocalTime(day);
  if (clock > job.trip.working_day.from && clock < job.trip.working_day.to)
    return about(today, job.site.zone.to_local(t));
  // Nobody goes back to it in the night.
  if (clock >= job.trip.working_day.to) day += std::chrono::days(1);
  const auto away = day - today;
  if (away <= std::chrono::days(0)) return "this morning";
  if (away == std::chrono::days(1)) return "tomorrow morning";
  return (away < std::chrono::days(7) ? weekday(day) : base::day_name(day)) + " morning";
}

std::string spoken(const std::string& words) {
  if (words.find(' ') != std::string::npos) return words;
  std::string text = words;
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

std::string warning(const TripFacts& facts) {
  return facts.sound ? "" : "THIS PLAN FAILS ITS OWN CHECK. DO NOT FOLLOW IT.";
}

std::string_view test_for(works::Wait wait) {
  switch (wait) {
    case works::Wait::concrete_to_lay:
    case works::Wait::concrete_to_lay_box:
    case works::Wait::concrete_to_lay_high:
      return "a boot heel leaves no mark";
    case works::Wait::mortar_to_point:
      return "a thumb leaves no print";
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
