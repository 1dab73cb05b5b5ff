#include "weatherstruck/measure/setting_out.h"

#include <algorithm>
#include <cmath>

namespace weatherstruck::measure {

using base::Metres;

namespace {

Rectangle rectangle(double length, double width) {
  if (length <= 0 || width <= 0) return {};
  return {Metres(length), Metres(width), diagonal(Metres(length), Metres(width))};
}

}  // namespace

Metres diagonal(Metres a, Metres b) {
  return Metres(std::sqrt(a.value() * a.value() + b.value() * b.value()));
}

CornerTriangle corner_triangle(Metres first, Metres second) {
  const bool first_is_longer = first >= second;
  const Metres longer = first_is_longer ? first : second;
  const Metres shorter = first_is_longer ? second : first;
  const double parts = std::floor(std::min(longer.value() / 0.4, shorter.value() / 0.3) + 1e-9);
  const Metres three(0.3 * parts);
  const Metres four(0.4 * parts);
  return {first_is_longer ? four : three, first_is_longer ? three : four, Metres(0.5 * parts)};
}

std::vector<Metres> gauge_marks(int courses) {
  std::vector<Metres> marks;
  for (int k = 1; k <= courses; ++k)
    marks.push_back(course_height * static_cast<double>(k));
  return marks;
}

RingLines ring_lines(Metres length, Metres width, Metres wall_thickness, Metres footing_width) {
  const double l = length.value();
  const double w = width.value();
  const double t = wall_thickness.value();
  const double f = footing_width.value();
  return {rectangle(l - t + f, w - t + f), rectangle(l, w), rectangle(l - 2 * t, w - 2 * t),
          rectangle(l - t - f, w - t - f)};
}

}  // namespace weatherstruck::measure
