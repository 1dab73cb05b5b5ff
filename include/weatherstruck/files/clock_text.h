#pragma once
// How documents write moments, stretches of the day, durations and money, both ways.
#include <optional>
#include <string>
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// "08:00-18:00", from before to, the end up to "24:00"; nullopt for anything else.
[[nodiscard]] std::optional<works::DaySpan> parse_span(std::string_view text);
[[nodiscard]] std::string span_text(works::DaySpan span);

/// "1:30", minutes of two digits below 60, hours up to four digits; nullopt for anything else.
[[nodiscard]] std::optional<base::Hours> parse_duration(std::string_view text);
/// "h:mm" where the hours are a whole number of minutes, nullopt otherwise; reads back as the same double.
[[nodiscard]] std::optional<std::string> duration_text(base::Hours hours);

/// "35.00 GBP": digits, no more decimals than the currency has, one space, an ISO 4217 code; not negative.
[[nodiscard]] std::optional<base::Money> parse_money(std::string_view text);

/// Either a moment or a fault without a place.
struct MomentRead {
  std::optional<base::Instant> moment;
  std::optional<base::Fault> fault;
};

/// A clock time of `zone`, or one with its own offset, from 1970 to 2100. Faults: "bad-time";
/// "nonexistent-time" and "ambiguous-time", with both readings written out ready to be copied;
/// "out-of-range".
[[nodiscard]] MomentRead read_moment(std::string_view text, const base::Zone& zone);
/// The clock time of `zone`; with its offset where that clock time comes twice.
[[nodiscard]] std::string moment_text(base::Instant moment, const base::Zone& zone);

}  // namespace weatherstruck::files
