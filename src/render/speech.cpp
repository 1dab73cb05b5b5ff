#include "weatherstruck/render/speech.h"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <cmath>

#include "weatherstruck/base/text.h"

namespace weatherstruck::render {
namespace {

using std::chrono::days;
using std::chrono::minutes;
using std::chrono::seconds;

constexpr double mph_per_metre_a_second = 3600.0 / 1609.344;  // international mile of 1,609.344 m
constexpr double millimetres_per_inch = 25.4;

long rounded(double value) {
  return std::lround(value);
}

long degrees(base::Celsius t, Units units) {
  return rounded(units == Units::us ? t.value() * 1.8 + 32.0 : t.value());
}

std::string_view degree_sign(Units units) {
  return units == Units::us ? "\u00b0F" : "\u00b0C";
}

base::LocalDay date_of(base::LocalTime t) {
  return std::chrono::floor<days>(t);
}

}  // namespace

Units units_of(trade::LimitSet set) {
  return set == trade::LimitSet::us ? Units::us : Units::uk;
}

std::string temperature(base::Celsius t, Units units) {
  return fmt::format("{} {}", degrees(t, units), degree_sign(units));
}

std::string temperatures(base::Celsius low, base::Celsius high, Units units) {
  if (degrees(low, units) == degrees(high, units)) return temperature(low, units);
  return fmt::format("{} to {} {}", degrees(low, units), degrees(high, units), degree_sign(units));
}

std::string rain(base::Millimetres depth, Units units) {
  if (units == Units::us) return fmt::format("{:.2f} in", depth.value() / millimetres_per_inch);
  return fmt::format("{:.1f} mm", depth.value());
}

std::string wind_number(base::MetresPerSecond speed) {
  return fmt::format("{}", rounded(speed.value() * mph_per_metre_a_second));
}

std::string wind(base::MetresPerSecond speed) {
  return wind_number(speed) + " mph";
}

std::string mass(base::Kilograms mass) {
  if (mass.value() < 999.5) return fmt::format("{} kg", rounded(mass.value()));
  return base::plain_number(mass.value() / 1000.0, 2) + " t";
}

std::string whole(double count) {
  const long value = rounded(count);
  std::string text = std::to_string(std::labs(value));
  for (std::size_t at = text.size(); at > 3; at -= 3)
    text.insert(at - 3, ",");
  return value < 0 ? "-" + text : text;
}

std::string count_of(long count, std::string_view word) {
  const auto ends = [&](std::string_view end) {
    return word.size() >= end.size() && word.substr(word.size() - end.size()) == end;
  };
  std::string text = whole(static_cast<double>(count)) + ' ' + std::string(word);
  if (count != 1) text += ends("s") || ends("x") || ends("ch") || ends("sh") ? "es" : "s";
  return text;
}

base::LocalTime to_quarter(base::LocalTime t) {
  constexpr minutes step(15);
  return base::LocalTime(
      std::chrono::floor<std::chrono::duration<long, std::ratio<900>>>(t.time_since_epoch() + step / 2));
}

std::string quarter(base::LocalTime t) {
  return base::clock_time(to_quarter(t));
}

std::string quarter_from(base::LocalDay today, base::LocalTime t) {
  const base::LocalTime shown = to_quarter(t);
  const auto away = date_of(shown) - today;
  if (away == days(0)) return base::clock_time(shown);
  if (away > days(0) && away < days(7)) return weekday(date_of(shown)) + ' ' + base::clock_time(shown);
  return base::day_and_time(shown);
}

std::string about(base::LocalDay today, base::LocalTime t) {
  const base::LocalTime shown = to_quarter(t);
  const auto away = date_of(shown) - today;
  std::string clock = "about " + base::clock_time(shown);
  if (away == days(0)) return clock;
  if (away == days(1)) return clock + " tomorrow";
  if (away > days(1) && away < days(7)) return clock + " on " + weekday(date_of(shown));
  return clock + " on " + base::day_name(date_of(shown));
}

std::string duration_minutes(seconds length) {
  const long all = std::chrono::round<minutes>(length).count();
  if (all < 60) return fmt::format("{} min", all);
  if (all % 60 == 0) return fmt::format("{} h", all / 60);
  return fmt::format("{} h {} min", all / 60, all % 60);
}

std::string duration(seconds length) {
  const long quarters = rounded(static_cast<double>(length.count()) / 900.0);
  if (quarters <= 0) return "a few minutes";
  if (length >= days(1)) {
    const long all = std::chrono::round<std::chrono::hours>(length).count();
    return count_of(all / 24, "day") + (all % 24 > 0 ? fmt::format(" {} h", all % 24) : "");
  }
  return duration_minutes(minutes(15 * quarters));
}

std::string capital(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

std::string weekday(base::LocalDay day) {
  return base::day_name(day).substr(0, 3);
}

}  // namespace weatherstruck::render
