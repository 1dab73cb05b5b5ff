#pragma once
// The decoder's workbench: what is reserved so far, and every step can be taken back.
#include <cstdint>
#include <span>
#include <variant>
#include <vector>

#include "profile.h"
#include "verdicts.h"
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

inline std::uint64_t number_of_spell(const Spell& spell) {
  return number_of(spell.way, spell.from, spell.to);
}

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
  /// The first tick from t on at which all that is short of the needs at t is there again, or t where it is a
  /// day's bucket that is used up.
  [[nodiscard]] Tick short_until(const std::vector<Need>& needs, Tick t) const;
  /// Reserves if free everywhere in [from, to) and within every bucket; false (and unchanged) if not.
  bool reserve(const std::vector<Need>& needs, Tick from, Tick to);

  /// First tick at or after `from` (within the horizon) that forbids the state, or the horizon.
  [[nodiscard]] Tick allowed_until(const StateNeed& need, Tick from) const;
  /// Whether it is in another state at `from` for which somebody wants it: hold_state says no, whatever `to`.
  [[nodiscard]] bool elsewhere(const StateNeed& need, Tick from) const;
  /// Has the stateful thing in `state` over [from, to): as it stands, by keeping it there longer, moved, or
  /// set up anew. It comes back to state 0 afterwards. False and unchanged where that cannot be.
  bool hold_state(const StateNeed& need, Tick from, Tick to);

  /// Enters what has been done: reserves without asking, covers where covers can be had.
  void enter_history(const Task& task, const Way& way, const KeepRun& run);
  /// Enters a run that works on keeps; takes covers off before and puts them on after. False (roll back!)
  /// where fresh work could not be protected or another task's cure would be disturbed. `failed_keep` says
  /// which.
  bool enter_run(const Task& task, const KeepRun& run, int& failed_keep);
  /// Takes back the covers of the task's keeps that begin in [from, to), put on when nobody knew yet that
  /// work would go on at once. Whether one was. Work entered until `put_down` is asked for what they kept
  /// safe.
  bool lift_covers(const Task& task, Tick from, Tick to);
  void put_down() { lifted_from_ = never; }

  /// Whether the run, with what has been laid on its keeps, is sure to be too much green work at its end.
  [[nodiscard]] bool too_high(const Task& task, const Way& way, Tick start, Tick end, Amount done) const;

  /// Puts a whole schedule down as it is, asking nothing: its runs and covers, no hands, no changes. For a
  /// workspace on which nothing lies yet.
  void lay(const Schedule& schedule);
  [[nodiscard]] bool spoilt(KeepId keep) const { return !hazards_hold(keep, Measure::spoils); }

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
  struct SpellPut {
    KeepId keep;
    std::size_t index;
  };
  struct SpellDropped {
    KeepId keep;
    std::size_t index;
    Spell spell;
  };
  struct RunPut {
    KeepId keep;
    std::size_t index;
  };
  /// The changes as they were lie on top of old_changes_.
  struct ChangesReplaced {
    StatefulId stateful;
    std::size_t count;
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
  struct HoldPut {};
  struct HoldDropped {
    std::size_t index;
    Hold hold;
  };
  using Entry =
      std::variant<Reserved, SpellPut, SpellDropped, RunPut, ChangesReplaced, OldStart, HoldPut, HoldDropped>;

  [[nodiscard]] std::size_t day_of(Tick t) const { return days_[static_cast<std::size_t>(t)]; }
  void apply(const Need& need, Tick from, Tick to, int sign);
  void release(const std::vector<Need>& needs, Tick from, Tick to);
  [[nodiscard]] bool allowed(StatefulId id, int state, Tick from, Tick to) const {
    return from >= to || allowed_until({id, state}, from) >= to;
  }
  bool install(StatefulId id, const std::vector<Change>& wanted);
  /// What holds at a tick, or is being changed to.
  struct InForce {
    std::size_t next = 0;  ///< the first change that begins after it
    int before = 0;        ///< the state before the change in force
    int state = 0;
    Tick holds_from = 0;
  };
  [[nodiscard]] InForce in_force(StatefulId id, Tick t) const;
  bool arrange(const StateNeed& need, Tick from, Tick to);
  /// Whether there is enough of each, days aside.
  [[nodiscard]] bool there(const std::vector<Need>& needs, Tick from, Tick to) const;
  [[nodiscard]] bool holds_kept(StatefulId id, const std::vector<Change>& changes) const;

  // Keeps.
  void put_spell(KeepId keep, std::size_t index, const Spell& spell);
  void take_spell(KeepId keep, std::size_t index);
  void put_run(const Touch& touch, KeepRun run);
  void take_run(KeepId keep, std::size_t index);
  [[nodiscard]] Tick gone(KeepId keep, const Spell& spell) const;
  void drop_spell(KeepId keep, std::size_t index);
  bool add_spell(KeepId keep, const Spell& spell);
  Tick uncover_for(KeepId keep, Tick start, Tick end);
  bool protect(KeepId keep, Tick from, Tick until);
  bool sound_with(KeepId keep, const Spell& spell);
  [[nodiscard]] Tick needed_until(const Keep& keep, const CoverWay& way, KeepId id, Tick from) const;
  [[nodiscard]] bool sound(KeepId keep) { return sound_as_of(keep, state_of(keep)); }
  [[nodiscard]] bool sound_as_of(KeepId keep, std::uint64_t state);
  [[nodiscard]] bool found_sound(KeepId keep);
  [[nodiscard]] std::uint64_t state_of(KeepId keep) const;
  /// By what a plan may allow, or by what spoils the work (Hazard::spoils).
  enum class Measure { allowed, spoils };
  [[nodiscard]] bool hazards_hold(KeepId keep, Measure measure) const;
  [[nodiscard]] bool hazards_hold(KeepId keep, int layer, Measure measure) const;
  /// What goes by in [from, to): on the one clock in the open, on the other while work under way shelters.
  [[nodiscard]] Amount exposed(KeepId keep, const Clock& open, ClockId sheltered, Tick from, Tick to) const;
  /// Of the runs alone: no cover mends what was laid too high.
  [[nodiscard]] bool green_holds(KeepId keep);
  [[nodiscard]] bool found_green(KeepId keep) const;
  [[nodiscard]] Amount laid_by(KeepId keep, Tick t) const;
  [[nodiscard]] bool cure_holds(const CureLink& link, Tick start) const;
  struct Stretch {
    Tick start, end;
    bool past;  ///< no new run ends where it ends
  };
  static constexpr int all_layers = -1;
  /// Good until it is asked again.
  [[nodiscard]] const std::vector<Stretch>& stretches(KeepId keep, TaskId but, int layer = all_layers) const;
  /// Splits [from, to) into pieces of one way in force and calls fn(way, a, b) until it returns false.
  template <class Fn>
  void walk(KeepId keep, Tick from, Tick to, Fn&& fn) const;

  const Network& net_;
  std::vector<Profile> free_;                              // [resource]: what is left of it
  std::vector<std::vector<std::vector<Tick>>> buckets_;    // [resource][bucket of it][day]: what is left
  std::vector<std::vector<std::vector<Tick>>> forbidden_;  // [stateful][state][slot]: next forbidden tick
  std::vector<std::uint16_t> days_;                        // [tick]
  std::vector<Tick> day_ends_;                             // [day]
  std::vector<std::vector<Spell>> spells_;
  std::vector<std::vector<KeepRun>> runs_;  // by keep, rising
  std::vector<int> layers_;                 // by keep: how many
  std::vector<std::vector<Change>> changes_;
  std::vector<Change> old_changes_;
  std::vector<Change> wanted_;  // kept for its memory; so below
  std::vector<Tick> ends_;
  std::vector<Hold> holds_;
  mutable std::vector<Stretch> stretches_;  // kept for its memory
  std::vector<std::uint64_t> run_marks_;    // by keep: the sum of a number drawn for each run,
  std::vector<std::uint64_t> spell_marks_;  // and for each spell
  struct Known {
    std::uint64_t state = 0;
    bool asked = false;
    bool verdict = false;
  };
  std::vector<char> left_unsound_;  // by keep: history left it so, or may have
  Tick lifted_from_ = never;        // from then on covers have been lifted
  Tick changed_from_ = 0;           // while a keep is entered that was sound: stops of before hold
  std::vector<Known> green_known_;  // by keep: of the run mark that was asked for last
  std::vector<char> awaited_;       // by keep: whether a cure link waits for it
  Verdicts verdicts_;
  std::vector<Tick> starts_;  // by task, never until placed
  std::vector<Entry> log_;
};

}  // namespace weatherstruck::engine
