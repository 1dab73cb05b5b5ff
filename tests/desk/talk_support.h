#pragma once
// Talks for tests: answers in, what was written and what came of it out.
#include <sstream>
#include <string>
#include <vector>

#include "weatherstruck/desk/talk.h"

namespace weatherstruck::desk {

inline std::string joined_lines(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines)
    text += line + "\n";
  return text;
}

/// The lines of a prepared file; those that open with "# " are left off.
std::vector<std::string> lines_of_answers(const std::string& path_in_source);

}  // namespace weatherstruck::desk
