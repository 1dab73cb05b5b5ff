// Getting there and home: nothing before he is there or after he has left, the road takes its time, and what
// the plan says of leaving, home and time in hand is what its runs say.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "site_check_view.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
namespace limit = trade::limit;

/// Wheel time and the rests that fall within it: none at the very end.
std::chrono::seconds road(const View& view, base::Hours wheel) {
  const double every = view.limits().hours(limit::drive_rest_every).value();
  const double rests = std::max(0.0, std::ceil(wheel.value() / every - 1e-9) - 1);
  const double all = wheel.value() + rests * view.limits().hours(limit::drive_rest).value();
  return std::chrono::seconds(static_cast<std::int64_t>(std::floor(all * 3600 + 1e-6)));
}

void check_road(const View& view, const Entry* drive, base::Hours wheel, Objections& out) {
  if (drive == nullptr || !drive->placed()) return;
  const auto taken = drive->planned->finish() - drive->planned->start();
  const auto due = road(view, wheel);
  if (taken >= due) return;
  object(out, "drive-short", drive->task->name, drive->planned->start(),
         fmt::format("takes {} min, with its rests it is {} min", taken / std::chrono::minutes(1),
                     due / std::chrono::minutes(1)));
}

void check_home(const View& view, Objections& out) {
  const Plan& plan = view.plan();
  const Entry* back = view.drive_back();
  const bool drives = back != nullptr && back->placed();
  const works::Name name = back == nullptr ? works::Name() : back->task->name;
  if (back != nullptr && drives != plan.home.has_value()) {
    object(out, "home", name, view.job().trip.home_by,
           drives ? "he drives home, but the plan does not say when he is there"
                  : "the plan says when he is home, but there is no drive");
    return;
  }
  if (drives && (plan.leaves_site != back->planned->start() || plan.home != back->planned->finish())) {
    object(out, "home", name, back->planned->start(),
           "leaving or home is not where the drive home begins or ends");
    return;
  }
  if (!plan.home) return;
  if (!plan.leaves_site) {
    object(out, "home", name, *plan.home, "he comes home without leaving the site");
    return;
  }
  if (back == nullptr && *plan.home - *plan.leaves_site < road(view, view.job().trip.drive_back)) {
    object(out, "drive-short", name, *plan.leaves_site, "the way home takes longer");
  }
  if (plan.in_hand != view.job().trip.home_by - *plan.home) {
    object(out, "home", name, *plan.home,
           fmt::format("{} min in hand are told, there are {}", plan.in_hand / std::chrono::minutes(1),
                       (view.job().trip.home_by - *plan.home) / std::chrono::minutes(1)));
  }
}

}  // namespace

void check_trip(const View& view, Objections& out) {
  const works::Trip& trip = view.job().trip;
  check_road(view, view.drive_out(), trip.drive_out, out);
  check_road(view, view.drive_back(), trip.drive_back, out);

  Instant arrives = trip.leave_home + road(view, trip.drive_out);
  if (const Entry* drive = view.drive_out(); drive != nullptr && drive->placed()) {
    arrives = drive->planned->finish();
    if (drive->planned->start() < trip.leave_home) {
      object(out, "outside-trip", drive->task->name, drive->planned->start(),
             "sets off before he leaves home");
    }
  }
  Instant leaves = view.plan().leaves_site.value_or(trip.home_by);
  if (const Entry* drive = view.drive_back(); drive != nullptr && drive->placed())
    leaves = drive->planned->start();
  for (const Entry& entry : view.entries()) {
    if (!entry.placed() || entry.drives()) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      if (run.span.from < arrives) {
        object(out, "outside-trip", entry.task->name, run.span.from,
               fmt::format("begins before he is there at {}", view.clock(arrives)));
      } else if (run.span.to > leaves) {
        object(out, "outside-trip", entry.task->name, std::max(run.span.from, leaves),
               fmt::format("goes on at {}, when {}", view.clock(std::max(run.span.from, leaves)),
                           view.plan().leaves_site ? "he has left" : "he is to be home"));
      }
    }
  }
  check_home(view, out);
}

}  // namespace weatherstruck::programme::site
