#include "weatherstruck/works/job.h"

#include "weatherstruck/measure/brickwork.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::works {

const Name& name_of(const Part& part) {
  return std::visit([](const auto& p) -> const Name& { return p.name; }, part);
}

base::Metres open_width(const Base& base, Side side) {
  const bool lengthwise = side == Side::north || side == Side::south;
  // What count_run takes off a run for each corner that another one counts.
  const base::Metres corner =
      base::to_metres(trade::brick_pitch) / 2.0 * static_cast<double>(measure::leaves_of(base.bond));
  return (lengthwise ? base.length : base.width) - corner * 2.0;
}

bool is_open_sided(const Base& base) {
  return base.door_side && base.door_width.value() >= open_width(base, *base.door_side).value() - 1e-6;
}

}  // namespace weatherstruck::works
