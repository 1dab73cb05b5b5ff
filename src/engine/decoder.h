#pragma once
// One run of the serial decoder: the order of the tasks (decode.cpp) and the place of each
// (decode_place.cpp).
#include <vector>

#include "weatherstruck/engine/decode.h"
#include "workspace.h"

namespace weatherstruck::engine {

class Decoder {
 public:
  Decoder(const Network& network, const Genes& genes);
  Decoded run();

 private:
  void enter_history();
  [[nodiscard]] bool ready(TaskId i) const;
  [[nodiscard]] bool presence_settled(TaskId i) const;
  [[nodiscard]] bool known(TaskId host) const;
  [[nodiscard]] bool begun(TaskId i) const;
  [[nodiscard]] bool presence_foreseen(TaskId i) const;
  [[nodiscard]] bool lays_on(std::size_t task, KeepId keep) const;
  [[nodiscard]] bool comes_after(std::size_t j, TaskId i) const;
  void settle(TaskId i);
  static Amount done_of(const std::vector<Run>& runs);
  void record(TaskId i);
  void block(Blocker::Kind kind, int id, Tick from, Tick to, CauseId cause = 0);
  /// Bounds on the edges of the task from links with placed tasks.
  struct Bounds {
    Tick start_least = 0;
    Tick finish_least = 0;
    bool possible = true;
  };
  Bounds bounds(TaskId i);
  static Tick edge_of(const Placement& placement, Edge edge);
  int failing_link(TaskId i) const;
  bool place(TaskId i, int w);
  [[nodiscard]] Tick next_try(Tick start) const;
  void note_missed(int link, TaskId i);
  [[nodiscard]] bool too_late(TaskId i, Tick start) const;
  Tick next_start(const Way& way, Tick t);
  bool run_from(TaskId i, const Way& way, Tick start, Tick finish_least);
  bool one_run(TaskId i, const Way& way, Tick first, Tick s, Amount done, Tick finish_least);
  void block_short(const Way& way, Tick s, Tick limit);
  bool try_run(TaskId i, const Way& way, Tick s, Amount amount, bool last, Tick finish_least);

  const Network& net_;
  const Genes& genes_;
  Workspace work_;
  Decoded out_;
  Placement trial_;
  std::vector<Blocker> blockers_;
  std::vector<char> settled_;
  std::vector<std::vector<int>> into_;
  std::vector<std::vector<int>> out_of_;
};

}  // namespace weatherstruck::engine
