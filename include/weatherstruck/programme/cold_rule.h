#pragma once
// When it is too cold to lay: falling and rising, as the sources word it, on a smoothed trend.
#include <cstdint>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::programme {

struct ColdRuleValues {
  base::Celsius stop;             ///< below this and falling: stop
  bool stop_at_equal = false;     ///< at this and falling counts too
  base::Celsius resume;           ///< at or above this and rising: go on, if ...
  base::Celsius expected;         ///< ... the day still passes this
  bool may_protect = false;       ///< going on below `stop` is allowed with warm mortar and covers
  base::Celsius hard_stop{-100};  ///< never at or below this
  friend bool operator==(const ColdRuleValues&, const ColdRuleValues&) = default;
};

/// The rule for brickwork or flags from the limits in force; brickwork in hydraulic lime has limits of its
/// own and is not laid below them, covers or not.
/// @throws std::logic_error for a rule that is neither brickwork nor flags
[[nodiscard]] ColdRuleValues cold_rule(const trade::LimitValues& limits, trade::TemperatureRule rule,
                                       trade::ColdRule wording, bool has_covers,
                                       trade::Binder binder = trade::Binder::cement);

/// Whether work may go on in an hour.
enum class Cold : std::uint8_t { goes_on, stopped, stopped_falling, never };

/// For each hour. The trend at an hour is the slope from two hours before to one hour after; before the first
/// reading the work counts as under way.
/// @param day of each hour, rising; "expected" looks for the greatest temperature of the rest of the day
[[nodiscard]] std::vector<Cold> cold_hours(const std::vector<base::Celsius>& hourly,
                                           const std::vector<int>& day, const ColdRuleValues& rule);

struct ColdHours;
struct SlotTable;

/// The index in `table.colds` of that pair of rules; worked out if it is new.
/// @param covered by hour of the table, whether the rule of the months of covering holds
[[nodiscard]] std::size_t cold_like(SlotTable& table, const ColdRuleValues& in_months,
                                    const ColdRuleValues& other_months, std::vector<char> covered);
/// All of them anew, for the weather that the table holds.
void put_colds(SlotTable& table);

/// The same in words: an empty string where work may go on, else why not.
[[nodiscard]] std::vector<std::string> cold_stops(const std::vector<base::Celsius>& hourly,
                                                  const std::vector<int>& day, const ColdRuleValues& rule);
/// By hour of the table, each by the rule that holds then.
[[nodiscard]] std::vector<std::string> cold_stops(const SlotTable& table, const ColdHours& colds);

}  // namespace weatherstruck::programme
