#pragma once
// How cold would the top of a strip be, whenever it was poured? The filter of heat_filter.h with a heat of
// its own that is the same all along, hour by hour, in up to eight states at once: a clock that does not know
// when the pour was asks for every cover, in hundreds of possible weathers.
//
// So all is linear: a chain of nodes whose steps have only positive weights. Hence
// - colder air never makes a top warmer, and nothing falls below the coldest of what it began with and what
//   draws it (tested): where no hour draws a face to a temperature, no face comes to it, and nothing need be
//   reckoned;
// - the steps of all nodes below the first are the same for every hour and cover, so that an hour costs a few
//   dozen products.
// A step is an hour, implicit: the daily wave comes out a tenth or two of a kelvin too small.
#include <array>
#include <cstddef>

#include "weatherstruck/matter/heat_filter.h"
#include "weatherstruck/matter/heat_surface.h"

namespace weatherstruck::matter {

class StripTops {
 public:
  static constexpr std::size_t most = 8;
  using Row = std::array<double, most>;

  /// All states begin alike, the strip at `start`, the ground as the filter has it.
  /// @param heat that each strip gives off all along, W for each m3; 0 or more
  StripTops(const HeatFilter& filter, base::Celsius start, const Row& heat = {});

  /// An hour on. @param covers resistance of what lies on each, m2 K/W (cover_resistance)
  void step(const OpenAir& air, const Row& covers);
  /// Of the face, degrees C.
  [[nodiscard]] const Row& tops() const { return face_; }

 private:
  double sky_, face_resistance_, joint_, deep_;
  double side_held_, side_pull_, side_scale_, side_;
  std::array<double, heat_nodes> held_{}, above_{}, lower_{}, scale_{};
  std::array<Row, heat_nodes> heat_{};  // W/m2 into each node
  double first_scale_ = 0;              // of the top node, what leads up to the air left out
  std::array<Row, heat_nodes> t_{};
  Row beside_{}, face_{};
};

/// The coldest that a run can begin with: strip at `start`, ground near, far and deep, and beside.
[[nodiscard]] base::Celsius coldest_start(const HeatFilter& filter, base::Celsius start);

}  // namespace weatherstruck::matter
