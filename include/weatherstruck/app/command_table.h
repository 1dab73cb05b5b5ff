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
/// --forecast and --offline, of the commands that look at the weather.
[[nodiscard]] const std::vector<Option>& forecast_options();
/// Every option that a command takes, its own first.
[[nodiscard]] std::vector<Option> options_of(const CommandRow& row);

}  // namespace weatherstruck::app
