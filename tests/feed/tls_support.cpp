#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <string>
#include <vector>

#include "loopback.h"

namespace weatherstruck::feed {
namespace {

// Starts a command of the path; its standard output goes to `output`, or nowhere for -1. 0 where it cannot.
int start(const std::vector<std::string>& words, const std::string& folder, int output) {
  std::vector<std::string> copies = words;
  std::vector<char*> arguments;
  for (std::string& word : copies)
    arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
  if (output >= 0)
    posix_spawn_file_actions_adddup2(&actions, output, 1);
  else
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addchdir_np(&actions, folder.c_str());
  pid_t process = 0;
  const int failed = posix_spawnp(&process, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  return failed == 0 ? process : 0;
}

// What the command says until `stop` appears in it and a line ends, or nothing comes for a while.
std::string read_until(int pipe_end, const std::string& stop) {
  std::string out;
  for (int quiet = 0; quiet < 50;) {
    pollfd entry{pipe_end, POLLIN, 0};
    if (poll(&entry, 1, 100) <= 0) {
      ++quiet;
      continue;
    }
    std::array<char, 512> piece{};
    const ssize_t got = read(pipe_end, piece.data(), piece.size());
    if (got <= 0) break;
    out.append(piece.data(), static_cast<std::size_t>(got));
    const auto found = out.find(stop);
    if (found != std::string::npos && out.find('\n', found) != std::string::npos) break;
  }
  return out;
}

}  // namespace

TlsServer::TlsServer(const std::string& folder, const std::string& host)
    : certificate_(folder + "/certificate.pem") {
  const std::string key = folder + "/key.pem";
  const int made = start({"openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt",
                          "ec_paramgen_curve:prime256v1", "-nodes", "-days", "2", "-subj", "/CN=" + host,
                          "-addext", "subjectAltName=DNS:" + host, "-keyout", key, "-out", certificate_},
                         folder, -1);
  int status = 1;
  if (made == 0 || waitpid(made, &status, 0) != made || status != 0) return;
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return;
  process_ = start({"openssl", "s_server", "-accept", "127.0.0.1:0", "-cert", certificate_, "-key", key,
                    "-HTTP", "-naccept", "8"},
                   folder, ends[1]);
  close(ends[1]);
  const std::string mark = "ACCEPT 127.0.0.1:";
  const std::string said = process_ == 0 ? std::string() : read_until(ends[0], mark);
  close(ends[0]);
  const auto at = said.find(mark);
  if (at != std::string::npos) port_ = std::atoi(said.c_str() + at + mark.size());
}

TlsServer::~TlsServer() {
  if (process_ <= 0) return;
  kill(process_, SIGKILL);
  waitpid(process_, nullptr, 0);
}

}  // namespace weatherstruck::feed
