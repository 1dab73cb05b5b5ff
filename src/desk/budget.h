#pragma once
// What a plan that is shown may cost.

namespace weatherstruck::desk {

/// Budget in decodes of each plan, what is tried from elsewhere not counted. With 400 or 600 (before lifts of
/// one wall followed at once) the demonstration's plans of 24 seeds are no surer and leave out no less.
inline constexpr int schedules = 300;
/// Possible weathers that a plan is followed through: the chance in tens, its error at most seven points.
inline constexpr int weathers = 60;

}  // namespace weatherstruck::desk
