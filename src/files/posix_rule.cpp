#include "weatherstruck/files/posix_rule.h"

#include <chrono>
#include <string>
#include <utility>

namespace weatherstruck::files {
namespace {

using std::chrono::seconds;

// "Mm.w.d/time": the w-th weekday d (0 is Sunday) of month m, week 5 the last; the time by the clock in
// force.
struct YearlyDay {
  unsigned month = 0;
  unsigned week = 0;
  unsigned weekday = 0;
  seconds time{};
};

class RuleText {
 public:
  explicit RuleText(std::string_view text) : text_(text) {}

  [[nodiscard]] bool done() const { return text_.empty(); }
  bool take(char c) {
    if (text_.empty() || text_[0] != c) return false;
    text_.remove_prefix(1);
    return true;
  }
  [[nodiscard]] bool at_sign_or_digit() const {
    return !text_.empty() && (text_[0] == '-' || text_[0] == '+' || (text_[0] >= '0' && text_[0] <= '9'));
  }

  // Letters, or anything in angle brackets.
  std::optional<std::string> name() {
    const bool bracketed = take('<');
    std::string out;
    while (!text_.empty() && text_[0] != '>' && (bracketed || is_letter(text_[0]))) {
      out.push_back(text_[0]);
      text_.remove_prefix(1);
    }
    if (out.size() < 3 || (bracketed && !take('>'))) return {};
    return out;
  }

  std::optional<unsigned> number(unsigned most) {
    std::size_t digits = 0;
    unsigned value = 0;
    while (digits < 3 && digits < text_.size() && text_[digits] >= '0' && text_[digits] <= '9') {
      value = value * 10 + static_cast<unsigned>(text_[digits++] - '0');
    }
    if (digits == 0 || value > most) return {};
    text_.remove_prefix(digits);
    return value;
  }

  // "[+-]hh[:mm[:ss]]", up to a week either way (RFC 9636 3.3.1).
  std::optional<seconds> time() {
    const bool minus = take('-');
    if (!minus) take('+');
    const auto hours = number(167);
    if (!hours) return {};
    std::int64_t total = std::int64_t{*hours} * 3600;
    for (const int unit : {60, 1}) {
      if (!take(':')) break;
      const auto part = number(59);
      if (!part) return {};
      total += std::int64_t{*part} * unit;
    }
    return seconds(minus ? -total : total);
  }

  std::optional<YearlyDay> day() {
    if (!take(',') || !take('M')) return {};
    const auto month = number(12);
    if (!month || *month == 0 || !take('.')) return {};
    const auto week = number(5);
    if (!week || *week == 0 || !take('.')) return {};
    const auto weekday = number(6);
    if (!weekday) return {};
    YearlyDay out{*month, *week, *weekday, std::chrono::hours(2)};
    if (take('/')) {
      const auto at = time();
      if (!at) return {};
      out.time = *at;
    }
    return out;
  }

 private:
  static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
  std::string_view text_;
};

base::Instant in_year(const YearlyDay& day, int year, seconds offset_before) {
  const auto month = std::chrono::year(year) / std::chrono::month(day.month);
  const std::chrono::weekday weekday(day.weekday);
  const std::chrono::sys_days date = day.week == 5 ? std::chrono::sys_days(month / weekday[std::chrono::last])
                                                   : std::chrono::sys_days(month / weekday[day.week]);
  return base::Instant(date) + day.time - offset_before;
}

}  // namespace

std::optional<std::vector<base::Zone::Change>> changes_by_rule(std::string_view rule, int first, int last) {
  RuleText text(rule);
  std::vector<base::Zone::Change> out;
  const auto winter_name = text.name();
  if (!winter_name) return {};
  // POSIX counts offsets westward.
  const auto west = text.time();
  if (!west) return {};
  const seconds winter = -*west;
  if (text.done()) return out;
  const auto summer_name = text.name();
  if (!summer_name) return {};
  seconds summer = winter + std::chrono::hours(1);
  if (text.at_sign_or_digit()) {
    const auto summer_west = text.time();
    if (!summer_west) return {};
    summer = -*summer_west;
  }
  const auto begins = text.day();
  const auto ends = begins ? text.day() : std::nullopt;
  if (!ends || !text.done()) return {};
  for (int year = first; year <= last; ++year) {
    base::Zone::Change to_summer{in_year(*begins, year, winter), summer, *summer_name};
    base::Zone::Change to_winter{in_year(*ends, year, summer), winter, *winter_name};
    if (to_winter.at < to_summer.at) std::swap(to_winter, to_summer);  // south of the equator
    out.push_back(std::move(to_summer));
    out.push_back(std::move(to_winter));
  }
  return out;
}

}  // namespace weatherstruck::files
