// Prints our sun for places and dates drawn at random, one line each, to be judged by the libraries of
// others:
//   LATITUDE LONGITUDE START END STATE RISES SETS
// degrees; start and end of the span in seconds since 1970 UTC, from one midnight of the sun to the next;
// STATE is "crosses", "always" or "never"; RISES and SETS are the moments within the span, joined by commas,
// or "-".
//   outside_sun_program [HOW_MANY [SEED]]      2000 of seed 20260209 unless told otherwise
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "weatherstruck/base/random.h"
#include "weatherstruck/sky/sun.h"

namespace {

using weatherstruck::base::Instant;
namespace sky = weatherstruck::sky;

std::string joined(const std::vector<Instant>& moments) {
  std::string text;
  for (const Instant moment : moments)
    text += (text.empty() ? "" : ",") + std::to_string(moment.time_since_epoch().count());
  return text.empty() ? "-" : text;
}

const char* word_of(sky::LightBand::State state) {
  if (state == sky::LightBand::State::always) return "always";
  return state == sky::LightBand::State::never ? "never" : "crosses";
}

}  // namespace

int main(int count, char** words) {
  const int cases = count > 1 ? std::atoi(words[1]) : 2000;
  const std::uint64_t seed = count > 2 ? std::strtoull(words[2], nullptr, 10) : 20260209;
  weatherstruck::base::Random random(seed);
  for (int i = 0; i < cases; ++i) {
    // Four decimals, which the line then holds exactly.
    const double latitude = random.between(-900000, 900000) / 10000.0;
    const double longitude = random.between(-1800000, 1800000) / 10000.0;
    // 2000-01-01 to 2049-12-31: the two centuries that a job can fall into soon, and what is well observed.
    const int day = random.between(10957, 29219);
    const Instant noon(std::chrono::seconds(day * 86400LL + 43200 - std::llround(longitude * 240.0)));
    const Instant start = noon - std::chrono::hours(12);
    const Instant end = noon + std::chrono::hours(12);
    const sky::LightBand sun = sky::day_light(latitude, longitude, start, end).sun;
    std::vector<Instant> rises;
    std::vector<Instant> sets;
    for (const sky::LightSpan& span : sun.spans) {
      if (span.from > start) rises.push_back(span.from);
      if (span.to < end) sets.push_back(span.to);
    }
    std::printf("%.4f %.4f %lld %lld %s %s %s\n", latitude, longitude,
                static_cast<long long>(start.time_since_epoch().count()),
                static_cast<long long>(end.time_since_epoch().count()), word_of(sun.state),
                joined(rises).c_str(), joined(sets).c_str());
  }
  return 0;
}
