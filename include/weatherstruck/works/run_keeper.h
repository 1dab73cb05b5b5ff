#pragma once
// Which hands were on which task, and for how long: runs inferred from begins and dones. For this floor only.
#include <cstddef>
#include <optional>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"

namespace weatherstruck::works {

/// Takes begins and dones in the order of time. Tasks are indices into the list.
class RunKeeper {
 public:
  /// @param stood_down in any order, may overlap: nothing counts during them
  RunKeeper(const Job& job, std::vector<StandDown> stood_down, std::size_t tasks);

  /// A run that the end of the working day closed, for want of anything else.
  struct LeftOpen {
    std::size_t task = 0;
    EntryKey begin;  ///< the entry that began it
    base::Instant from;
    base::Instant taken_as_end;
  };

  /// False where the task was open already.
  bool begin(std::size_t task, base::Instant at, const EntryKey& entry);
  /// Ends the task's run. One person who logs work done and goes on with the same task, that day and with
  /// nothing else begun between, needs no second begin. False where there is no run to end.
  bool done(std::size_t task, base::Instant at, bool finished, const EntryKey& entry);
  /// Runs still open are marked so.
  void close(base::Instant now);

  [[nodiscard]] const std::vector<Run>& runs_of(std::size_t task) const { return runs_[task]; }
  /// Those found since it was last asked.
  [[nodiscard]] std::vector<LeftOpen> take_left_open();

 private:
  struct Open {
    std::size_t task = 0;
    EntryKey begin;
    base::Instant from;
    base::Instant day_end;
    base::Hours worked{0};
  };
  struct Resume {
    std::size_t task = 0;
    base::Instant at;
    base::Instant day_end;
  };

  [[nodiscard]] base::Instant day_end_of(base::Instant from) const;
  [[nodiscard]] base::Hours between(base::Instant from, base::Instant to) const;
  void advance(base::Instant to);
  void end(std::size_t place, base::Instant to, bool open);

  const Job& job_;
  std::vector<StandDown> stood_down_;  ///< by beginning, not overlapping
  std::vector<std::vector<Run>> runs_;
  std::vector<Open> open_;
  std::optional<Resume> resume_;
  std::vector<LeftOpen> left_open_;
  base::Instant clock_{};
};

}  // namespace weatherstruck::works
