#pragma once
// A network and a schedule as text, and the smallest part of a network that still shows a fault.
#include <functional>
#include <string>

#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine::brute {

[[nodiscard]] std::string describe(const Network& network);
[[nodiscard]] std::string describe(const Network& network, const Schedule& schedule);

/// Takes away links, needs, guards, hazards, ways, tasks and so on for as long as `shows` stays true of the
/// rest.
[[nodiscard]] Network shrunk(Network network, const std::function<bool(const Network&)>& shows);

}  // namespace weatherstruck::engine::brute
