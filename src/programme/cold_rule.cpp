#include "weatherstruck/programme/cold_rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/programme/slots.h"

namespace weatherstruck::programme {

namespace limit = trade::limit;

namespace {

std::string cold_words(Cold cold, base::Celsius now, const ColdRuleValues& rule) {
  const std::string degrees = base::plain_number(now.value(), 0);
  switch (cold) {
    case Cold::goes_on:
      return {};
    case Cold::never:
      return fmt::format("{} \u00b0C, never at {:g} or below", degrees, rule.hard_stop.value());
    case Cold::stopped:
    case Cold::stopped_falling:
      break;
  }
  return fmt::format("{} \u00b0C{}, stops below {:g} falling", degrees,
                     cold == Cold::stopped_falling ? " and falling" : "", rule.stop.value());
}

}  // namespace

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

std::vector<Cold> cold_hours(const std::vector<base::Celsius>& hourly, const std::vector<int>& day,
                             const ColdRuleValues& rule) {
  const std::size_t hours = hourly.size();
  // The greatest temperature of the rest of the day, from its end back.
  std::vector<base::Celsius> still_to_come = hourly;
  for (std::size_t i = hours; i-- > 1;) {
    if (day[i - 1] == day[i]) still_to_come[i - 1] = std::max(hourly[i - 1], still_to_come[i]);
  }
  std::vector<Cold> stops(hours, Cold::goes_on);
  bool under_way = true;
  for (std::size_t i = 0; i < hours; ++i) {
    const base::Celsius now = hourly[i];
    const double slope = (hourly[std::min(i + 1, hours - 1)] - hourly[i < 2 ? 0 : i - 2]).value();
    const bool below = now < rule.stop || (rule.stop_at_equal && now == rule.stop);
    if (!below) {
      under_way = true;
    } else if (slope < 0) {
      under_way = false;
    } else if (!under_way) {
      under_way = slope > 0 && now >= rule.resume && still_to_come[i] >= rule.expected;
    }
    if (now <= rule.hard_stop) {
      stops[i] = Cold::never;
    } else if (!under_way && !rule.may_protect) {
      stops[i] = slope < 0 ? Cold::stopped_falling : Cold::stopped;
    }
  }
  return stops;
}

namespace {

std::vector<base::Celsius> hourly_air(const SlotTable& table) {
  std::vector<base::Celsius> air;
  air.reserve(table.hours.size());
  for (const SlotTable::HourOf& hour : table.hours)
    air.push_back(table.slots[hour.from].air);
  return air;
}

std::vector<int> days_of(const SlotTable& table) {
  std::vector<int> day;
  day.reserve(table.hours.size());
  for (const SlotTable::HourOf& hour : table.hours)
    day.push_back(table.slots[hour.from].day);
  return day;
}

void put(const SlotTable& table, const std::vector<base::Celsius>& air, ColdHours& colds) {
  colds.stops.assign(air.size(), Cold::goes_on);
  // Mostly it is nowhere near.
  const base::Celsius stop = std::max(colds.in_months.stop, colds.other_months.stop);
  if (std::all_of(air.begin(), air.end(), [&](base::Celsius t) { return t > stop; })) return;
  const std::vector<int> day = days_of(table);
  for (const char covered : {char{1}, char{0}}) {
    if (std::find(colds.covered.begin(), colds.covered.end(), covered) == colds.covered.end()) continue;
    const std::vector<Cold> by_rule =
        cold_hours(air, day, covered != 0 ? colds.in_months : colds.other_months);
    for (std::size_t h = 0; h < by_rule.size(); ++h)
      colds.stops[h] = colds.covered[h] == covered ? by_rule[h] : colds.stops[h];
  }
}

}  // namespace

std::size_t cold_like(SlotTable& table, const ColdRuleValues& in_months, const ColdRuleValues& other_months,
                      std::vector<char> covered) {
  const auto found = std::find_if(table.colds.begin(), table.colds.end(), [&](const ColdHours& known) {
    return known.in_months == in_months && known.other_months == other_months && known.covered == covered;
  });
  if (found != table.colds.end()) return static_cast<std::size_t>(found - table.colds.begin());
  table.colds.push_back({in_months, other_months, std::move(covered)});
  put(table, hourly_air(table), table.colds.back());
  return table.colds.size() - 1;
}

void put_colds(SlotTable& table) {
  if (table.colds.empty()) return;
  const std::vector<base::Celsius> air = hourly_air(table);
  for (ColdHours& colds : table.colds)
    put(table, air, colds);
}

std::vector<std::string> cold_stops(const std::vector<base::Celsius>& hourly, const std::vector<int>& day,
                                    const ColdRuleValues& rule) {
  const std::vector<Cold> stops = cold_hours(hourly, day, rule);
  std::vector<std::string> words;
  for (std::size_t i = 0; i < stops.size(); ++i)
    words.push_back(cold_words(stops[i], hourly[i], rule));
  return words;
}

std::vector<std::string> cold_stops(const SlotTable& table, const ColdHours& colds) {
  const std::vector<base::Celsius> air = hourly_air(table);
  const std::vector<int> day = days_of(table);
  std::vector<std::string> by_hour = cold_stops(air, day, colds.in_months);
  const std::vector<std::string> bare = cold_stops(air, day, colds.other_months);
  for (std::size_t h = 0; h < by_hour.size(); ++h) {
    if (colds.covered[h] == 0) by_hour[h] = bare[h];
  }
  return by_hour;
}

}  // namespace weatherstruck::programme
