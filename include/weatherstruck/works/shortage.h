#pragma once
// Bricks that do not go round: what there is against what the job takes, and the cures that want no merchant.
// Share out: good faces where they are seen, any hard brick where it is buried, never the other way round.
// Shrink: one course lower on what matters least. How far to go is the mason's affair; these are the figures.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::works {

/// A material that was counted at the work, or is delivered, against what the job takes. Things that are
/// counted (bricks, flags) in whole ones.
struct StockLine {
  std::string material;
  double counted = 0;    ///< at the work
  double delivered = 0;  ///< brought by lorry
  double needed = 0;     ///< with waste
  double short_by = 0;   ///< beyond what there is, else 0
  double spare = 0;      ///< there beyond what is needed, else 0
};

/// Materials of the bill that the job's stock names, in the order of the bill. Of others nobody knows what
/// there is: they are bought.
[[nodiscard]] std::vector<StockLine> stock_of(const Job& job, const Bill& bill);

/// What is there for sure of a material, counted or delivered, in its unit; nullopt where neither says
/// anything.
[[nodiscard]] std::optional<double> there_is(const Job& job, std::string_view material);

/// A change of one part that leaves bricks over.
struct Cure {
  enum class Kind {
    share_out,  ///< its buried courses in hard bricks that are to spare
    shrink      ///< built lower
  };
  Kind kind{};
  Name part;            ///< as written in the job
  int courses = 0;      ///< buried in the other brick, in all; or left off
  double frees = 0;     ///< whole bricks of the short kind
  std::string instead;  ///< share_out: material laid in their place
  double takes = 0;     ///< of that, whole bricks
};

struct CurePlan {
  std::string material;  ///< the short kind
  double short_by = 0;
  std::vector<Cure> cures;  ///< in this order; each counted with those before it done
  double still_short = 0;   ///< after all of them
  Job job;                  ///< with all of them done
};

/// What of the parts is still open to change; everything, if nothing is known.
struct LaidSoFar {
  std::vector<Name> begun;     ///< parts whose bricks are begun: nothing is buried otherwise
  std::vector<Name> finished;  ///< parts whose bricks are all laid: nothing is left off
};
[[nodiscard]] LaidSoFar laid_so_far(const TaskList& tasks, const Progress& progress);

/// First sharing out, part by part in the order of the job; then one course off a part at a time, of the
/// least important first, among those the one that frees the fewest that suffice, else the one that frees
/// most; at most two courses off each, never the last one that is seen. Hard bricks are the part's own buried
/// kind, else engineering ones; to spare is what was counted or delivered beyond the need or, where neither
/// is known, what packs leave over.
/// @pre check(job) found no fault; short_by > 0
[[nodiscard]] CurePlan cure(const Job& job, const std::string& material, double short_by,
                            const LaidSoFar& laid = {});

/// Courses of a part that lie wholly in the ground outside: from the top of its concrete up.
[[nodiscard]] int buried_courses(base::Metres footing_depth, base::Metres footing_thickness);

}  // namespace weatherstruck::works
