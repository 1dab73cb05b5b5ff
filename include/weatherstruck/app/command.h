#pragma once
// What a command is: a row that help, man page and completion are made of, a set-up without side effects, and
// what runs after it.
#include <cstdint>
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/app/network.h"
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
  std::string name;  ///< "JOB"
  std::string help;
  /// `many` takes all words that are left, at least none; it can only come last.
  enum class Kind { needed, optional, many };
  Kind kind = Kind::needed;
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
  std::vector<Positional> positionals;  ///< needed ones first
  bool forecast = false;                ///< takes --forecast, --service, --beside and --offline
  std::vector<Example> examples;
  std::vector<Option> options{};  ///< of this command alone
};

/// The command line once read.
struct Arguments {
  std::vector<std::string> positionals;  ///< those needed are there
  std::vector<std::string> forecasts;
  bool offline = false;
  std::string service{};  ///< as feed::read_choice takes it; empty: that of the place
  std::string beside{};   ///< a second source, likewise or a file; empty: none
  /// What was given of the command's own options, by name ("--strike"); a flag holds one empty text.
  std::map<std::string, std::vector<std::string>> options{};
  std::optional<std::string> now;  ///< as written; its form is right
  std::uint64_t seed = 1;
  bool json = false;
  bool no_color = false;

  [[nodiscard]] bool has(const std::string& option) const { return options.count(option) > 0; }
  /// The last value given, if any.
  [[nodiscard]] std::optional<std::string> value(const std::string& option) const {
    const auto found = options.find(option);
    return found == options.end() ? std::nullopt : std::optional(found->second.back());
  }
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
  std::string version;  ///< of the program
  const Network& network;
  std::string machine_zone;  ///< by which the machine goes; empty: not known
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
