#pragma once
// Dates and lifetimes in HTTP headers.
#include <chrono>
#include <optional>
#include <string_view>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/feed/http.h"

namespace weatherstruck::feed {

/// All three forms of RFC 9110, 5.6.7: "Sun, 06 Nov 1994 08:49:37 GMT", "Sunday, 06-Nov-94 08:49:37 GMT",
/// "Sun Nov  6 08:49:37 1994". The name of the weekday is not compared with the date. A year of two digits
/// that would lie more than 50 years after `now` belongs to the century before.
[[nodiscard]] std::optional<base::Instant> parse_http_date(std::string_view text, base::Instant now);

/// The max-age of a Cache-Control value (RFC 9111, 5.2.2.1); nullopt where there is none.
[[nodiscard]] std::optional<std::chrono::seconds> max_age(std::string_view cache_control);

/// How long the response asks not to be asked for again: the longer of max-age and Expires less Date (RFC
/// 9111, 4.2.1, which takes max-age alone; the longer is the politer). Expires is counted from `now` where
/// there is no Date, so a clock that runs wrong here does no harm where there is one. nullopt where it says
/// nothing; may be negative.
[[nodiscard]] std::optional<std::chrono::seconds> lifetime(const HttpResponse& response, base::Instant now);

/// Retry-After (RFC 9110, 10.2.3), seconds or a date; not negative.
[[nodiscard]] std::optional<std::chrono::seconds> retry_after(const HttpResponse& response,
                                                              base::Instant now);

}  // namespace weatherstruck::feed
