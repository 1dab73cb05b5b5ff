#pragma once
// Flagged and gravelled paths, and flights of brick steps: what they take.
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/own_figures.h"

namespace weatherstruck::measure {

/// A rectangle of flags in straight rows with joints of 10 mm on a mortar bed on sub-base. What is left at an
/// edge is cut, as many pieces from a flag as it gives; a rest of up to 5 mm for each row goes into wider
/// joints (common practice, no source).
struct FlagCount {
  base::SquareMetres area;
  int flags = 0;                ///< those laid whole and those cut up, none spare
  base::CubicMetres bed{0};     ///< mortar under them, net
  base::CubicMetres joints{0};  ///< mortar between them, net
};
/// @pre all sizes > 0
[[nodiscard]] FlagCount count_flags(base::Metres length, base::Metres width, base::Metres flag_length,
                                    base::Metres flag_width, const trade::NormValues& norms = {});

/// A flight of solid brick steps on a concrete base that follows them, each step lapping the one below.
struct FlightCount {
  double bricks = 0;              ///< exact
  base::CubicMetres mortar{0};    ///< net
  base::CubicMetres concrete{0};  ///< base of the thickness given, measured along the slope
  base::CubicMetres dug{0};       ///< for the base
  base::Metres run{0};            ///< on plan
  base::Metres rise{0};
};
/// @pre count >= 1, all sizes > 0
[[nodiscard]] FlightCount count_flight(int count, base::Metres width, base::Metres going, base::Metres riser,
                                       base::Metres base_thickness);

}  // namespace weatherstruck::measure
