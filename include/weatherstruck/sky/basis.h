#pragma once
// What the hours of a joined series stand on: which forecast, what was measured, and where nothing is known.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::sky {

/// Hours in a row that stand on the same.
struct Basis {
  enum class Kind {
    forecast,
    read_on_site,  ///< temperature or rain of it was read on site, the rest is the forecast's
    observed,      ///< a station measured temperature, wind or rain of it
    past_years,    ///< years gone by stand in
    nothing        ///< no temperature, no rain or no wind
  };
  base::Instant from, to;  ///< [from, to), whole hours but for the ends asked for
  Kind kind = Kind::forecast;
  std::string source;                   ///< of the forecast or the station; empty where nothing is known
  std::optional<base::Instant> issued;  ///< of the forecast
  std::string filled_from;              ///< source of what the first one lacked; empty: it lacked nothing
  std::optional<base::Instant> filled_issued;
  friend bool operator==(const Basis&, const Basis&) = default;
};

/// Of every moment of [from, to), in order, without gaps; empty where from is not before to. Hours outside
/// the series stand on nothing.
[[nodiscard]] std::vector<Basis> bases_of(const Series& series, base::Instant from, base::Instant to);

/// The source whose words or readings an hour of it has; that of the series where it is all of one piece.
[[nodiscard]] Part part_of(const Series& series, std::uint16_t number);

/// Whether it forecasts nothing: what is in it was measured. The air may be carried between two reports.
/// Joined with a forecast it never gives the heading, however new it is.
[[nodiscard]] bool only_readings(const Series& series);

}  // namespace weatherstruck::sky
