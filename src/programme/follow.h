#pragma once
// Follows a plan through possible weathers.
#include <cstdint>

#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/outlook.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"

namespace weatherstruck::programme {

struct OutlookRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  base::Instant now;
  const Programme& programme;  ///< built with all these
  const engine::Genes& genes;  ///< of the plan, its ways chosen
  const engine::Schedule& plan;
  int weathers = 100;
  std::uint64_t seed = 1;
};

/// Same request, same answer.
[[nodiscard]] Outlook outlook_of(const OutlookRequest& request);

}  // namespace weatherstruck::programme
