#pragma once
// The built program as anybody would run it.
#include <string>

namespace weatherstruck::app {

struct Ran {
  int code = -1;
  std::string out;
  std::string err;
  /// The most memory it held at a time.
  long kilobytes = 0;
};

/// `arguments` as typed behind the program's name, from the top of the source tree.
Ran run_binary(const std::string& arguments);
/// Whether the program is watched by a sanitizer, which takes memory of its own. The tests are compiled alike
/// in every preset, so only what they are linked with can tell.
bool program_is_watched();
/// Whole file; empty where there is none.
std::string text_of(const std::string& path);
/// A path in the source tree.
std::string in_source(const std::string& path);

}  // namespace weatherstruck::app
