#pragma once
// Readers for the published project benchmarks: PSPLIB single-mode files (.sm; Kolisch & Sprecher 1996) and
// RCPSP/max in ProGen/max form (.sch; Kolisch, Schwindt & Sprecher 1999). For benchmarks and tests only.
#include <map>
#include <string>
#include <string_view>

#include "weatherstruck/engine/project.h"

namespace weatherstruck::bench {

/// A project from the text of a .sm file; its first and last task are the start and end without length.
/// @throws std::runtime_error naming the line where the text is not of that form
[[nodiscard]] engine::Project read_sm(std::string_view text);

/// A network from the text of a .sch file. A task's lag from its start to the start of another is a least
/// where it is 0 or more, else a most from the other to this one. On a horizon of all lengths and lags.
/// @throws std::runtime_error likewise
[[nodiscard]] engine::Network read_sch(std::string_view text);

/// What is known of an instance: "cp_lb,best_lb,best_ub"; a most of -1 where no schedule exists.
struct Known {
  engine::Tick critical_path = 0;
  engine::Tick least = 0;
  engine::Tick best = 0;
};
/// From the text of a table "instance,cp_lb,best_lb,best_ub,source" or "problem,optimum" with a heading.
/// @throws std::runtime_error likewise
[[nodiscard]] std::map<std::string, Known> read_known(std::string_view text);

}  // namespace weatherstruck::bench
