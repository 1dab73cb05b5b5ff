#pragma once
// The calendar of a kept job: each one that is handed out follows the one before it.
#include <optional>
#include <vector>

#include "weatherstruck/record/store.h"
#include "weatherstruck/render/calendar.h"

namespace weatherstruck::desk {

/// Renews the calendar that was handed out last and keeps the new one, unless nothing moved; in one
/// transaction.
/// @throws record::RecordError, base::InputError where the one kept cannot be read
render::Calendar renew_calendar(record::Store& store, const record::Job& job,
                                const std::optional<record::PlanId>& plan,
                                const std::vector<render::CalendarEvent>& events, base::Instant now,
                                const base::Zone& zone);

/// Sixteen letters and digits that tell the job from every other: from its name and the moment it was kept
/// first.
[[nodiscard]] std::string calendar_mark(record::Store& store, const record::Job& job);

}  // namespace weatherstruck::desk
