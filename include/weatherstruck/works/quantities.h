#pragma once
// The bill of quantities: what every part uses, what to buy, what is left over, what comes out of the ground.
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/measure/brickwork.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// One material in one part.
struct PartLine {
  Name part;             ///< the part as written in the job
  std::string material;  ///< key of the materials table
  double net = 0;        ///< as built, in the table's unit
  double total = 0;      ///< with waste
};

/// One material over the whole job.
struct TotalLine {
  std::string material;
  std::string name;  ///< for people
  std::string unit;
  double net = 0;
  double waste = 0;  ///< total less net
  double total = 0;
  double to_buy = 0;         ///< whole purchase units; zero if already at the work
  std::string purchase;      ///< "bag of 25 kg"; "pack"
  double bought = 0;         ///< to_buy in the table's unit
  double left_over = 0;      ///< bought less total
  base::Kilograms mass;      ///< of what is bought (of what is used, if on site)
  base::CubicMetres volume;  ///< room it takes in a van
  bool on_site = false;
  double laid = 0;     ///< bricks to the brick, course by course, whole; zero for anything else
  double at_work = 0;  ///< counted at the work before anything is begun; bought is only what is beyond it
};

/// The bricks of one wall to the brick, in halves: two halves that are cut come out of one brick.
struct WallBricks {
  Name part;          ///< as written in the job
  Name wall;          ///< as expanded
  std::string title;  ///< "north wall of the shelter"
  trade::Bond bond{};
  trade::BrickKind brick{};
  trade::BrickKind brick_below{};
  measure::RunCount count;
  int weep_holes = 0;
};

/// One ingredient of a full mix.
struct Gauged {
  std::string material;
  double boxes = 0;  ///< of the kit's gauge box; of cement and lime too, where he has no whole bags
  base::Kilograms mass;
};

/// Concrete or mortar as he batches it.
struct Batch {
  Name part;
  std::string what;        ///< "concrete C20/25", "mortar M4"
  base::CubicMetres wet;   ///< with waste
  int mixes = 0;           ///< batches of the mixer, the last one part full
  double cement_bags = 0;  ///< 25 kg, not rounded
  bool concrete = false;
  double last_mix = 0;        ///< the last one against a full one, 0 < last_mix <= 1
  double bags_a_mix = 0;      ///< of cement in a full mix, not rounded
  std::vector<Gauged> mix{};  ///< a full mix, in the order of the recipe
};

struct Bill {
  std::vector<PartLine> parts;
  std::vector<TotalLine> totals;  ///< in the order of the materials table
  std::vector<Batch> batches;
  std::vector<WallBricks> walls{};  ///< in the order of the groups
  base::CubicMetres dug{0};         ///< in the ground, turf not counted
  base::CubicMetres dug_loose{0};   ///< bulked, as wheeled or skipped
  base::CubicMetres soil_kept{0};   ///< loose, back into trenches and beds
  base::CubicMetres soil_away{0};   ///< loose, to be got rid of
  base::CubicMetres concrete{0};    ///< net
  double bricks = 0;                ///< net, all kinds
  base::Kilograms mass{0};          ///< of everything bought

  /// Zero where the material is not used.
  [[nodiscard]] double total_of(const std::string& material) const;
};

/// @pre check(job) found no fault
[[nodiscard]] Bill bill_of(const Job& job);

}  // namespace weatherstruck::works
