#pragma once
// The serial decoder: the order of the tasks (decode.cpp) and the place of each (decode_place.cpp). It can be
// run again and again, and does only once what two genes begin alike.
#include <optional>
#include <vector>

#include "weatherstruck/engine/decode.h"
#include "workspace.h"

namespace weatherstruck::engine {

class Decoder {
 public:
  explicit Decoder(const Network& network);
  /// As engine::decode; what it returns holds until it is asked again. Given a value, it gives up as soon as
  /// the schedule is sure to be worse: what it returns then is worse too, and lacks the tasks that come last.
  const Decoded& decode(const Genes& genes, const Value* no_worse_than = nullptr);
  /// Whether Decoded::why is filled in (it is, unless told otherwise). Without, it is empty, and all else the
  /// same, sooner.
  void give_reasons(bool reasons);

 private:
  /// A task settled, by which genes, and how things stood before: what is equal up to here is not done again.
  struct Step {
    TaskId task = 0;
    int way = 0;
    int host_way = 0;
    Tick not_before = 0;
    char left_out = 0;
    Workspace::Mark before = 0;
    int missed_link = -1;
    Tick missed_at = never;
    Value value;
    [[nodiscard]] bool same(const Step& o) const {
      return task == o.task && way == o.way && host_way == o.host_way && not_before == o.not_before &&
             left_out == o.left_out;
    }
  };

  /// False: given up.
  bool run(const Genes& genes, const Value* no_worse_than);
  void enter_history();
  void hold(std::size_t before, std::size_t after);
  [[nodiscard]] TaskId pick();
  [[nodiscard]] Step step_of(TaskId task) const;
  void back_to(std::size_t step);
  [[nodiscard]] bool presence_settled(TaskId i) const;
  [[nodiscard]] bool known(TaskId host) const;
  [[nodiscard]] bool begun(TaskId i) const;
  [[nodiscard]] bool presence_foreseen(TaskId i) const;
  [[nodiscard]] bool lays_on(std::size_t task, KeepId keep) const;
  [[nodiscard]] bool comes_after(std::size_t j, TaskId i) const;
  [[nodiscard]] std::vector<TaskId> to_be_left_out() const;
  void settle(TaskId i);
  static Amount done_of(const std::vector<Run>& runs);
  void record(TaskId i);
  void clear_blockers() {
    blockers_.clear();
    last_blocked_.reset();
  }
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
  bool goes_on_at_once(TaskId i, int w, const Bounds& b);
  [[nodiscard]] Tick next_try(Tick start) const;
  void note_missed(int link, TaskId i);
  [[nodiscard]] bool too_late(TaskId i, Tick start) const;
  Tick next_start(const Way& way, Tick t);
  bool runs_from(TaskId i, const Way& way, Tick start, Tick finish_least);
  bool run_from(TaskId i, const Way& way, Tick start, Tick finish_least);
  bool one_run(TaskId i, const Way& way, Tick first, Tick s, Amount done, Tick finish_least);
  void block_short(const Way& way, Tick s, Tick limit, Tick to);
  bool try_run(TaskId i, const Way& way, Tick s, Amount amount, bool last, Tick finish_least);

  const Network& net_;
  const Genes* genes_ = nullptr;  // of the run under way
  Workspace work_;
  Decoded out_;
  Placement trial_;
  Tick look_from_ = 0;  // after a run from s that failed: the first later start that might do
  bool reasons_ = true;
  std::optional<Blocker::Kind> last_blocked_;  // what stood in the way last, of the task being placed
  std::vector<Blocker> blockers_;
  std::vector<char> settled_;
  std::vector<Placement> begun_;            // by task: what history says of it
  std::vector<Step> steps_;                 // of the last run
  Workspace::Mark closing_ = 0;             // where the last run began to tidy up
  std::size_t first_ = 0;                   // of the order: none before it is unsettled
  std::vector<std::vector<TaskId>> holds_;  // by task: those that may not be settled before it
  std::vector<int> held_by_;                // by task: how many hold it
  std::vector<int> unsettled_before_;       // of those, how many are not settled
  std::vector<std::vector<int>> into_;
  std::vector<std::vector<int>> out_of_;
};

}  // namespace weatherstruck::engine
