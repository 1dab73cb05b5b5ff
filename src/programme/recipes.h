#pragma once
// Shapes of recipes: who decides a rate, the weather of the hour or the slot by itself.
#include <algorithm>
#include <chrono>
#include <cstdint>
#include <utility>
#include <vector>

#include "weatherstruck/programme/clocks.h"

namespace weatherstruck::programme {

inline bool within(const std::vector<works::DaySpan>& spans, std::chrono::minutes clock) {
  return std::any_of(spans.begin(), spans.end(),
                     [&](const works::DaySpan& span) { return span.from <= clock && clock < span.to; });
}

/// To the nearest; no rate is below zero. (std::llround is a call, and this is asked tens of thousands of
/// times.)
inline std::int32_t whole(double rate) {
  return static_cast<std::int32_t>(rate + 0.5);  // NOLINT(bugprone-incorrect-roundings)
}

/// A rate that hangs on the weather alone: asked once an hour.
template <class RateOf>
Recipe by_weather(RateOf rate_of) {
  return [rate_of = std::move(rate_of)](const SlotTable& table, Rates& rates) {
    std::int32_t* const rate = rates.data();
    for (const SlotTable::HourOf& hour : table.hours) {
      const std::int32_t of_hour = whole(rate_of(table.slots[hour.from]));
      for (std::size_t i = hour.from; i < hour.to; ++i)
        rate[i] = of_hour;
    }
  };
}

/// A rate of temperature, worked out once for every tenth of a degree that a forecast may give. Between them
/// it is asked for.
class RateByTenths {
 public:
  explicit RateByTenths(double (*rate)(base::Celsius)) : rate_(rate) {
    for (int i = 0; i <= tenths; ++i) {
      grid_.push_back(least + i);
      rates_.push_back(rate(base::Celsius(grid_.back() / 10.0)));
    }
  }
  double operator()(base::Celsius at) const {
    const double in_tenths = at.value() * 10;
    const int i = static_cast<int>(in_tenths - least + 0.5);  // NOLINT(bugprone-incorrect-roundings)
    if (!(in_tenths >= least) || i > tenths) return rate_(at);
    const auto place = static_cast<std::size_t>(i);
    return grid_[place] / 10.0 == at.value() ? rates_[place] : rate_(at);
  }

 private:
  static constexpr double least = -400;
  static constexpr int tenths = 900;
  double (*rate_)(base::Celsius);
  std::vector<double> grid_, rates_;
};

/// Any other.
template <class RateOf>
Recipe by_slot(RateOf rate_of) {
  return [rate_of = std::move(rate_of)](const SlotTable& table, Rates& rates) {
    for (std::size_t i = 0; i < table.slots.size(); ++i)
      rates[i] = rate_of(table.slots[i]);
  };
}

}  // namespace weatherstruck::programme
