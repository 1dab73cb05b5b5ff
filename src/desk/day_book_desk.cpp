#include "weatherstruck/desk/day_book_desk.h"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

#include "weatherstruck/desk/forecast_shelf.h"
#include "weatherstruck/desk/trip_desk.h"
#include "weatherstruck/files/plan_json.h"

namespace weatherstruck::desk {
namespace {

sky::Series kept_weather(Shelf& shelf, const OpenJob& open, const works::Progress& progress,
                         base::Instant now) {
  const auto nobody = []() -> ServicePorts { throw std::logic_error("no service is asked for past days"); };
  try {
    return as_it_was(forecasts_for(shelf, open, {{}, true, true, 0}, nobody, now).issues, progress);
  } catch (const base::InputError&) {
    return {};  // none is kept
  }
}

}  // namespace

KeptDays kept_days(Shelf& shelf, const OpenJob& open, base::Instant now) {
  KeptDays out{works::standing_of(open.job, open.book, now), {}, {}, {}, now};
  for (works::Entry& entry : works::effective(open.book).entries) {
    if (entry.at <= now) out.entries.push_back(std::move(entry));
  }
  out.weather = kept_weather(shelf, open, out.standing.progress, now);
  std::map<base::LocalDay, base::Instant> begun;
  for (const works::TaskProgress& state : out.standing.progress.tasks) {
    for (const works::Run& run : state.runs) {
      const auto day = begun.try_emplace(open.job.site.zone.day_of(run.from), run.from).first;
      day->second = std::min(day->second, run.from);
    }
  }
  for (const auto& [day, first] : begun) {
    const std::optional<record::Plan> row =
        shelf.store().plan_before(open.kept.value().id, first + std::chrono::seconds(1));
    if (!row) continue;
    if (auto plan = files::read_plan(row->bytes)) out.plans.push_back({day, std::move(plan->plan)});
  }
  return out;
}

}  // namespace weatherstruck::desk
