#pragma once
// Fresh work by the trade's words ("the north footing of the shelter"), and several pieces of one thing said
// as one ("all four footings of the shelter").
#include <string>
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::render {

struct Piece {
  std::string which;  ///< "north"; empty where there is only one
  std::string thing;  ///< "footing", "brickwork", "plates"; empty where the whole is meant
  std::string whole;  ///< "the shelter"
  int of_kind = 1;    ///< how many the job has of that thing in that whole
  [[nodiscard]] std::string words() const;
  friend bool operator==(const Piece&, const Piece&) = default;
};

/// What a cover lies on.
[[nodiscard]] Piece piece_under(const works::TaskList& list, const programme::PlannedCover& cover);
/// What is left alone.
[[nodiscard]] Piece piece_left(const works::TaskList& list, const programme::PlannedWait& wait);
/// What is fresh on a part: its concrete, or what stands on it.
[[nodiscard]] Piece piece_of(const works::TaskList& list, const works::Name& part, bool concrete);

/// "all four footings of the shelter", "the north and east footings of the shelter and the brickwork of the
/// bed"; each once, in the order of their first.
[[nodiscard]] std::string together(const std::vector<Piece>& pieces);

/// A title without the sizes in brackets behind it: "Pour the footing of the bed".
[[nodiscard]] std::string without_sizes(const std::string& title);

}  // namespace weatherstruck::render
