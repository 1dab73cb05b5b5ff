#pragma once
// What a site's readings say of its forecasts, in a sentence or two.
#include <string>
#include <vector>

#include "weatherstruck/render/speech.h"
#include "weatherstruck/sky/site_error.h"

namespace weatherstruck::render {

/// "By 48 readings here the air was 1.2 °C colder than forecast, and the forecasts missed by 1.4 times the
/// usual: the weathers that the chance is drawn from miss by 1.2 times it." One of the temperature, one of
/// wind and rain; of each only what counts. Empty where nothing does.
[[nodiscard]] std::vector<std::string> site_error_lines(const sky::SiteError& site, Units units);

}  // namespace weatherstruck::render
