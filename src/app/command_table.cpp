#include "weatherstruck/app/command_table.h"

#include "commands.h"

namespace weatherstruck::app {

const std::vector<Command>& commands() {
  static const std::vector<Command> table{
      // before leaving
      me_command(),
      pace_command(),
      job_ask_command(),
      job_blank_command(),
      job_check_command(),
      job_add_command(),
      job_list_command(),
      job_show_command(),
      job_turn_command(),
      job_copy_command(),
      quantities_command(),
      van_command(),
      light_command(),
      limits_command(),
      forecast_show_command(),
      plan_command(),
      when_command(),
      helps_command(),
      quote_command(),
      try_command(),
      // on site
      morning_command(),
      now_command(),
      why_command(),
      log_command(),
      // driving off
      sheet_command(),
      invoice_command(),
      credit_command(),
      calendar_command(),
      export_command(),
      pack_command(),
      unpack_command(),
  };
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
      {"--seed", "N", "number that what is drawn by chance starts from: the search for a better plan", false,
       ""},
      {"--json", "", "the facts behind the sheet as JSON, exact", false, ""},
      {"--no-color", "", "no bold headings, as when the output is no terminal", false, ""},
      {"--help", "", "this, or the help of a command", false, "-h"},
      {"--version", "", "the version, and that of the time zones", false, ""}};
  return table;
}

const std::vector<Option>& forecast_options() {
  static const std::vector<Option> table{
      {"--forecast", "FILE",
       "a saved forecast: of MET Norway, the US National Weather Service or the Deutscher Wetterdienst "
       "(MOSMIX), JSON as Open-Meteo writes it, or CSV; may be given again, the later issue wins; else the "
       "national service of the place is asked",
       true, ""},
      {"--service", "NAME",
       "ask this one in place of that of the place: met-norway, nws, mosmix (the nearest station known, or "
       "mosmix:NUMBER), open-meteo (with a key of your own)",
       false, ""},
      {"--beside", "NAME|FILE",
       "a second service or saved forecast: the plan is held against it, and what it would change is said",
       false, ""},
      {"--offline", "", "ask no service: go by the last forecast kept", false, ""}};
  return table;
}

std::vector<Option> options_of(const CommandRow& row) {
  std::vector<Option> all = row.options;
  if (row.forecast) all.insert(all.end(), forecast_options().begin(), forecast_options().end());
  all.insert(all.end(), global_options().begin(), global_options().end());
  return all;
}

}  // namespace weatherstruck::app
