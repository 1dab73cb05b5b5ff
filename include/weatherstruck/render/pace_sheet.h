#pragma once
// His own pace, kind of work by kind of work: what he gets done in an hour, from how many entries, the norm
// beside it, and how far the next task may stray.
#include <span>
#include <string>

#include "weatherstruck/render/page.h"
#include "weatherstruck/works/own_pace.h"

namespace weatherstruck::render {

[[nodiscard]] std::string pace_sheet(std::span<const works::LearntPace> learnt, Ink ink);

}  // namespace weatherstruck::render
