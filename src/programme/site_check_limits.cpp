// Rain, cold, heat, dark and quiet hours while a run is under way.
#include <algorithm>

#include <fmt/format.h>

#include "site_check_view.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
using trade::Light;
using trade::TemperatureRule;
namespace limit = trade::limit;

/// What is wrong at a moment: empty, or the sentence.
using Finding = std::string;

Finding rain_at(const View& view, const Entry& entry, const PlannedRun& run, Instant t) {
  if (entry.row->rain_stop.empty() || run.under_canopy) return {};
  const double stop = view.limit(entry.row->rain_stop);
  const double rain = view.air(t).rain.value();
  if (rain < stop - 1e-9) return {};
  return fmt::format("rain {:.1f} mm/h at {}, stops at {:.1f}", rain, view.clock(t), stop);
}

/// Some cover of this fresh work goes on between the start of the run and the end of its day.
bool covered_that_day(const View& view, const Entry& entry, const PlannedRun& run) {
  const Instant night = view.zone().end_of(view.zone().day_of(run.span.from));
  for (const PlannedCover& cover : view.plan().covers) {
    if (cover.part == entry.task->part && cover.kind != trade::CoverKind::bare && cover.span.from <= night &&
        cover.span.to > run.span.to) {
      return true;
    }
  }
  return false;
}

Finding brick_cold_at(const View& view, const Entry& entry, const PlannedRun& run, Instant t) {
  const double air = view.air(t).temperature.value();
  const double hard = view.limit(limit::brick_cold_hard_stop);
  if (air < hard - clearly)
    return fmt::format("{:.1f} C at {}, never below {:.1f}", air, view.clock(t), hard);
  const bool lime = view.job().practice.binder == trade::Binder::hydraulic_lime;
  const double stop = view.limit(lime ? limit::brick_lime_cold_stop : limit::brick_cold_stop);
  const double resume = view.limit(lime ? limit::brick_lime_cold_resume : limit::brick_cold_resume);
  if (air >= stop - clearly) return {};
  // Below the stop only a rising temperature would allow it, and a day that gets warm enough.
  const bool may_rise = air >= resume - clearly && !view.plainly_falling(t) &&
                        view.warmest_of_day(t).value() >= view.limit(limit::brick_cold_expected) - clearly;
  if (may_rise) return {};
  if (!lime && view.limit(limit::brick_cold_protected) > 0.5) {
    if (!entry.task->fresh || covered_that_day(view, entry, run)) return {};
    return fmt::format("{:.1f} C at {}, below {:.1f} only with a cover to follow", air, view.clock(t), stop);
  }
  return fmt::format("{:.1f} C at {}, stops below {:.1f}", air, view.clock(t), stop);
}

Finding cold_at(const View& view, const Entry& entry, const PlannedRun& run, Instant t) {
  const double air = view.air(t).temperature.value();
  switch (entry.row->temperature) {
    case TemperatureRule::none:
      return {};
    case TemperatureRule::brickwork:
      return brick_cold_at(view, entry, run, t);
    case TemperatureRule::concrete: {
      const double least = view.limit(limit::pour_cold_start);
      if (t != run.span.from || air >= least - clearly) return {};
      return fmt::format("{:.1f} C at the start of the pour, at least {:.1f}", air, least);
    }
    case TemperatureRule::flags: {
      const double stop = view.limit(limit::flags_cold_stop);
      const double resume = view.limit(limit::flags_cold_resume);
      if (air >= stop - clearly) return {};
      if (air >= resume - clearly && !view.plainly_falling(t)) return {};
      return fmt::format("{:.1f} C at {}, stops below {:.1f} falling and {:.1f} rising", air, view.clock(t),
                         stop, resume);
    }
  }
  return {};
}

Finding heat_at(const View& view, const Entry& entry, Instant t) {
  const double air = view.air(t).temperature.value();
  double most = 0;
  switch (entry.row->temperature) {
    case TemperatureRule::none:
      return {};
    case TemperatureRule::brickwork:
      most = view.limit(limit::brick_heat);
      break;
    case TemperatureRule::concrete:
      most = view.limit(limit::concrete_heat);
      break;
    case TemperatureRule::flags:
      // Jointing only, and only while it gets warmer still.
      if (entry.task->operation != trade::Operation::grout_flags || !view.plainly_rising(t)) return {};
      most = view.limit(limit::flags_heat);
      break;
  }
  if (air <= most + clearly) return {};
  return fmt::format("{:.1f} C at {}, at most {:.1f}", air, view.clock(t), most);
}

Finding dark_at(const View& view, const Entry& entry, Instant t) {
  if (view.light(t) != Light::dark) return {};
  const bool lamps = view.job().kit.floodlights;
  if (entry.row->pace(lamps ? Light::floodlit : Light::dark) > 0) return {};
  return fmt::format("dark at {}; {}", view.clock(t),
                     lamps ? "it cannot be done under lights" : "there are no lights");
}

Finding noise_at(const View& view, const Entry& entry, Instant t) {
  if (!entry.task->noisy) return {};
  const works::NoisyHours& noisy = view.job().site.noisy;
  const std::chrono::weekday day(view.zone().day_of(t));
  const auto& spans = day == std::chrono::Sunday     ? noisy.sunday
                      : day == std::chrono::Saturday ? noisy.saturday
                                                     : noisy.monday_to_friday;
  const auto time = view.zone().time_of_day(t);
  const bool may = std::any_of(spans.begin(), spans.end(),
                               [&](const works::DaySpan& s) { return time >= s.from && time < s.to; });
  return may ? Finding() : fmt::format("noisy tools run at {}, in quiet hours", view.clock(t));
}

}  // namespace

void check_limits(const View& view, Objections& out) {
  for (const Entry& entry : view.entries()) {
    if (!entry.placed()) continue;
    for (const PlannedRun& run : entry.planned->runs) {
      bool rain = false;
      bool cold = false;
      bool heat = false;
      bool dark = false;
      bool noise = false;
      const auto once = [&](bool& said, const char* code, const Finding& finding, Instant t) {
        if (said || finding.empty()) return;
        said = true;
        object(out, code, entry.task->name, t, finding);
      };
      walk(run.span, [&](Instant t, base::Hours) {
        once(noise, "quiet-hours", noise_at(view, entry, t), t);
        if (!entry.task->outdoors) return true;
        once(rain, "rain", rain_at(view, entry, run, t), t);
        once(cold, "cold", cold_at(view, entry, run, t), t);
        once(heat, "heat", heat_at(view, entry, t), t);
        once(dark, "dark", dark_at(view, entry, t), t);
        return true;
      });
    }
  }
}

}  // namespace weatherstruck::programme::site
