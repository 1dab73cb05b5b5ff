#pragma once
// The load list for the phone and for paper, with boxes to tick by hand.
#include <string>

#include "weatherstruck/render/van_sheet.h"

namespace weatherstruck::render {

/// A whole HTML 5 document in UTF-8, without script: what van_sheet says.
[[nodiscard]] std::string van_html(const VanFacts& facts);

}  // namespace weatherstruck::render
