// Day sheets as text and as a page.
#include <fmt/format.h>

#include <chrono>

#include "care_words.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/day_book.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using html::element;
using html::Html;
using html::line;

std::string clock(const base::Zone& zone, base::Instant at) {
  return base::iso_local(zone.to_local(at)).substr(11, 5);
}
/// "08:00-10:15"; "by 16:10" where only the end is known.
std::string when(const base::Zone& zone, base::Instant from, base::Instant to) {
  if (from == to) return "by " + clock(zone, to);
  return clock(zone, from) + "-" + clock(zone, to);
}

/// "Tue 10 Feb 2026": a record is read in later years too.
std::string dated(base::LocalDay day) {
  return fmt::format("{} {}", base::day_name(day), static_cast<int>(std::chrono::year_month_day(day).year()));
}

std::string work_words(const WorkDone& done) {
  std::string words = done.title;
  if (!done.amount.empty()) words += ": " + done.amount;
  if (done.hours) {
    const auto minutes = std::chrono::minutes(std::llround(done.hours->value() * 60));
    words += fmt::format(" ({})", duration_minutes(minutes));
  }
  return words;
}

struct Headed {
  std::string_view id;
  std::string_view title;
  std::vector<std::string> lines;
};
/// All but the work, which has the clock beside it.
std::vector<Headed> lists(const DaySheet& day) {
  return {{"plan", "Against the plan", day.against_plan},
          {"came", "Material", day.came},
          {"covers", "Covers", day.covers},
          {"read", "Read", day.read},
          {"agreed", "Extras agreed", day.agreed},
          {"spent", "Spent", day.spent},
          {"photographs", "Photographs", day.photographs},
          {"notes", "Notes", day.notes}};
}

std::string hour_words(const base::Zone& zone, const HourBeside& hour) {
  return clock(zone, hour.from) + " " + hour.weather;
}

Html day_html(const DaySheet& day, const base::Zone& zone) {
  const std::string id = base::iso_local(base::LocalTime(day.day)).substr(0, 10);
  Html inside;
  if (!day.weather.empty()) inside += line(element("p", day.weather));
  if (!day.people.empty()) inside += line(element("p", capital(day.people) + "."));
  Html rows;
  for (const WorkDone& done : day.work) {
    rows += line(element("dt", when(zone, done.from, done.to))) + line(element("dd", work_words(done)));
  }
  if (!rows.empty()) inside += line(element("h3", "Work")) + line(element("dl", line(Html()) + rows));
  Html stopped;
  for (const Stopped& one : day.stopped) {
    Html said = html::text(capital(one.cause));
    if (!one.hours.empty()) {
      std::vector<std::string> hours;
      for (const HourBeside& hour : one.hours)
        hours.push_back(hour_words(zone, hour));
      said += line(Html()) + care::bullets(hours);
    }
    stopped += line(element("dt", when(zone, one.from, one.to))) + line(element("dd", said));
  }
  if (!stopped.empty())
    inside += line(element("h3", "Stood down")) + line(element("dl", line(Html()) + stopped));
  for (const Headed& list : lists(day)) {
    if (list.lines.empty()) continue;
    inside += line(element("h3", list.title)) + care::bullets(list.lines);
  }
  if (inside.empty()) inside = line(element("p", "Nothing is shown of this day."));
  return care::section("day-" + id, dated(day.day), inside);
}

}  // namespace

std::string day_book_text(const DayBook& book, const base::Zone& zone, Ink ink) {
  Page page(ink);
  page.title(book.title);
  page.text(book.job);
  if (book.days.empty()) {
    page.gap();
    page.text("The site book says nothing of it.");
  }
  constexpr std::size_t at = 13;
  for (const DaySheet& day : book.days) {
    page.heading(dated(day.day));
    page.text(day.weather, 2);
    if (!day.people.empty()) page.text(capital(day.people) + ".", 2);
    for (const WorkDone& done : day.work)
      page.item("  " + when(zone, done.from, done.to), work_words(done), at + 2);
    for (const Stopped& one : day.stopped) {
      page.item("  " + when(zone, one.from, one.to), "stood down: " + one.cause, at + 2);
      for (const HourBeside& hour : one.hours)
        page.text(hour_words(zone, hour), at + 4);
    }
    for (const Headed& list : lists(day)) {
      if (list.lines.empty()) continue;
      page.text(std::string(list.title) + ":", 2);
      for (const std::string& one : list.lines)
        page.text(one, 4);
    }
  }
  page.gap();
  page.text(book.known);
  return page.str();
}

std::string day_book_html(const DayBook& book, const base::Zone& zone) {
  const Html head = line(Html()) + line(element("h1", book.title)) + line(element("p", book.job));
  Html days;
  for (const DaySheet& day : book.days)
    days += day_html(day, zone);
  if (days.empty()) days = line(element("p", "The site book says nothing of it."));
  Html body = line(element("header", head)) + line(element("main", line(Html()) + days));
  if (!book.known.empty()) body += line(element("footer", element("p", {{"class", "small"}}, book.known)));
  return html::document({book.title + ": " + book.job, body, {}, {}});
}

}  // namespace weatherstruck::render
