#pragma once
// When a service may be asked and what its answer means: decisions on plain values, no network, no clock.
#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/random.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/feed/forecast_service.h"
#include "weatherstruck/feed/http.h"
#include "weatherstruck/sky/series.h"

namespace weatherstruck::feed {

/// What is known of one address: the last good body and how the last exchange went.
struct CachedAnswer {
  std::string url;
  std::string body;           ///< the last good one; empty where there never was one
  std::string last_modified;  ///< as the service wrote it, with that body; empty where it did not
  base::Instant expires;      ///< the service is not asked before
  base::Instant fetched_at;   ///< when the body came or was last confirmed; of the exchange, without a body
  /// Of the last exchange, which need not be the one that brought the body; 0 where what came could not be
  /// used.
  int status = 0;
  friend bool operator==(const CachedAnswer&, const CachedAnswer&) = default;
};

/// The table of what the terms and good manners ask.
struct FetchRules {
  /// Retries after 5xx and broken connections. NWS: 500 and 503 are common and pass; MET Norway: back off.
  static constexpr int most_retries = 3;
  /// First wait, doubled each time, 50..150 % of it drawn. NWS documentation: about 5 s.
  static constexpr std::chrono::milliseconds first_wait{5'000};
  /// No retry begins later than this after the first request. Own choice: a man waits beside the road.
  static constexpr std::chrono::seconds longest_wait{60};
  /// Least time between two exchanges that got an answer, also where the service names none. Own choice.
  static constexpr std::chrono::seconds least_hold{300};
  /// Of files that name no expiry: MOSMIX_L is issued four times a day, the files' dates tell when. Also
  /// least time between two looks at a station's reports, which come once an hour. Own choice.
  static constexpr std::chrono::seconds least_hold_of_files{1'800};
  /// An expiry farther ahead is not believed (the services give minutes to hours). Own choice.
  static constexpr std::chrono::seconds most_hold{7 * 86'400};
  /// After 429 without Retry-After. Own choice; MET Norway: stop at once.
  static constexpr std::chrono::seconds throttled_hold{900};
  /// After 400, 401, 403, 404, 422: asking again changes nothing. Own choice.
  static constexpr std::chrono::seconds refused_hold{3'600};
  /// How long the US service's "this place lies in that square", or its "not mine", is taken as it stands.
  /// The documentation says it does not change very often; a 404 for the square ends it earlier. Own choice.
  static constexpr std::chrono::seconds mapping_kept{30 * 86'400};
};

enum class StepKind {
  keep,   ///< use the stored body, ask nobody
  ask,    ///< send a request
  refuse  ///< nothing is stored and nobody may be asked
};

struct Step {
  StepKind kind = StepKind::ask;
  std::string if_modified_since;  ///< with ask; empty: ask without a condition
  /// Why, with keep and refuse; empty where all is as it should be. With keep the stored one stands in.
  sky::SeriesNote note;
};

/// @param stored what the cache holds for the address
[[nodiscard]] Step next_step(const std::optional<CachedAnswer>& stored, base::Instant now, bool offline);
/// The same for the US service's points answer, which is kept for FetchRules::mapping_kept.
[[nodiscard]] Step next_mapping_step(const std::optional<CachedAnswer>& stored, base::Instant now,
                                     bool offline);

/// In plain words what went wrong and what to do about it.
struct FetchTrouble {
  std::string code;    ///< stable: "throttled", "refused", "not-here", "service-down", "too-slow", ...
  std::string found;   ///< a sentence
  std::string remedy;  ///< a sentence, an imperative where there is something to do
};

enum class Verdict {
  fresh,      ///< a new body is in `store`
  unchanged,  ///< the stored one still holds; its dates are renewed in `store`
  retry,      ///< ask again after `wait`
  fall_back,  ///< no more now: the last good one stands in
  not_here    ///< 404: the place or square is not the service's
};

struct Taken {
  Verdict verdict = Verdict::fall_back;
  std::optional<CachedAnswer> store;    ///< to put into the cache; nullopt: leave it as it is
  std::chrono::milliseconds wait{0};    ///< with retry
  std::optional<FetchTrouble> trouble;  ///< with retry, fall_back and not_here
  std::optional<sky::SeriesNote> note;  ///< with fresh: what the service wants known (203)
};

/// What was asked.
struct Asked {
  ForecastService service = ForecastService::met_norway;
  std::string url;
  std::optional<CachedAnswer> stored;
  int tries = 1;  ///< requests sent in this exchange, this one with them
  /// What is wrong with a body, in words; nullopt where it can be used.
  std::function<std::optional<std::string>(std::string_view body)> fault_in;
  bool rarely = false;  ///< held for FetchRules::least_hold_of_files at least
};

/// @param random draws the wait before a retry, and nothing else
[[nodiscard]] Taken take_answer(const Asked& asked, const HttpAnswer& answer, base::Instant now,
                                base::Random& random);

/// "less than a minute", "35 min", "7 h 20 min", "2 days 3 h"; a negative age counts as none.
[[nodiscard]] std::string age_in_words(std::chrono::seconds age);

}  // namespace weatherstruck::feed
