#include "weatherstruck/works/level_book.h"

#include <cmath>
#include <string>

#include "weatherstruck/measure/footing.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {
namespace {

constexpr base::Metres beyond_the_end{0.05};  ///< a tape laid along grass is no closer than this
constexpr base::Metres flat{0.02};            ///< rises below this are the reading, not the ground

}  // namespace

const FootingPart* LevelBook::footing(const Name& name) const {
  for (const FootingPart& part : expansion_.footings) {
    if (part.shape.name == name) return &part;
  }
  return nullptr;
}

void LevelBook::read(const LevelRead& what, const Entry& entry, Progress& progress) {
  const FootingPart* part = footing(what.part);
  if (part == nullptr) {
    progress.remarks.push_back(
        {Remark::Kind::fault, "unknown-footing", entry.key,
         "The job has no footing \"" + what.part + "\". Name the footing of one wall."});
    return;
  }
  if (what.along > part->shape.length + beyond_the_end) {
    progress.remarks.push_back({Remark::Kind::fault, "beyond-the-end", entry.key,
                                "The " + part->title + " is " + metres(part->shape.length) +
                                    " long; the level was read at " + metres(what.along) +
                                    ". Measure again."});
    return;
  }
  Readings& readings = read_[what.part];
  readings.by_centimetre.insert_or_assign(std::lround(what.along.value() * 100), what);
  readings.last = entry.key;
}

void LevelBook::finish(Progress& progress) const {
  const auto rules = measure::FootingRules::from(limits_of(job_).values);
  for (const FootingPart& part : expansion_.footings) {
    const auto found = read_.find(part.shape.name);
    if (found == read_.end()) continue;
    FootingRead result;
    result.footing = part.shape.name;
    result.steps_before = static_cast<int>(part.plan.steps.size());
    result.extra_before = part.plan.extra_courses();
    const base::Metres datum = found->second.by_centimetre.begin()->second.level;
    for (const auto& [place, reading] : found->second.by_centimetre)
      result.levels.push_back({reading.along, datum - reading.level});
    if (result.levels.size() < 2) {
      progress.remarks.push_back(
          {Remark::Kind::advice, "one-level", found->second.last,
           "One level of the " + part.title + " says nothing yet; read the other end."});
      continue;
    }
    if (result.levels.back().below < -flat) {
      progress.remarks.push_back({Remark::Kind::question, "ground-rises", found->second.last,
                                  "By the levels the ground of the " + part.title + " rises " +
                                      millimetres(-result.levels.back().below) +
                                      " away from its high end; no steps are taken. Was it measured from the "
                                      "other end?"});
    }
    const Footing& shape = part.shape;
    result.plan = measure::plan_footing({shape.length, shape.width, shape.thickness, shape.depth},
                                        result.levels, rules);
    const int extra = result.plan.extra_courses();
    for (const WallPart& wall : expansion_.walls) {
      if (wall.shape.footing != shape.name) continue;
      progress.walls.push_back(
          {wall.shape.name, wall.shape.courses + result.extra_before, wall.shape.courses + extra});
    }
    progress.footings.push_back(std::move(result));
  }
}

}  // namespace weatherstruck::works
