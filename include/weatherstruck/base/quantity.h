#pragma once
// Quantities of the site, one type each, so that the compiler refuses a mix-up (a temperature added to
// a length, a rainfall passed as a rate). Every type wraps one finite double in the SI-like unit named;
// construction is explicit, only operators that mean something exist, and all of it is constexpr.
#include <compare>

namespace weatherstruck::base {

/// A linear quantity: values add, subtract, scale and compare. `value()` is in the unit of the alias.
template <class Unit>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double value) : value_(value) {}
  [[nodiscard]] constexpr double value() const { return value_; }

  constexpr Quantity& operator+=(Quantity other) {
    value_ += other.value_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity other) {
    value_ -= other.value_;
    return *this;
  }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.value_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  friend constexpr bool operator==(Quantity, Quantity) = default;
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  double value_ = 0;
};

using Kelvins = Quantity<struct KelvinUnit>;  ///< a difference of temperatures
using Metres = Quantity<struct MetreUnit>;    ///< lengths and levels on site
using SquareMetres = Quantity<struct SquareMetreUnit>;
using CubicMetres = Quantity<struct CubicMetreUnit>;
using Kilograms = Quantity<struct KilogramUnit>;
using Millimetres = Quantity<struct MillimetreUnit>;                ///< rain fallen; brick and joint sizes
using MillimetresPerHour = Quantity<struct MillimetrePerHourUnit>;  ///< rain rate
using MetresPerSecond = Quantity<struct MetrePerSecondUnit>;        ///< wind and gusts
using Megapascals = Quantity<struct MegapascalUnit>;                ///< strength, N/mm2
using Hours = Quantity<struct HourUnit>;              ///< labour and model time (not clock time)
using KelvinHours = Quantity<struct KelvinHourUnit>;  ///< maturity, frost dose
using Fraction = Quantity<struct FractionUnit>;       ///< 0..1: humidity, cloud, probability
using KilogramsPerCubicMetre = Quantity<struct DensityUnit>;
using KilogramsPerSquareMetreHour = Quantity<struct EvaporationUnit>;  ///< plastic-stage evaporation

/// A temperature on the Celsius scale. It is a point, not an amount: two of them subtract to Kelvins,
/// they do not add.
class Celsius {
 public:
  constexpr Celsius() = default;
  constexpr explicit Celsius(double degrees) : degrees_(degrees) {}
  [[nodiscard]] constexpr double value() const { return degrees_; }
  friend constexpr Kelvins operator-(Celsius a, Celsius b) { return Kelvins(a.degrees_ - b.degrees_); }
  friend constexpr Celsius operator+(Celsius a, Kelvins d) { return Celsius(a.degrees_ + d.value()); }
  friend constexpr Celsius operator-(Celsius a, Kelvins d) { return Celsius(a.degrees_ - d.value()); }
  friend constexpr bool operator==(Celsius, Celsius) = default;
  friend constexpr auto operator<=>(Celsius, Celsius) = default;

 private:
  double degrees_ = 0;
};

constexpr SquareMetres operator*(Metres a, Metres b) {
  return SquareMetres(a.value() * b.value());
}
constexpr CubicMetres operator*(SquareMetres a, Metres b) {
  return CubicMetres(a.value() * b.value());
}
constexpr CubicMetres operator*(Metres a, SquareMetres b) {
  return CubicMetres(a.value() * b.value());
}
constexpr Metres operator/(SquareMetres a, Metres b) {
  return Metres(a.value() / b.value());
}
constexpr SquareMetres operator/(CubicMetres a, Metres b) {
  return SquareMetres(a.value() / b.value());
}
constexpr Kilograms operator*(CubicMetres a, KilogramsPerCubicMetre b) {
  return Kilograms(a.value() * b.value());
}
constexpr Millimetres operator*(MillimetresPerHour a, Hours b) {
  return Millimetres(a.value() * b.value());
}
constexpr Millimetres to_millimetres(Metres a) {
  return Millimetres(a.value() * 1000.0);
}
constexpr Metres to_metres(Millimetres a) {
  return Metres(a.value() / 1000.0);
}

}  // namespace weatherstruck::base
