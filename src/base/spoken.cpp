// The half of text.h that speaks and reads times and numbers.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <stdexcept>

#include "weatherstruck/base/text.h"

namespace weatherstruck::base {

namespace {

using std::chrono::days;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

constexpr std::array<const char*, 7> weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                             "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string iso_day(std::chrono::year_month_day date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

// Reads from the front of a text and remembers whether every piece was there.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  /// Exactly `digits` digits, giving a value from 0 to `most`.
  int number(std::size_t digits, int most) {
    int value = 0;
    for (std::size_t i = 0; i < digits; ++i) {
      if (text_.empty() || !is_digit(text_.front())) {
        good_ = false;
        return 0;
      }
      value = value * 10 + (text_.front() - '0');
      text_.remove_prefix(1);
    }
    if (value > most) good_ = false;
    return value;
  }

  bool take(char c) {
    if (text_.empty() || text_.front() != c) return false;
    text_.remove_prefix(1);
    return true;
  }

  void need(char c) {
    if (!take(c)) good_ = false;
  }

  void need_either(char a, char b) {
    if (!take(a) && !take(b)) good_ = false;
  }

  [[nodiscard]] bool good() const { return good_; }
  [[nodiscard]] bool at_end() const { return text_.empty(); }

 private:
  std::string_view text_;
  bool good_ = true;
};

LocalDay read_day(Scanner& scanner, bool& exists) {
  const int year = scanner.number(4, 9999);
  scanner.need('-');
  const int month = scanner.number(2, 12);
  scanner.need('-');
  const int day = scanner.number(2, 31);
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  exists = date.ok();
  return exists ? LocalDay(date) : LocalDay();
}

LocalTime read_day_and_time(Scanner& scanner, bool& exists) {
  const LocalDay day = read_day(scanner, exists);
  scanner.need_either('T', ' ');
  const hours hour(scanner.number(2, 23));
  scanner.need(':');
  const minutes minute(scanner.number(2, 59));
  seconds second(0);
  if (scanner.take(':')) second = seconds(scanner.number(2, 59));
  return LocalTime(day) + hour + minute + second;
}

seconds read_offset(Scanner& scanner) {
  if (scanner.take('Z')) return seconds(0);
  const bool west = scanner.take('-');
  if (!west) scanner.need('+');
  const hours hour(scanner.number(2, 23));
  scanner.take(':');
  const seconds size = hour + minutes(scanner.number(2, 59));
  return west ? -size : size;
}

}  // namespace

std::string day_name(LocalDay day) {
  const std::chrono::year_month_day date(day);
  const std::chrono::weekday weekday(day);
  return fmt::format("{} {} {}", weekdays.at(weekday.c_encoding()), static_cast<unsigned>(date.day()),
                     months.at(static_cast<unsigned>(date.month()) - 1));
}

std::string clock_time(LocalTime t) {
  const auto minute = std::chrono::floor<minutes>(t - std::chrono::floor<days>(t)).count();
  return fmt::format("{:02}:{:02}", minute / 60, minute % 60);
}

std::string day_and_time(LocalTime t) {
  return day_name(std::chrono::floor<days>(t)) + ' ' + clock_time(t);
}

std::string iso_local(LocalTime t) {
  return iso_day(std::chrono::year_month_day(std::chrono::floor<days>(t))) + 'T' + clock_time(t);
}

std::string iso_utc(Instant t) {
  const LocalTime shown(t.time_since_epoch());
  const auto second = (shown - std::chrono::floor<minutes>(shown)).count();
  return fmt::format("{}:{:02}Z", iso_local(shown), second);
}

std::optional<LocalTime> parse_iso_local(std::string_view text) {
  Scanner scanner(text);
  bool exists = false;
  const LocalTime t = read_day_and_time(scanner, exists);
  if (!scanner.good() || !exists || !scanner.at_end()) return std::nullopt;
  return t;
}

std::optional<Instant> parse_iso_instant(std::string_view text) {
  Scanner scanner(text);
  bool exists = false;
  const LocalTime t = read_day_and_time(scanner, exists);
  const seconds offset = read_offset(scanner);
  if (!scanner.good() || !exists || !scanner.at_end()) return std::nullopt;
  return Instant(t.time_since_epoch() - offset);
}

std::optional<LocalDay> parse_iso_day(std::string_view text) {
  Scanner scanner(text);
  bool exists = false;
  const LocalDay day = read_day(scanner, exists);
  if (!scanner.good() || !exists || !scanner.at_end()) return std::nullopt;
  return day;
}

std::optional<double> parse_number(std::string_view text) {
  // The C library's reader takes its decimal point from the locale, so it is handed whole digits and an
  // exponent only: "3.50" becomes "350e-2". It rounds correctly.
  std::size_t at = 0;
  const auto here = [&] { return at < text.size() ? text[at] : '\0'; };
  std::string plain;
  const auto take_digits = [&] {
    const std::size_t begin = at;
    while (is_digit(here()))
      plain += text[at++];
    return at - begin;
  };
  if (here() == '-') plain += text[at++];
  if (take_digits() == 0) return std::nullopt;
  std::int64_t exponent = 0;
  if (here() == '.') {
    ++at;
    const std::size_t decimals = take_digits();
    if (decimals == 0) return std::nullopt;
    exponent = -static_cast<std::int64_t>(decimals);
  }
  if (here() == 'e' || here() == 'E') {
    ++at;
    const bool negative = here() == '-';
    if (negative || here() == '+') ++at;
    if (!is_digit(here())) return std::nullopt;
    // Far beyond any double, and beyond what the digits of a text could make up for.
    constexpr std::int64_t most = 1'000'000'000'000;
    std::int64_t written = 0;
    for (; is_digit(here()); ++at)
      written = std::min(most, written * 10 + (here() - '0'));
    exponent += negative ? -written : written;
  }
  if (at != text.size()) return std::nullopt;
  plain += 'e';
  plain += std::to_string(exponent);
  const double value = std::strtod(plain.c_str(), nullptr);
  if (!std::isfinite(value)) return std::nullopt;
  return value;
}

std::string plain_number(double value, int decimals) {
  if (!std::isfinite(value)) throw std::invalid_argument("only a finite number can be written plainly");
  if (decimals < 0 || decimals > 17) throw std::invalid_argument("0 to 17 decimals can be written");
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace weatherstruck::base
