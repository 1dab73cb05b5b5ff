#pragma once
// The built program as anybody would run it.
#include <string>

namespace weatherstruck::app {

struct Ran {
  int code = -1;
  std::string out;
  std::string err;
};

/// `arguments` as typed behind the program's name, from the top of the source tree.
Ran run_binary(const std::string& arguments);
/// Whole file; empty where there is none.
std::string text_of(const std::string& path);
/// A path in the source tree.
std::string in_source(const std::string& path);

}  // namespace weatherstruck::app
