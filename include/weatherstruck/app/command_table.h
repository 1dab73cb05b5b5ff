#pragma once
// Every command, in the order in which a trip needs them, and the options that all of them take.
#include <span>
#include <string_view>
#include <vector>

#include "weatherstruck/app/command.h"

namespace weatherstruck::app {

[[nodiscard]] const std::vector<Command>& commands();
/// nullptr where there is none of that name.
[[nodiscard]] const Command* find_command(std::string_view name);

/// --now, --seed, --json, --no-color, --help, --version.
[[nodiscard]] const std::vector<Option>& global_options();
/// --forecast.
[[nodiscard]] const Option& forecast_option();

}  // namespace weatherstruck::app
