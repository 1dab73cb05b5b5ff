#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "app/run_binary.h"

namespace weatherstruck::app {

std::string in_source(const std::string& path) {
  return std::string(WEATHERSTRUCK_SOURCE_DIR) + "/" + path;
}

std::string text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

Ran run_binary(const std::string& arguments) {
  const std::string stem =
      (std::filesystem::temp_directory_path() / ("weatherstruck-" + std::to_string(getpid()))).string();
  const std::string command = std::string("cd '") + WEATHERSTRUCK_SOURCE_DIR + "' && NO_COLOR=1 '" +
                              WEATHERSTRUCK_BINARY_DIR + "/weatherstruck' " + arguments + " >'" + stem +
                              ".out' 2>'" + stem + ".err' </dev/null";
  const int status = std::system(command.c_str());
  Ran ran{WIFEXITED(status) ? WEXITSTATUS(status) : -1, text_of(stem + ".out"), text_of(stem + ".err")};
  std::remove((stem + ".out").c_str());
  std::remove((stem + ".err").c_str());
  return ran;
}

}  // namespace weatherstruck::app
