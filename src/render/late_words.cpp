#include "weatherstruck/render/late_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using programme::Cure;
using programme::Late;

constexpr std::size_t most_cures = 3;

std::string span_words(const TripFacts& facts, const programme::Span& span) {
  const base::Zone& zone = facts.job.site.zone;
  const bool same_day = zone.day_of(span.from) == zone.day_of(span.to);
  const base::LocalTime to = zone.to_local(span.to);
  return base::day_and_time(zone.to_local(span.from)) + " to " +
         (same_day ? base::clock_time(to) : base::day_and_time(to));
}

std::string home_words(const TripFacts& facts, base::Instant home) {
  return base::day_and_time(facts.job.trip.home_zone.to_local(home));
}

std::string because(const TripFacts& facts, const Late& late) {
  if (late.weather) {
    std::string text = fmt::format("the weather: dry and mild, you would be home {}",
                                   home_words(facts, *late.in_fair_weather));
    if (late.longest_stop) {
      const programme::Reason& reason = late.longest_stop->reason;
      text += fmt::format(". Longest in the way: {}, {}, before \"{}\"", reason.text,
                          span_words(facts, reason.span),
                          spoken(facts.list.tasks.at(late.longest_stop->task).title));
    }
    return text + ".";
  }
  std::string text =
      late.in_fair_weather
          ? fmt::format("more than the weather: dry and mild, you would still be home {}",
                        home_words(facts, *late.in_fair_weather))
          : std::string("more than the weather: even dry and mild no plan with all of the work was found");
  text += fmt::format(". Work in the plan: {} h, in days of at most {} h",
                      base::plain_number(static_cast<double>(late.work.count()) / 3600, 0),
                      base::plain_number(facts.job.trip.longest_day.value(), 1));
  if (late.longest_wait)
    text += fmt::format("; longest wait: {}, {}", spoken(late.longest_wait->what),
                        span_words(facts, late.longest_wait->span));
  return text + ".";
}

std::string more_mats(const TripFacts& facts) {
  return facts.job.limits.set == trade::LimitSet::us ? "100 sq ft" : "10 m2";
}

}  // namespace

std::string change_words(const TripFacts& facts, const Cure& cure) {
  switch (cure.kind) {
    case Cure::Kind::delivered_on_arrival:
      return "the delivery there when you come";
    case Cure::Kind::lights:
      return "with lights";
    case Cure::Kind::canopy:
      return facts.job.limits.set == trade::LimitSet::us ? "with a canopy of 10 x 10 ft"
                                                         : "with a canopy of 3 x 3 m";
    case Cure::Kind::longer_days:
      return "working from 06:00 to 21:00 where it must be";
    case Cure::Kind::labourer:
      return "with a labourer";
    case Cure::Kind::mats:
      return "with " + more_mats(facts) + " of insulated mats more";
    case Cure::Kind::day_earlier:
      return "leaving a day sooner";
    case Cure::Kind::without:
      return "without the " + spoken(cure.part);
    case Cure::Kind::later:
      return "with a later promise";
  }
  return {};
}

namespace {

std::string name_of(Cure::Kind kind) {
  switch (kind) {
    case Cure::Kind::delivered_on_arrival:
      return "the delivery there when you come";
    case Cure::Kind::lights:
      return "lights";
    case Cure::Kind::canopy:
      return "a canopy";
    case Cure::Kind::longer_days:
      return "longer days";
    case Cure::Kind::labourer:
      return "a labourer";
    case Cure::Kind::mats:
      return "more insulated mats";
    case Cure::Kind::day_earlier:
      return "a day more at the beginning";
    case Cure::Kind::without:
      return "leaving out a part";
    case Cure::Kind::later:
      return "a promise some days later";
  }
  return {};
}

std::string cured(const TripFacts& facts, const Late& late) {
  if (late.cures.empty()) {
    std::vector<std::string> tried;
    for (const Cure::Kind kind : late.tried)
      tried.push_back(name_of(kind));
    return "none found. Planned again with one change each, and not enough alone: " + base::join_and(tried) +
           ".";
  }
  std::string text;
  for (std::size_t i = 0; i < std::min(most_cures, late.cures.size()); ++i) {
    const Cure& cure = late.cures[i];
    text += fmt::format("{}{}, home {}", i == 0 ? "" : "; or ", change_words(facts, cure),
                        home_words(facts, cure.home));
  }
  return text +
         ". Each was planned again by itself. \"weatherstruck why JOB home\": what forbids the promise.";
}

}  // namespace

LateWords late_words(const TripFacts& facts, const Late& late) {
  return {because(facts, late), late.tried.empty() ? std::string() : cured(facts, late)};
}

}  // namespace weatherstruck::render
