#include <fmt/format.h>

#include "programme/plan_text.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::programme {
namespace {

std::string shown(const Span& span) {
  return base::iso_utc(span.from) + " to " + base::iso_utc(span.to);
}
std::string shown(const std::optional<base::Instant>& t) {
  return t ? base::iso_utc(*t) : "never";
}

}  // namespace

std::string text_of(const Plan& plan) {
  std::string text;
  const auto line = [&](const std::string& words) { text += words + "\n"; };
  for (const PlannedTask& task : plan.tasks) {
    line(fmt::format("{} by {} ({}), there: {}", task.task, task.way.value_or("-"), task.way_title,
                     task.present));
    for (const PlannedRun& run : task.runs) {
      line(fmt::format("  {}, {:.17g}, courses {}, canopy {}, lamps {}, beyond {}", shown(run.span),
                       run.share, run.courses_after, run.under_canopy, run.floodlit, run.beyond_forecast));
    }
    for (const Reason& reason : task.reasons)
      line(fmt::format("  {} {}: {}", shown(reason.span), reason.code, reason.text));
  }
  for (const PlannedCover& cover : plan.covers) {
    line(fmt::format("cover {} {} {} kind {} {:.17g} {} stays {}", cover.part, cover.title, cover.concrete,
                     static_cast<int>(cover.kind), cover.area.value(), shown(cover.span), cover.stays_on));
  }
  for (const CanopySitting& sitting : plan.canopy) {
    line(fmt::format("canopy {} {} {} {}", sitting.part, base::iso_utc(sitting.pitch_from),
                     shown(sitting.over), base::iso_utc(sitting.struck_by)));
  }
  for (const PlannedWait& wait : plan.waits) {
    line(fmt::format("wait {} {} {} {} {}", wait.part, wait.what, wait.next, static_cast<int>(wait.wait),
                     shown(wait.span)));
  }
  line(fmt::format("horizon {} {} {}", base::iso_utc(plan.horizon_from), base::iso_utc(plan.horizon_to),
                   base::iso_utc(plan.forecast_until)));
  line(fmt::format("leaves {} home {} in hand {} s, {} schedules", shown(plan.leaves_site), shown(plan.home),
                   plan.in_hand.count(), plan.schedules));
  for (const works::Name& name : plan.left_out)
    line("left out " + name);
  for (const std::string& sentence : plan.assumptions)
    line(sentence);
  return text;
}

std::string text_of(const std::vector<Objection>& objections) {
  std::string text;
  for (const Objection& o : objections)
    text += o.code + " " + o.task + " " + base::iso_utc(o.at) + ": " + o.text + "\n";
  return text;
}

}  // namespace weatherstruck::programme
