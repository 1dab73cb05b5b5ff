#pragma once
// The sizes of what is built, as they are set out and measured again: sides, diagonals, courses at each
// corner, openings.
#include <string>
#include <vector>

#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

struct CornerCourses {
  std::string which;  ///< "north-west"; of a single wall "high end", "low end"
  int courses = 0;    ///< above the concrete there, when finished
  friend bool operator==(const CornerCourses&, const CornerCourses&) = default;
};

struct PartSizes {
  works::Name of;                      ///< part as written
  std::string title;                   ///< "the shelter"
  std::vector<std::string> sizes;      ///< "outside 3 x 1.8 m, diagonal 3.499 m"; clauses
  std::vector<CornerCourses> corners;  ///< clockwise from north-west, where two built sides meet; or two ends
  std::vector<std::string> openings;   ///< "south side: 0.9 m wide from course 3 of the high corner up"
  /// What of them a customer would measure: without diagonals and trench.
  std::vector<std::string> plain{};
  [[nodiscard]] int most_courses() const;
};

/// Every part of the job in its order; a footing without a wall among them. Where levels were read the job
/// holds them and the courses follow.
[[nodiscard]] std::vector<PartSizes> part_sizes(const works::Job& job, const works::Expansion& expansion);

/// "3.499 m", to the millimetre, without trailing zeros.
[[nodiscard]] std::string metres(base::Metres length);
/// Height of so many courses above their concrete, mm.
[[nodiscard]] int course_top(int courses);

}  // namespace weatherstruck::render
