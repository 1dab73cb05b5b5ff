#include "weatherstruck/render/why_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "weatherstruck/base/text.h"
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

std::string bonds(const works::Link& link, const std::string& title) {
  const std::string_view how = link.kind == works::Link::Kind::finish_start  ? "after"
                               : link.kind == works::Link::Kind::start_start ? "once this has begun:"
                                                                             : "not done before";
  return fmt::format("{} {}{}{}", how, title, link.why.empty() ? "" : ": ", link.why);
}

}  // namespace

std::string why_sheet(const TripFacts& facts, std::size_t task, Ink ink) {
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
  std::string length = fmt::format("{:.1f} h of one man at the norm", work.hours.value());
  if (work.set_up.value() > 0)
    length += fmt::format(", {:.2f} h to set up at each start", work.set_up.value());
  page.item("How long", length, at);

  bool first = true;
  for (const works::Link& link : facts.list.links) {
    if (link.to != work.name) continue;
    const works::Task* from = facts.list.find(link.from);
    page.item(first ? "Comes" : "", bonds(link, from != nullptr ? from->title : link.from), at);
    first = false;
  }

  page.heading("Why not sooner");
  if (planned.reasons.empty()) {
    page.text(planned.placed() ? "Nothing stood in its way: it starts as soon as the trip allows."
                               : "Nothing is on record.",
              2);
  } else {
    Table table({{"", Table::Kind::left}, {"", Table::Kind::wrapped}});
    for (const programme::Reason& reason : planned.reasons)
      table.add({span_words(facts, reason.span), reason.text});
    page.table(table);
  }
  return page.str();
}

}  // namespace weatherstruck::render
