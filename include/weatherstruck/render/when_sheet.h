#pragma once
// When to go, as text: the departures, the surest first.
#include <string>
#include <vector>

#include "weatherstruck/programme/departures.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

struct WhenFacts {
  const works::Job& job;
  const std::vector<programme::Departure>& departures;  ///< ranked
  std::string region;
  double kilometres = 0;
  int first_year = 0;
  int last_year = 0;
  std::string attribution;
  std::vector<std::string> brought;
};

[[nodiscard]] std::string when_sheet(const WhenFacts& facts, Ink ink);

}  // namespace weatherstruck::render
