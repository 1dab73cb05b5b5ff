#include "phone_ticks.h"

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::render::phone {
namespace {

using trade::Operation;
using works::What;

// A moment, an amount and words that stand in nothing else, so that a line can be cut where they are. The
// line itself is made where every line of the book is made.
const base::Instant stand_in_time =
    std::chrono::sys_days(std::chrono::year(1999) / std::chrono::December / 31) + std::chrono::hours(23);
const base::Instant stand_in_end = stand_in_time + std::chrono::minutes(59);
constexpr double stand_in_amount = 98765.4321;
constexpr std::string_view stand_in_words = "qqq";

std::string moment_text(base::Instant t) {
  return base::iso_local(base::Zone::fixed("UTC", std::chrono::seconds(0)).to_local(t));
}

/// The parts of the text around the marks, which come in that order.
std::vector<std::string> cut(const std::string& line, const std::vector<std::string>& marks) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  for (const std::string& mark : marks) {
    const std::size_t at = line.find(mark, from);
    if (at == std::string::npos) throw std::logic_error("a line of the site book without " + mark);
    parts.push_back(line.substr(from, at - from));
    from = at + mark.size();
  }
  parts.push_back(line.substr(from));
  return parts;
}

std::string whole_line(const What& what) {
  const auto line = works::exact_line(what, stand_in_time, base::Zone::fixed("UTC", std::chrono::seconds(0)));
  if (!line) throw std::logic_error("an entry that has no line");
  return *line;
}

Tick tick(const What& what, std::string label, std::string words, base::Instant plan) {
  Tick out;
  out.line = line_of(what);
  out.key = out.line.before;
  out.label = std::move(label);
  out.words = std::move(words);
  out.plan = plan;
  return out;
}

/// Work that stops at any amount; the rest is begun and finished, or its amount means nothing to a tape.
bool may_be_part_done(const works::Task& task) {
  switch (task.operation) {
    case Operation::drive:
    case Operation::unload:
    case Operation::set_out:
    case Operation::true_lines:
    case Operation::pour:
    case Operation::fetch:
    case Operation::clear_up:
    case Operation::load_out:
    case Operation::other:
      return false;
    default:
      return task.courses.empty() && !task.unit.empty();
  }
}

// What stands when the day begins: by the book where there is one, else by the plan.
int courses_before(const TripFacts& facts, const std::vector<TripDay>& days, std::size_t day,
                   const works::Task& task) {
  if (facts.progress != nullptr) {
    const works::TaskProgress* done = facts.progress->find(task.name);
    return done != nullptr ? done->courses_done : 0;
  }
  int standing = 0;
  for (std::size_t i = 0; i < day; ++i) {
    for (const DayTask& earlier : days[i].tasks) {
      if (facts.list.tasks[earlier.task].name == task.name)
        standing = std::max(standing, earlier.courses_after);
    }
  }
  return standing;
}

std::string cover_title(trade::CoverKind kind) {
  return std::string(trade::row_for(kind).title);
}

}  // namespace

Line line_of(const What& what) {
  std::vector<std::string> parts = cut(whole_line(what), {moment_text(stand_in_time)});
  return {std::move(parts[0]), std::move(parts[1])};
}

TaskTicks ticks_of(const TripFacts& facts, const std::vector<TripDay>& days, std::size_t day,
                   const DayTask& task) {
  const works::Task& work = facts.list.tasks[task.task];
  const std::string title = without_sizes(work.title);
  const bool flight = work.operation == Operation::form_step;
  TaskTicks out{tick(works::Begin{work.name}, "Begun", title + ": begun", task.start()),
                tick(works::Done{work.name, works::Whole{}}, "All done", title + ": all done", task.finish()),
                {},
                flight ? "Steps" : "Courses",
                std::nullopt,
                {},
                {}};
  const int before = courses_before(facts, days, day, work);
  const std::string what = title + (flight ? ": step " : ": course ");
  for (int course = before + 1; course <= static_cast<int>(work.courses.size()); ++course) {
    const std::string number = std::to_string(course);
    out.courses.push_back(
        tick(works::Done{work.name, works::Courses{1}}, number, what + number, task.finish()));
    // One line for each, so the line alone does not name the box.
    out.courses.back().key += "#" + number;
  }
  if (may_be_part_done(work)) {
    const std::string line = whole_line(works::Done{work.name, works::Measured{stand_in_amount, work.unit}});
    const std::vector<std::string> parts =
        cut(line, {base::plain_number(stand_in_amount, 4), moment_text(stand_in_time)});
    out.unit = work.unit;
    out.amount_before = parts[0];
    out.amount_after = parts[1];
  }
  return out;
}

std::vector<CareTick> cover_ticks(const TripFacts& facts, const TripDay& day) {
  std::vector<CareTick> out;
  const auto today = [&](base::Instant t) { return day.span.from <= t && t < day.span.to; };
  const auto add = [&](const What& what, const std::string& words, base::Instant at) {
    Tick one = tick(what, words, words, at);
    // Two pieces under one name, or one covered twice a day: the box is the same.
    const bool there =
        std::any_of(out.begin(), out.end(), [&](const CareTick& other) { return other.tick.key == one.key; });
    if (!there) out.push_back({words, std::move(one)});
  };
  for (const auto& cover : facts.plan.covers) {
    if (cover.kind == trade::CoverKind::bare || cover.kind == trade::CoverKind::canopy) continue;
    const std::string piece = piece_under(facts.list, cover).words();
    if (today(cover.span.from)) {
      add(works::CoverOn{cover.part, cover.kind}, capital(cover_title(cover.kind)) + " on: " + piece,
          cover.span.from);
    }
    if (today(cover.span.to) && !cover.stays_on) {
      add(works::CoverOff{cover.part, cover.kind}, capital(cover_title(cover.kind)) + " off: " + piece,
          cover.span.to);
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const CareTick& a, const CareTick& b) { return a.tick.plan < b.tick.plan; });
  return out;
}

std::vector<CareTick> canopy_ticks(const TripFacts& facts, const TripDay& day) {
  std::vector<CareTick> out;
  const auto today = [&](base::Instant t) { return day.span.from <= t && t < day.span.to; };
  int number = 0;
  for (const auto& sitting : facts.plan.canopy) {
    // It may go up over one part and come down more than once a day.
    const std::string which = "#" + std::to_string(++number);
    const auto add = [&](const What& what, const std::string& words, base::Instant at) {
      Tick one = tick(what, words, words, at);
      one.key += which;
      out.push_back({words, std::move(one)});
    };
    if (today(sitting.pitch_from))
      add(works::CanopyUp{sitting.part}, "Canopy up over the " + spoken(sitting.part), sitting.over.from);
    const auto& all = facts.plan.canopy;
    const bool moved = number < static_cast<int>(all.size()) &&
                       all[static_cast<std::size_t>(number)].pitch_from <= sitting.struck_by;
    if (today(sitting.struck_by) && !moved) add(works::CanopyDown{}, "Canopy down", sitting.struck_by);
  }
  return out;
}

NoteLine note_line() {
  const std::vector<std::string> parts = cut(whole_line(works::Note{std::string(stand_in_words)}),
                                             {moment_text(stand_in_time), std::string(stand_in_words)});
  return {parts[0], parts[1]};
}

StoodDownLine stood_down_line() {
  const std::vector<std::string> parts =
      cut(whole_line(works::StoodDown{std::string(stand_in_words), stand_in_time, stand_in_end}),
          {moment_text(stand_in_time), moment_text(stand_in_end), std::string(stand_in_words)});
  return {parts[0], parts[1], parts[2]};
}

}  // namespace weatherstruck::render::phone
