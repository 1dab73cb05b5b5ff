#pragma once
// Beside a plan that does not keep the promise: what made it so, and what would cure it.
#include <string>

#include "weatherstruck/programme/late.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// Sentences of a line or two each.
struct LateWords {
  std::string because;
  std::string cure;  ///< empty where none was looked for
};
/// The change of a cure behind "with", "without" or the like: "with lights".
[[nodiscard]] std::string change_words(const TripFacts& facts, const programme::Cure& cure);
[[nodiscard]] LateWords late_words(const TripFacts& facts, const programme::Late& late);

}  // namespace weatherstruck::render
