#pragma once
// What a person says is to be built, all in one line.
#include <optional>
#include <string_view>

#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::works {

/// How many of each kind.
struct PartsWanted {
  int bases = 0;
  int walls = 0;
  int beds = 0;
  int boxes = 0;
  int paths = 0;
  bool steps = false;
  std::optional<int> risers{};  ///< of the steps, where he said how many
};

/// "a shed base, a dwarf wall, 2 beds, 3 steps and a path"; at least one, at most 12 beds and 4 of any other
/// kind.
[[nodiscard]] Answer<PartsWanted> parts_answer(std::string_view text);

/// A low wall by itself.
struct WallSaid {
  base::Metres length;   ///< 0.3..60
  int courses = 4;       ///< showing at the high end, 1..20
  base::Metres fall{0};  ///< of the ground along it, 0..5
  bool coping = false;
  std::optional<trade::Bond> bond{};  ///< half a brick or one brick, where he said which
};
/// "6 m, 4 courses", "20 ft by 5 courses, one brick, falls 6 in", "6 m x 450 high", "5 m long, coping". The
/// length is needed. A height is the nearest whole number of courses.
[[nodiscard]] Answer<WallSaid> wall_answer(std::string_view text, Measure measure);

}  // namespace weatherstruck::works
