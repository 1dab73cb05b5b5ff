#pragma once
// What to look for and what to do about it, by kind of work and by what happened. For damage.cpp only.
#include <string>

#include "weatherstruck/programme/damage.h"

namespace weatherstruck::programme::damage {

/// What to look for and how to test it. Common practice, no source, apart from what the sentences name.
[[nodiscard]] std::string what_to_look_for(works::FreshWork::Kind kind, Harm::Cause cause);
[[nodiscard]] std::string what_to_do(works::FreshWork::Kind kind, Harm::Cause cause,
                                     const std::string& amount);
[[nodiscard]] std::string look_at_canopy();
/// "the last 3 courses", "the strip", "2.4 m2".
[[nodiscard]] std::string amount_words(double amount, const std::string& unit);

}  // namespace weatherstruck::programme::damage
