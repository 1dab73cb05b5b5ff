// The canopy: over one place at a time, down in wind, at night and when he leaves.
#include <algorithm>

#include <fmt/format.h>

#include "site_check_view.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
namespace limit = trade::limit;

// Standing this long beyond the working day counts as left up for the night.
constexpr std::chrono::hours left_up{1};

void check_times(const View& view, const works::Canopy& canopy, Objections& out) {
  const auto& sittings = view.plan().canopy;
  for (std::size_t i = 0; i < sittings.size(); ++i) {
    const CanopySitting& s = sittings[i];
    if (s.pitch_from > s.over.from || s.over.from > s.over.to || s.over.to > s.struck_by) {
      object(out, "canopy-time", s.part, s.pitch_from, "the canopy's times go back");
      continue;
    }
    const CanopySitting* before = i > 0 ? &sittings[i - 1] : nullptr;
    const CanopySitting* after = i + 1 < sittings.size() ? &sittings[i + 1] : nullptr;
    const bool moved_here = before != nullptr && s.pitch_from < before->struck_by;
    const bool moved_on = after != nullptr && after->pitch_from < s.struck_by;
    if (before != nullptr && (s.over.from < before->over.to || s.pitch_from < before->over.to)) {
      object(out, "canopy-place", s.part, s.pitch_from,
             fmt::format("the canopy still stands over {}", before->part));
      continue;
    }
    // From a place it leaves in the same breath: one move from the end of one standing to the next.
    const Instant begun = moved_here ? before->over.to : s.pitch_from;
    const auto up = moved_here ? canopy.move : canopy.pitch;
    if (s.over.from - begun < up) {
      object(out, "canopy-time", s.part, s.pitch_from,
             fmt::format("{} takes {} min", moved_here ? "moving the canopy" : "pitching the canopy",
                         up.count()));
    }
    if (!moved_on && s.struck_by - s.over.to < canopy.strike) {
      object(out, "canopy-time", s.part, s.over.to,
             fmt::format("striking the canopy takes {} min", canopy.strike.count()));
    }
  }
}

void check_gusts(const View& view, const works::Canopy& canopy, Objections& out) {
  const double most = std::min(canopy.gust_limit.value(), view.limit(limit::canopy_gust));
  for (const CanopySitting& s : view.plan().canopy) {
    walk({s.pitch_from, s.struck_by}, [&](Instant t, base::Hours) {
      const double gust = view.air(t).gust.value();
      if (gust < most - 1e-9) return true;
      object(out, "canopy-gust", s.part, t,
             fmt::format("gusts of {:.1f} m/s at {}, down before {:.1f}", gust, view.clock(t), most));
      return false;
    });
  }
}

void check_nights(const View& view, Objections& out) {
  const works::DaySpan& day = view.job().trip.working_day;
  const double most = view.limit(limit::canopy_overnight_gust);
  for (const CanopySitting& s : view.plan().canopy) {
    for (base::LocalDay d = view.zone().day_of(s.over.from); d <= view.zone().day_of(s.over.to);
         d += std::chrono::days(1)) {
      const Span night{view.at(d, day.to), view.at(d + std::chrono::days(1), day.from)};
      if (std::min(night.to, s.over.to) - std::max(night.from, s.over.from) < left_up) continue;
      walk(night, [&](Instant t, base::Hours) {
        const double gust = view.air(t).gust.value();
        if (gust < most - 1e-9) return true;
        object(out, "canopy-night", s.part, t,
               fmt::format("left up for a night with gusts of {:.1f} m/s at {}, not with {:.1f}", gust,
                           view.clock(t), most));
        return false;
      });
    }
    if (view.plan().leaves_site && s.struck_by > *view.plan().leaves_site) {
      object(out, "canopy-left", s.part, *view.plan().leaves_site, "the canopy is not down when he leaves");
    }
  }
}

}  // namespace

void check_canopy(const View& view, Objections& out) {
  for (const Entry& entry : view.entries()) {
    if (!entry.placed()) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      if (!run.under_canopy) continue;
      walk(run.span, [&](Instant t, base::Hours) {
        if (view.sitting_over(entry.task->of, t) != nullptr) return true;
        object(out, "canopy-place", entry.task->name, t,
               fmt::format("is to be done under the canopy, which at {} is not over it", view.clock(t)));
        return false;
      });
    }
  }
  for (const PlannedCover& cover : view.plan().covers) {
    if (cover.kind != trade::CoverKind::canopy) continue;
    const auto under = std::find_if(view.entries().begin(), view.entries().end(),
                                    [&](const Entry& e) { return e.task->part == cover.part; });
    const works::Name of = under == view.entries().end() ? cover.part : under->task->of;
    walk(cover.span, [&](Instant t, base::Hours) {
      if (view.sitting_over(of, t) != nullptr) return true;
      object(out, "canopy-place", cover.part, t, "is to be covered by the canopy, which is not over it");
      return false;
    });
  }
  if (view.plan().canopy.empty()) return;
  if (!view.job().kit.canopy) {
    object(out, "canopy-place", view.plan().canopy.front().part, view.plan().canopy.front().pitch_from,
           "there is no canopy");
    return;
  }
  check_times(view, *view.job().kit.canopy, out);
  check_gusts(view, *view.job().kit.canopy, out);
  check_nights(view, out);
}

}  // namespace weatherstruck::programme::site
