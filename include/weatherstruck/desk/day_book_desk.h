#pragma once
// What day sheets are made from: the book of a kept job, the forecasts and plans that were kept with it.
#include <optional>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/render/day_book.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/works/standing.h"

namespace weatherstruck::desk {

struct KeptDays {
  works::Standing standing;
  std::vector<works::Entry> entries;  ///< those that count, none later than `now`
  sky::Series weather;                ///< empty where no forecast was kept
  std::vector<render::PlanOfDay> plans;
  base::Instant now;
  std::vector<render::DayPhotograph> photographs;
  [[nodiscard]] render::DayBookFacts facts() const {
    return {standing.job, standing.list, standing.progress, entries, weather, plans, now, photographs};
  }
};

/// Asks nobody and writes nothing. Reads every photograph through and says which are lost. The plan of a day
/// is the newest that was made before its first work.
/// @pre open.kept
/// @throws record::RecordError
[[nodiscard]] KeptDays kept_days(Shelf& shelf, const OpenJob& open, base::Instant now);

}  // namespace weatherstruck::desk
