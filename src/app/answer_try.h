#pragma once
// What --json says of a change that was tried.
#include "weatherstruck/desk/trial_desk.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {

[[nodiscard]] files::Json try_answer(const render::TryFacts& facts);
/// What stands, was kept or was dropped: `state` "tried", "kept", "dropped" or "nothing".
[[nodiscard]] files::Json trial_answer(const std::string& job, const std::string& state,
                                       const std::vector<std::string>& changes);

}  // namespace weatherstruck::app
