#pragma once
// What a command is: a row that help, man page and completion are made of, a set-up without side effects, and
// what runs after it.
#include <cstdint>
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::app {

enum class ExitCode {
  ok = 0,
  failed = 1,   ///< ran, but could not do it
  usage = 2,    ///< the command line is wrong
  invalid = 3,  ///< an input is wrong; its faults are listed
  no_plan = 4,  ///< work left out, or not home by the promise
  stale = 5     ///< the forecast is over
};

struct Positional {
  std::string name;  ///< "FILE"
  std::string help;
};

struct Option {
  std::string name;   ///< "--forecast"
  std::string value;  ///< "FILE"; empty: a flag
  std::string help;
  bool repeats = false;
  std::string also;  ///< "-h"
};

struct Example {
  std::string line;  ///< behind "weatherstruck "
  std::string what;
};

/// A command as help, man page and completion tell it.
struct CommandRow {
  std::string name;                     ///< "job check"
  std::string help;                     ///< one line without a full stop
  std::string about;                    ///< sentences
  std::vector<Positional> positionals;  ///< all needed
  bool forecast = false;                ///< takes --forecast, and needs it
  std::vector<Example> examples;
};

/// The command line once read.
struct Arguments {
  std::vector<std::string> positionals;  ///< as many as the row has
  std::vector<std::string> forecasts;
  std::optional<std::string> now;  ///< as written; its form is right
  std::uint64_t seed = 1;
  bool json = false;
  bool no_color = false;
};

/// What lies around a run: where it writes, whom it asks, and the one reading of the clock.
struct Setting {
  std::ostream& out;
  std::ostream& err;
  render::Ink ink;
  base::Instant machine_now;
  const files::ZoneSource& zones;
  std::istream& in;     ///< answers, dictated text
  bool in_is_terminal;  ///< somebody sits there: he may be asked
  desk::Shelf& shelf;   ///< the record, opened by the first command that looks into it
};

/// The command line is wrong; exit code 2.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

using Run = std::function<ExitCode(const Setting&)>;

struct Command {
  CommandRow row;
  /// Looks at the arguments only: opens nothing, writes nothing. @throws UsageError
  Run (*setup)(const Arguments&);
};

}  // namespace weatherstruck::app
