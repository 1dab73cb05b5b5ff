#pragma once
// The words of a command line read against the table.
#include <string>
#include <vector>

#include "weatherstruck/app/command.h"

namespace weatherstruck::app {

/// What the line asks for.
struct Request {
  enum class Kind { run, help, version, man_page, completion };
  Kind kind = Kind::run;
  const Command* command = nullptr;  ///< for run; for help the one it is about, or none
  Arguments arguments;
};

/// @param words without the program's name
/// @throws UsageError in our own words, with the nearest known name where there is one
[[nodiscard]] Request read_command_line(const std::vector<std::string>& words);

}  // namespace weatherstruck::app
