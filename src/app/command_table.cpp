#include "weatherstruck/app/command_table.h"

#include "commands.h"

namespace weatherstruck::app {

const std::vector<Command>& commands() {
  static const std::vector<Command> table{job_check_command(), job_blank_command(), quantities_command(),
                                          van_command(),       light_command(),     forecast_show_command(),
                                          plan_command(),      morning_command(),   why_command()};
  return table;
}

const Command* find_command(std::string_view name) {
  for (const Command& command : commands()) {
    if (command.row.name == name) return &command;
  }
  return nullptr;
}

const std::vector<Option>& global_options() {
  static const std::vector<Option> table{
      {"--now", "TIME",
       "the moment to go by, 2026-02-09T06:30 in the site's time or with an offset; else the clock", false,
       ""},
      {"--seed", "N", "number that anything drawn by chance starts from; a plan draws nothing so far", false,
       ""},
      {"--json", "", "the facts behind the sheet as JSON, exact", false, ""},
      {"--no-color", "", "no bold headings, as when the output is no terminal", false, ""},
      {"--help", "", "this, or the help of a command", false, "-h"},
      {"--version", "", "the version, and that of the time zones", false, ""}};
  return table;
}

const Option& forecast_option() {
  static const Option option{
      "--forecast", "FILE",
      "a saved forecast: MET Norway Locationforecast, US National Weather Service grid, or "
      "CSV; may be given again, the later issue wins",
      true, ""};
  return option;
}

}  // namespace weatherstruck::app
