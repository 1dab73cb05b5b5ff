#pragma once
// Time zones as plain data: the offsets from UTC of one place over a span of years. The pure floors get
// a Zone handed in; only the files floor reads the system's time zone database to make one.
#include <chrono>
#include <string>
#include <vector>

namespace weatherstruck::base {

using Instant = std::chrono::sys_seconds;      ///< a moment, UTC
using LocalTime = std::chrono::local_seconds;  ///< what the clock on the wall shows
using LocalDay = std::chrono::local_days;      ///< a date at the site

/// What a local time stands for: exactly one moment, none (clocks went forward), or two (went back).
struct LocalMeaning {
  enum class Kind { unique, nonexistent, ambiguous };
  Kind kind = Kind::unique;
  Instant first{};   ///< the moment; the earlier of two; for nonexistent, the moment of the change
  Instant second{};  ///< the later of two; otherwise equal to first
};

/// Offsets of one zone. `changes` is sorted; offset i holds from changes[i].at until changes[i+1].at.
/// Before the first change `initial` holds. Valid for the span the maker covered (files: 1970-2100).
class Zone {
 public:
  struct Change {
    Instant at;
    std::chrono::seconds offset;  ///< local minus UTC from `at` on
    std::string abbreviation;     ///< "GMT", "BST": for display only
  };
  /// @throws std::invalid_argument if `changes` is not strictly rising or an offset exceeds 26 hours
  Zone(std::string name, std::chrono::seconds initial, std::string initial_abbreviation,
       std::vector<Change> changes);
  /// A zone with one offset for ever.
  static Zone fixed(std::string name, std::chrono::seconds offset);

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] std::chrono::seconds offset_at(Instant t) const;
  [[nodiscard]] const std::string& abbreviation_at(Instant t) const;
  [[nodiscard]] LocalTime to_local(Instant t) const;
  [[nodiscard]] LocalMeaning meaning(LocalTime t) const;
  /// The moment of a local time; the earlier of two; the moment of the change where it does not exist.
  /// For planning boundaries such as "start of day"; never for what a person typed (use meaning()).
  [[nodiscard]] Instant to_instant_earliest(LocalTime t) const;
  [[nodiscard]] LocalDay day_of(Instant t) const;
  /// The half-open span of a local date; mostly 23, 24 or 25 hours long, none at all for a date the zone
  /// skipped (Samoa, 30 December 2011).
  [[nodiscard]] Instant start_of(LocalDay day) const;
  [[nodiscard]] Instant end_of(LocalDay day) const;
  /// The local clock time of t as time since local midnight (the wall clock reading, not elapsed time).
  [[nodiscard]] std::chrono::seconds time_of_day(Instant t) const;

 private:
  [[nodiscard]] const Change* change_at(Instant t) const;
  std::string name_;
  std::chrono::seconds initial_;
  std::string initial_abbreviation_;
  std::vector<Change> changes_;
};

}  // namespace weatherstruck::base
