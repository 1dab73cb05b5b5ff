#include "weatherstruck/feed/http_date.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

namespace weatherstruck::feed {
namespace {

using base::Instant;
using std::chrono::seconds;

// Enough for any date and any lifetime of a header; what is longer is no number of ours.
constexpr std::size_t most_digits = 9;

std::optional<int> whole_number(std::string_view text) {
  if (text.empty() || text.size() > most_digits) return std::nullopt;
  int out = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    out = out * 10 + (c - '0');
  }
  return out;
}

std::optional<std::chrono::month> month_named(std::string_view text) {
  constexpr std::array<std::string_view, 12> names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const auto* found = std::find(names.begin(), names.end(), text);
  if (found == names.end()) return std::nullopt;
  return std::chrono::month(static_cast<unsigned>(found - names.begin()) + 1U);
}

bool is_weekday(std::string_view text) {
  constexpr std::array<std::string_view, 7> names{"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                  "Friday", "Saturday", "Sunday"};
  return std::any_of(names.begin(), names.end(),
                     [&](std::string_view name) { return text == name || text == name.substr(0, 3); });
}

std::vector<std::string_view> split(std::string_view text, std::string_view separators) {
  std::vector<std::string_view> out;
  std::size_t at = 0;
  while (true) {
    at = text.find_first_not_of(separators, at);
    if (at == std::string_view::npos) return out;
    const std::size_t end = std::min(text.find_first_of(separators, at), text.size());
    out.push_back(text.substr(at, end - at));
    at = end;
  }
}

std::optional<seconds> time_of_day(std::string_view text) {
  if (text.size() != 8 || text[2] != ':' || text[5] != ':') return std::nullopt;
  const auto hour = whole_number(text.substr(0, 2));
  const auto minute = whole_number(text.substr(3, 2));
  const auto second = whole_number(text.substr(6, 2));
  // 60 is a leap second (RFC 9110 allows it); it counts as the second after.
  if (!hour || !minute || !second || *hour > 23 || *minute > 59 || *second > 60) return std::nullopt;
  return std::chrono::hours(*hour) + std::chrono::minutes(*minute) + seconds(*second);
}

std::optional<Instant> moment(std::string_view year, std::string_view month, std::string_view day,
                              std::string_view time, Instant now) {
  const auto month_number = month_named(month);
  const auto day_number = whole_number(day);
  auto year_number = whole_number(year);
  const auto clock = time_of_day(time);
  if (!month_number || !day_number || !year_number || !clock) return std::nullopt;
  if (year.size() == 2) {
    const std::chrono::year_month_day today(std::chrono::floor<std::chrono::days>(now));
    const int this_year = static_cast<int>(today.year());
    *year_number += this_year / 100 * 100;
    if (*year_number > this_year + 50) *year_number -= 100;
  } else if (year.size() != 4) {
    return std::nullopt;
  }
  const std::chrono::year_month_day date(std::chrono::year(*year_number), *month_number,
                                         std::chrono::day(static_cast<unsigned>(*day_number)));
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date) + *clock;
}

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

}  // namespace

std::optional<Instant> parse_http_date(std::string_view text, Instant now) {
  const std::vector<std::string_view> words = split(text, " ,");
  if (words.empty() || !is_weekday(words[0])) return std::nullopt;
  if (words.size() == 6 && words[5] == "GMT") return moment(words[3], words[2], words[1], words[4], now);
  if (words.size() == 5) return moment(words[4], words[1], words[2], words[3], now);
  if (words.size() == 4 && words[3] == "GMT") {
    const std::vector<std::string_view> date = split(words[1], "-");
    if (date.size() == 3) return moment(date[2], date[1], date[0], words[2], now);
  }
  return std::nullopt;
}

std::optional<seconds> max_age(std::string_view cache_control) {
  for (const std::string_view word : split(cache_control, ", \t")) {
    constexpr std::string_view name = "max-age=";
    if (lower(word.substr(0, name.size())) != name) continue;
    std::string_view value = word.substr(name.size());
    if (value.size() >= 2 && value.front() == '"' && value.back() == '"')
      value = value.substr(1, value.size() - 2);
    if (const auto number = whole_number(value)) return seconds(*number);
  }
  return std::nullopt;
}

std::optional<seconds> lifetime(const HttpResponse& response, Instant now) {
  std::optional<seconds> out;
  if (const std::string* control = response.header("cache-control")) out = max_age(*control);
  const std::string* expires = response.header("expires");
  const auto end = expires == nullptr ? std::nullopt : parse_http_date(*expires, now);
  if (!end) return out;
  const std::string* date = response.header("date");
  const auto sent = date == nullptr ? std::nullopt : parse_http_date(*date, now);
  const seconds by_expires = *end - sent.value_or(now);
  return out ? std::max(*out, by_expires) : by_expires;
}

std::optional<seconds> retry_after(const HttpResponse& response, Instant now) {
  const std::string* text = response.header("retry-after");
  if (text == nullptr) return std::nullopt;
  if (const auto number = whole_number(*text)) return seconds(*number);
  const auto when = parse_http_date(*text, now);
  if (!when) return std::nullopt;
  const std::string* date = response.header("date");
  const auto sent = date == nullptr ? std::nullopt : parse_http_date(*date, now);
  return std::max(seconds(0), *when - sent.value_or(now));
}

}  // namespace weatherstruck::feed
