#include "weatherstruck/works/length_words.h"

#include <cmath>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {
namespace {

std::string in_feet(double metres) {
  // Half inches are as fine as a tape is read on such work.
  const double halves = std::round(metres / inch * 2);
  const bool small = std::abs(halves) < 2 * 24;
  if (small || (std::abs(halves) < 2 * 48 && std::fmod(halves, 24) != 0))
    return base::plain_number(halves / 2, 1) + " in";
  const double inches = std::fmod(halves, 24) / 2;
  std::string text = base::plain_number(std::trunc(halves / 24), 0) + " ft";
  if (inches != 0) text += " " + base::plain_number(std::abs(inches), 1) + " in";
  return text;
}

std::string thousands(double value) {
  std::string text = base::plain_number(std::round(value), 0);
  for (std::size_t at = text.size(); at > 3; at -= 3)
    text.insert(at - 3, ",");
  return text;
}

}  // namespace

Measure measure_of(trade::LimitSet set) {
  return set == trade::LimitSet::us ? Measure::feet : Measure::metric;
}

Measure other_than(Measure measure) {
  return measure == Measure::feet ? Measure::metric : Measure::feet;
}

std::string length_text(base::Metres length, Measure measure) {
  const double m = length.value();
  if (measure == Measure::feet) return in_feet(m);
  if (std::abs(m) > 0 && std::abs(m) < 0.9995) return base::plain_number(m * 1000, 0) + " mm";
  return base::plain_number(m, 3) + " m";
}

std::string size_text(const Size& size, Measure measure) {
  if (measure == Measure::feet) return in_feet(size.length.value()) + " x " + in_feet(size.width.value());
  return base::plain_number(size.length.value(), 3) + " x " + base::plain_number(size.width.value(), 3) +
         " m";
}

std::string size_in_both(const Size& size, Measure measure) {
  return size_text(size, measure) + " (" + size_text(size, other_than(measure)) + ")";
}

std::string length_in_both(base::Metres length, Measure measure) {
  return length_text(length, measure) + " (" + length_text(length, other_than(measure)) + ")";
}

std::string area_text(base::SquareMetres area, Measure measure) {
  if (measure == Measure::feet) return thousands(area.value() / (foot * foot)) + " sq ft";
  return base::plain_number(area.value(), 1) + " m2";
}

std::string volume_text(base::CubicMetres volume, Measure measure) {
  const double m3 = volume.value();
  if (measure == Measure::feet) {
    const double feet = m3 / cubic_foot;
    return (feet < 20 ? base::plain_number(feet, 1) : thousands(feet)) + " cu ft";
  }
  if (m3 <= 0.5) return base::plain_number(m3 * 1000, 0) + " litres";
  return base::plain_number(m3, 2) + " m3";
}

std::string concrete_text(base::CubicMetres volume, Measure measure) {
  if (measure == Measure::feet) return base::plain_number(volume.value() / cubic_yard, 1) + " cu yd";
  return base::plain_number(volume.value(), 2) + " m3";
}

std::string mass_text(base::Kilograms mass, Measure measure) {
  if (measure == Measure::feet) return thousands(mass.value() / pound) + " lb";
  if (mass.value() < 999.5) return base::plain_number(mass.value(), 0) + " kg";
  return base::plain_number(mass.value() / 1000, 2) + " t";
}

}  // namespace weatherstruck::works
