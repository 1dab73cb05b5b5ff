#include "weatherstruck/files/past_bytes.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace weatherstruck::files {
namespace {

constexpr std::size_t bytes_an_hour = 14;
constexpr int not_given = -32768;
constexpr int most = 32767;

void put(std::string& out, int value) {
  const auto bits = static_cast<std::uint16_t>(value);
  out += static_cast<char>(bits & 0xffU);
  out += static_cast<char>(bits >> 8U);
}
int take(std::string_view bytes, std::size_t at) {
  const auto low = static_cast<unsigned>(static_cast<unsigned char>(bytes[at]));
  const auto high = static_cast<unsigned>(static_cast<unsigned char>(bytes[at + 1]));
  return static_cast<std::int16_t>(static_cast<std::uint16_t>(low | (high << 8U)));
}

template <class T>
void put(std::string& out, const sky::Maybe<T>& value, double parts) {
  put(out,
      value ? static_cast<int>(std::clamp(std::lround(value->value.value() * parts), -long{most}, long{most}))
            : not_given);
}
template <class T>
void take(sky::Maybe<T>& value, std::string_view bytes, std::size_t at, double parts) {
  const int number = take(bytes, at);
  if (number != not_given) value = sky::Value<T>{T(number / parts), sky::Origin::measured};
}

}  // namespace

std::string pack_past(const sky::Series& series) {
  std::string out;
  out.reserve(series.hours.size() * bytes_an_hour);
  for (const sky::Hour& hour : series.hours) {
    put(out, hour.temperature, 10);
    put(out, hour.dew_point, 10);
    put(out, hour.wind, 10);
    put(out, hour.gust, 10);
    put(out, hour.rain, 10);
    put(out, hour.humidity, 100);
    put(out, hour.cloud, 100);
  }
  return out;
}

std::optional<std::vector<sky::Hour>> unpack_past(std::string_view bytes, base::Instant from) {
  if (bytes.size() % bytes_an_hour != 0) return std::nullopt;
  std::vector<sky::Hour> hours(bytes.size() / bytes_an_hour);
  for (std::size_t i = 0; i < hours.size(); ++i) {
    sky::Hour& hour = hours[i];
    const std::size_t at = i * bytes_an_hour;
    hour.start = from + std::chrono::hours(static_cast<long>(i));
    take(hour.temperature, bytes, at, 10);
    take(hour.dew_point, bytes, at + 2, 10);
    take(hour.wind, bytes, at + 4, 10);
    take(hour.gust, bytes, at + 6, 10);
    take(hour.rain, bytes, at + 8, 10);
    take(hour.humidity, bytes, at + 10, 100);
    take(hour.cloud, bytes, at + 12, 100);
    if ((hour.rain && hour.rain->value.value() < 0) || (hour.wind && hour.wind->value.value() < 0))
      return std::nullopt;
  }
  return hours;
}

}  // namespace weatherstruck::files
