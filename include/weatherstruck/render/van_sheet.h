#pragma once
// The load of the van, and what comes to the kerb without it.
#include <string>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/measure/van.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::render {

/// Something brought otherwise than in the van.
struct Brought {
  std::string name;
  std::string how_much;  ///< "1000 bricks"
  std::string how;       ///< "delivered Mon 9 Feb 08:30", "at the work already"
};

struct VanFacts {
  std::string title;                    ///< of the job
  std::vector<measure::VanItem> items;  ///< what has to ride, kit and material
  measure::VanPlan plan;
  base::Kilograms payload{0};
  base::CubicMetres room{0};
  std::vector<Brought> brought;
  bool merchant = false;  ///< the job names one within reach
};

[[nodiscard]] std::string van_sheet(const VanFacts& facts, Ink ink);

}  // namespace weatherstruck::render
