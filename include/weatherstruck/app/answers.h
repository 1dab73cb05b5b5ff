#pragma once
// What --json says: the facts behind each sheet, exact.
#include "weatherstruck/base/fault.h"
#include "weatherstruck/desk/trip_desk.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/render/light_table.h"
#include "weatherstruck/render/limits_sheet.h"
#include "weatherstruck/render/van_sheet.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::app {

/// Moments are UTC ("2026-02-09T08:15:00Z"); amounts in the unit beside them; an unknown value is null.
[[nodiscard]] files::Json quantities_answer(const works::Job& job, const works::Bill& bill);
[[nodiscard]] files::Json van_answer(const render::VanFacts& facts);
[[nodiscard]] files::Json light_answer(const works::Job& job, const std::vector<render::LightDay>& days);
[[nodiscard]] files::Json limits_answer(const render::LimitsFacts& facts);
[[nodiscard]] files::Json forecast_answer(const sky::Series& series);
[[nodiscard]] files::Json plan_answer(const desk::PlannedTrip& trip);
[[nodiscard]] files::Json helps_answer(const desk::PlannedTrip& trip, const programme::Helps& helps);
[[nodiscard]] files::Json morning_answer(const desk::PlannedTrip& trip, const render::MorningFacts& morning);
[[nodiscard]] files::Json why_answer(const desk::PlannedTrip& trip, std::size_t task,
                                     const programme::Why& why);
/// @param promise nullptr where the plan keeps it
[[nodiscard]] files::Json promise_answer(const desk::PlannedTrip& trip, const programme::Promise* promise);
[[nodiscard]] files::Json faults_answer(const base::InputError& error);

}  // namespace weatherstruck::app
