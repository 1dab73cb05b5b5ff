#pragma once
// Who he is, as it is kept.
#include <optional>
#include <string>

#include "weatherstruck/account/rates.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/works/me.h"

namespace weatherstruck::render {

[[nodiscard]] std::string me_sheet(const works::Me& me, const std::optional<account::Rates>& rates, Ink ink);

}  // namespace weatherstruck::render
