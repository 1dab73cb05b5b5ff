#pragma once
// What to do instead if the day turns, a sentence for each turn: when or what is seen, what is covered, what
// comes then, what is left, and when he is home.
#include <string>
#include <vector>

#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// "Rain from about 13:00: cover h, then g and dig out for the steps; leave i for tomorrow; home still Thu
/// 18:00." Letters are those of the day.
[[nodiscard]] std::string turn_line(const TripFacts& facts, const TripDay& day, const programme::Turn& turn);

/// One for each turn of the facts that is still to come at `from` on that day, at most `most`: of two rains
/// the later goes first where there are too many.
[[nodiscard]] std::vector<std::string> turn_lines(const TripFacts& facts, const TripDay& day,
                                                  base::Instant from, std::size_t most);

/// "a to f", "b d e": letters in order, runs of three and more drawn together.
[[nodiscard]] std::string letters_of(const std::vector<char>& letters);
/// Tasks that are dropped: "the path, backfill round the shelter and 3 tasks of the bed". A piece of which
/// all that the plan has not done by `done` is among them goes by its name.
[[nodiscard]] std::string pieces_and_tasks(const TripFacts& facts, const std::vector<works::Name>& tasks,
                                           base::Instant done);
/// A title inside a sentence: without sizes, small first letter.
[[nodiscard]] std::string inside(const std::string& title);

}  // namespace weatherstruck::render
