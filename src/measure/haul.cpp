#include "weatherstruck/measure/haul.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "weatherstruck/trade/norms.h"

namespace weatherstruck::measure {

using base::CubicMetres;
using base::Hours;
using trade::NormValues;
namespace key = trade::norm_key;

namespace {

constexpr double slack = 1e-9;

/// Climb for each metre of way; going down with a load is no quicker.
double grade(const CarryRoute& route) {
  return route.length.value() <= 0 ? 0 : std::max(0.0, route.rise.value()) / route.length.value();
}

double grade_factor(const CarryRoute& route, const NormValues& norms) {
  return 1 + norms.at(key::barrow_grade_factor) * grade(route) / 0.1;
}

/// Hours for a cubic metre by barrow, stairs left out: the published norm for a short way, then so much a
/// metre.
double barrow_hours_per_cubic_metre(const CarryRoute& route, const NormValues& norms) {
  const double beyond = std::max(0.0, route.length.value() - norms.at(key::barrow_base_reach));
  return (norms.at(key::barrow_base) + norms.at(key::barrow_extra) * beyond) * grade_factor(route, norms);
}

/// Hours for one trip by hand, there and back; over the stairs only in a relay.
double hand_trip_hours(const CarryRoute& route, CarryMethod method, const NormValues& norms) {
  const double walk =
      method == CarryMethod::relay ? 0 : 2 * route.length.value() / norms.at(key::bucket_walk);
  const double minutes = norms.at(key::bucket_turn) + walk * grade_factor(route, norms) +
                         route.steps * norms.at(key::bucket_step_time);
  return minutes / 60;
}

int whole_trips(double loads) {
  return static_cast<int>(std::ceil(loads - slack));
}

/// Loads are counted whole; hours go by the loads as they are, so that half the sand takes half the time.
Haul haul_loads(const CarryRoute& route, double barrow_loads, double barrow_load_hours, double hand_loads,
                const NormValues& norms) {
  const CarryMethod method = method_for(route, norms);
  const double on_planks = route.steps * norms.at(key::barrow_step_time) / 60;
  switch (method) {
    case CarryMethod::barrow:
      return {method, whole_trips(barrow_loads), Hours(barrow_loads * (barrow_load_hours + on_planks))};
    case CarryMethod::relay:
      return {method, whole_trips(barrow_loads),
              Hours(barrow_loads * barrow_load_hours + hand_loads * hand_trip_hours(route, method, norms))};
    case CarryMethod::bucket:
      break;
  }
  return {method, whole_trips(hand_loads), Hours(hand_loads * hand_trip_hours(route, method, norms))};
}

}  // namespace

CarryMethod method_for(const CarryRoute& route, const NormValues& norms) {
  if (route.narrowest.value() < norms.at(key::barrow_width) - slack) return CarryMethod::bucket;
  if (grade(route) > norms.at(key::barrow_grade) + slack && route.steps == 0) return CarryMethod::bucket;
  if (route.steps > norms.at(key::barrow_steps)) return CarryMethod::relay;
  return CarryMethod::barrow;
}

Haul haul(const CarryRoute& route, CubicMetres volume, CubicMetres barrow, const NormValues& norms) {
  if (volume.value() < 0 || barrow.value() <= 0)
    throw std::invalid_argument("haul: volume or barrow out of range");
  const double loads = volume / barrow;
  return haul_loads(route, loads, barrow_hours_per_cubic_metre(route, norms) * barrow.value(),
                    volume.value() / (2 * norms.at(key::bucket_load)), norms);
}

Haul haul_count(const CarryRoute& route, double count, double per_barrow, double per_hand_trip,
                const NormValues& norms) {
  if (count < 0 || per_barrow <= 0 || per_hand_trip <= 0) {
    throw std::invalid_argument("haul_count: count or load out of range");
  }
  return haul_loads(route, count / per_barrow,
                    barrow_hours_per_cubic_metre(route, norms) * norms.at(key::barrow_load),
                    count / per_hand_trip, norms);
}

std::optional<std::size_t> best_route(std::span<const CarryRoute> routes, CubicMetres barrow,
                                      const NormValues& norms) {
  std::optional<std::size_t> best;
  Hours least;
  for (std::size_t i = 0; i < routes.size(); ++i) {
    const Hours hours = haul(routes[i], CubicMetres(1), barrow, norms).hours;
    if (best && least.value() <= hours.value() + slack) continue;
    best = i;
    least = hours;
  }
  return best;
}

}  // namespace weatherstruck::measure
