#pragma once
// Tiny random networks in which every feature of the model turns up, small enough to try everything.
#include <cstdint>

#include "weatherstruck/engine/network.h"

namespace weatherstruck::engine::brute {

/// The network with this number: the same for ever. At most 4 tasks and 12 ticks; sound by faults_of.
[[nodiscard]] Network random_network(std::uint64_t number);

}  // namespace weatherstruck::engine::brute
