// The clauses of the weather: what fell, how cold it was, and what it stopped.
#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <tuple>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/clause_reader.h"

namespace weatherstruck::works {
namespace {

constexpr double carried = 0.8;  ///< confidence in a time that the clause before said

struct Weather {
  std::string_view word;
  std::string_view cause;
};
constexpr std::array<Weather, 10> weather_words{{{"rain", "rain"},
                                                 {"rained", "rain"},
                                                 {"raining", "rain"},
                                                 {"hail", "hail"},
                                                 {"hailed", "hail"},
                                                 {"hailing", "hail"},
                                                 {"snow", "snow"},
                                                 {"snowed", "snow"},
                                                 {"snowing", "snow"},
                                                 {"sleet", "sleet"}}};

std::string_view cause_of(std::string_view word) {
  for (const Weather& row : weather_words) {
    if (row.word == word) return row.cause;
  }
  return {};
}

double fahrenheit_in_celsius(double degrees) {
  return (degrees - 32) / 1.8;
}

}  // namespace

/// The place of the word that says what fell: the clause opens with it, but for "it", "began" and the like.
std::optional<std::size_t> ClauseReader::fallen() const {
  std::size_t i = 0;
  while (words_.is(i, {"it", "began", "started", "to"}))
    ++i;
  return cause_of(words_.text(i)).empty() ? std::nullopt : std::optional(i);
}

/// What fell and when, beside what was in the gauge: worth keeping, and what a stand-down came from.
Reading ClauseReader::fell() {
  const std::size_t word = *fallen();
  said_.cause = std::string(cause_of(words_.text(word)));
  take_times(ClockUse::work, Until::its_own);
  ClockRead at{clock_.now(), 1, false};
  std::optional<ClockRead> end;
  const auto first = times_.at ? times_.at : (times_.since ? times_.since : times_.until);
  if (times_.span) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.span)) return asked(*doubt);
    const auto& [from, to] = std::get<std::pair<ClockRead, ClockRead>>(*times_.span);
    at = from;
    end = to;
  } else if (first) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*first)) return asked(*doubt);
    at = std::get<ClockRead>(*first);
    if (times_.until) {
      if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.until)) return asked(*doubt);
      end = std::get<ClockRead>(*times_.until);
    }
  }
  const std::vector<std::string> left = words_.left_over();
  said_.only_fell = std::all_of(left.begin(), left.end(), [](const std::string& one) {
    return !cause_of(one).empty() || one == "it" || one == "began" || one == "started" || one == "to";
  });
  if (at.said) said_.time = at.at;
  if (end) said_.until = end->at;
  std::string text = said_.only_fell ? said_.cause : words_.unused_source();
  if (end) text += " until " + base::clock_time(job_.site.zone.to_local(end->at));
  return understood(Note{std::move(text)}, at);
}

/// The place of "stood down" or "rained off".
std::optional<std::size_t> ClauseReader::stands_down() const {
  for (std::size_t i = 0; i + 1 < words_.size(); ++i) {
    const bool stood = words_.is(i, {"stood"}) && words_.is(i + 1, {"down"});
    if (stood || (words_.is(i + 1, {"off"}) && !cause_of(words_.text(i)).empty())) return i;
  }
  return std::nullopt;
}

Reading ClauseReader::stood_down() {
  const std::size_t place = *stands_down();
  std::string cause(cause_of(words_.text(place)));
  words_.use(place, 2);
  take_times(ClockUse::work, Until::its_own);
  const std::string rest = without_lead(words_.unused_source(), {"because of", "due to", "for", "with"});
  if (!rest.empty()) cause = rest;
  for (const auto* time : {&times_.at, &times_.since, &times_.until}) {
    if (!*time) continue;
    if (const auto* doubt = std::get_if<ClockDoubt>(&**time)) return asked(*doubt);
  }
  std::optional<ClockRead> from;
  std::optional<ClockRead> to;
  if (times_.since) from = std::get<ClockRead>(*times_.since);
  if (times_.at && !from) from = std::get<ClockRead>(*times_.at);
  if (times_.until) to = std::get<ClockRead>(*times_.until);
  if (times_.span) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.span)) return asked(*doubt);
    std::tie(from, to) = std::get<std::pair<ClockRead, ClockRead>>(*times_.span);
  } else if (times_.since && !to && from->at < clock_.now()) {
    until_now_ = true;
    to = ClockRead{clock_.now(), 1, false};
  }
  // The time just said is when it began, and what fell then is why.
  if (!from && before_.time && (to || before_.until)) {
    from = ClockRead{*before_.time, carried};
    if (!to) to = ClockRead{*before_.until, carried};
    if (cause.empty()) cause = before_.cause;
    said_.took_fall = before_.only_fell && cause == before_.cause;
  }
  if (!from || !to || from->at >= to->at)
    return Question{"Stood down from when to when? Say it like \"stood down 2 to 4, rain\".", {}};
  said_.time = to->at;
  return understood(StoodDown{cause, from->at, to->at}, *from);
}

