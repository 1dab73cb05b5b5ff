#include "weatherstruck/render/second_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::render {
namespace {

constexpr std::size_t most_named = 2;

std::string named(const std::vector<std::string>& all) {
  std::vector<std::string> some(all.begin(),
                                all.begin() + static_cast<std::ptrdiff_t>(std::min(all.size(), most_named)));
  if (all.size() > most_named) some.push_back(fmt::format("{} more", all.size() - most_named));
  return base::join_and(some);
}

}  // namespace

std::vector<std::string> second_lines(const programme::SecondOpinion& second, const works::Job& job,
                                      const works::TaskList& list) {
  const base::Zone& zone = job.site.zone;
  std::string who = second.source;
  if (second.issued) who += " of " + base::day_and_time(zone.to_local(*second.issued));
  std::vector<std::string> lines;
  const std::string reach =
      second.until < job.trip.home_by
          ? fmt::format(" It reaches to {}.", base::day_and_time(zone.to_local(second.until)))
          : std::string();
  if (!second.differs()) {
    lines.push_back(fmt::format("Held against {} the plan stays as it is.{}", who, reach));
    return lines;
  }
  const base::Zone& home = job.trip.home_zone;
  std::string words;
  if (!second.home) {
    words = "by this order of work he is not home at all";
  } else {
    words = fmt::format("home {} {}", base::day_name(home.day_of(*second.home)),
                        quarter(home.to_local(*second.home)));
    if (second.later && second.later->count() != 0) {
      const bool late = second.later->count() > 0;
      words +=
          fmt::format(", {} {}", duration(late ? *second.later : -*second.later), late ? "later" : "sooner");
    }
    if (!second.in_time && second.was_in_time)
      words += ", after the promise or without work that must be done";
    if (second.in_time && !second.was_in_time) words += ", and the promise is kept";
  }
  if (!second.left_out.empty()) {
    std::vector<std::string> titles;
    for (const works::Name& name : second.left_out) {
      const works::Task* task = list.find(name);
      titles.push_back(task != nullptr ? works::short_title(*task) : name);
    }
    words += fmt::format("; no time for {}", named(titles));
  }
  lines.push_back(fmt::format("By {} it comes otherwise: {}.{}", who, words, reach));
  if (!second.spoilt.empty()) {
    lines.push_back(fmt::format("In its weather this plan would spoil {}: look at the covers for it.",
                                named(second.spoilt)));
  }
  return lines;
}

std::string weather_beside(const sky::Series& own, const sky::Series& other, const works::Job& job,
                           base::Instant from) {
  if (own.empty() || other.empty()) return {};
  const base::Zone& zone = job.site.zone;
  const Units units = units_of(job.limits.set);
  const programme::Span both{std::max({from, own.begin_time(), other.begin_time()}),
                             std::min({job.trip.home_by, own.end_time(), other.end_time()})};
  if (both.from >= both.to) return {};
  const WeatherSum mine = sum_up(own, both);
  const WeatherSum theirs = sum_up(other, both);
  std::string words;
  const auto say = [&](const std::string& a, const std::string& b) {
    words += fmt::format("{}{} instead of {}", words.empty() ? "" : ", ", a, b);
  };
  if (mine.rain && theirs.rain) say(rain(*theirs.rain, units) + " of rain", rain(*mine.rain, units));
  if (mine.low && theirs.low)
    say(temperatures(*theirs.low, *theirs.high, units), temperatures(*mine.low, *mine.high, units));
  if (mine.gust && theirs.gust) say("gusts to " + wind(*theirs.gust), wind(*mine.gust));
  if (words.empty()) return {};
  return fmt::format("Beside it {}{}, to {}: {}.", other.source,
                     other.issued ? " of " + base::day_and_time(zone.to_local(*other.issued)) : std::string(),
                     base::day_and_time(zone.to_local(both.to)), words);
}

}  // namespace weatherstruck::render
