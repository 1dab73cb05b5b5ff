#pragma once
// The decoder's workbench: what is reserved so far, and every step can be taken back.
#include <cstdint>
#include <span>
#include <variant>
#include <vector>

#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine {

/// A run that works on a keep, as the keep sees it.
struct KeepRun {
  Tick start = 0;
  Tick end = 0;
  TaskId task = 0;
  bool closes = false;
  bool past = false;  ///< done before now
  bool shelters = false;
  int layer = 0;
  Amount lays = 0;  ///< green units per unit of amount; 0: only works on it
  Amount setup = 0;
  Amount done = 0;
  ClockId clock = 0;
};

class Workspace {
 public:
  explicit Workspace(const Network& network);

  using Mark = std::size_t;
  [[nodiscard]] Mark mark() const { return log_.size(); }
  void roll_back(Mark mark);

  /// First tick in [from, to) at which the needs are not free, or a day's bucket would be overrun, or `to`.
  [[nodiscard]] Tick free_until(std::span<const Need> needs, Tick from, Tick to) const;
  /// The first need that is not free at t, or nullptr.
  [[nodiscard]] const Need* busy_at(const std::vector<Need>& needs, Tick t) const;
  /// First tick from t on at which a need that is not free at t is free, or the horizon.
  [[nodiscard]] Tick busy_until(const Need& need, Tick t) const;
  /// Reserves if free everywhere in [from, to) and within every bucket; false (and unchanged) if not.
  bool reserve(const std::vector<Need>& needs, Tick from, Tick to);

  /// First tick at or after `from` (within the horizon) that forbids the state, or the horizon.
  [[nodiscard]] Tick allowed_until(const StateNeed& need, Tick from) const;
  /// Has the stateful thing in `state` over [from, to): as it stands, by keeping it there longer, moved, or
  /// set up anew. It comes back to state 0 afterwards. False and unchanged where that cannot be.
  bool hold_state(const StateNeed& need, Tick from, Tick to);

  /// Enters what has been done: reserves without asking, covers where covers can be had.
  void enter_history(const Task& task, const Way& way, const KeepRun& run);
  /// Enters a run that works on keeps; takes covers off before and puts them on after. False (roll back!)
  /// where fresh work could not be protected or another task's cure would be disturbed. `failed_keep` says
  /// which.
  bool enter_run(const Task& task, const KeepRun& run, int& failed_keep);

  /// Whether `to` may start at `start` as far as its cure links go; else the failing link.
  [[nodiscard]] int failing_cure(TaskId to, Tick start) const;
  /// Told when a task has its first run, so that later work cannot disturb the cure it relied on.
  void set_start(TaskId task, Tick start);

  /// First tick of the next day, or the horizon.
  [[nodiscard]] Tick day_end(Tick t) const;
  /// Ticks that the needs may still have on the day of t, as far as buckets go (large if none).
  [[nodiscard]] Tick room(const std::vector<Need>& needs, Tick t) const;
  /// Links the day buckets to ticks: ticks of `resource` left on the day of t over every bucket (large if
  /// none).
  [[nodiscard]] Tick bucket_left(ResourceId resource, Tick t) const;

  [[nodiscard]] const std::vector<std::vector<Spell>>& spells() const { return spells_; }
  /// Once everything has its place: takes back, of each keep that is closed in the end, the last cover before
  /// that where it would be sound without. It was put on when nobody knew yet how soon the work would go on.
  void drop_needless();
  [[nodiscard]] const std::vector<std::vector<Change>>& changes() const { return changes_; }

 private:
  struct Reserved {
    Need need;
    Tick from, to;
    int sign;
  };
  struct OldSpells {
    KeepId keep;
    std::vector<Spell> spells;
  };
  struct OldRuns {
    KeepId keep;
    std::vector<KeepRun> runs;
  };
  struct OldChanges {
    StatefulId stateful;
    std::vector<Change> changes;
  };
  struct OldStart {
    TaskId task;
    Tick start;
  };
  /// Somebody relies on the state over [from, to).
  struct Hold {
    StateNeed need;
    Tick from, to;
  };
  struct OldHolds {
    std::vector<Hold> holds;
  };
  using Entry = std::variant<Reserved, OldSpells, OldRuns, OldChanges, OldStart, OldHolds>;

  void apply(const Need& need, Tick from, Tick to, int sign);
  void release(const std::vector<Need>& needs, Tick from, Tick to);
  [[nodiscard]] bool allowed(StatefulId id, int state, Tick from, Tick to) const {
    return from >= to || allowed_until({id, state}, from) >= to;
  }
  bool install(StatefulId id, std::vector<Change> wanted);
  bool arrange(const StateNeed& need, Tick from, Tick to);
  [[nodiscard]] bool holds_kept(StatefulId id, const std::vector<Change>& changes) const;

  // Keeps.
  [[nodiscard]] Tick gone(KeepId keep, const Spell& spell) const;
  void drop_spell(KeepId keep, std::size_t index);
  bool add_spell(KeepId keep, const Spell& spell);
  bool uncover_for(KeepId keep, Tick start, Tick end);
  bool protect(KeepId keep, Tick from, Tick until);
  bool sound_with(KeepId keep, const Spell& spell);
  [[nodiscard]] Tick needed_until(const Keep& keep, const CoverWay& way, KeepId id, Tick from) const;
  [[nodiscard]] bool sound(KeepId keep) const;
  [[nodiscard]] bool hazards_hold(KeepId keep) const;
  [[nodiscard]] bool hazards_hold(KeepId keep, int layer) const;
  /// What goes by in [from, to): on the one clock in the open, on the other while work under way shelters.
  [[nodiscard]] Amount exposed(KeepId keep, const Clock& open, ClockId sheltered, Tick from, Tick to) const;
  [[nodiscard]] bool green_holds(KeepId keep) const;
  [[nodiscard]] bool cure_holds(const CureLink& link, Tick start) const;
  struct Stretch {
    Tick start, end;
    bool past;  ///< no new run ends where it ends
  };
  static constexpr int all_layers = -1;
  [[nodiscard]] std::vector<Stretch> stretches(KeepId keep, TaskId but, int layer = all_layers) const;
  /// Splits [from, to) into pieces of one way in force and calls fn(way, a, b) until it returns false.
  template <class Fn>
  void walk(KeepId keep, Tick from, Tick to, Fn&& fn) const;

  const Network& net_;
  std::vector<std::vector<int>> free_;                     // [resource][tick]: what is left of it
  std::vector<char> has_bucket_;                           // [resource]
  std::vector<std::vector<Tick>> bucket_used_;             // [bucket][day]
  std::vector<std::vector<std::vector<Tick>>> forbidden_;  // [stateful][state][slot]: next forbidden tick
  std::vector<Tick> day_ends_;                             // by day; empty: one day
  std::vector<std::vector<Spell>> spells_;
  std::vector<std::vector<KeepRun>> runs_;  // by keep, rising
  std::vector<int> layers_;                 // by keep: how many
  std::vector<std::vector<Change>> changes_;
  std::vector<Hold> holds_;
  std::vector<Tick> starts_;  // by task, never until placed
  std::vector<Entry> log_;
};

}  // namespace weatherstruck::engine
