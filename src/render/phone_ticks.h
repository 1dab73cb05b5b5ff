#pragma once
// The boxes of the phone sheet: each stands for a line of the site book but for its time. Private to the
// sheet.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/render/trip.h"
#include "weatherstruck/works/book.h"

namespace weatherstruck::render::phone {

/// A line in the form of works::exact_line, cut where its moment stands.
struct Line {
  std::string before;  ///< "did all of bed-dig at "
  std::string after;   ///< mostly nothing
};
[[nodiscard]] Line line_of(const works::What& what);

/// A box to tick.
struct Tick {
  std::string key;  ///< the same for the same box of a sheet made anew
  Line line;
  std::string label;   ///< "Begun", "All done", "3"
  std::string words;   ///< how the entry reads in the list: "Dig the trench of the wall: begun"
  base::Instant plan;  ///< by the plan; stands in for the time where it is ticked on another day
};

/// The ticks of a task on a day.
struct TaskTicks {
  Tick begun;
  Tick all;
  std::vector<Tick> courses;  ///< those not yet standing, from the lowest; empty: not in courses
  std::string course_word;    ///< "Courses", "Steps"
  /// Of a task that is measured and may be left half done: its unit, and the line with an amount cut out of
  /// it.
  std::optional<std::string> unit;
  std::string amount_before;  ///< "did "
  std::string amount_after;   ///< " m3 of bed-dig at "
};
[[nodiscard]] TaskTicks ticks_of(const TripFacts& facts, const std::vector<TripDay>& days, std::size_t day,
                                 const DayTask& task);

/// A cover or the canopy, on or off, as the plan has it for the day.
struct CareTick {
  std::string what;  ///< "Hessian under sheet on the north footing of the shelter"
  Tick tick;
};
[[nodiscard]] std::vector<CareTick> cover_ticks(const TripFacts& facts, const TripDay& day);
[[nodiscard]] std::vector<CareTick> canopy_ticks(const TripFacts& facts, const TripDay& day);

/// What is entered in words. Each is cut where moments, causes or text stand.
struct NoteLine {
  std::string before;   ///< "note at "
  std::string between;  ///< ": "
};
[[nodiscard]] NoteLine note_line();
struct StoodDownLine {
  std::string before;  ///< "stood down "
  std::string to;      ///< " to "
  std::string cause;   ///< ", "
};
[[nodiscard]] StoodDownLine stood_down_line();

[[nodiscard]] std::string_view script();
[[nodiscard]] std::string_view style();

}  // namespace weatherstruck::render::phone
