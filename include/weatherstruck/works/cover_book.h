#pragma once
// What lies on which part and where the canopy stands, from one entry to the next. For this floor only.
#include "weatherstruck/works/progress.h"

namespace weatherstruck::works {

/// Hessian and sheet, in either order, become both; any other cover takes the place of the one before.
void cover_on(const CoverOn& what, const Entry& entry, Progress& progress);
void cover_off(const CoverOff& what, const Entry& entry, Progress& progress);
void canopy_up(const CanopyUp& what, const Entry& entry, Progress& progress);
void canopy_down(const Entry& entry, Progress& progress);

}  // namespace weatherstruck::works
