#include "desk/talk_support.h"

#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace weatherstruck::desk {

std::vector<std::string> lines_of_answers(const std::string& path_in_source) {
  std::ifstream in(std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / path_in_source);
  if (!in) throw std::runtime_error("cannot read " + path_in_source);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("# ", 0) != 0) lines.push_back(line);
  }
  return lines;
}

}  // namespace weatherstruck::desk
