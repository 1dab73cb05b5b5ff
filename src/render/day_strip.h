#pragma once
// What the drawings of a day share, in signs and in shapes: the stretch of the clock, and what to mark in it.
#include <chrono>
#include <cstddef>
#include <vector>

#include "weatherstruck/programme/late.h"
#include "weatherstruck/render/light_table.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// The stretch of the clock that every day of the trip is drawn over.
struct Strip {
  long first_hour = 24;
  long last_hour = 0;
  std::chrono::minutes cell{15};
  [[nodiscard]] std::size_t cells() const {
    return static_cast<std::size_t>((last_hour - first_hour) * 60 / cell.count());
  }
};
[[nodiscard]] Strip strip_of(const TripFacts& facts, const std::vector<TripDay>& days);

/// Wall-clock time into the day; 24 h at its end even where the day is shorter or longer.
[[nodiscard]] std::chrono::minutes into_day(const TripDay& day, base::Instant t, const base::Zone& zone);

/// '.' day, ':' half light, ' ' dark.
[[nodiscard]] char light_mark(const sky::DayLight& light, base::Instant at);
/// 'r' wet, 'R' too wet for facework, 'f' frost, 'w' gusts too strong for the canopy, '?' not given, or ' '.
[[nodiscard]] char weather_mark(const TripFacts& facts, base::Instant at);
/// Whether something fresh is left alone, other than what lies untouched from end to end of the day: that is
/// told in words; a row full of strokes says nothing.
[[nodiscard]] bool left_alone_at(const TripFacts& facts, const TripDay& day, base::Instant at);

/// A label and what it says: {"cover", "15:30 the wall: hessian"}. A label that goes on is empty.
struct Said {
  std::string label;
  std::string words;
};
/// What to leave alone, cover and pitch that day.
[[nodiscard]] std::vector<Said> care_of(const TripFacts& facts, const TripDay& day);
/// When he is home, and what is left out, taken so or decides it. `late` may be nullptr.
[[nodiscard]] std::vector<Said> ending_of(const TripFacts& facts, const programme::Late* late);
/// The weather of his hours on site that day, as a sentence.
[[nodiscard]] std::string weather_of(const TripFacts& facts, const TripDay& day);

}  // namespace weatherstruck::render
