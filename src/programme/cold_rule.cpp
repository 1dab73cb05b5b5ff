#include "weatherstruck/programme/cold_rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/base/text.h"

namespace weatherstruck::programme {

namespace limit = trade::limit;

ColdRuleValues cold_rule(const trade::LimitValues& limits, trade::TemperatureRule rule,
                         trade::ColdRule wording, bool has_covers, trade::Binder binder) {
  ColdRuleValues values;
  if (rule == trade::TemperatureRule::brickwork) {
    values.stop = limits.temperature(limit::brick_cold_stop);
    values.stop_at_equal = wording == trade::ColdRule::nbs;
    values.resume = limits.temperature(limit::brick_cold_resume);
    values.expected = limits.temperature(limit::brick_cold_expected);
    values.may_protect = has_covers && limits.at(limit::brick_cold_protected) != 0;
    values.hard_stop = limits.temperature(limit::brick_cold_hard_stop);
    if (binder == trade::Binder::hydraulic_lime) {
      values.stop = limits.temperature(limit::brick_lime_cold_stop);
      values.stop_at_equal = true;
      values.resume = limits.temperature(limit::brick_lime_cold_resume);
      values.expected = std::max(values.expected, values.resume);
      values.may_protect = false;
    }
    return values;
  }
  if (rule == trade::TemperatureRule::flags) {
    values.stop = limits.temperature(limit::flags_cold_stop);
    values.resume = limits.temperature(limit::flags_cold_resume);
    values.expected = values.resume;
    return values;
  }
  throw std::logic_error("the falling and rising rule is for brickwork and flags");
}

std::vector<std::string> cold_stops(const std::vector<base::Celsius>& hourly, const std::vector<int>& day,
                                    const ColdRuleValues& rule) {
  const std::size_t hours = hourly.size();
  std::vector<std::string> stops(hours);
  bool under_way = true;
  for (std::size_t i = 0; i < hours; ++i) {
    const base::Celsius now = hourly[i];
    const double slope = (hourly[std::min(i + 1, hours - 1)] - hourly[i < 2 ? 0 : i - 2]).value();
    base::Celsius still_to_come = now;
    for (std::size_t j = i; j < hours && day[j] == day[i]; ++j)
      still_to_come = std::max(still_to_come, hourly[j]);
    const bool below = now < rule.stop || (rule.stop_at_equal && now == rule.stop);
    if (!below) {
      under_way = true;
    } else if (slope < 0) {
      under_way = false;
    } else if (!under_way) {
      under_way = slope > 0 && now >= rule.resume && still_to_come >= rule.expected;
    }
    if (now <= rule.hard_stop) {
      stops[i] = fmt::format("{} \u00b0C, never at {:g} or below", base::plain_number(now.value(), 0),
                             rule.hard_stop.value());
    } else if (!under_way && !rule.may_protect) {
      stops[i] = fmt::format("{} \u00b0C{}, stops below {:g} falling", base::plain_number(now.value(), 0),
                             slope < 0 ? " and falling" : "", rule.stop.value());
    }
  }
  return stops;
}

}  // namespace weatherstruck::programme
