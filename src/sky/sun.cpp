#include "weatherstruck/sky/sun.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <stdexcept>

#include "sun_terms.h"

namespace weatherstruck::sky {
namespace {

using base::Instant;

constexpr double kRadians = std::numbers::pi / 180.0;

double turn(double degrees) {  // into 0..360
  const double rest = std::fmod(degrees, 360.0);
  return rest < 0 ? rest + 360.0 : rest;
}

double sum_of(std::span<const terms::Periodic> rows, double millennia) {
  double sum = 0;
  for (const terms::Periodic& row : rows)
    sum += row.a * std::cos(row.b + row.c * millennia);
  return sum;
}

template <std::size_t N>
double horner(const std::array<double, N>& coefficients, double x) {  // constant term first
  double sum = 0;
  for (std::size_t i = N; i-- > 0;)
    sum = sum * x + coefficients[i];
  return sum;
}

// Seen from the centre of the earth: where the sun stands among the stars, and how far the earth has turned.
struct Geocentric {
  double heliocentric_longitude, heliocentric_latitude, radius;
  double nutation_longitude, nutation_obliquity, obliquity;
  double right_ascension, declination;
  double sidereal;  // apparent, at Greenwich
};

double julian_day(Instant t) {
  return static_cast<double>(t.time_since_epoch().count()) / 86400.0 + 2440587.5;
}

double sidereal_mean(double day) {
  const double centuries = (day - 2451545.0) / 36525.0;
  return 280.46061837 + 360.98564736629 * (day - 2451545.0) +
         centuries * centuries * (0.000387933 - centuries / 38710000.0);
}

Geocentric geocentric(double day, double delta_t_s) {
  using namespace terms;
  const double centuries = (day + delta_t_s / 86400.0 - 2451545.0) / 36525.0;
  const double jme = centuries / 10.0;
  Geocentric g{};
  const std::array<double, 6> l{sum_of(kL0, jme), sum_of(kL1, jme), sum_of(kL2, jme),
                                sum_of(kL3, jme), sum_of(kL4, jme), sum_of(kL5, jme)};
  const std::array<double, 2> b{sum_of(kB0, jme), sum_of(kB1, jme)};
  const std::array<double, 5> r{sum_of(kR0, jme), sum_of(kR1, jme), sum_of(kR2, jme), sum_of(kR3, jme),
                                sum_of(kR4, jme)};
  g.heliocentric_longitude = turn(horner(l, jme) / 1e8 / kRadians);
  g.heliocentric_latitude = horner(b, jme) / 1e8 / kRadians;
  g.radius = horner(r, jme) / 1e8;

  const std::array<double, 5> x{horner<4>({297.85036, 445267.111480, -0.0019142, 1.0 / 189474.0}, centuries),
                                horner<4>({357.52772, 35999.050340, -0.0001603, -1.0 / 300000.0}, centuries),
                                horner<4>({134.96298, 477198.867398, 0.0086972, 1.0 / 56250.0}, centuries),
                                horner<4>({93.27191, 483202.017538, -0.0036825, 1.0 / 327270.0}, centuries),
                                horner<4>({125.04452, -1934.136261, 0.0020708, 1.0 / 450000.0}, centuries)};
  double longitude = 0;
  double obliquity = 0;
  for (const Nutation& row : kNutation) {
    double angle = 0;
    for (std::size_t i = 0; i < x.size(); ++i)
      angle += static_cast<double>(row.y[i]) * x[i];
    longitude += (row.a + row.b * centuries) * std::sin(angle * kRadians);
    obliquity += (row.c + row.d * centuries) * std::cos(angle * kRadians);
  }
  g.nutation_longitude = longitude / 36000000.0;
  g.nutation_obliquity = obliquity / 36000000.0;
  const double mean_obliquity = horner<11>(
      {84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45}, jme / 10.0);
  g.obliquity = mean_obliquity / 3600.0 + g.nutation_obliquity;

  const double aberration = -20.4898 / (3600.0 * g.radius);
  const double apparent = (g.heliocentric_longitude + 180.0 + g.nutation_longitude + aberration) * kRadians;
  const double latitude = -g.heliocentric_latitude * kRadians;
  const double tilt = g.obliquity * kRadians;
  g.right_ascension =
      turn(std::atan2(std::sin(apparent) * std::cos(tilt) - std::tan(latitude) * std::sin(tilt),
                      std::cos(apparent)) /
           kRadians);
  g.declination = std::asin(std::sin(latitude) * std::cos(tilt) +
                            std::cos(latitude) * std::sin(tilt) * std::sin(apparent)) /
                  kRadians;
  g.sidereal = sidereal_mean(day) + g.nutation_longitude * std::cos(tilt);
  return g;
}

// Elevation over one span. The slow angles (right ascension, declination, nutation) are computed at both ends
// and the middle and laid on a parabola: over two days that is nearer than 0.00001 degree, and fifty times
// quicker than the full sum at every moment.
class ElevationOver {
 public:
  ElevationOver(double latitude, double longitude, Instant start, Instant end)
      : start_(start),
        half_(static_cast<double>((end - start).count()) / 2.0),
        sin_latitude_(std::sin(latitude * kRadians)),
        cos_latitude_(std::cos(latitude * kRadians)),
        longitude_(longitude) {
    constexpr double delta_t_s = 69.0;  // of 2017-2026; a wrong minute here moves an event by 0.2 seconds
    for (std::size_t i = 0; i < 3; ++i) {
      const double day = julian_day(start) + static_cast<double>(i) * half_ / 86400.0;
      const Geocentric g = geocentric(day, delta_t_s);
      declination_[i] = g.declination;
      // The hour angle but for the turning of the earth: continuous, so it can be laid on a curve.
      lag_[i] = g.sidereal - sidereal_mean(day) - g.right_ascension;
      if (i > 0) lag_[i] -= 360.0 * std::round((lag_[i] - lag_[i - 1]) / 360.0);
    }
  }

