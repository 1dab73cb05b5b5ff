#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string_view>

#include "house/source_tree.h"

namespace weatherstruck::house {

namespace fs = std::filesystem;

std::vector<SourceFile> read_tree(const std::string& folder) {
  constexpr std::array<std::string_view, 3> skipped{"build", ".git", "node_modules"};
  const fs::path root = WEATHERSTRUCK_SOURCE_DIR;
  std::vector<SourceFile> files;
  if (!fs::exists(root / folder)) return files;
  for (auto entry = fs::recursive_directory_iterator(root / folder); entry != fs::end(entry); ++entry) {
    const std::string name = entry->path().filename().string();
    if (entry->is_directory()) {
      if (std::find(skipped.begin(), skipped.end(), name) != skipped.end()) entry.disable_recursion_pending();
      continue;
    }
    if (!entry->is_regular_file()) continue;
    std::ifstream in(entry->path(), std::ios::binary);
    std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    if (text.find('\0') != std::string::npos) continue;
    files.push_back({entry->path().lexically_relative(root).generic_string(), std::move(text)});
  }
  std::sort(files.begin(), files.end(),
            [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
  return files;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  return lines;
}

}  // namespace weatherstruck::house
