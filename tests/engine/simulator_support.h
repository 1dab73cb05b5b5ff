#pragma once
// The engine's model as a game played tick by tick: what is under way, what has gone by, and whether the next
// move is allowed. It is a reading of docs/engine-model.md of its own: of the engine it uses the data types
// and Clock::rate, nothing else (Rule only to name what is broken).
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/network.h"
#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine::brute {

/// The first rule found broken.
struct Broken {
  Rule rule{};
  Tick at = 0;
  std::string what;
};

enum class Phase { waiting, running, pausing, finished };

struct TaskState {
  Phase phase = Phase::waiting;
  Amount done = 0;  ///< by the runs that are over
  Amount gone = 0;  ///< on the way's clock since the run under way began, set-up included
  Tick first = -1;  ///< start of the first run
  Tick finish = -1;
  int begun = 0;        ///< runs
  Tick new_first = -1;  ///< start of the first run that is not history
};

enum class Work { untouched, laying, resting };
enum class Cover { off, putting_on, on, taking_off };

struct KeepState {
  Work work = Work::untouched;
  Cover cover = Cover::off;
  int way = 0;              ///< of the spell
  Tick until = 0;           ///< end of putting on or taking off
  Amount cured = 0;         ///< since the last stop
  bool new_laying = false;  ///< in the tick before
};

/// What was laid of one layer of a keep.
struct LayerState {
  Work work = Work::untouched;
  bool new_laying = false;  ///< in the tick before
  bool past = false;        ///< the last stop was of history alone
};

struct HazardState {
  Amount progress = 0;
  Amount exposure = 0;
};

/// Changes from `from` to `state` until `ready`; from then on it is in `state`.
struct StatefulState {
  int from = 0;
  int state = 0;
  Tick ready = 0;
};

/// Everything at the boundary before tick `now`.
struct State {
  Tick now = 0;
  std::vector<TaskState> tasks;
  std::vector<KeepState> keeps;
  std::vector<LayerState> layers;    ///< of all keeps, one after the other
  std::vector<HazardState> hazards;  ///< of all layers, one after the other
  std::vector<StatefulState> statefuls;
  std::vector<std::int64_t> used;   ///< of each bucket, today
  std::vector<char> bucket_judged;  ///< of each bucket: something chosen has used it today
  std::vector<Amount> laid;         ///< [keep x (horizon + 1) + boundary]; empty if no keep has a green limit
  Amount cost = 0;
};

/// Which way each task is done in; `left_out` or `absent` if it is not; `unfinished`: nothing beyond its
/// history.
inline constexpr int left_out = -1;
inline constexpr int absent = -2;
inline constexpr int unfinished = -3;
using Ways = std::vector<int>;

/// The rules, for one choice of ways. At a boundary call, in this order: end_run..., close_ends,
/// begin_run..., close_begins, cover/strike/turn..., and then tick, which leads to the next boundary. Each
/// returns false and sets broken() if the model forbids it; the state is then of no more use.
class Simulator {
 public:
  Simulator(const Network& network, Ways ways);
  [[nodiscard]] State initial() const;
  bool end_run(State& state, TaskId task, Amount done);
  bool close_ends(State& state);
  bool begin_run(State& state, TaskId task);
  bool close_begins(State& state);
  bool cover(State& state, KeepId keep, int way);
  bool strike(State& state, KeepId keep);
  bool turn(State& state, StatefulId stateful, int to);
  bool tick(State& state);
  /// At the horizon, after its events.
  bool close(State& state);

  [[nodiscard]] const Broken& broken() const { return broken_; }
  [[nodiscard]] const Network& network() const { return network_; }
  [[nodiscard]] const Ways& ways() const { return ways_; }
  [[nodiscard]] const Way& way(TaskId task) const;
  /// The run of its history that is under way, or that comes next; none: what it does now is new.
  [[nodiscard]] const Run* past_run(const State& state, TaskId task) const;
  [[nodiscard]] Amount rate(ClockId clock, Tick t) const;
  /// Sum of the rates of the ticks from, ..., to - 1.
  [[nodiscard]] Amount gone_by(ClockId clock, Tick from, Tick to) const;
  [[nodiscard]] Tick edge(const State& state, TaskId task, Edge edge) const;
  /// The keep as one counts as its last layer.
  [[nodiscard]] int layers_of(KeepId keep) const;
  /// Whether the hazard counts from the stops of this layer.
  [[nodiscard]] bool counts(KeepId keep, int layer, int hazard) const;
  [[nodiscard]] std::size_t layer_index(KeepId keep, int layer) const;
  [[nodiscard]] std::size_t hazard_index(KeepId keep, int layer, int hazard) const;
  [[nodiscard]] Tick green_since(KeepId keep, Tick t) const;

 private:
  bool break_rule(Rule rule, Tick at, const std::string& name);
  bool end_past_run(State& state, TaskId task, Amount done, const Run& run);
  /// What is in use in a tick, and of which resources something that can still be chosen uses some.
  struct Use {
    std::vector<int> quantity;
    std::vector<char> chosen;
    void take(const std::vector<Need>& needs, bool past = false);
  };
  bool guards_hold(TaskId task, Tick t, bool at_start);
  bool holds(const State& state, const StateNeed& need) const;
  bool tick_tasks(State& state, Use& use);
  bool tick_keeps(State& state, Use& use);
  bool tick_statefuls(const State& state, Use& use);
  bool tick_resources(State& state, const Use& use);
  bool expose(State& state, KeepId keep);
  bool expose(State& state, KeepId keep, int layer, bool closing, bool sheltered);

  const Network& network_;
  Ways ways_;
  std::vector<std::vector<Amount>> rates_;  // [clock][tick]
  std::vector<std::size_t> first_layer_;
  std::vector<std::size_t> first_hazard_;
  std::vector<std::vector<Tick>> green_since_;  // [keep][boundary]
  Broken broken_;
};

/// Whether the task's edge lies in its history, when it is done in this way.
[[nodiscard]] bool edge_is_past(const Network& network, TaskId task, Edge edge);

/// Whether these ways may go together: presence follows from them, and no task that is left out leads to one
/// that is placed.
[[nodiscard]] bool ways_go_together(const Network& network, const Ways& ways);

struct Verdict {
  std::optional<Broken> broken;  ///< none: valid
  Value value;                   ///< as simulated, if valid
  [[nodiscard]] bool valid() const { return !broken.has_value(); }
};

/// Feeds a schedule through the simulator.
[[nodiscard]] Verdict replay(const Network& network, const Schedule& schedule);

}  // namespace weatherstruck::engine::brute
