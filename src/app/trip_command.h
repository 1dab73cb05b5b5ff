#pragma once
// What the commands about a planned trip share.
#include <functional>
#include <optional>
#include <string>

#include "weatherstruck/app/command.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/desk/trip_desk.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {

/// --now read in the site's time, or else the machine's clock. @throws UsageError
base::Instant moment_of(const Arguments& arguments, const Setting& setting, const works::Job& job);

/// The forecasts that the arguments ask for: files, the service, or the last one kept.
desk::ForecastsAtHand forecasts_of(const Arguments& arguments, const Setting& setting,
                                   const desk::OpenJob& open, base::Instant now);

/// What --schedules and --weathers ask for; nullopt where neither is given. @throws UsageError
std::optional<desk::Budget> budget_of(const Arguments& arguments);

/// Opens job and forecasts, plans, and hands the trip on. The exit code is that of `use`, or stale or failed
/// where the trip cannot be planned at this moment, which is said.
ExitCode on_trip(const Arguments& arguments, const Setting& setting,
                 const std::function<ExitCode(desk::PlannedTrip&)>& use);

/// Opens job and forecasts, plans, and hands the trip on; says what stands against the plan. The exit code
/// is that of `use`, or no_plan, stale or failed where the trip or its plan asks for it.
ExitCode with_trip(const Arguments& arguments, const Setting& setting,
                   const std::function<ExitCode(desk::PlannedTrip&)>& use);

/// Writes the document with --json, else the text.
ExitCode answer(const Arguments& arguments, const Setting& setting,
                const std::function<files::Json()>& document, const std::function<std::string()>& text);

}  // namespace weatherstruck::app
