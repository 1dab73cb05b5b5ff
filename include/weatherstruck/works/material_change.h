#pragma once
// What a change of a job means for the stock: what has to be got that was not, and what is left over.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::works {

/// One material before and after. Amounts in the table's unit, waste included.
struct MaterialChange {
  /// What is missing of what is there, or to spare of it; where nobody knows what is there, all that is
  /// taken along.
  struct Side {
    double needed = 0;
    double short_by = 0;
    double spare = 0;
    double packs = 0;  ///< whole packs for `short_by`, or for all of it where nothing is known to be there
  };
  std::string material;
  std::string name;
  std::string unit;
  std::string pack;             ///< what it is bought by
  std::optional<double> there;  ///< delivered, counted at the work, or left by the book; nullopt: not known
  Side before;
  Side after;
};

/// A job as it is measured.
struct BilledJob {
  const Job& job;
  const Bill& bill;                    ///< of the job
  const Progress* progress = nullptr;  ///< by the book: a stock counted there is held against what remains
};

/// Every material that either takes, in the order of the materials table. What lies at the work as much as
/// it takes is left out.
[[nodiscard]] std::vector<MaterialChange> material_changes(const BilledJob& before, const BilledJob& after);

}  // namespace weatherstruck::works
