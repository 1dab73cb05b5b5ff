#pragma once
// Why a task is where it is: what held it, told in stretches a person can read, and what it would gain if one
// thing that held it were not so.
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/programme/hindrance.h"

namespace weatherstruck::programme {

/// Adjoining stretches with one cause, drawn together.
struct Held {
  Span span;
  std::string code;  ///< of the Reason
  std::string text;  ///< of one of them; of weather its figures from the lowest to the highest
  works::Name by{};  ///< as in Reason
};

/// Stretches of one cause with no more than a quarter of an hour between them made one, by beginning.
[[nodiscard]] std::vector<Held> drawn_together(const std::vector<Reason>& reasons);

/// The working hours of a day by what held the task in them; the first named where two did.
struct HeldDay {
  base::LocalDay day;
  struct Share {
    std::string code;
    std::chrono::seconds time{0};
  };
  std::vector<Share> shares;  ///< the most first
};
[[nodiscard]] std::vector<HeldDay> day_by_day(const std::vector<Reason>& reasons, const works::Job& job);

/// What came of the trip planned again without one hindrance.
struct Lifted {
  Hindrance hindrance;
  /// How much sooner the task begins and he is home than in the trip planned again with nothing changed;
  /// negative: later. Absent where either has no place.
  std::optional<std::chrono::seconds> sooner;
  std::optional<std::chrono::seconds> home_sooner;
  bool had_place = true;                 ///< with nothing changed
  std::optional<base::Instant> found{};  ///< its start, where it had none

  /// A quarter of an hour and more, or a place where it had none.
  [[nodiscard]] bool gains() const;
};

struct Why {
  std::vector<Held> before;         ///< until it begins
  std::vector<Held> within;         ///< between its stretches
  std::vector<HeldDay> days;        ///< until it ends
  std::chrono::seconds at_work{0};  ///< its stretches together
  base::Hours in_fair_weather{0};   ///< by the clock for as many people, at their pace, with its set-ups
  std::vector<works::Name> behind;  ///< what it stood behind, each what held the one before; nearest first
  std::vector<Lifted> lifted;       ///< those that gain, by how much; then the others as they were tried
};

/// Looks at what held the task and what it stood behind, takes the up to eight things that held them longest,
/// and plans again without each. Of a task without a place everything that can be thought away but for
/// parts and the waits of others. Same request, same answer.
/// @param task in the list
[[nodiscard]] Why why_of(const TripCase& trip, std::size_t task);

}  // namespace weatherstruck::programme
