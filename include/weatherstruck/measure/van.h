#pragma once
// What the van can carry: loads by mass and by room.
#include <span>
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"

namespace weatherstruck::measure {

struct VanItem {
  std::string name;
  base::Kilograms mass;
  base::CubicMetres volume;
  int units = 1;  ///< may be split between loads at whole units, >= 1
  int rank = 0;   ///< lower rides first: tools before sand
};

struct VanLoad {
  struct Piece {
    std::size_t item;
    int units;
  };
  std::vector<Piece> pieces;
  base::Kilograms mass{0};
  base::CubicMetres volume{0};
};

struct VanPlan {
  base::Kilograms mass{0};  ///< of everything
  base::CubicMetres volume{0};
  std::vector<VanLoad> loads;  ///< by rank, filled in order; one unit too big for the van rides in none
  std::vector<std::size_t> too_big;
  bool fits = true;              ///< one load takes it all
  base::Kilograms over_mass{0};  ///< beyond one load
  base::CubicMetres over_volume{0};
};

/// @throws std::invalid_argument where payload or room is not positive, or an item has units < 1
[[nodiscard]] VanPlan plan_van(std::span<const VanItem> items, base::Kilograms payload,
                               base::CubicMetres room);

}  // namespace weatherstruck::measure
