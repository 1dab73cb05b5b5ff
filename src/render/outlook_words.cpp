#include "weatherstruck/render/outlook_words.h"

#include <fmt/format.h>

#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::render {
namespace {

// What happens in fewer than one in ten of the weathers says nothing, nor what is behind few of those that go
// wrong.
constexpr double worth_telling = 0.1;
constexpr double often_behind = 0.25;

}  // namespace

std::string likely_words(double chance) {
  const auto tens = static_cast<int>(std::lround(chance * 10));
  if (tens <= 0) return "very unlikely, under 10 %";
  if (tens >= 10) return "nearly sure, over 90 %";
  const char* words = "as likely as not";
  if (tens <= 1) {
    words = "very unlikely";
  } else if (tens <= 3) {
    words = "unlikely";
  } else if (tens >= 9) {
    words = "very likely";
  } else if (tens >= 7) {
    words = "likely";
  }
  return fmt::format("{}, about {} %", words, tens * 10);
}

std::string chance_words(const TripFacts& facts) {
  if (facts.outlook == nullptr || facts.outlook->weathers == 0) return {};
  return likely_words(facts.outlook->chance());
}

std::vector<std::string> outlook_sentences(const TripFacts& facts) {
  const std::string chance = chance_words(facts);
  if (chance.empty()) return {};
  const programme::Outlook& it = *facts.outlook;
  const base::Zone& home = facts.job.trip.home_zone;
  std::vector<std::string> sentences{fmt::format(
      "{}: in time, and nothing to make good, in {} of {} weathers that may come of this forecast.", chance,
      it.home_and_sound, it.weathers)};
  if (it.back) {
    sentences.push_back(fmt::format("Home {} to {} in eight of ten.",
                                    base::day_and_time(home.to_local(it.back->one)),
                                    base::day_and_time(home.to_local(it.back->nine))));
  }
  const int late = it.weathers - it.home;
  if (!it.decides.empty() && late >= it.weathers * worth_telling &&
      it.decides.front().times >= late * often_behind) {
    if (const works::Task* task = facts.list.find(it.decides.front().task)) {
      sentences.push_back(fmt::format("Where it is too late, \"{}\" is late first in {} of {}.",
                                      works::short_title(*task), it.decides.front().times, late));
    }
  }
  if (!it.spoils.empty() && it.spoilt >= it.weathers * worth_telling) {
    for (const programme::PlannedCover& cover : facts.plan.covers) {
      if (cover.part != it.spoils.front().part) continue;
      sentences.push_back(fmt::format("Most often spoilt: {}, in {} of {}.", cover.title,
                                      it.spoils.front().times, it.weathers));
      break;
    }
  }
  return sentences;
}

}  // namespace weatherstruck::render
