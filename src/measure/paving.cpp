#include "weatherstruck/measure/paving.h"

#include <algorithm>

#include "weatherstruck/measure/footing.h"
#include "weatherstruck/measure/setting_out.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"

namespace weatherstruck::measure {

using base::CubicMetres;
using base::Metres;

namespace {

// How many flags lie along an edge, and what is left to be cut for; 0 where the joints take it.
struct Row {
  int whole = 0;
  Metres rest{0};
};

Row row_of(Metres edge, Metres flag, Metres joint) {
  constexpr double slack = 1e-6;
  constexpr double wider_joint = 0.005;
  Row row;
  row.whole = static_cast<int>((edge + joint) / (flag + joint) + slack);
  const double rest = edge.value() - row.whole * (flag + joint).value();
  if (rest > wider_joint * row.whole + slack) row.rest = Metres(rest);
  return row;
}

int pieces_from(Metres flag, Metres rest) {
  return std::max(1, static_cast<int>(flag / rest + 1e-6));
}

int rounded_up(int pieces, int from_each) {
  return (pieces + from_each - 1) / from_each;
}

}  // namespace

FlagCount count_flags(Metres length, Metres width, Metres flag_length, Metres flag_width,
                      const trade::NormValues& norms) {
  const Metres joint = base::to_metres(trade::joint);
  FlagCount count;
  count.area = length * width;
  const Row along = row_of(length, flag_length, joint);
  const Row across = row_of(width, flag_width, joint);
  const bool ends = along.rest.value() > 0;
  const bool edge = across.rest.value() > 0;
  count.flags = along.whole * across.whole;
  if (edge) count.flags += rounded_up(along.whole, pieces_from(flag_width, across.rest));
  if (ends) count.flags += rounded_up(across.whole, pieces_from(flag_length, along.rest));
  if (ends && edge) count.flags += 1;
  count.bed = count.area * Metres(norms.at(trade::norm_key::flag_bed));
  count.joints = CubicMetres(count.area.value() * norms.at(trade::norm_key::flag_joint_mortar));
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
