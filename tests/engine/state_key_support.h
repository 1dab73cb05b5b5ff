#pragma once
// A state in few bytes, for the set of states already visited.
#include <string>

#include "engine/simulator_support.h"

namespace weatherstruck::engine::brute {

/// All that the future of a state depends on, and nothing else: times of the past only as what has gone by
/// since.
[[nodiscard]] std::string key_of(const Simulator& simulator, const State& state);

}  // namespace weatherstruck::engine::brute
