#pragma once
// The forecast of a place from the service that has it, or the last good one with its age.
#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "weatherstruck/base/random.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/feed/fetch_rules.h"
#include "weatherstruck/feed/forecast_file.h"
#include "weatherstruck/feed/forecast_service.h"
#include "weatherstruck/feed/http.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// Where answers are kept between runs.
class ForecastCache {
 public:
  virtual ~ForecastCache() = default;
  /// The one under that address, byte for byte as put.
  virtual std::optional<CachedAnswer> get(const std::string& url) = 0;
  /// Replaces what was there. May throw (full disk): the forecast in hand is used all the same.
  virtual void put(const CachedAnswer& answer) = 0;

 protected:
  ForecastCache() = default;
  ForecastCache(const ForecastCache&) = default;
  ForecastCache& operator=(const ForecastCache&) = default;
};

struct FetchedForecast {
  sky::Series series;
  std::string body;  ///< as received, to be kept
  ForecastService service = ForecastService::met_norway;
  bool from_cache = false;     ///< no new body came
  base::Instant fetched_at;    ///< when the body came or was last confirmed: to be shown with it
  std::chrono::seconds age{};  ///< now less fetched_at
  /// What a person should know; may be empty. "last-good" says how old it is where it stands in for a newer
  /// one, "no-altitude", "other-service" and "station" belong to the forecast; the others are of this
  /// exchange.
  std::vector<sky::SeriesNote> remarks;
};

struct FetchRefused {
  FetchTrouble trouble;
  std::vector<sky::SeriesNote> remarks;
};

using FetchOutcome = std::variant<FetchedForecast, FetchRefused>;

struct FetchOptions {
  bool offline = false;  ///< ask nobody
  ServiceAddresses addresses;
  ReadOptions reading;
  std::uint64_t seed = 0;                  ///< of the jitter; should differ between users and runs
  std::optional<ServiceChoice> service{};  ///< nullopt: that of the place
  std::string open_meteo_key{};            ///< the user's own; without one that service is not asked
  /// In the United States also what the nearest station reported from then on, put into the cache. Where that
  /// fails a remark says so, "no-readings".
  std::optional<base::Instant> observed_from{};
};

/// What is the world's.
struct FetchPorts {
  HttpClient& http;
  ForecastCache& cache;
  std::function<base::Instant()> now;
  std::function<void(std::chrono::milliseconds)> sleep;
};

/// Asks where the terms allow it, otherwise or on failure takes the last good forecast of the place. One that
/// has ended is none. Whatever the network does comes back as a value.
/// @throws std::invalid_argument where the place is none; what ForecastCache::get throws
[[nodiscard]] FetchOutcome fetch_forecast(const ForecastPlace& place, const FetchOptions& options,
                                          const FetchPorts& ports);

}  // namespace weatherstruck::feed
