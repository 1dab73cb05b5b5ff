#include "weatherstruck/works/soil.h"

#include <algorithm>

#include "weatherstruck/trade/norms.h"
#include "weatherstruck/works/uses.h"

namespace weatherstruck::works {

using base::CubicMetres;

SoilAccount soil_of(const Job& job, const Expansion& expansion) {
  const double grown = 1 + trade::row_for(job.site.soil).bulking;
  SoilAccount account;
  CubicMetres backfill(0);
  CubicMetres fill(0);
  for (const FootingPart& footing : expansion.footings) {
    account.dug += footing.plan.trench;
    account.turf += footing.shape.length * footing.shape.width;
  }
  for (const Group& group : expansion.groups) {
    if (group.walls.empty()) continue;
    backfill += backfill_of(group, expansion);
    fill += group.fill;
  }
  for (const Steps& steps : expansion.flights) {
    const FlightTake take = take_flight(steps, job.practice);
    account.dug += take.dug;
    account.turf += take.run * steps.width;
  }
  for (const Path& path : expansion.paths) {
    const PathTake take = take_path(path, job.practice);
    account.dug += take.dug;
    account.turf += take.area;
  }
  account.dug_loose = account.dug * grown;
  account.backfilled = std::min(backfill * grown, account.dug_loose);
  account.into_beds = std::min(fill, account.dug_loose - account.backfilled);
  account.to_buy = fill - account.into_beds;
  account.away = account.dug_loose - account.backfilled - account.into_beds;
  return account;
}

}  // namespace weatherstruck::works
