#pragma once
// What a morning looks back on and reckons with: the night, what changed in the plan and why, the stock, and
// how late the day's work may begin.
#include <string>
#include <vector>

#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// The night before a day, from the series' hours of it (rain, lowest air, greatest gust), then what of the
/// fresh work to look at or to make good, worst first, at most two in full. Empty where there was none.
[[nodiscard]] std::vector<std::string> night_lines(const TripFacts& facts, const TripDay& day);

/// What moved since the plan before and why, at most `most`; home is told elsewhere.
[[nodiscard]] std::vector<std::string> change_lines(const TripFacts& facts, const TripDay& day,
                                                    std::size_t most);

/// Bricks and cement that were counted: left against needed; then what is short, when it is wanted and by
/// when to leave for the merchant, and of bricks the first cure that wants none. Empty without a count.
[[nodiscard]] std::vector<std::string> stock_lines(const TripFacts& facts, const TripDay& day);

/// The last must of the day that leaves fresh work, and by when it has to be begun if the hours in hand are
/// all used on it: no later than it can still be finished that day. Empty where there is none or nothing in
/// hand.
[[nodiscard]] std::string latest_line(const TripFacts& facts, const TripDay& day);

}  // namespace weatherstruck::render
