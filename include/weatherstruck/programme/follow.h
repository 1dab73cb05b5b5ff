#pragma once
// Follows a plan through possible weathers.
#include <vector>

#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/outlook.h"
#include "weatherstruck/programme/possible_trips.h"

namespace weatherstruck::programme {

struct OutlookRequest {
  PossibleRequest where;
  const engine::Genes& genes;  ///< of the plan, its ways chosen
  const engine::Schedule& plan;
  int weathers = 100;
};

/// In how many of some weathers each of several orders of work brings him home with the work sound: the same
/// weathers for all, and none of those that an outlook of this seed is made of.
/// @param first number of the first of them, from 0
[[nodiscard]] std::vector<int> race(const PossibleRequest& where, const std::vector<engine::Genes>& runners,
                                    int first, int weathers);

/// Same request, same answer.
[[nodiscard]] Outlook outlook_of(const OutlookRequest& request);

}  // namespace weatherstruck::programme
