#pragma once
// Reads the source tree for the tests that judge it as text.
#include <string>
#include <vector>

namespace weatherstruck::house {

struct SourceFile {
  std::string path;  ///< relative to the root, with forward slashes
  std::string text;
};

/// Every text file under `folder` ("" for the whole tree) below the root, in order of path; build folders,
/// version control and files holding a zero byte are left out.
std::vector<SourceFile> read_tree(const std::string& folder);

/// The text cut at its newlines.
std::vector<std::string> lines_of(const std::string& text);

}  // namespace weatherstruck::house
