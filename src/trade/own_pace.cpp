#include "weatherstruck/trade/own_pace.h"

#include <algorithm>
#include <cmath>

namespace weatherstruck::trade {

PaceSpread pace_spread(const OperationRow& row) {
  const Spread range = row.spread();
  if (range.low <= 0) return {};
  const double sigma = std::log(range.high / range.low) / sigmas_of_a_range;
  const double stays = sigma * std::sqrt(1 - pace_not_known);
  return {sigma * std::sqrt(pace_not_known), stays * pace_of_the_trip,
          stays * std::sqrt(1 - pace_of_the_trip * pace_of_the_trip)};
}

void OwnPaces::set(Operation operation, const OwnPace& pace) {
  const auto place = std::lower_bound(paces_.begin(), paces_.end(), operation,
                                      [](const auto& one, Operation key) { return one.first < key; });
  if (place != paces_.end() && place->first == operation) {
    place->second = pace;
  } else {
    paces_.insert(place, {operation, pace});
  }
}

const OwnPace* OwnPaces::of(Operation operation) const {
  for (const auto& [key, pace] : paces_) {
    if (key == operation) return &pace;
  }
  return nullptr;
}

}  // namespace weatherstruck::trade
