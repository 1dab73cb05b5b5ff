#pragma once
// Fresh concrete that the day's air would dry faster than water comes up in it.
#include <string>
#include <vector>

#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// "The footing of the bed would dry at 1.4 kg/m2 an hour about 13:00 (it cracks from 1): wet hessian or
/// sheet on as each part is finished, kept wet", a sentence for each pour of the day that comes to the limit
/// `evaporation-precaution` while it is poured or setting. By Uno's formula with concrete as warm as the air
/// (assumption) and the wind brought down to half a metre (matter/evaporation.h; right to two fifths). Hours
/// without temperature, wind or damp of the air say nothing.
[[nodiscard]] std::vector<std::string> drying_lines(const TripFacts& facts, const TripDay& day);

}  // namespace weatherstruck::render
