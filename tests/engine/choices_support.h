#pragma once
#include <map>
#include <vector>

#include "engine/simulator_support.h"

namespace weatherstruck::engine::brute {

/// All choices of ways that may go together, by how many must-tasks they leave out or unfinished.
[[nodiscard]] std::map<int, std::vector<Ways>> choices_of(const Network& network);

}  // namespace weatherstruck::engine::brute
