#pragma once
// Days and numbers as data has them, whatever the language.
#include <fmt/format.h>

#include <chrono>
#include <cstdint>
#include <string>

#include "weatherstruck/base/money.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::files {

/// "2026-02-09".
inline std::string iso_day(base::LocalDay day) {
  const std::chrono::year_month_day date(day);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

/// Whole parts of one without needless noughts: 7500 thousandths are "7.5".
/// @param digits of the parts: 3 for thousandths
inline std::string plain_decimal(std::int64_t parts, std::int64_t of_one, int digits) {
  const std::int64_t size = parts < 0 ? -parts : parts;
  std::string text = fmt::format("{}{}", parts < 0 ? "-" : "", size / of_one);
  if (size % of_one == 0) return text;
  text += fmt::format(".{:0{}}", size % of_one, digits);
  return text.substr(0, text.find_last_not_of('0') + 1);
}

/// As many decimals as the currency has, without its code: "1850.00".
inline std::string plain_amount(const base::Money& money) {
  const std::string text = money.text();
  return text.substr(0, text.find(' '));
}

}  // namespace weatherstruck::files
