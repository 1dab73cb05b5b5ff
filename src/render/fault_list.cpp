#include "weatherstruck/render/fault_list.h"

#include <fmt/format.h>

#include <algorithm>

#include "weatherstruck/render/page.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

std::string where(const base::Fault& fault, const LineOf& line_of) {
  if (fault.place.empty()) return {};
  if (line_of) {
    if (const auto line = line_of(fault.place)) return fmt::format("line {}, {}", *line, fault.place);
  }
  return fault.place;
}

void entry(Page& page, const base::Fault& fault, const LineOf& line_of) {
  const std::string place = where(fault, line_of);
  if (!place.empty()) page.text(place);
  std::string words;
  if (!fault.found.empty()) words += "found " + fault.found;
  if (!fault.expected.empty()) words += (words.empty() ? "allowed: " : "; allowed: ") + fault.expected;
  if (!words.empty()) page.text(words + (words.back() == '.' ? "" : "."), 2);
  if (!fault.remedy.empty()) page.text(fault.remedy, 2);
}

void entries(Page& page, const base::Faults& faults, const LineOf& line_of) {
  std::vector<std::string> kinds;
  for (const base::Fault& fault : faults) {
    if (std::find(kinds.begin(), kinds.end(), fault.code) == kinds.end()) kinds.push_back(fault.code);
  }
  for (const std::string& kind : kinds) {
    for (const base::Fault& fault : faults) {
      if (fault.code == kind) entry(page, fault, line_of);
    }
  }
}

}  // namespace

std::string fault_list(const std::string& source, const base::Faults& faults, const LineOf& line_of) {
  Page page;
  // Where something is only missing that he has to be asked for, what he can do is all there is to say.
  const bool only_to_do = std::all_of(faults.begin(), faults.end(), [](const base::Fault& fault) {
    return fault.found.empty() && fault.expected.empty() && fault.place.empty();
  });
  if (only_to_do && !faults.empty()) {
    for (const base::Fault& fault : faults)
      page.text(fault.remedy);
    return page.str();
  }
  entries(page, faults, line_of);
  page.gap();
  page.text(
      fmt::format("{}: {}, nothing done.", source, count_of(static_cast<long>(faults.size()), "fault")));
  return page.str();
}

std::string advice_list(const base::Faults& advice, const LineOf& line_of) {
  Page page;
  entries(page, advice, line_of);
  return page.str();
}

}  // namespace weatherstruck::render
