#pragma once
// A trip planned from a job and a forecast, and what a morning of it needs.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/desk/forecast_shelf.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/programme/helps.h"
#include "weatherstruck/programme/late.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/programme/promise.h"
#include "weatherstruck/programme/second_opinion.h"
#include "weatherstruck/programme/why.h"
#include "weatherstruck/render/morning_sheet.h"
#include "weatherstruck/render/trip.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::desk {

struct PlannedTrip {
  OpenJob open;  ///< its job with the levels read
  sky::Series series;
  works::TaskList list;
  programme::PlanResult result;
  base::Instant now;
  std::vector<std::string> remarks;
  std::optional<works::Progress> progress{};  ///< by the site book, where it says what was done
  std::optional<programme::Plan> before{};    ///< the plan of the day before
  std::vector<programme::Verdict> verdicts{};
  std::vector<programme::Move> moves{};
  std::vector<programme::Turn> turns{};              ///< filled by take_turns
  std::optional<record::PlanId> kept_as{};           ///< of the plan, for a kept job
  std::optional<programme::SecondOpinion> second{};  ///< filled by hold_beside
  /// Looks into this object, which has to outlive it.
  [[nodiscard]] render::TripFacts facts() const;
};

/// Why a trip cannot be planned at this moment.
struct Refusal {
  enum class Kind {
    trip_over,
    forecast_over,  ///< or it begins after the trip
    forecast_lacks  ///< no hour of it has a temperature, rain or a wind
  };
  Kind kind;
  std::string text;
};
[[nodiscard]] std::optional<Refusal> refusal(const works::Job& job, const sky::Series& series,
                                             base::Instant now);

/// What a plan may cost.
struct Budget {
  /// Decodes of the search, half of them in ten searches from elsewhere, each of 50 at least; 100 to
  /// 1,000,000. With 800 or 1,200 (before lifts of one wall followed at once) the demonstration's plans of 24
  /// seeds were no surer and left out no less.
  int schedules = 600;
  /// Possible weathers that the plan is followed through, 20 to 1,000: with 60 the chance in tens, its error
  /// at most seven points.
  int weathers = 60;
};

/// The weather of a trip as far as it is known: hour by hour the later issue, with what the book says was
/// read on site.
[[nodiscard]] sky::Series as_it_was(const std::vector<sky::Series>& issues, const works::Progress& progress);

/// The whole trip, planned on leaving and again at each later issue of the forecast until now, as the mason
/// saw them. Nothing is known of what has been done: the work of a plan counts as done up to the next, and a
/// remark says so.
/// @pre at least one forecast
[[nodiscard]] PlannedTrip plan_trip(OpenJob open, ForecastsAtHand at_hand, base::Instant now,
                                    std::uint64_t seed = 1, const Budget& budget = {});

/// Who plans: what a kept plan is marked with, and what chance starts from.
struct PlanMark {
  std::uint64_t seed = 1;
  std::string program;  ///< its version
  std::string zones;    ///< that of the time zones
  /// Where one is asked for, the plan is made anew by it.
  std::optional<Budget> budget{};
};

/// A kept job at this moment, planned from what its book says was done. Without a word on that in the book
/// the last plan counts as followed, and a remark says so. A plan kept earlier the same day (before the trip:
/// ever) is taken as it is while nothing that it stood on has moved; a new one is kept.
/// @pre open.kept; at least one issue, the newest in the record
/// @throws record::RecordError
[[nodiscard]] PlannedTrip plan_kept(Shelf& shelf, OpenJob open, ForecastsAtHand forecasts, base::Instant now,
                                    const PlanMark& mark);

/// Holds the plan against a second forecast; what it says comes first among the remarks. Nothing where that
/// says nothing about the rest of the trip.
void hold_beside(PlannedTrip& trip, const sky::Series& other);

/// What makes the plan late and what would cure it; nullopt where the promise is kept and every must is
/// placed.
[[nodiscard]] std::optional<programme::Late> lateness(const PlannedTrip& trip, std::uint64_t seed);

/// What would help a trip that has not begun; nullopt once it has, since what is done cannot be planned
/// otherwise.
[[nodiscard]] std::optional<programme::Helps> helps(const PlannedTrip& trip, std::uint64_t seed);

/// What held a task of the list, and what it would gain without each thing that did.
[[nodiscard]] programme::Why why(const PlannedTrip& trip, std::size_t task, std::uint64_t seed);

/// What forbids the promise and what can be done by it instead; nullopt where the plan keeps it.
[[nodiscard]] std::optional<programme::Promise> promise(const PlannedTrip& trip, std::uint64_t seed);

/// Works out the turns that the day of `morning` may take.
void take_turns(PlannedTrip& trip, const render::MorningFacts& morning);

/// The day that `now` asks for: its own; before the trip the first; after the working day's end the next, if
/// there is one.
[[nodiscard]] render::MorningFacts take_morning(const PlannedTrip& trip);

}  // namespace weatherstruck::desk
