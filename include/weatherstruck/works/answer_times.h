#pragma once
// Clock times, dates and stretches of the day as a person types them when he is asked.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::works {

/// How he speaks of days and hours.
struct TimeWays {
  bool american = false;  ///< the month first in 2/9; "half seven" is asked back
  std::optional<int>
      bare_from{};        ///< "7", "half seven" are in the twelve hours from this one; nullopt: asked back
  bool day_open = false;  ///< without a day it is the next such time
  std::optional<base::LocalDay>
      today{};  ///< from which "today" and "tomorrow" are counted; nullopt: the day of `after`
};

/// "Thu 21:00", "Mon 9", "Monday at half seven", "2/9 5am", "12 Feb 9pm", "9.30 pm Thursday", "tomorrow 5am",
/// "2026-02-12 21:00", and with an offset behind the full form. A weekday is the first after `after`; a date
/// without a year the first not before it. The day has to be said, unless it is open. Refused: what is not
/// after `after` or more than 400 days after it, a weekday that is not that of the date, and a clock time
/// that does not exist or comes twice (with both readings written out).
[[nodiscard]] Answer<base::Instant> moment_answer(std::string_view text, const base::Zone& zone,
                                                  base::Instant after, const TimeWays& ways = {});

/// "7:00-21:00", "7 to 21", "7am-9pm", "8 till 18:30", "7 till 6", "7.30 to 5.30"; the earlier time first, up
/// to 24:00. A second time that is no later, and at most 12, is of the afternoon.
[[nodiscard]] Answer<DaySpan> span_answer(std::string_view text);
/// "07:00-21:00".
[[nodiscard]] std::string span_words(DaySpan span);

/// "7:30-19:00" (weekdays), "7:30-19:00, Sat 8-13, Sun none"; "any time"; a day that is not named keeps that
/// of `usual`.
[[nodiscard]] Answer<NoisyHours> noisy_answer(std::string_view text, const NoisyHours& usual);
/// "Mon-Fri 08:00-18:00, Sat 08:00-13:00, Sun none"; "any time".
[[nodiscard]] std::string noisy_words(const NoisyHours& hours);

}  // namespace weatherstruck::works
