#pragma once
// A machine with a record of its own, on which commands are run within the test.
#include <filesystem>
#include <sstream>
#include <string>
#include <vector>

#include "record/scratch.h"
#include "weatherstruck/app/program.h"

namespace weatherstruck::app {

struct Ended {
  ExitCode code;
  std::string out;
  std::string err;
};

/// Its clock stands at eight in the evening (UTC) before the demonstration's trip.
class Machine {
 public:
  /// @param somebody whether the input is somebody at a terminal
  Ended say(const std::vector<std::string>& words, const std::string& input = "",
            bool somebody = false) const {
    std::ostringstream out;
    std::ostringstream err;
    std::istringstream in(input);
    const auto clock = [] {
      return base::Instant(std::chrono::sys_days(std::chrono::year(2026) / 2 / 8) + std::chrono::hours(20));
    };
    const ExitCode code = run_program(
        words, {out, err, false, true, clock, "9.9", in, somebody, [this] { return scratch_.file(); }});
    return {code, out.str(), err.str()};
  }
  [[nodiscard]] std::string in_folder(const std::string& name) const {
    return (scratch_.folder() / name).string();
  }
  [[nodiscard]] const std::filesystem::path& folder() const { return scratch_.folder(); }
  [[nodiscard]] std::filesystem::path record() const { return scratch_.file(); }

 private:
  record::Scratch scratch_;
};

}  // namespace weatherstruck::app
