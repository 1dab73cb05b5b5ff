#include "weatherstruck/matter/curing.h"

#include <array>
#include <cstddef>
#include <stdexcept>

#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

struct CuringRow {
  double from_celsius;
  std::array<double, 4> days;  // strength ratio at least 0.50, 0.30, 0.15, less
};
constexpr std::array<CuringRow, 4> din_rows{
    {{25, {1, 2, 2, 3}}, {15, {1, 2, 4, 5}}, {10, {2, 4, 7, 10}}, {5, {3, 6, 10, 15}}}};

std::size_t ratio_column(double ratio) {
  if (ratio >= 0.50) return 0;
  if (ratio >= 0.30) return 1;
  return ratio >= 0.15 ? 2 : 3;
}

double din_days(double celsius, std::size_t column) {
  for (const CuringRow& row : din_rows) {
    if (celsius >= row.from_celsius) return row.days[column];
  }
  return din_rows.back().days[column];
}

constexpr base::Hours from_days(double days) {
  return base::Hours(days * 24.0);
}

}  // namespace

base::Hours din_1045_curing(base::Celsius surface, double ratio, Exposure exposure,
                            base::Hours hours_below_5) {
  if (!(ratio >= 0 && ratio <= 1)) throw std::invalid_argument("din_1045_curing: strength ratio is 0 to 1");
  if (!(hours_below_5.value() >= 0))
    throw std::invalid_argument("din_1045_curing: hours below 5 C are 0 or more");
  if (exposure == Exposure::dry) return base::Hours(12) + hours_below_5;
  const double times = exposure == Exposure::abrasion ? 2.0 : 1.0;
  return from_days(din_days(surface.value(), ratio_column(ratio)) * times) + hours_below_5;
}

double strength_ratio(double class_s) {
  return beta_cc(from_days(2), class_s);
}

base::Hours aci_306_protection(Service service, bool accelerated) {
  switch (service) {
    case Service::unloaded_sheltered:
      return from_days(accelerated ? 1 : 2);
    case Service::unloaded_exposed:
      return from_days(accelerated ? 2 : 3);
    case Service::part_loaded_exposed:
      return from_days(accelerated ? 4 : 6);
  }
  throw std::logic_error("aci_306_protection: unknown service");
}

base::Hours nhbc_days_before_load(bool reinforced_or_blended) {
  return from_days(reinforced_or_blended ? 7 : 4);
}

}  // namespace weatherstruck::matter
