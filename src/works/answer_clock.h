#pragma once
// A clock time within an answer. For the readers of answers only.
#include <chrono>
#include <optional>

#include "answer_tokens.h"

namespace weatherstruck::works {

/// A time of the day as it was said.
struct ClockSaid {
  std::chrono::minutes time{};  ///< since midnight, to 24:00
  bool open = false;        ///< 1:00 to 12:59 of either half of the day: "7", "half seven", "quarter to six"
  bool half_alone = false;  ///< "half seven", which is 6:30 to some and 7:30 to others
  std::optional<int> number{};  ///< nothing but a number was said; it may be a date
  bool twelve_hours = false;    ///< at most 12, with neither am nor pm: "7:30" might be the evening's
};

/// "21:00", "9pm", "9.30 pm", "21.30", "noon", "half past seven", "half seven", "quarter to six", "seven
/// o'clock"; and "21", "9", "nine" where `bare`. nullopt, and nothing walked, where there is none.
[[nodiscard]] std::optional<ClockSaid> clock_said(AnswerWalk& at, bool bare);

}  // namespace weatherstruck::works
