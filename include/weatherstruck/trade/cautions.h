#pragma once
// The usual cautions, each worded once, and which two of them a day calls for.
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

enum class Hazard {
  buried_services,
  trench_side,
  tired_driving,
  canopy_wind,
  electricity_wet,
  silica_dust,
  wet_cement,
  lifting,
  alone,
  cold_hands
};

struct CautionRow {
  Hazard hazard;
  std::string_view key;   ///< "wet-cement"
  std::string_view text;  ///< one sentence, at most 150 characters
  Source source;
  std::optional<LimitSet> set{};  ///< nullopt: both; else the hazard has a row for each
};

[[nodiscard]] std::span<const CautionRow> cautions();
[[nodiscard]] const CautionRow& row_for(Hazard hazard, LimitSet set = LimitSet::uk);

/// What a day holds. Nothing known: leave at the default, which calls for nothing.
struct DayFacts {
  std::vector<Operation> operations;  ///< in the order of the day; may repeat
  base::Metres deepest_trench{0};     ///< open that day
  bool trench_beside_wall = false;    ///< or beside a fence or another building
  bool first_digging = false;         ///< ground is broken for the first time
  bool cuts = false;                  ///< disc cutter or chasing
  bool power_tools_wet = false;       ///< mixer or lights on the mains, with rain about
  bool canopy_up = false;
  base::MetresPerSecond highest_gust{0};
  base::Kilograms heaviest_lift{0};
  base::Hours work_and_drive{0};
  base::Hours drive{0};
  base::Celsius lowest_air{20};
  bool alone = true;
  LimitSet set = LimitSet::uk;  ///< whose words
};

/// Cautions that the day calls for under these limits (trench, lift, hours, canopy), most relevant first, at
/// most `most`; never one twice.
[[nodiscard]] std::vector<const CautionRow*> choose_cautions(const DayFacts& day, const LimitValues& limits,
                                                             std::size_t most = 2);

}  // namespace weatherstruck::trade
