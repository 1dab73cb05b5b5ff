#pragma once
// A plan as the genes that the decoder would make it from again.
#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/plan.h"

namespace weatherstruck::programme {

/// Its order (by turns where all are known, else by starts), its ways, what it held back and left out. Empty
/// where the plan is of another list.
/// @param otherwise the way of what has no place: -1 for the decoder's choice, or 0 for the usual one
[[nodiscard]] engine::Genes genes_of(const Plan& plan, const Programme& programme, int otherwise);

}  // namespace weatherstruck::programme
