#include "weatherstruck/render/why_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <string_view>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/hindrance_words.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

// Shown in words: no finer than a person plans by, but the hours behind a reason are exact, since they are
// asked for.
std::string span_words(const TripFacts& facts, programme::Span span) {
  const base::Zone& zone = facts.job.site.zone;
  const base::LocalTime from = zone.to_local(span.from);
  const base::LocalTime to = zone.to_local(span.to);
  const bool same_day = zone.day_of(span.from) == zone.day_of(span.to);
  return base::day_and_time(from) + " to " + (same_day ? base::clock_time(to) : base::day_and_time(to));
}

std::string placed_words(const TripFacts& facts, const programme::PlannedTask& planned) {
  std::string text;
  for (const auto& run : planned.runs)
    text += (text.empty() ? "" : "; ") + span_words(facts, run.span);
  return text;
}

// What it comes after, those for one reason drawn together: all mess before the clearing up.
void bonds(Page& page, const works::TaskList& list, const works::Name& task, std::size_t at) {
  constexpr std::size_t most = 4;
  struct Bond {
    works::Link::Kind kind;
    std::string why;
    std::vector<std::string> titles;
  };
  std::vector<Bond> all;
  for (const works::Link& link : list.links) {
    if (link.to != task) continue;
    const auto known = std::find_if(all.begin(), all.end(), [&](const Bond& bond) {
      return bond.kind == link.kind && bond.why == link.why;
    });
    const works::Task* from = list.find(link.from);
    const std::string title = from != nullptr ? from->title : link.from;
    if (known != all.end()) {
      known->titles.push_back(title);
    } else {
      all.push_back({link.kind, link.why, {title}});
    }
  }
  bool first = true;
  for (Bond& bond : all) {
    const std::string_view how = bond.kind == works::Link::Kind::finish_start  ? "after"
                                 : bond.kind == works::Link::Kind::start_start ? "once this has begun:"
                                                                               : "not done before";
    if (bond.titles.size() > most + 1) {
      const std::size_t more = bond.titles.size() - most;
      bond.titles.resize(most);
      bond.titles.push_back(fmt::format("{} more", more));
    }
    page.item(
        first ? "Comes" : "",
        fmt::format("{} {}{}{}", how, base::join_and(bond.titles), bond.why.empty() ? "" : ": ", bond.why),
        at);
    first = false;
  }
}

// "work that comes first", for the hours of a day that went by so.
std::string kind_words(const std::string& code) {
  struct Row {
    std::string_view code;
    std::string_view words;
  };
  constexpr std::array<Row, 18> rows{{{"after", "work that comes first"},
                                      {"wait", "a wait"},
                                      {"person", "hands busy"},
                                      {"rain", "rain"},
                                      {"cold", "cold"},
                                      {"heat", "heat"},
                                      {"dark", "dark"},
                                      {"off-hours", "outside his hours"},
                                      {"quiet-hours", "quiet hours"},
                                      {"day-full", "the day's hours used up"},
                                      {"fixed-time", "a fixed time"},
                                      {"canopy", "no canopy"},
                                      {"cover", "not to be kept safe"},
                                      {"stiffening", "joints not hard in time"},
                                      {"short-run", "too short a time"},
                                      {"span", "under way too long"},
                                      {"order", "put off"},
                                      {"merchant", "merchant shut"}}};
  for (const Row& row : rows) {
    if (row.code == code) return std::string(row.words);
  }
  return "stopped";
}

void stretches(Page& page, const TripFacts& facts, const std::vector<programme::Held>& held) {
  // Nights are known; they are told only where nothing else held it.
  const auto is_night = [](const programme::Held& one) { return one.code == "off-hours"; };
  const bool all = std::all_of(held.begin(), held.end(), is_night);
  Table table({{"", Table::Kind::left}, {"", Table::Kind::wrapped}});
  for (const programme::Held& one : held) {
    if (all || !is_night(one)) table.add({span_words(facts, one.span), one.text});
  }
  page.table(table);
}

