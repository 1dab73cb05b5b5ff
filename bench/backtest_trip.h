#pragma once
// One trip of the backtest: planned on the forecast that could be had, then sent through the weather that
// came: the plan followed as it was made, planned again each morning, and the rule of thumb beside it.
#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "backtest_place.h"
#include "backtest_weather.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::bench {

/// Whose weather came, and whose stood for the forecast.
struct StationPair {
  int truth = 0;
  int neighbour = 0;
  double latitude = 0;  ///< of the truth's
  double longitude = 0;
};
inline constexpr std::array<StationPair, 3> station_pairs{
    {{260, 344, 52.10, 5.18}, {310, 344, 51.44, 3.60}, {344, 260, 51.96, 4.45}}};

/// Where and when it goes.
struct TripAsked {
  int number = 0;
  std::size_t job = 0;   ///< of the list of jobs
  std::size_t pair = 0;  ///< of station_pairs
  base::LocalDay leaves{};
};

/// What became of him.
struct Came {
  bool home = false;     ///< in time with all that must be done
  int make_good = 0;     ///< pieces of work to be made good
  int inspect = 0;       ///< to be looked at
  int days = 0;          ///< dates on which he was away; to the promise where he was late
  double lit_hours = 0;  ///< of work under lights
  int hurried = 0;       ///< waits not kept, such as bricks on concrete that could not bear them yet
  [[nodiscard]] bool failed() const { return !home || make_good > 0; }
};

struct TripSeen {
  TripAsked asked;
  double told = 0;         ///< the chance that the sheet states
  bool kept = false;       ///< by the forecast the promise is kept
  bool went_well = false;  ///< home and sound, the plan followed as made
  Came rule;
  std::optional<Came> again;  ///< planned again each morning
  int replans = 0;
  int moves = 0;  ///< work moved by them
};

struct TripSettings {
  int schedules = 300;  ///< as for a plan that is shown; so the weathers
  int weathers = 60;
  bool again = false;
};

/// A job as read, its trip still on the date that its document has.
struct TripWorld {
  const std::vector<works::Job>& jobs;
  const std::vector<std::vector<const History*>>& stations;  ///< by pair: truth, neighbour
  /// By pair and tested year, what the neighbour's hours are moved by to stand for the place; empty: nothing.
  std::vector<std::map<int, PlaceDifference>> places{};
  int first_year = 2011;  ///< whole years of the histories
  int last_year = 2024;
};

/// Same trip, same settings, same answer.
[[nodiscard]] TripSeen send(const TripWorld& world, const TripAsked& asked, const TripSettings& settings);

/// A line of comma-separated values, and back. The header names the columns.
[[nodiscard]] std::string trip_header();
[[nodiscard]] std::string to_line(const TripSeen& seen);
/// nullopt where the line is none of ours, such as one cut short.
[[nodiscard]] std::optional<TripSeen> from_line(const std::string& line);

}  // namespace weatherstruck::bench
