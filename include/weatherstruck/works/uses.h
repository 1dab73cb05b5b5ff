#pragma once
// What the elements of a job are made of: net from geometry, total with the job's waste. The bill adds these
// up by part; the list of work hangs them on its tasks.
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// A material in the unit of the materials table.
struct Use {
  std::string material;
  double net = 0;
  double total = 0;
};

/// One line for each material, in the order in which they were first added.
class Uses {
 public:
  void add(std::string_view material, double net, double waste);  ///< total = net (1 + waste)
  void add(const Use& use);
  void add(const Uses& other);
  [[nodiscard]] const std::vector<Use>& lines() const { return lines_; }
  [[nodiscard]] bool empty() const { return lines_.empty(); }
  /// Zero where the material is not used.
  [[nodiscard]] double total(std::string_view material) const;

 private:
  std::vector<Use> lines_;
};

/// Cement and sand with coarse aggregate, or cement and ballast.
[[nodiscard]] Uses concrete_uses(base::CubicMetres net, const Practice& practice);
/// Binder and sand for mortar by the job's binder.
/// @param net and @param total m3 of wet mortar
[[nodiscard]] Uses mortar_uses(base::CubicMetres net, base::CubicMetres total, trade::MortarClass mortar,
                               const Practice& practice);

/// Wet mortar of brickwork: net from the brick's size; total by what estimators allow, in which the usual
/// waste of the norms table is counted, so that a job with another waste gets more or less.
struct WetMortar {
  base::CubicMetres net{0};
  base::CubicMetres total{0};
};
/// Frogs laid up and filled take the norm "frog-mortar" more, in facing and common bricks.
[[nodiscard]] WetMortar brick_mortar(double bricks, trade::Bond bond, trade::BrickKind kind,
                                     const Practice& practice);

/// Bricks by the trade's rounded rate with waste, but never fewer than are laid to the brick; their mortar;
/// with the facing ones the damp-proof course.
[[nodiscard]] Uses uses_below(const WallPart& wall, const Practice& practice);
[[nodiscard]] Uses uses_facing(const WallPart& wall, const Practice& practice);
/// A damp-proof course as wide as the wall, on its courses below: its length with the rise at each step of
/// the footing, and a lap (norm "dpc-lap") at each step, corner and end of a roll. Nothing where none is
/// laid.
[[nodiscard]] Use dpc_of(const WallPart& wall, const Practice& practice);
/// Plates with damp-proof course, straps and fixings; copings, whole ones on each straight length; bed mortar
/// under both.
[[nodiscard]] Uses uses_on_top(const Group& group, const Practice& practice);
/// Copings alone.
[[nodiscard]] Uses uses_of_copings(const Group& group, const Practice& practice);
/// Straps on the plates of a group; zero where it has none.
[[nodiscard]] int straps_of(const Group& group, const Practice& practice);
/// Drain and membrane of a bed, without the soil.
[[nodiscard]] Uses uses_in_bed(const Group& group, const Expansion& expansion, const Practice& practice);

/// A path as measured. Exactly one of `flags` and `gravel` is set.
struct PathTake {
  base::SquareMetres area{0};
  base::CubicMetres subbase{0};  ///< compacted
  double flags = 0;
  std::string flag_material;  ///< empty where the size is no stock size: then flags are not listed
  base::CubicMetres bed{0};   ///< mortar, net
  base::CubicMetres joints{0};
  base::CubicMetres gravel{0};
  base::CubicMetres dug{0};  ///< reduced level, in the ground
  Uses subbase_uses;
  Uses surface_uses;  ///< flags and bed, or gravel and fabric
  Uses joint_uses;
};
[[nodiscard]] PathTake take_path(const Path& path, const Practice& practice);

struct FlightTake {
  double bricks = 0;
  base::CubicMetres concrete{0};
  base::CubicMetres dug{0};
  base::Metres run{0};
  base::Metres thickness{0};  ///< of the concrete
  Uses base_uses;
  Uses step_uses;
};
[[nodiscard]] FlightTake take_flight(const Steps& steps, const Practice& practice);

/// Soil back around the brickwork of a group, as it was in the ground.
[[nodiscard]] base::CubicMetres backfill_of(const Group& group, const Expansion& expansion);

/// Concrete in one mix of the job's mixer; by hand, a barrow at a time.
[[nodiscard]] base::CubicMetres batch_of(const Kit& kit);
/// Whole mixes, the last one part full.
[[nodiscard]] int mixes_of(base::CubicMetres wet, const Kit& kit);

}  // namespace weatherstruck::works
