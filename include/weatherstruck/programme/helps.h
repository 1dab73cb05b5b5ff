#pragma once
// What would help: the trip planned again with one thing changed, each followed through the same weathers.
#include <chrono>
#include <optional>
#include <vector>

#include "weatherstruck/base/lanes.h"
#include "weatherstruck/programme/late.h"
#include "weatherstruck/programme/outlook.h"

namespace weatherstruck::programme {

/// One change by itself.
struct Help {
  Cure::Kind kind{};
  works::Name part;                   ///< `without` alone
  std::optional<base::Instant> home;  ///< by the forecast; absent: no way home was found
  std::chrono::seconds in_hand{0};    ///< against the promise, which `later` alone moves
  int left_out = 0;                   ///< tasks without a place
  Outlook outlook;
  double gain = 0;   ///< in chance of being home with all sound, -1..1
  double error = 0;  ///< standard error of the gain, of the weathers in which the two differ; never zero

  /// More than chance would make of so many weathers: two errors and more.
  [[nodiscard]] bool shows() const { return gain > 2 * error; }
};

struct HelpRequest {
  const works::Job& job;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  base::Instant now;  ///< at or before the trip's start
  int schedules = 400;
  int weathers = 100;
  std::uint64_t seed = 1;
  base::Lanes lanes{};  ///< changes go side by side where there are several
};

struct Helps {
  Help as_it_is;            ///< the trip unchanged; its gain is 0
  std::vector<Help> helps;  ///< those that show first, by gain; then the others by kind
};

/// Same request, same answer. It costs up to a dozen plans, each followed through.
[[nodiscard]] Helps what_would_help(const HelpRequest& request);

}  // namespace weatherstruck::programme
