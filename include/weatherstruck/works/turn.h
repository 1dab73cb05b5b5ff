#pragma once
// A part turned by a quarter on its place. The ground stays as it lies: what fell over the old length falls,
// at the same slope, over whatever side lies that way now.
#include <string>
#include <variant>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

enum class Quarter { left, right };  ///< seen from above; right is clockwise

/// What one run of brickwork needs, or one strip under it.
struct RunTake {
  Name name;        ///< of the wall
  int courses = 0;  ///< at its low end
  int steps = 0;    ///< of its footing
};
/// What a part takes, in figures that a turn may change.
struct PartTake {
  std::vector<RunTake> runs;
  double bricks = 0;                ///< net
  base::CubicMetres concrete{0};    ///< net
  base::CubicMetres trench{0};      ///< dug, in the ground
  [[nodiscard]] int steps() const;  ///< of all footings
  [[nodiscard]] int most_courses() const;
};

struct Turned {
  Job job;
  PartTake before;
  PartTake after;
};

/// The job with `part` turned. Faults: "no-such-part", with the nearest; "cannot-turn" for what is neither a
/// base nor a bed built on all four sides. Whether the result passes the checks of a job is for the caller.
[[nodiscard]] std::variant<Turned, base::Fault> turn(const Job& job, const Name& part, Quarter quarter);

/// @pre the sizes are within the ranges of job.h
[[nodiscard]] PartTake take_of(const Job& job, const Name& part);

/// The side that it becomes.
[[nodiscard]] Side turned(Side side, Quarter quarter);

}  // namespace weatherstruck::works
