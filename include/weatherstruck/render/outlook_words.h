#pragma once
// How sure a plan is, in words: the chance in tens, since more would be false precision.
#include <string>
#include <vector>

#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

/// "likely, about 80 %"; empty where the plan was not followed through possible weathers.
[[nodiscard]] std::string chance_words(const TripFacts& facts);

/// The same of any chance, 0..1.
[[nodiscard]] std::string likely_words(double chance);

/// Sentences for the plan: of what the chance is, when he is back, and what is late or spoilt most often.
[[nodiscard]] std::vector<std::string> outlook_sentences(const TripFacts& facts);

}  // namespace weatherstruck::render
