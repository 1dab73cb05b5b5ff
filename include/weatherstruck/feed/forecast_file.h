#pragma once
// A saved forecast, whatever service or program wrote it, as one hourly series. The kind is recognised
// from the content, never from the name.
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

struct ReadOptions {
  /// The zone of local times that carry no offset (CSV). Without it such times are a fault, not a guess.
  std::optional<base::Zone> zone;
  /// Whether a CSV row's stamp begins or ends the hour its rain fell in. Unset: it begins it, and a note says
  /// so.
  std::optional<sky::StampMeans> stamp;
  /// Gust over mean wind where the source has no gusts, 1..5.
  double gust_factor = sky::GustFactor::inland;
  /// The longest table that is taken: 390 days for a forecast, years for what has been. At most 50 years.
  std::chrono::days longest{390};
  /// The place, for a file that does not say (CSV); degrees.
  double latitude = 0;
  double longitude = 0;
};

/// The kinds read so far.
enum class ForecastKind { met_norway, nws_grid, nws_observations, mosmix, open_meteo, isd_lite, csv };

/// Reads a MET Norway Locationforecast 2.0 answer (compact, complete), a US National Weather Service grid
/// answer or its observations of a station, a MOSMIX forecast of the Deutscher Wetterdienst (KMZ or the KML
/// inside), JSON in the shape of Open-Meteo, ISD-Lite or CSV; each also packed with gzip. A service's own
/// error body, a web page or another product of the same service is recognised and told as such.
/// @param name  shown before the faults, e.g. the path
/// @throws base::InputError with every fault found; places are JSON pointers or "line 12"
[[nodiscard]] sky::Series read_forecast(std::string_view name, std::string_view bytes,
                                        const ReadOptions& options = {});

/// The kind by content; nullopt where it is none of them.
[[nodiscard]] std::optional<ForecastKind> recognise(std::string_view bytes);

}  // namespace weatherstruck::feed
