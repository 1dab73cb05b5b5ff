#pragma once
// What stands in the way of a plan, in words.
#include <string>

#include "weatherstruck/programme/hindrance.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

/// Behind "without": "the rain of Tue 10 Feb", "working alone", "the wait for the strips of the shelter".
[[nodiscard]] std::string hindrance_words(const works::Job& job, const programme::Hindrance& fact);
/// The trip without it: "without the rain of Tue 10 Feb", "with a second who lays bricks".
[[nodiscard]] std::string without_words(const works::Job& job, const programme::Hindrance& fact);

}  // namespace weatherstruck::render
