#pragma once
// What makes a plan late, and what would bring him home in time: found by planning the same trip again with
// one thing changed. Nothing is said here that a plan does not bear out.
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/lanes.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// One change by itself, with which a plan was found that keeps the promise and leaves out no must.
struct Cure {
  enum class Kind {
    delivered_on_arrival,  ///< what is delivered stands on the kerb when he comes
    lights,                ///< he has lights
    canopy,                ///< he has a canopy of 3 x 3 m
    longer_days,           ///< from 6 to 21, with as many hours as he may be awake at work and wheel
    labourer,              ///< somebody comes with him who digs, mixes and carries
    mats,                  ///< he has 10 m2 of insulated mats more
    day_earlier,           ///< he leaves home a day sooner
    without,               ///< `part` is not built
    later                  ///< the promise is as late as the forecast reaches
  };
  Kind kind{};
  works::Name part;  ///< as written; `without` alone
  base::Instant home;
};

/// "lights", "day-earlier", ...: for machines.
[[nodiscard]] std::string_view key_of(Cure::Kind kind);

struct Late {
  /// Home if it stayed dry, mild and calm from now on; absent: even then not, or a must would be left out.
  std::optional<base::Instant> in_fair_weather;
  bool weather = false;  ///< then the promise would be kept
  /// The weather that stood longest before a task within his hours on site; `task` of the list.
  struct Stop {
    Reason reason;
    std::size_t task = 0;
  };
  std::optional<Stop> longest_stop;
  std::optional<PlannedWait> longest_wait;  ///< of fresh work, by the clock
  std::chrono::seconds work{0};   ///< at work in the plan, all persons, drives and nights not counted
  std::vector<Cure> cures;        ///< in the order of the kinds, then of the parts
  std::vector<Cure::Kind> tried;  ///< each kind that was tried and could be, whether it cured or not
};

struct LateRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  const Plan& plan;
  base::Instant now;  ///< once he has left, no cure is looked for: what is done cannot be planned otherwise
  std::uint64_t seed = 1;
  base::Lanes lanes{};  ///< cures go side by side where there are several
};

/// nullopt for a plan that keeps the promise and leaves out no must. Same request, same answer. It costs up
/// to a dozen plans.
[[nodiscard]] std::optional<Late> late_because(const LateRequest& request);

}  // namespace weatherstruck::programme
