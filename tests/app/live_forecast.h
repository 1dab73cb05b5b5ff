#pragma once
// The program with a record and a clock of its own, its forecasts from a server on this machine.
#include <atomic>
#include <chrono>
#include <string>
#include <vector>

#include "feed/loopback.h"
#include "record/scratch.h"
#include "weatherstruck/app/program.h"

namespace weatherstruck::app {

/// What a run of it ended with. White space of `out` and `err` is single blanks: lines as read, not as set.
struct Said {
  ExitCode code = ExitCode::failed;
  std::string out;
  std::string err;
  std::size_t requests = 0;  ///< that the server saw meanwhile
  std::vector<std::chrono::milliseconds> pauses{};
};

/// A kept job, "bed", in a Welsh valley, and someone who has said how to reach him. The machine's clock
/// stands at departure, Mon 9 Feb 2026 05:00, and moves when told; no pause takes time.
class LiveProgram {
 public:
  LiveProgram();
  /// Keeps the job for another place.
  void move_to(double latitude, double longitude, double altitude);
  Said say(const std::vector<std::string>& words);
  /// The first plan, with the forecast that it keeps. @throws std::runtime_error where that went otherwise
  void keep_a_good_one();
  /// What was said on standard error but for what names the server. @throws std::runtime_error without that
  [[nodiscard]] std::string line(const Said& said) const;
  static constexpr const char* once_more = "No forecast yet: it is asked for again, for a minute at most. ";
  void later(std::chrono::seconds by);
  [[nodiscard]] static base::Instant time();
  /// As long as an exchange takes in the eyes of the program; for the server's side.
  void takes(std::chrono::seconds span) { passed_ += span.count(); }

  [[nodiscard]] record::Store store() const { return record::Store(scratch_.file()); }
  /// Every body kept for the place, oldest first.
  [[nodiscard]] std::vector<std::string> bodies() const;
  /// Names in the folder of the record.
  [[nodiscard]] std::vector<std::string> files() const;
  [[nodiscard]] const record::Scratch& scratch() const { return scratch_; }

  /// A forecast of the demo as MET Norway sends it, good for 31 minutes.
  [[nodiscard]] const std::string& good() const { return good_; }
  [[nodiscard]] std::string good_answer() const;

 private:
  record::Scratch scratch_;
  std::string good_;
  std::string place_;
  std::atomic<long> passed_{0};

 public:
  Network network;
  feed::LoopbackServer server;  ///< last, so that its thread ends before what it may look at
};

}  // namespace weatherstruck::app
