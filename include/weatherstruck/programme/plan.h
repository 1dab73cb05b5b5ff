#pragma once
// A plan read back from the engine: who does what from when to when, what is covered with what, what has to
// be left alone until when, and the reasons. In moments of UTC and trade terms; nothing here knows the
// engine.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// Half open.
struct Span {
  base::Instant from;
  base::Instant to;
  friend bool operator==(const Span&, const Span&) = default;
};

/// A stretch of one task without a break.
struct PlannedRun {
  Span span;
  double share = 0;       ///< of the task's amount, 0..1
  int courses_after = 0;  ///< courses that stand when it ends, for tasks in courses; else 0
  bool under_canopy = false;
  bool floodlit = false;         ///< any of it after dark
  bool beyond_forecast = false;  ///< any of it in hours for which no forecast was given
};

/// What kept a task from starting sooner: hours and the limit or thing that stood in the way.
struct Reason {
  Span span;
  std::string code;  ///< "rain", "cold", "dark", "quiet-hours", "off-hours", "wait", "person", "cover", ...
  std::string
      text;  ///< "rain 2.1 mm/h, stops at 0.5", "waits for: Pour the north footing (8 h at 5 C or more)"
  works::Name by{};  ///< the task that it came after, waited for, or whose work had the hands; may be empty
};

struct PlannedTask {
  works::Name task;                ///< in the TaskList
  std::optional<std::string> way;  ///< key of the works::TaskWay taken
  std::string way_title;
  int people = 1;                ///< at work on it together
  std::vector<PlannedRun> runs;  ///< empty: left out
  bool present = true;           ///< false: not called for by the ways taken
  std::vector<Reason> reasons;   ///< earliest first; of a task left out: what stood in every place
  /// How the plan was found, so that the next one can begin from it: which task was given its place before
  /// which (-1: not known), and what was held back so that others follow it in time.
  int turn = -1;
  std::optional<base::Instant> held_until;
  [[nodiscard]] bool placed() const { return !runs.empty(); }
  [[nodiscard]] base::Instant start() const { return runs.front().span.from; }
  [[nodiscard]] base::Instant finish() const { return runs.back().span.to; }
};

/// Fresh work of one piece under one cover.
struct PlannedCover {
  works::Name part;       ///< expanded part
  std::string title;      ///< "the north wall of the shelter"
  bool concrete = false;  ///< a strip or slab; else brickwork or flags
  trade::CoverKind kind{};
  base::SquareMetres area;
  Span span;              ///< on from .. needed until
  bool stays_on = false;  ///< still needed when he has left: for the customer
};

/// The canopy over one place.
struct CanopySitting {
  works::Name part;          ///< part as written
  base::Instant pitch_from;  ///< begins to pitch (or move) it
  Span over;                 ///< stands
  base::Instant struck_by;   ///< down (or moved on) by then
};

/// Work that must be left alone.
struct PlannedWait {
  works::Name part;  ///< expanded part
  std::string what;  ///< "the north footing"
  works::Name next;  ///< the task it holds up
  works::Wait wait{};
  Span span;  ///< from when it is left .. first moment that the next task may start
};

struct Plan {
  std::vector<PlannedTask> tasks;    ///< for each task of the list, in its order
  std::vector<PlannedCover> covers;  ///< rising by start
  std::vector<CanopySitting> canopy;
  std::vector<PlannedWait> waits;
  base::Instant horizon_from;
  base::Instant horizon_to;
  base::Instant forecast_until;  ///< the last moment for which every layer needed is given
  std::optional<base::Instant> leaves_site;
  std::optional<base::Instant> home;  ///< absent: the drive home could not be placed
  /// Nobody who does all that must be done is home sooner by this forecast (engine/bound.h); absent where not
  /// even that can be said within it.
  std::optional<base::Instant> soonest_home;
  std::chrono::seconds in_hand{0};       ///< home_by less home; negative: late
  std::vector<works::Name> left_out;     ///< present tasks without a place
  std::vector<std::string> assumptions;  ///< sentences: what stands in for what was not given
  /// Sentences: what was laid before the plan was made and can no longer be kept safe.
  std::vector<std::string> dangers;
  int schedules = 0;  ///< decodes made
  [[nodiscard]] bool all_musts_placed(const works::TaskList& list) const;
};

/// One thing that a checker found wrong with a plan.
struct Objection {
  std::string code;
  works::Name task;  ///< may be empty
  base::Instant at;
  std::string text;
};

}  // namespace weatherstruck::programme