void days(Page& page, const std::vector<programme::HeldDay>& list) {
  if (list.size() < 2) return;
  page.heading("Day by day, in working hours");
  Table table({{"", Table::Kind::left}, {"", Table::Kind::wrapped}});
  for (const programme::HeldDay& day : list) {
    std::string text;
    for (const auto& share : day.shares)
      text += fmt::format("{}{} {}", text.empty() ? "" : ", ", duration(share.time), kind_words(share.code));
    table.add({base::day_name(day.day), text});
  }
  page.table(table);
}

std::string gain_words(const TripFacts& facts, const programme::Lifted& one) {
  const auto sooner = [](std::chrono::seconds by) {
    if (std::chrono::abs(by) < std::chrono::minutes(15)) return std::string("no sooner");
    return duration(std::chrono::abs(by)) + (by.count() > 0 ? " sooner" : " later");
  };
  std::string text;
  if (one.found) {
    text = "a place " + base::day_and_time(facts.job.site.zone.to_local(*one.found));
  } else {
    text = one.sooner ? sooner(*one.sooner) : "no place found";
  }
  return text + ", home " + (one.home_sooner ? sooner(*one.home_sooner) : "not found");
}

void gains(Page& page, const TripFacts& facts, const std::vector<programme::Lifted>& lifted) {
  if (lifted.empty()) return;
  page.heading("What it would gain");
  std::vector<std::string> nothing;
  Table table({{"", Table::Kind::wrapped}, {"", Table::Kind::left}});
  for (const programme::Lifted& one : lifted) {
    const std::string words = without_words(facts.job, one.hindrance);
    if (one.gains()) {
      table.add({words, gain_words(facts, one)});
    } else {
      nothing.push_back(words);
    }
  }
  page.table(table);
  if (!nothing.empty())
    page.text((lifted.front().had_place ? "Would gain nothing: " : "Would give it no place: ") +
                  base::join_and(nothing) + ".",
              2);
  page.text("Each was planned again by itself, from the plan as it is.", 2);
}

}  // namespace

std::string why_sheet(const TripFacts& facts, std::size_t task, const programme::Why& why, Ink ink) {
  const works::Task& work = facts.list.tasks.at(task);
  const programme::PlannedTask& planned = facts.plan.tasks.at(task);
  constexpr std::size_t at = 14;
  Page page(ink);
  page.title(work.title);
  page.text(work.name);
  page.text(warning(facts));
  page.gap();
  if (!planned.present) {
    page.item("When", "not called for: the way chosen for other work makes it needless", at);
  } else if (!planned.placed()) {
    page.item("When", "left out: no hours were found for it in the trip", at);
  } else {
    page.item("When", placed_words(facts, planned), at);
  }
  if (!work.why.empty()) page.item("What for", work.why, at);
  if (!planned.way_title.empty()) page.item("How", planned.way_title, at);
  std::string length = fmt::format("{:.1f} h of one man at {}", work.hours.value(),
                                   work.own_pace ? "his own pace" : "the norm");
  if (work.set_up.value() > 0)
    length += fmt::format(", {:.2f} h to set up at each start", work.set_up.value());
  page.item("How long", length, at);

  bonds(page, facts.list, work.name, at);

  page.heading("Why not sooner");
  if (why.before.empty()) {
    page.text(planned.placed() ? "Nothing stood in its way: it starts as soon as the trip allows."
                               : "Nothing is on record: other work took its hours.",
              2);
  } else {
    stretches(page, facts, why.before);
  }
  if (planned.placed() && work.operation != trade::Operation::drive) {
    const auto fair = std::chrono::seconds(std::lround(why.in_fair_weather.value() * 3600));
    const bool slow = why.at_work > fair + std::chrono::minutes(15);
    if (slow || !why.within.empty()) {
      page.heading("Why so long");
      page.text(fmt::format("{} at work in {}; in fair weather and daylight {}.", duration(why.at_work),
                            count_of(static_cast<long>(planned.runs.size()), "stretch"), duration(fair)),
                2);
      if (!why.within.empty()) stretches(page, facts, why.within);
    }
  }
  days(page, why.days);
  gains(page, facts, why.lifted);
  return page.str();
}

}  // namespace weatherstruck::render
