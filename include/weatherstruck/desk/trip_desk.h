#pragma once
// A trip planned from a job and a forecast, and what a morning of it needs.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/render/morning_sheet.h"
#include "weatherstruck/render/trip.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::desk {

struct PlannedTrip {
  OpenJob open;
  sky::Series series;
  works::TaskList list;
  programme::PlanResult result;
  base::Instant now;
  std::vector<std::string> remarks;
  /// Looks into this object, which has to outlive it.
  [[nodiscard]] render::TripFacts facts() const;
};

/// Why a trip cannot be planned at this moment.
struct Refusal {
  enum class Kind {
    trip_over,
    forecast_over  ///< or it begins after the trip
  };
  Kind kind;
  std::string text;
};
[[nodiscard]] std::optional<Refusal> refusal(const works::Job& job, const sky::Series& series,
                                             base::Instant now);

/// The whole trip, planned on leaving and again at each later issue of the forecast until now, as the mason
/// saw them. Nothing is known of what has been done: the work of a plan counts as done up to the next, and a
/// remark says so.
/// @pre at least one forecast
[[nodiscard]] PlannedTrip plan_trip(OpenJob open, std::vector<sky::Series> forecasts, base::Instant now);

/// The day that `now` asks for: its own; before the trip the first; after the working day's end the next, if
/// there is one.
[[nodiscard]] render::MorningFacts take_morning(const PlannedTrip& trip);

}  // namespace weatherstruck::desk
