// The days as a page.
#include <fmt/format.h>

#include "care_words.h"
#include "day_strip.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/days_drawing.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using html::element;
using html::Html;
using html::line;

// Labels and what they say as a list; a label that goes on is said once.
Html told(const std::vector<Said>& all) {
  Html out;
  for (const Said& said : all) {
    if (!said.label.empty()) out += line(element("dt", capital(said.label)));
    out += line(element("dd", capital(said.words)));
  }
  return out.empty() ? out : line(element("dl", line(Html()) + out));
}

}  // namespace

std::string days_html(const TripFacts& facts, const programme::Late* late) {
  const std::vector<TripDay> days = trip_days(facts);
  Html head = line(Html()) + line(element("h1", "Days")) + line(element("p", facts.job.title));
  const std::string against = warning(facts);
  if (!against.empty()) head += line(element("p", {{"class", "warning"}}, against));
  Html body;
  for (std::size_t i = 0; i < days.size(); ++i) {
    const TripDay& day = days[i];
    const std::string title =
        fmt::format("{}, day {} of {}", base::day_name(day.day), day.number, days.size());
    Html inside = line(element("p", weather_of(facts, day)));
    if (day.tasks.empty()) {
      inside += line(element("p", "Nothing planned."));
    } else {
      inside += day_course(facts, days, i) + day_table(facts, day, title) + told(care_of(facts, day));
    }
    body += care::section("day-" + std::to_string(day.number), title, inside);
  }
  body += care::section("marks", "The marks", course_legend(facts, days));
  body += care::section("home", "Home", told(ending_of(facts, late)));
  Html foot;
  if (!facts.series.attribution.empty())
    foot = line(
        element("footer", line(Html()) + line(element("p", {{"class", "small"}}, facts.series.attribution))));
  return html::document({"Days: " + facts.job.title,
                         line(element("header", head)) + line(element("main", line(Html()) + body)) + foot,
                         course_style(),
                         {}});
}

}  // namespace weatherstruck::render
