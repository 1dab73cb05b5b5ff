#include "weatherstruck/files/strip_bytes.h"

#include <bit>
#include <cmath>
#include <cstdint>
#include <type_traits>

namespace weatherstruck::files {
namespace {

constexpr unsigned bytes_a_number = 8;

// Goes through every number of a strip in one order, to write it or to read it.
template <class Strip, class Fn>
void each_number(Strip& fitted, Fn&& number) {
  auto quantity = [&](auto& value) {
    double plain = value.value();
    number(plain);
    using Quantity = std::remove_reference_t<decltype(value)>;
    if constexpr (!std::is_const_v<Quantity>) value = Quantity(plain);
  };
  auto& strip = fitted.strip;
  quantity(strip.shape.thickness);
  quantity(strip.shape.width);
  quantity(strip.shape.trench_depth);
  quantity(strip.mix.cement);
  number(strip.mix.water_cement);
  number(strip.ground.conductivity);
  number(strip.ground.capacity);
  quantity(strip.ground.mean);
  quantity(strip.ground.amplitude);
  number(strip.ground.coldest_day);
  quantity(strip.placed);
  number(strip.day_of_year);
  auto& filter = fitted.filter;
  quantity(filter.mix.cement);
  number(filter.mix.water_cement);
  number(filter.sky);
  number(filter.layer);
  number(filter.face);
  for (auto& joint : filter.joint)
    number(joint);
  for (auto& capacity : filter.capacity)
    number(capacity);
  for (auto& ground : filter.ground)
    number(ground);
  number(filter.beside_joint);
  number(filter.beside_open);
  number(filter.beside_capacity);
  number(filter.beside_ground);
  quantity(filter.worst_fitted);
}

}  // namespace

std::string pack_strip(const programme::FittedStrip& strip) {
  std::string out;
  each_number(strip, [&](double number) {
    const auto bits = std::bit_cast<std::uint64_t>(number);
    for (unsigned byte = 0; byte < bytes_a_number; ++byte)
      out += static_cast<char>(bits >> (8 * byte) & 0xffU);
  });
  return out;
}

std::optional<programme::FittedStrip> unpack_strip(std::string_view bytes) {
  programme::FittedStrip strip;
  std::size_t at = 0;
  bool finite = true;
  each_number(strip, [&](double& number) {
    std::uint64_t bits = 0;
    for (unsigned byte = 0; byte < bytes_a_number && at < bytes.size(); ++byte)
      bits |= static_cast<std::uint64_t>(static_cast<unsigned char>(bytes[at++])) << (8 * byte);
    number = std::bit_cast<double>(bits);
    finite = finite && std::isfinite(number);
  });
  if (!finite || bytes.size() != pack_strip(strip).size()) return std::nullopt;
  const matter::HeatFilter& filter = strip.filter;
  for (std::size_t n = 0; n < matter::heat_nodes; ++n) {
    if (!(filter.joint[n] > 0 && filter.capacity[n] > 0)) return std::nullopt;
  }
  const bool whole =
      filter.face >= 0 && filter.beside_joint > 0 && filter.beside_open > 0 && filter.beside_capacity > 0;
  return whole ? std::optional(strip) : std::nullopt;
}

}  // namespace weatherstruck::files
