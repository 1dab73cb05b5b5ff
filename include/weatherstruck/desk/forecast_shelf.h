#pragma once
// Forecasts kept in the record: what a service answered, what a file held, and which of them a trip goes by.
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/feed/forecast_fetch.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::desk {

/// The key of a place in the record: "52.0500,-3.4500", four decimals, about ten metres. What a service of
/// the user's choice says of it is kept apart, "52.0500,-3.4500 mosmix:10315": it is never joined with the
/// other.
[[nodiscard]] std::string place_key(const works::Site& site,
                                    const std::optional<feed::ServiceChoice>& service = {});

/// The record as the keeper of a service's answers, for one place. Where a service has turned us away (401,
/// 403, 429) that holds for its other addresses too: the job's altitude put right is not a new caller.
class RecordCache : public feed::ForecastCache {
 public:
  RecordCache(record::Store& store, std::string place) : store_(store), place_(std::move(place)) {}
  std::optional<feed::CachedAnswer> get(const std::string& url) override;
  void put(const feed::CachedAnswer& answer) override;

 private:
  record::Store& store_;
  std::string place_;
};

/// Where the forecast of a trip is to come from.
struct ForecastWish {
  std::vector<std::string> files;  ///< in the order given; empty: the service of the place
  bool offline = false;            ///< ask nobody
  bool past = false;       ///< the moment is gone by: nobody is asked, what comes now was not known then
  std::uint64_t seed = 0;  ///< of the wait between tries
  std::optional<feed::ServiceChoice> service{};  ///< in place of that of the place; not with files
  std::string beside{};  ///< a second source: a service as in feed::read_choice, or a file; empty: none
  std::string open_meteo_key{};
};

/// What asking a service takes; nullopt in a program that may not.
struct ServicePorts {
  feed::HttpClient& http;
  feed::ServiceAddresses addresses;
  std::function<base::Instant()> now;
  std::function<void(std::chrono::milliseconds)> sleep;
};

struct ForecastsAtHand {
  /// Oldest issue first. For a kept job also the issues of earlier in the trip, for the hours gone by.
  std::vector<sky::Series> issues;
  std::optional<record::ForecastId> newest;  ///< in the record; nullopt for files of a job that is not kept
  std::vector<std::string> remarks;          ///< sentences that go with it on a sheet
  bool age_said = false;                     ///< one of them says how old it is
  std::vector<std::string> news;  ///< sentences for whoever asked: why no newer one came, what to do
  /// Of the second source, to be held beside the plan and nothing else; nullopt where none was wished for or
  /// none is to be had, which `news` tells.
  std::optional<sky::Series> beside{};
};

/// Files are read and, for a kept job, put into the record, each once. Without files the service is asked
/// through `ports` where its terms allow it, by the clock of `ports`; offline, or where that fails, the last
/// good forecast stands.
/// A second source that does not answer is told and stops nothing. Under way in the United States the
/// readings of the nearest station come with the forecast.
/// @throws base::InputError for a file that is no forecast, "no-forecast" where there is none at all
[[nodiscard]] ForecastsAtHand forecasts_for(Shelf& shelf, const OpenJob& open, const ForecastWish& wish,
                                            const std::function<ServicePorts()>& ports, base::Instant now);

}  // namespace weatherstruck::desk
