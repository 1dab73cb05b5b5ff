#pragma once
// Money in whole minor units of one ISO 4217 currency. No floating point ever holds money.
#include <array>
#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace weatherstruck::base {

/// An ISO 4217 alphabetic code and how many decimals its minor unit has (0, 2 or 3).
class Currency {
 public:
  /// nullopt where the code is not in the ISO 4217 list (active codes with a minor unit).
  [[nodiscard]] static std::optional<Currency> from_code(std::string_view code);
  [[nodiscard]] std::string code() const { return std::string(letters_.data(), 3); }
  [[nodiscard]] int decimals() const { return decimals_; }
  friend bool operator==(const Currency&, const Currency&) = default;

 private:
  Currency(std::array<char, 3> letters, int decimals) : letters_(letters), decimals_(decimals) {}
  std::array<char, 3> letters_;
  int decimals_;
};

/// An amount; only amounts of one currency add (std::invalid_argument otherwise, std::overflow_error on
/// overflow).
class Money {
 public:
  Money(std::int64_t minor, Currency currency) : minor_(minor), currency_(currency) {}
  template <std::floating_point Number>
  Money(Number, Currency) = delete;
  [[nodiscard]] std::int64_t minor() const { return minor_; }
  [[nodiscard]] const Currency& currency() const { return currency_; }
  Money operator+(const Money& other) const;
  Money operator-(const Money& other) const;
  friend bool operator==(const Money&, const Money&) = default;
  /// "123.40 GBP".
  [[nodiscard]] std::string text() const;

 private:
  std::int64_t minor_;
  Currency currency_;
};

}  // namespace weatherstruck::base
