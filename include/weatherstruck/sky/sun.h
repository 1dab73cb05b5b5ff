#pragma once
// Where the sun stands, and when there is light to work by, for any place and date.
//
// Position: the solar position algorithm of I. Reda and A. Andreas, NREL report TP-560-34302 (2003,
// revised 2008), whose own claim is 0.0003 degrees for the years -2000 to 6000.
// Events: the convention of the US Naval Observatory and the almanacs. The centre of the sun stands
// 50 minutes of arc (34 of refraction, 16 of the sun's half width) below a level horizon at sunrise and
// sunset, and 6 degrees below it at civil dawn and dusk. Hills, trees and the height of the eye are not
// in it: on a slope the usable light is shorter.
#include <optional>
#include <vector>

#include "weatherstruck/base/zone.h"

namespace weatherstruck::sky {

/// Angles in degrees, but for the radius (astronomical units). Names follow the report.
struct SunPosition {
  double zenith = 0;                  ///< topocentric, refraction included; 0 overhead
  double azimuth = 0;                 ///< from north through east, 0..360
  double elevation = 0;               ///< topocentric without refraction
  double heliocentric_longitude = 0;  ///< L, 0..360
  double heliocentric_latitude = 0;   ///< B
  double radius = 0;                  ///< R, the sun's distance
  double nutation_longitude = 0;      ///< delta psi
  double nutation_obliquity = 0;      ///< delta epsilon
  double obliquity = 0;               ///< true obliquity of the ecliptic, epsilon
  double hour_angle = 0;              ///< geocentric, from the south westward, 0..360
};

/// @param latitude      degrees, north positive, -90..90
/// @param longitude     degrees, east positive, -180..180
/// @param elevation_m   metres above sea level
/// @param pressure_mbar air pressure there, for refraction only; 0 for none
/// @param temperature_c air temperature there, for refraction only
/// @param delta_t_s     terrestrial time minus UT1, seconds; 69 serves from 2017 until further notice
[[nodiscard]] SunPosition sun_position(double latitude, double longitude, double elevation_m,
                                       double pressure_mbar, double temperature_c, double delta_t_s,
                                       base::Instant when);

/// Degrees of the sun's centre against the level horizon, as seen from the ground, without refraction.
inline constexpr double kSunriseElevation = -50.0 / 60.0;
inline constexpr double kCivilElevation = -6.0;

/// Half open.
struct LightSpan {
  base::Instant from;
  base::Instant to;
  friend bool operator==(const LightSpan&, const LightSpan&) = default;
};

/// How the sun stands to one elevation over a span of time.
struct LightBand {
  enum class State { rises_or_sets, always, never };
  State state = State::never;
  std::optional<base::Instant> rise;  ///< the first upward passage in the span
  std::optional<base::Instant> set;   ///< the last downward passage in the span
  /// The parts of the span during which the sun stands higher. At high latitudes, or where the span is
  /// not the local day, there may be two; the set may then come before the rise.
  std::vector<LightSpan> spans;
};

struct DayLight {
  LightBand sun;    ///< the upper edge of the sun above the horizon: sunrise and sunset
  LightBand civil;  ///< light enough to work without lamps in clear weather: civil dawn and dusk
  [[nodiscard]] std::optional<base::Instant> sunrise() const { return sun.rise; }
  [[nodiscard]] std::optional<base::Instant> sunset() const { return sun.set; }
  [[nodiscard]] std::optional<base::Instant> dawn() const { return civil.rise; }
  [[nodiscard]] std::optional<base::Instant> dusk() const { return civil.set; }
};

/// Events within [start, end), to the second. The caller chooses the span: a local day (Zone::start_of,
/// Zone::end_of; 23 to 25 h), or a UT day to compare with tables printed by UT day.
/// @param latitude, longitude degrees, within -90..90 and -180..180
/// @throws std::invalid_argument unless the place is on the globe and 0 < end - start <= 48 h
[[nodiscard]] DayLight day_light(double latitude, double longitude, base::Instant start, base::Instant end);

}  // namespace weatherstruck::sky