Reading ClauseReader::gauge() {
  take_times(ClockUse::weather);
  words_.take({"gauge"});
  while (words_.take({"mm", "millimetres", "rain", "gauge", "fell", "fallen", "rained", "it"})) {
  }
  std::optional<double> value;
  for (std::size_t i = 0; i < words_.size(); ++i) {
    if (!words_.number(i)) continue;
    if (value) return Question{"How many millimetres, as one number?", {}};
    value = words_.number(i);
    words_.use(i);
  }
  if (!value) return Question{"How many millimetres are in the gauge?", {}};
  ClockRead at{clock_.now(), 1, false};
  ClockRead since;
  if (times_.span) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.span)) return asked(*doubt);
    std::tie(since, at) = std::get<std::pair<ClockRead, ClockRead>>(*times_.span);
  } else {
    if (!times_.since) return Question{"Since when was the rain caught?", {}};
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.since)) return asked(*doubt);
    const auto read_at = moment();
    if (const auto* doubt = std::get_if<Reading>(&read_at)) return *doubt;
    since = std::get<ClockRead>(*times_.since);
    at = std::get<ClockRead>(read_at);
  }
  if (since.at >= at.at) return Question{"Since when was the rain caught?", {}};
  return settled(Gauge{base::Millimetres(*value), since.at},
                 {at.at, at.confidence * since.confidence, at.said});
}

bool ClauseReader::is_thermometer() const {
  for (std::size_t i = 0; i < words_.size(); ++i) {
    if (words_.is(i, {"thermometer", "temperature"})) return true;
    if (!words_.number(i)) continue;
    const bool minus = i > 0 && words_.is(i - 1, {"minus", "-"});
    const bool degrees =
        words_.is(i + 1, {"degrees", "degree", "\xc2\xb0", "c", "f", "celsius", "fahrenheit"});
    const bool below = words_.is(i + 1, {"below"}) && !words_.is(i + 2, {"ground"});
    if (minus || degrees || below) return true;
  }
  return false;
}

Reading ClauseReader::thermometer() {
  take_times(ClockUse::weather);
  std::optional<double> value;
  for (std::size_t i = 0; i < words_.size(); ++i) {
    if (!words_.number(i)) continue;
    if (value) return Question{"How many degrees, as one number?", {}};
    value = words_.number(i);
    const bool minus = i > 0 && words_.is(i - 1, {"minus", "-"});
    if (minus) {
      value = -*value;
      words_.use(i - 1);
    }
    words_.use(i);
  }
  if (!value) return Question{"How many degrees were they?", {}};
  while (words_.take({"degrees", "degree", "\xc2\xb0", "thermometer", "temperature", "air", "outside", "it",
                      "reads", "read", "says"})) {
  }
  if (words_.take({"below"}) || words_.take({"frost"})) value = -std::abs(*value);
  words_.take({"zero", "freezing"});
  const bool celsius = words_.take({"c", "celsius"});
  if (words_.take({"f", "fahrenheit"})) {
    value = fahrenheit_in_celsius(*value);
  } else if (!celsius && job_.limits.set == trade::LimitSet::us) {
    return Question{"Fahrenheit or Celsius?", {"F", "C"}};
  }
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return settled(Thermometer{base::Celsius(*value)}, std::get<ClockRead>(at));
}

}  // namespace weatherstruck::works
