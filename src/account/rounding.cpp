#include "weatherstruck/account/rounding.h"

#include <limits>
#include <stdexcept>

namespace weatherstruck::account {

namespace {

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t largest_divisor = 1'000'000;

std::int64_t size_of(std::int64_t value) {
  if (value < -largest) throw std::overflow_error("an amount is too large to reckon with");
  return value < 0 ? -value : value;
}

std::int64_t product(std::int64_t a, std::int64_t b) {
  if (b != 0 && a > largest / b) throw std::overflow_error("a product of amounts is too large to hold");
  return a * b;
}

}  // namespace

std::int64_t scaled(std::int64_t value, std::int64_t factor, std::int64_t divisor) {
  if (divisor < 1 || divisor > largest_divisor) throw std::invalid_argument("a divisor must be 1 to 1000000");
  // On sizes: away from zero is then simply up. The whole part is taken out first, so that what is left to be
  // divided stays small.
  const bool negative = (value < 0) != (factor < 0);
  const std::int64_t size = size_of(value);
  const std::int64_t by = size_of(factor);
  const std::int64_t whole = product(size / divisor, by);
  const std::int64_t rest = product(size % divisor, by);
  // 2 * left >= divisor, written so that nothing overflows.
  const std::int64_t up = rest / divisor + (rest % divisor >= divisor - rest % divisor ? 1 : 0);
  if (whole > largest - up) throw std::overflow_error("a product of amounts is too large to hold");
  return negative ? -(whole + up) : whole + up;
}

std::int64_t share_of(std::int64_t whole, std::int64_t part, std::int64_t sum) {
  constexpr std::int64_t most = 10'000'000'000'000;
  if (whole < 0 || whole > most || sum < 1 || sum > most || part < 0 || part > sum)
    throw std::invalid_argument("a share must be of a whole up to 1e13, and its part no more than the sum");
  // Long multiplication in base two, the remainder kept below the sum, so that 26 digits need no wider type.
  std::int64_t quotient = 0;
  std::int64_t rest = 0;
  for (int bit = 43; bit >= 0; --bit) {  // 1e13 < 2^44
    quotient *= 2;
    rest *= 2;
    if (((whole >> bit) & 1) != 0) rest += part;
    quotient += rest / sum;
    rest %= sum;
  }
  return quotient + (rest >= sum - rest ? 1 : 0);
}

}  // namespace weatherstruck::account
