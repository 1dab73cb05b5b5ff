#include "weatherstruck/programme/buy_by.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <vector>

#include "weatherstruck/trade/norms.h"

namespace weatherstruck::programme {

using base::Instant;
using std::chrono::days;
using std::chrono::minutes;

std::optional<Instant> runs_out(const works::TaskList& list, const Plan& plan, const std::string& material,
                                double left, Instant now) {
  struct Draw {
    Instant at;
    double amount;
  };
  std::vector<Draw> draws;
  for (std::size_t i = 0; i < plan.tasks.size(); ++i) {
    const works::Task& task = list.tasks[i];
    if (task.operation == trade::Operation::wheel_in) continue;
    for (const works::MaterialDraw& draw : task.materials) {
      if (draw.material != material) continue;
      for (const PlannedRun& run : plan.tasks[i].runs) {
        if (run.span.from >= now) draws.push_back({run.span.from, draw.amount * run.share});
      }
    }
  }
  std::stable_sort(draws.begin(), draws.end(), [](const Draw& a, const Draw& b) { return a.at < b.at; });
  for (const Draw& draw : draws) {
    left -= draw.amount;
    if (left < -1e-9) return draw.at;
  }
  return std::nullopt;
}

std::optional<Span> last_trip_to_merchant(const works::Job& job, Instant now, Instant wanted) {
  if (!job.supplies.merchant) return std::nullopt;
  const works::Merchant& merchant = *job.supplies.merchant;
  const base::Zone& zone = job.site.zone;
  const minutes drive(std::lround(merchant.drive_each_way.value() * 60));
  const minutes stop(std::lround(job.practice.norms.at(trade::norm_key::merchant_stop)));
  const auto clock = [&](base::LocalDay day, minutes at) {
    return zone.to_instant_earliest(base::LocalTime(day) + at);
  };
  for (base::LocalDay day = zone.day_of(wanted); zone.end_of(day) > now; day -= days(1)) {
    const std::chrono::weekday weekday{day};
    if (weekday == std::chrono::Sunday) continue;
    const auto& open = weekday == std::chrono::Saturday ? merchant.saturday : merchant.monday_to_friday;
    std::optional<Span> last;
    for (const works::DaySpan& span : open) {
      const Instant there = std::min(clock(day, span.to) - stop, wanted - drive - stop);
      if (there < clock(day, span.from) || there - drive < now) continue;
      if (!last || there - drive > last->from) last = Span{there - drive, there + stop + drive};
    }
    if (last) return last;
  }
  return std::nullopt;
}

}  // namespace weatherstruck::programme
