#pragma once
// The site checker: walks a plan through the raw hourly weather in steps of five minutes, as a foreman with a
// thermometer and a watch would, and names everything that must not be. It shares nothing with the code that
// makes plans: no clocks, no network, only the job, the tasks, the hours of weather, the sun and the physics.
//
// What it takes for granted:
// - The values of an hour hold all through it; rain falls evenly.
// - A value that an hour lacks is that of the same hour of the day before, as many days back as needed;
// before
//   the first given one, of the days after. A gust that is missing beside a wind is 2.33 times the wind;
//   humidity missing beside a dew point is worked out. Runs in hours without temperature, rain, or wind and
//   gust, or with values of past years, must be marked as beyond the forecast. Humidity never given: 100 %.
// - Wind at fresh work is that of half a metre above the ground (matter::wind_at_height).
// - A cover over brickwork hangs down to the strip that it stands on and keeps it too.
// - A cover in a gust above its limit (trade table) keeps nothing off in that hour.
// - Waits without a limit of their own: raked joints may be pointed, and brickwork take a plate, when the
// joints
//   are thumbprint hard (matter::thumbprint_hours, usual). A box's strip hardens in the cold by the same
//   ratio as another strip. Under a high wall no time counts below the cold end of the strip rule.
// - Fresh concrete before initial set spoils in rain at or above the one in which no pour is begun.
// - Time off before the drive home is an unbroken stretch within the day before it, not the hours right
// before it.
// - Tolerances: 15 minutes for waits; 0.3 K for cold and heat; falling or rising is held against a plan only
//   where it is plain over three hours before and after.
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// Everything wrong with the plan; empty: it may be followed. In the order of the kinds below. Codes:
/// runs    "list" plan and task list differ; "order" runs empty, not rising or overlapping; "amount" shares
/// do not
///         make the whole; "too-quick" faster than the norm at the best pace; "split" work that never pauses
///         is split; "course" bricks stopped elsewhere than at a course; "way" no such way; "presence" a task
///         there or not there against the ways taken; "left-out" a must without a place; "left-out-list" what
///         is left out is not said; "mark" dark or beyond the forecast and not marked
/// people  "people" more at work than the crew; "mason" laying without one who lays; "off-hours" outside the
///         working day; "long-day", "day-red-line", "rest-before-drive"; "fixed-time"; "merchant" shut
/// trip    "outside-trip" before he is there, or after he has left; "drive-short"; "home" leaving, home or
/// time
///         in hand do not agree with the runs
/// limits  "rain", "cold", "heat", "dark", "quiet-hours"
/// links   "link" order; "wait" not left alone for long enough, or told too short
/// canopy  "canopy-place", "canopy-time", "canopy-gust", "canopy-night", "canopy-left"
/// covers  "soft-in-rain", "wet-concrete", "frost", "bare-night", "cover-stock", "cover-short", "under-cover"
/// stuff   "height" wet wall of a day, "material" not there yet; "no-weather" nothing to judge by
/// One objection for each fault and run (stop, sitting, cover, day), at the first moment of it.
/// @pre job and list have passed their own checks; `plan` may be anything
[[nodiscard]] std::vector<Objection> check_on_site(const works::Job& job, const works::TaskList& list,
                                                   const sky::Series& weather,
                                                   const trade::LimitValues& limits, const Plan& plan);

}  // namespace weatherstruck::programme
