#pragma once
// Which floor may include what: the floors from cmake/floors.txt, libraries and system headers from the
// tables in include_rules_support.cpp.
#include <set>
#include <string>
#include <vector>

#include "house/source_tree.h"

namespace weatherstruck::house {

struct Floor {
  std::string name;
  bool pure = false;
  std::set<std::string> uses;  ///< floors named on its line; its own is always allowed
};

/// @throws std::runtime_error on a line that is neither comment nor floor, a floor named twice, or one that
/// uses a floor not listed above it
std::vector<Floor> parse_floors(const std::string& text);

/// Everything in `files` (under include/weatherstruck/<floor> or src/<floor>) that its floor may not include
/// or, on a pure floor, may not name; one "path:line: what" each.
std::vector<std::string> include_breaches(const std::vector<Floor>& floors,
                                          const std::vector<SourceFile>& files);

}  // namespace weatherstruck::house
