#pragma once
// The program without its process: a command line in, text and an exit code out.
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

#include "weatherstruck/app/command.h"

namespace weatherstruck::app {

struct Surroundings {
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;
  bool plain_terminal = false;  ///< NO_COLOR is set, or TERM is dumb
  base::Instant (*now)();       ///< asked at most once, and only by a command that needs it
  std::string version;
  std::istream& in;
  bool in_is_terminal = false;
  /// Where the record lies (record::record_file of the environment); asked only by a command that needs it.
  std::function<std::filesystem::path()> record_file;
  Network network{};
  std::string machine_zone{};  ///< name of the time zone by which the machine goes; empty: not known
};

/// Never throws for what a person or a file did; says so on `err`.
[[nodiscard]] ExitCode run_program(const std::vector<std::string>& words, const Surroundings& around);

}  // namespace weatherstruck::app
