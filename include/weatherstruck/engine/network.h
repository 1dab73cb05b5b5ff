#pragma once
// What has to be done, for what it waits, and what it needs: the input of the scheduler. Plain data; ids
// are indices into the vectors of the Network. The exact meaning of every field is in
// docs/engine-model.md; the checker (check.h) is that text as code.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/engine/clock.h"

namespace weatherstruck::engine {

using ClockId = int;
using ResourceId = int;
using TaskId = int;
using KeepId = int;
using StatefulId = int;
/// No clock: nothing ever goes by on it.
inline constexpr ClockId no_clock = -1;

struct Need {
  ResourceId resource = 0;
  int quantity = 1;  ///< > 0
};

/// A thing that is in one of several states and must be in the right one (the canopy: 0 down, k over place
/// k).
struct StateNeed {
  StatefulId stateful = 0;
  int state = 0;
};

/// While `until_amount` goes by on `until`, counted from each run's end (or start), at most `most` may go by
/// on `exposure`. Where the horizon ends first, what goes by within it counts.
struct Guard {
  ClockId until = 0;
  Amount until_amount = 0;
  ClockId exposure = 0;
  Amount most = 0;
  bool from_start = false;
};

enum class Pause {
  none,       ///< one run
  at_breaks,  ///< runs end at one of Way::breaks
  anywhere    ///< runs end at any tick
};

struct Cost {
  ClockId clock = 0;
  Amount weight = 1;
};

/// One way of doing a task.
struct Way {
  ClockId clock = 0;
  Amount amount = 1;  ///< >= 1, on `clock`
  Amount setup = 0;   ///< on `clock`, at the start of every run, before anything gets done
  Pause pause = Pause::none;
  std::vector<Amount> breaks;        ///< rising, each in 1..amount-1; for Pause::at_breaks
  std::optional<Tick> longest_span;  ///< from first start to last end
  std::vector<Need> needs;           ///< during runs
  std::optional<StateNeed> state;    ///< must hold during runs
  std::vector<Guard> guards;         ///< at every run
  std::vector<Cost> costs;           ///< added up over runs
  /// While it runs, the keeps that it touches are sheltered (Hazard::under_shelter).
  bool shelters = false;
};

/// Layers that a keep may have.
inline constexpr int max_layers = 8;

/// The task works on a keep. lays > 0: it adds fresh work, `lays` green units for each unit of amount, and
/// its runs restart the keep. lays == 0: it only needs the cover off. closes: from its first start on, what
/// was left before needs no more care (a strip that is being walled over).
struct Touch {
  KeepId keep = 0;
  Amount lays = 0;
  bool closes = false;
  /// What a hazard by layer tells apart: a course of facing does not end the rain on the mortar below it.
  int layer = 0;
};

enum class Importance { must, should, may };

/// The task is there only if `task` is there and done in one of `ways`.
struct Presence {
  TaskId task = 0;
  std::vector<int> ways;
};

/// A stretch [start, end) in which a task is under way without a break. `done`: amount of the task that it
/// adds.
struct Run {
  Tick start = 0;
  Tick end = 0;
  Amount done = 0;
  friend bool operator==(const Run&, const Run&) = default;
};

/// What of a task has been done before Network::now, as it was: no rule judges it, everything after builds on
/// it.
struct History {
  int way = 0;
  std::vector<Run> runs;  ///< rising, each begun before now; together at most the amount; empty: nothing done
  [[nodiscard]] Amount done() const {
    Amount sum = 0;
    for (const Run& run : runs)
      sum += run.done;
    return sum;
  }
};

struct Task {
  std::string name;
  std::vector<Way> ways;  ///< at least one; the first is the preferred one
  Importance importance = Importance::must;
  Tick release = 0;                  ///< no run starts before
  Tick due = never;                  ///< last end wanted; a later one is counted, not forbidden
  std::optional<Presence> presence;  ///< of a task with a smaller id
  std::vector<Touch> touches;
  History history;
  int group = -1;  ///< tasks of one piece; what need not be done of it is left out together; -1: none
};

enum class Edge { start, finish };

/// Between an edge of `from` and an edge of `to`, when both are present. Start is the first run's start,
/// finish the last run's end. If `from` is present but not placed, `to` may not be placed, unless the link
/// waives that (going home waits for the pointing that is done, not for the pointing that is left out).
struct Link {
  TaskId from = 0;
  Edge from_edge = Edge::finish;
  TaskId to = 0;
  Edge to_edge = Edge::start;
  ClockId least_clock = no_clock;   ///< no_clock: to >= from
  Amount least = 0;                 ///< that much must have gone by on least_clock
  ClockId most_clock = no_clock;    ///< no_clock: no most
  Amount most = 0;                  ///< at most that much may have gone by on most_clock (and to >= from)
  bool waived_if_left_out = false;  ///< void where `from` is present but not placed
};

/// A task may start only when the fresh work of a keep has cured so far.
struct CureLink {
  KeepId keep = 0;
  TaskId to = 0;
  Amount least = 0;  ///< cure gone by since the last laying that began before `to` starts
};

struct Resource {
  std::string name;
  std::vector<int> capacity;  ///< for each slot
};

/// At most limit[d] ticks of a resource (quantity x ticks, everything that uses it) on day d.
struct Bucket {
  ResourceId resource = 0;
  std::vector<Tick> limit;  ///< for each day of Network::day_of_slot
};

/// What harms fresh work and until when: exposure sums from a laying stop until `until` has gone by on the
/// way's own until-clock, and may not pass `most`.
struct Hazard {
  std::string name;
  Amount until = 0;
  Amount most = 0;
  /// At a stop of history alone, which can no longer be chosen otherwise, where that is more than `most`.
  Amount most_for_past = 0;
  /// Exposure while work on the keep is under way that shelters it; no_clock: nothing gets through; none: as
  /// in the open.
  std::optional<ClockId> under_shelter = std::nullopt;
  /// Counts from the stops of each layer, until more of the same is laid; else from those of the keep as one.
  bool by_layer = false;
  /// What spoils the work for good: more than `above` before `until` has gone by. What lies between that and
  /// `most` is not planned for, but can be put up with. None: it cannot. Only damaged_keeps (outcome.h) asks.
  struct Spoils {
    Amount until = 0;
    Amount above = 0;
  };
  std::optional<Spoils> spoils = std::nullopt;

