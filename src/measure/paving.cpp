#include "weatherstruck/measure/paving.h"

#include "weatherstruck/measure/footing.h"
#include "weatherstruck/measure/setting_out.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"

namespace weatherstruck::measure {

using base::CubicMetres;
using base::Metres;

FlagCount count_flags(Metres length, Metres width, Metres flag_length, Metres flag_width) {
  const Metres joint = base::to_metres(trade::joint);
  FlagCount count;
  count.area = length * width;
  count.flags = count.area / ((flag_length + joint) * (flag_width + joint));
  count.bed = count.area * Metres(trade::norm(trade::norm_key::flag_bed));
  count.joints = CubicMetres(count.area.value() * trade::norm(trade::norm_key::flag_joint_mortar));
  return count;
}

FlightCount count_flight(int steps, Metres width, Metres going, Metres riser, Metres base_thickness) {
  const Metres pitch = base::to_metres(trade::brick_pitch);
  const auto n = static_cast<double>(steps);
  FlightCount count;
  count.run = going * n;
  count.rise = riser * n;
  // A step is solid brick as deep as its going and as high as its riser; half pitch is a brick's width.
  count.bricks = n * (width / pitch) * (going / (pitch / 2.0)) * (riser / course_height);
  const trade::BondRow& bond = trade::row_for(trade::Bond::one_english);
  count.mortar = CubicMetres(count.bricks * bond.mortar_m3_per_m2 / bond.bricks_per_m2_exact);
  count.concrete = width * base_thickness * diagonal(count.run, count.rise);
  count.dug = count.concrete;
  return count;
}

}  // namespace weatherstruck::measure
