#pragma once
#include <sys/resource.h>

#include <csignal>

namespace weatherstruck::record {

// No file of this process may grow past so many bytes: a disk that fills up.
class FullAfter {
 public:
  explicit FullAfter(rlim_t bytes) {
    std::signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit now{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &now);
  }
  FullAfter(const FullAfter&) = delete;
  FullAfter& operator=(const FullAfter&) = delete;
  ~FullAfter() { setrlimit(RLIMIT_FSIZE, &before_); }

 private:
  rlimit before_{};
};

}  // namespace weatherstruck::record
