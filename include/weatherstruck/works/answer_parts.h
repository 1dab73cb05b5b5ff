#pragma once
// What a person says is to be built, all in one line.
#include <optional>
#include <string_view>

#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::works {

/// How many of each kind.
struct PartsWanted {
  int bases = 0;
  int beds = 0;
  int boxes = 0;
  int paths = 0;
  bool steps = false;
  std::optional<int> risers{};  ///< of the steps, where he said how many
};

/// "a shed base, 2 beds, 3 steps and a path"; at least one, at most 12 beds and 4 of any other kind.
[[nodiscard]] Answer<PartsWanted> parts_answer(std::string_view text);

}  // namespace weatherstruck::works
