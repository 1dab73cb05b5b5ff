#pragma once
// The heat of a fresh strip of concrete in its trench: will its top freeze tonight, and how old is it by
// then?
//
// One column from the face down: the strip in cells of about 20 mm, then ground in growing cells to 3 m below
// it, where the yearly wave holds. The sides of the strip touch the ground beside them, a second column that
// runs sideways from all cells of the strip and loses heat to the weather by the trench's wall and the ground
// above. Hydration heats each cell by its own equivalent age (fhp_rate). The time goes forward explicitly, in
// steps short enough (a few minutes) that no temperature can swing past its neighbours: colder air can then
// never warm anything, energy is conserved to rounding, and the sums are short and independent, quicker here
// than solving implicit ones with larger steps. docs/heat.md has the equations, the constants with their
// sources, an example and the limits.
//
// It is an estimate for planning, for nights down to about -15 degrees and ten days. Freezing itself is left
// out: below 0 a real top would lag behind the figure.
#include <optional>
#include <span>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/heat_constants.h"
#include "weatherstruck/matter/heat_surface.h"

namespace weatherstruck::matter {

/// A long strip, its top `trench_depth` - `thickness` below the ground. A slab: trench depth equal to
/// thickness and a width of many metres.
struct StripShape {
  base::Metres thickness{0.15};     ///< 0.05 to 1
  base::Metres width{0.45};         ///< 0.1 or more
  base::Metres trench_depth{0.35};  ///< at least the thickness
};

/// What makes heat. Default: C20/25 after NZ BD 5017, 320 kg of cement and 170 of water (reference table).
struct HeatMix {
  base::KilogramsPerCubicMetre cement{320};  ///< 0 for an inert body
  double water_cement = 0.53;                ///< 0.3 to 1
};

/// Degree of hydration after an equivalent age: 1.031 w / (0.194 + w) exp(-(tau / age)^beta).
/// @throws std::invalid_argument if age is negative
[[nodiscard]] double hydration_degree(base::Hours equivalent_age, double water_cement);

/// The ground and the yearly wave in it: mean - amplitude exp(-z/d) cos(2 pi (day - coldest)/365 - z/d),
/// damping depth d = sqrt(365 days a / pi) (Hillel 1982; Kusuda & Achenbach 1965).
struct GroundHeat {
  double conductivity = heat::clay_conductivity;  ///< W/(m K)
  double capacity = heat::clay_capacity;          ///< J/(m3 K)
  base::Celsius mean{heat::ground_mean};
  base::Kelvins amplitude{heat::ground_amplitude};
  double coldest_day = heat::ground_coldest_day;
};
[[nodiscard]] base::Celsius ground_temperature(const GroundHeat& ground, base::Metres depth,
                                               double day_of_year);

struct StripCase {
  StripShape shape;
  HeatMix mix;
  GroundHeat ground;
  base::Celsius placed{10};  ///< of the concrete when it lies in the trench
  double day_of_year = 1;
};

/// How finely to reckon. Halving either moves the top by less than 0.1 K (tested).
struct HeatSteps {
  base::Metres cell{0.02};
  double share = 1;  ///< of the longest safe step, 0 < share <= 1
};

/// Joules for each m2 of the strip's top, positive into strip and ground.
struct HeatSum {
  double through_top = 0;     ///< convection, long-wave and sun, through any cover
  double through_ground = 0;  ///< from the weather into the ground beside
  double evaporated = 0;      ///< never positive
  double hydration = 0;       ///< never negative
  double from_far_ground = 0;
  double stored = 0;  ///< sum of capacity times rise: the five above, to rounding
};

/// A strip whose state goes forward step by step.
class StripHeat {
 public:
  /// @throws std::invalid_argument on a shape, mix, ground or steps outside what is said above
  explicit StripHeat(const StripCase& strip, const HeatSteps& steps = {});

  /// @throws std::invalid_argument if time is negative, or as surface_exchange
  void advance(const Outside& outside, base::Hours time);
  /// The same with the exchange of the strip's top and of the bare ground beside it given, and a dry face.
  void advance(const Exchange& top, const Exchange& beside, base::Hours time);

  [[nodiscard]] base::Celsius top() const { return base::Celsius(face_); }  ///< the very face
  [[nodiscard]] base::Celsius at_depth(
      base::Metres depth) const;  ///< below the face; between cells in a line
  /// Equivalent age of the top layer, one cell thick.
  [[nodiscard]] base::Hours equivalent_age() const { return base::Hours(age_.front()); }
  [[nodiscard]] HeatSum sum() const;
  /// m2 K/W from the face to the middle of the top cell.
  [[nodiscard]] double layer_resistance() const { return half_cell_; }

 private:
  void advance_in_blocks(const Exchange& top, const Exchange& beside, const Outside* wetted_by,
                         base::Hours time);
  void advance_block(const Exchange& dry, const Exchange& beside, const Evaporating& wet, double seconds);
  void hydrate(double hours);

  StripCase strip_;
  HeatSteps steps_;
  double sky_ = 1;
  std::size_t concrete_ = 0;  // cells of the strip; the rest of the column is ground
  // The column: cell i is joined to i + 1 by joint_[i], the last to far_ground_.
  std::vector<double> temperature_, inverse_capacity_, joint_, flux_, middle_;
  // The ground beside, reckoned for each m2 of the strip's top.
  std::vector<double> side_temperature_, side_inverse_capacity_, side_joint_, side_flux_, side_link_;
  // Ways from the cells beside to the open: area for each m2 of top, and resistance of the ground in between.
  std::vector<double> open_area_, open_resistance_, open_joint_;
  std::vector<double> start_, side_start_, age_, given_off_;  // given_off_: degree of hydration so far
  double far_ground_ = 0, far_side_ = 0;
  double half_cell_ = 0;    // m2 K/W from the face to the middle of the top cell
  double inner_limit_ = 0;  // longest safe step of all cells but the top one, s
  double top_joints_ = 0;   // W/(m2 K) of the top cell to all but the air
  double face_ = 0;
  double set_ = 0;  // hours at 20 degrees on the setting clock of the top cell
  HeatSum sum_;
};

/// State at the end of a step.
struct TopState {
  base::Celsius top;
  base::Hours equivalent_age;
};

/// The whole course: `outside` holds one entry for each step of equal length since the pour.
[[nodiscard]] std::vector<TopState> top_course(const StripCase& strip, std::span<const Outside> outside,
                                               base::Hours step, const HeatSteps& steps = {});

/// The same weather with the cover laid on from a step onward (bare before).
[[nodiscard]] std::vector<Outside> covered_from(std::span<const Outside> outside, HeatCover cover,
                                                std::size_t first_step);

struct FrostAnswer {
  base::Celsius lowest;
  base::Hours when;         ///< since the pour, the end of the step in which it is lowest (the first)
  base::Kelvins margin;     ///< lowest above 0 C; negative: it freezes
  base::Hours age_by_then;  ///< equivalent age of the top layer at `when`
  std::optional<base::Hours> froze;  ///< when the top first passed 0 C, between steps in a line
};

/// "Will the top freeze?" from the course. @throws std::invalid_argument if course is empty or step not
/// positive
[[nodiscard]] FrostAnswer top_frost(std::span<const TopState> course, base::Hours step);

}  // namespace weatherstruck::matter
