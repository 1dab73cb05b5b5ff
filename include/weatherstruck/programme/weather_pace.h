#pragma once
// What the weather leaves of an hour of work that goes on in it.
#include "weatherstruck/programme/slots.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::programme {

/// Share of the pace of a mild dry day, above 0 and at most 1: thin rain, sodden ground, cold hands, heat.
/// The same that the plan's clocks go by; what stops the work altogether, and the light, are not in it.
[[nodiscard]] double weather_pace(const trade::OperationRow& row, const trade::LimitValues& limits,
                                  const Slot& slot);

}  // namespace weatherstruck::programme
