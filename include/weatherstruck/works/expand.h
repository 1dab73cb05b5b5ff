#pragma once
// Composite parts (base, bed, box) turned into footings and walls with names of their own, so that every
// later step knows only strips, runs, flights and paths.
#include <string>
#include <variant>
#include <vector>

#include "weatherstruck/measure/brickwork.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// A strip of concrete with its steps worked out.
struct FootingPart {
  Footing shape;
  Name of;            ///< the part as written in the job
  std::string title;  ///< "north footing of the shelter"
  measure::FootingPlan plan;
  base::Metres wall_thickness{0};  ///< thickest run on it; zero if none
  int courses_on_it = 0;           ///< most courses of any run on it, at its low end
};

/// A straight run with its bricks counted.
struct WallPart {
  Wall shape;
  Name of;
  std::string title;  ///< "north wall of the shelter"
  measure::Run run;   ///< the same wall in plain geometry, footing steps included
  measure::RunCount count;
};

/// Footings and walls that are dug, poured or brought up together.
struct Group {
  enum class Kind { single, base, bed, box };
  Name of;
  std::string title;  ///< "the shelter"
  Kind kind = Kind::single;
  std::vector<std::size_t> footings;  ///< into Expansion::footings
  std::vector<std::size_t> walls;     ///< into Expansion::walls
  base::Metres plates{0};             ///< timber plate to bed
  base::Metres copings{0};
  struct CopingRun {
    trade::Bond bond;
    base::Metres length;
  };
  std::vector<CopingRun> coping_runs;  ///< straight lengths; they come to `copings`
  base::CubicMetres fill{0};           ///< soil to the top of a bed
  base::Metres fill_height{0};
};

struct Expansion {
  std::vector<FootingPart> footings;
  std::vector<WallPart> walls;
  std::vector<Group> groups;  ///< in the order of the job's parts
  std::vector<Path> paths;
  std::vector<Steps> flights;
  /// Footing faults that make a part impossible (code, place "/parts/2/...", ...); then its plan has no
  /// steps.
  base::Faults faults;
  base::Faults advice;
};

/// @pre sizes within the ranges of job.h (check() reports those); references to nothing are skipped
[[nodiscard]] Expansion expand(const Job& job);

/// The limits in force for a job; faults carry places under "/limits/overrides".
[[nodiscard]] trade::ResolvedLimits limits_of(const Job& job);

/// The extra courses a corner lower by `drop` needs: the whole courses nearest to the drop, never negative.
[[nodiscard]] int courses_for_drop(base::Metres drop);

}  // namespace weatherstruck::works
