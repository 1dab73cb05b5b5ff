#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "app/run_binary.h"

extern "C" __attribute__((weak)) void __asan_init();  // NOLINT(bugprone-reserved-identifier)

namespace weatherstruck::app {
namespace {

struct Waited {
  int status = -1;
  rusage used{};
};

/// As std::system, but telling what this one command used: getrusage knows only the greatest of all so far.
Waited run_shell(std::string command) {
  std::string shell = "sh";
  std::string option = "-c";
  char* const words[] = {shell.data(), option.data(), command.data(), nullptr};
  pid_t child = -1;
  Waited waited;
  if (posix_spawn(&child, "/bin/sh", nullptr, nullptr, words, environ) == 0)
    wait4(child, &waited.status, 0, &waited.used);
  return waited;
}

}  // namespace

bool program_is_watched() {
  return &__asan_init != nullptr;
}

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
  const auto [status, used] = run_shell(command);
  Ran ran{WIFEXITED(status) ? WEXITSTATUS(status) : -1, text_of(stem + ".out"), text_of(stem + ".err"),
          used.ru_maxrss};
  std::remove((stem + ".out").c_str());
  std::remove((stem + ".err").c_str());
  return ran;
}

}  // namespace weatherstruck::app