  [[nodiscard]] Amount most_at(bool past_stop) const {
    return past_stop && most_for_past > most ? most_for_past : most;
  }
};

/// How a keep may be protected. Way 0 of every keep is bare: no area, no hands, no minutes.
struct CoverWay {
  std::string name;
  ClockId cure = 0;               ///< on which the keep cures meanwhile
  std::vector<ClockId> until;     ///< for each hazard
  std::vector<ClockId> exposure;  ///< for each hazard; no_clock: nothing gets through
  std::vector<Need> area;         ///< held from the start of putting on to the end of taking off
  std::vector<Need> hands;        ///< while it is put on and taken off
  Tick on = 0;
  Tick off = 0;
  std::optional<StateNeed> state;  ///< must hold while it protects
};

/// At most `limit` green units laid within the time that `firm` takes to go by on `clock`.
struct Green {
  ClockId clock = 0;
  Amount firm = 0;
  Amount limit = 0;
};

/// The protection of a piece of fresh work as a lasting thing.
struct Keep {
  std::string name;
  std::vector<Hazard> hazards;
  std::vector<CoverWay> ways;
  std::optional<Green> green;
};

struct Stateful {
  std::string name;
  std::vector<std::vector<Tick>> change;           ///< [from][to], ticks; [s][s] unused
  std::vector<std::vector<std::uint8_t>> allowed;  ///< [state][slot]; state 0 always
  std::vector<Need> hands;                         ///< during changes
};

struct Network {
  int ticks_per_slot = 1;
  int slots = 0;
  Tick now = 0;  ///< nothing new begins before; what fresh work saw before does not count against it
  std::vector<int> day_of_slot;  ///< local day of each slot, rising from 0; empty: all day 0
  std::vector<Clock> clocks;
  std::vector<Resource> resources;
  std::vector<Bucket> buckets;
  std::vector<Stateful> statefuls;
  std::vector<Keep> keeps;
  std::vector<Task> tasks;
  std::vector<Link> links;
  std::vector<CureLink> cure_links;

  [[nodiscard]] Tick horizon() const { return static_cast<Tick>(slots) * ticks_per_slot; }
  [[nodiscard]] int slot_of(Tick t) const { return t / ticks_per_slot; }
  [[nodiscard]] int day_of(Tick t) const {
    return day_of_slot.empty() ? 0 : day_of_slot[static_cast<std::size_t>(slot_of(t))];
  }
};

/// What is wrong with a network as data: ids out of range, sizes that differ, breaks out of order, a bare way
/// that costs something, links in a circle that no times can satisfy (the tasks named in order). Empty:
/// sound.
[[nodiscard]] std::vector<std::string> faults_of(const Network& network);

}  // namespace weatherstruck::engine
