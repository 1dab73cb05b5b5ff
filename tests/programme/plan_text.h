#pragma once
#include <string>

#include "weatherstruck/programme/planner.h"

namespace weatherstruck::programme {

/// Everything that a plan says, a line each, in its own order: two plans that differ anywhere differ here.
[[nodiscard]] std::string text_of(const Plan& plan);
/// Objections, a line each; empty: none.
[[nodiscard]] std::string text_of(const std::vector<Objection>& objections);

}  // namespace weatherstruck::programme