  [[nodiscard]] double at(Instant t) const {
    const double u = static_cast<double>((t - start_).count()) / half_ - 1.0;  // -1..1
    const double hour = (sidereal_mean(julian_day(t)) + longitude_ + on_curve(lag_, u)) * kRadians;
    const double declination = on_curve(declination_, u) * kRadians;
    const double sine =
        sin_latitude_ * std::sin(declination) + cos_latitude_ * std::cos(declination) * std::cos(hour);
    // From the ground and not from the earth's centre: at the edge of the polar night this is worth minutes.
    constexpr double parallax = 8.794 / 3600.0;
    return std::asin(std::clamp(sine, -1.0, 1.0)) / kRadians - parallax;
  }

 private:
  static double on_curve(const std::array<double, 3>& v, double u) {
    return v[1] + u * (v[2] - v[0]) / 2.0 + u * u * (v[2] + v[0] - 2.0 * v[1]) / 2.0;
  }
  Instant start_;
  double half_;
  double sin_latitude_;
  double cos_latitude_;
  double longitude_;
  std::array<double, 3> declination_{};
  std::array<double, 3> lag_{};
};

struct Knot {
  Instant at;
  double elevation;
};

// The highest or lowest moment between two, to the second, where the curve bends once.
Knot turning_point(const ElevationOver& sun, Instant from, Instant to, bool highest) {
  while (to - from > std::chrono::seconds(2)) {
    const auto third = (to - from) / 3;
    const Instant left = from + std::max(third, std::chrono::seconds(1));
    const Instant right = to - std::max(third, std::chrono::seconds(1));
    if (left >= right) break;
    const bool keep_left = highest ? sun.at(left) > sun.at(right) : sun.at(left) < sun.at(right);
    if (keep_left) {
      to = right;
    } else {
      from = left;
    }
  }
  const Instant middle = from + (to - from) / 2;
  return {middle, sun.at(middle)};
}

// Moments dense enough that between two neighbours the elevation only rises or only falls.
std::vector<Knot> knots_of(const ElevationOver& sun, Instant start, Instant end) {
  constexpr std::chrono::seconds step = std::chrono::minutes(20);
  std::vector<Knot> grid;
  for (Instant t = start; t < end; t += step)
    grid.push_back({t, sun.at(t)});
  grid.push_back({end, sun.at(end)});
  std::vector<Knot> knots;
  for (std::size_t i = 0; i < grid.size(); ++i) {
    knots.push_back(grid[i]);
    if (i + 1 == grid.size()) break;
    // A noon or midnight lies beside the grid's own highest or lowest point: look on both sides of it.
    const double here = grid[i].elevation;
    const double next = grid[i + 1].elevation;
    const bool rose = i == 0 ? here < sun.at(start + std::chrono::seconds(1)) : grid[i - 1].elevation < here;
    const bool rises =
        i + 2 == grid.size() ? sun.at(end - std::chrono::seconds(1)) < next : next < grid[i + 2].elevation;
    if (rose != rises) {
      const Knot turn_at = turning_point(sun, grid[i].at, grid[i + 1].at, rose);
      if (turn_at.at > grid[i].at && turn_at.at < grid[i + 1].at) knots.push_back(turn_at);
    }
  }
  return knots;
}

LightBand band_of(const ElevationOver& sun, const std::vector<Knot>& knots, double threshold) {
  LightBand band;
  bool up = knots.front().elevation > threshold;
  Instant since = knots.front().at;
  const bool second_before = sun.at(since - std::chrono::seconds(1)) > threshold;
  if (up && !second_before) band.rise = since;
  if (!up && second_before) band.set = since;
  for (std::size_t i = 1; i < knots.size(); ++i) {
    const bool then = knots[i].elevation > threshold;
    if (then == up) continue;
    Instant low = knots[i - 1].at;
    Instant high = knots[i].at;
    while (high - low > std::chrono::seconds(1)) {
      const Instant middle = low + (high - low) / 2;
      if ((sun.at(middle) > threshold) == up) {
        low = middle;
      } else {
        high = middle;
      }
    }
    if (high == knots.back().at) break;  // half open: what happens at the end belongs to the next span
    if (then) {
      if (!band.rise) band.rise = high;
      since = high;
    } else {
      band.set = high;
      band.spans.push_back({since, high});
    }
    up = then;
  }
  if (up && since < knots.back().at) band.spans.push_back({since, knots.back().at});
  if (band.rise || band.set) {
    band.state = LightBand::State::rises_or_sets;
  } else {
    band.state = up ? LightBand::State::always : LightBand::State::never;
  }
  return band;
}

}  // namespace

SunPosition sun_position(double latitude, double longitude, double elevation_m, double pressure_mbar,
                         double temperature_c, double delta_t_s, Instant when) {
  const Geocentric g = geocentric(julian_day(when), delta_t_s);
  SunPosition p;
  p.heliocentric_longitude = g.heliocentric_longitude;
  p.heliocentric_latitude = g.heliocentric_latitude;
  p.radius = g.radius;
  p.nutation_longitude = g.nutation_longitude;
  p.nutation_obliquity = g.nutation_obliquity;
  p.obliquity = g.obliquity;
  p.hour_angle = turn(g.sidereal + longitude - g.right_ascension);

  const double phi = latitude * kRadians;
  const double hour = p.hour_angle * kRadians;
  const double declination = g.declination * kRadians;
  // The observer stands off the earth's centre: parallax on the ellipsoid.
  constexpr double flattened = 0.99664719;
  const double parallax = 8.794 / (3600.0 * g.radius) * kRadians;
  const double u = std::atan(flattened * std::tan(phi));
  const double x = std::cos(u) + elevation_m / 6378140.0 * std::cos(phi);
  const double y = flattened * std::sin(u) + elevation_m / 6378140.0 * std::sin(phi);
  const double across = std::cos(declination) - x * std::sin(parallax) * std::cos(hour);
  const double shift = std::atan2(-x * std::sin(parallax) * std::sin(hour), across);
  const double seen_declination =
      std::atan2((std::sin(declination) - y * std::sin(parallax)) * std::cos(shift), across);
  const double seen_hour = hour - shift;
  const double sine = std::sin(phi) * std::sin(seen_declination) +
                      std::cos(phi) * std::cos(seen_declination) * std::cos(seen_hour);
  p.elevation = std::asin(std::clamp(sine, -1.0, 1.0)) / kRadians;

  // The report's refraction, as long as any of the sun is above the refracted horizon.
  constexpr double half_width = 0.26667;
  constexpr double horizon_refraction = 0.5667;
  double refraction = 0;
  if (p.elevation >= -(half_width + horizon_refraction)) {
    refraction = pressure_mbar / 1010.0 * (283.0 / (273.0 + temperature_c)) * 1.02 /
                 (60.0 * std::tan((p.elevation + 10.3 / (p.elevation + 5.11)) * kRadians));
  }
  p.zenith = 90.0 - (p.elevation + refraction);
  const double from_south = std::atan2(
      std::sin(seen_hour), std::cos(seen_hour) * std::sin(phi) - std::tan(seen_declination) * std::cos(phi));
  p.azimuth = turn(from_south / kRadians + 180.0);
  return p;
}

DayLight day_light(double latitude, double longitude, Instant start, Instant end) {
  if (!(latitude >= -90.0 && latitude <= 90.0)) throw std::invalid_argument("latitude outside -90..90");
  if (!(longitude >= -180.0 && longitude <= 180.0))
    throw std::invalid_argument("longitude outside -180..180");
  if (!(start < end) || end - start > std::chrono::hours(48)) {
    throw std::invalid_argument("the span of a day must be longer than nothing and at most 48 hours");
  }
  const ElevationOver sun(latitude, longitude, start, end);
  const std::vector<Knot> knots = knots_of(sun, start, end);
  DayLight light;
  light.sun = band_of(sun, knots, kSunriseElevation);
  light.civil = band_of(sun, knots, kCivilElevation);
  return light;
}

}  // namespace weatherstruck::sky
