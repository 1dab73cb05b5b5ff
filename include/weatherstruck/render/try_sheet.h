#pragma once
// A job as it is and as it was tried, beside each other: what it takes, how long, what it costs, and whether
// he is still home in time.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/change_price.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/programme/paired.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/works/material_change.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::render {

struct TrySide {
  works::Job job;
  works::TaskList list;
  works::Bill bill;
  base::Hours work{0};  ///< of the crew, by its own pace, with what is done
  base::Hours left{0};  ///< still to do
  programme::PlanResult result;
  /// Home by the promise with every must done, by a plan that passes its check.
  [[nodiscard]] bool keeps_promise() const;
};

struct TryFacts {
  std::vector<std::string> said;     ///< each change, understood
  std::vector<works::Name> changed;  ///< the part of each
  TrySide before;
  TrySide after;
  programme::Paired beside;  ///< of the two chances
  std::vector<works::MaterialChange> materials;
  account::ChangePrice price;
  base::Faults advice;  ///< on the changed job and not on the job as it is
  bool begun = false;   ///< the trip has
  bool stands = false;  ///< kept beside the job until it is kept or dropped
  std::string name;     ///< of the kept job; empty for a file
};

[[nodiscard]] std::string try_sheet(const TryFacts& facts, Ink ink);

}  // namespace weatherstruck::render
