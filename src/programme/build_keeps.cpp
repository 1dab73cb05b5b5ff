// Fresh work: what harms it, what covers it, how high it may be laid in a day.
#include <algorithm>
#include <cmath>

#include "builder.h"
#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/programme/strip_frost.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;
using trade::CoverKind;
using trade::Operation;

}  // namespace

int Builder::care_group(FreshWork::Kind kind) {
  if (kind == FreshWork::Kind::concrete) return 0;
  return is_brickwork(kind) ? 1 : 2;
}

void Builder::keeps() {
  std::map<KeepKey, engine::KeepId> made;
  for (std::size_t i = 0; i < list_.tasks.size(); ++i) {
    const works::Task& task = list_.tasks[i];
    if (!task.fresh) continue;
    const KeepKey key{task.part, care_group(task.fresh->kind)};
    auto found = made.find(key);
    if (found == made.end()) {
      found = made.emplace(key, static_cast<engine::KeepId>(out_.network.keeps.size())).first;
      out_.network.keeps.emplace_back();
      KeepMeaning meaning;
      meaning.part = task.part;
      meaning.title = works::spoken(task.part);
      meaning.concrete = key.group == 0;
      out_.keeps.push_back(std::move(meaning));
    }
    KeepMeaning& meaning = out_.keeps[at(found->second)];
    meaning.area = std::max(meaning.area, task.fresh->cover);
    // One cover for all of it; but rain on the lower lift counts on while another kind is laid above.
    auto& kinds = kinds_of_[found->second];
    const auto layer = std::find(kinds.begin(), kinds.end(), task.fresh->kind) - kinds.begin();
    if (layer == static_cast<std::ptrdiff_t>(kinds.size())) kinds.push_back(task.fresh->kind);
    out_.network.tasks[i].touches.push_back({found->second, 1, false, static_cast<int>(layer)});
    laid_by_[found->second].push_back(i);
  }
  for (auto& [key, id] : made)
    finish_keep(id, key.group);
  // Work on the same brickwork that leaves nothing fresh still wants the cover off; walling closes the
  // strip below.
  for (std::size_t i = 0; i < list_.tasks.size(); ++i) {
    const works::Task& task = list_.tasks[i];
    if (!task.fresh && (task.operation == Operation::rake_back || task.operation == Operation::strike ||
                        task.operation == Operation::strap_plate)) {
      if (const auto wall = made.find({task.part, 1}); wall != made.end())
        out_.network.tasks[i].touches.push_back({wall->second, 0, false});
    }
  }
  for (const works::Link& link : list_.links) {
    if (!on_strip(link.wait)) continue;
    const works::Task* from = list_.find(link.from);
    const works::Task* to = list_.find(link.to);
    if (from == nullptr || to == nullptr || !from->fresh) continue;
    const auto strip = made.find({from->part, care_group(from->fresh->kind)});
    if (strip == made.end()) continue;
    // The lines only want it uncovered. The first bricks on it, of whichever task, end its care.
    if (!to->fresh) touch(link.to, {strip->second, 0, false});
    for (const works::Task& task : list_.tasks) {
      if (task.part == to->part && task.fresh && task.fresh->kind != FreshWork::Kind::concrete)
        wall_over(task.name, strip->second);
    }
  }
}

bool Builder::on_strip(works::Wait wait) {
  return wait == works::Wait::concrete_to_lay || wait == works::Wait::concrete_to_lay_box ||
         wait == works::Wait::concrete_to_lay_high;
}

bool Builder::touch(const works::Name& task, const engine::Touch& made) {
  auto& touches = out_.network.tasks[at(index_.at(task))].touches;
  const bool known = std::any_of(touches.begin(), touches.end(),
                                 [&](const engine::Touch& touch) { return touch.keep == made.keep; });
  if (!known) touches.push_back(made);
  return !known;
}

void Builder::wall_over(const works::Name& task, engine::KeepId strip) {
  if (!touch(task, {strip, 0, true})) return;
  // ... but nobody lays a young strip bare in a frost.
  for (engine::Way& way : out_.network.tasks[at(index_.at(task))].ways) {
    way.guards.push_back({clocks_->plain(), reference(base::Hours(3)),
                          clocks_->below(base::Celsius(0), CoverKind::bare), 0, true});
  }
}

void Builder::finish_keep(engine::KeepId id, int group) {
  engine::Keep& keep = out_.network.keeps[at(id)];
  KeepMeaning& meaning = out_.keeps[at(id)];
  keep.name = meaning.title;
  meaning.ways = {CoverKind::bare};
  const bool hessian = job_.kit.hessian.value() > 0;
  const bool sheet = job_.kit.sheet.value() > 0;
  if (sheet) meaning.ways.push_back(CoverKind::sheet);
  if (hessian && sheet) meaning.ways.push_back(CoverKind::hessian_and_sheet);
  if (job_.kit.mats.value() > 0) meaning.ways.push_back(CoverKind::mat);
  if (hessian) meaning.ways.push_back(CoverKind::hessian);

  base::Hours thumb(0);
  for (const std::size_t i : laid_by_[id])
    thumb = std::max(thumb, works::thumbprint_hours(*list_.tasks[i].fresh, job_.practice).usual);
  const auto most_rain =
      static_cast<Amount>(std::llround(limits_.depth(limit::soft_joint_inspect).value() * 1000));
  // Putting the covers on may run a little into the dark.
  constexpr Amount dusk = 12;
  const base::Hours nights =
      group == 0 ? base::Hours(24 * limits_.at(limit::strip_frost_nights)) : base::Hours(24);
  keep.hazards.push_back({"rain on it while soft",
                          group == 0 ? reference(matter::initial_set(base::Celsius(20))) : reference(thumb),
                          most_rain});
  keep.hazards.back().by_layer = true;
  keep.hazards.back().under_shelter = clocks_->rain_through(CoverKind::canopy, group == 0);
  // As verdicts have it (damage.h): less rain, and frost on what has set, is looked at; more is made good.
  const Amount soft = keep.hazards.back().until;
  keep.hazards.back().spoils =
      engine::Hazard::Spoils{soft, std::llround(limits_.depth(limit::soft_joint_remake).value() * 1000)};
  keep.hazards.push_back({"frost before it is safe", frost_amount(id, group), 0});
  keep.hazards.back().spoils = engine::Hazard::Spoils{std::min(soft, keep.hazards.back().until), 0};
  keep.hazards.push_back({"a night in the open", reference(nights), dusk});
  std::optional<std::size_t> strip;
  for (const std::size_t i : laid_by_[id]) {
    const auto& shape = list_.tasks[i].fresh->strip;
    if (shape && !strip) strip = strip_like(out_.table, job_, limits_, *shape);
  }
  for (const CoverKind kind : meaning.ways) {
    const trade::CoverRow& row = job_.covers.at(kind);
    engine::CoverWay way;
    way.name = row.title;
    way.cure = group == 0 ? clocks_->strength(kind) : clocks_->stiffening(kind);
    way.until = {group == 0 ? clocks_->setting(kind) : clocks_->stiffening(kind, true),
                 group == 0   ? clocks_->plain()
                 : group == 1 ? clocks_->mortar_frost_safety(kind)
                              : clocks_->plain(),
                 clocks_->plain()};
    // A flag bed is covered in the cold before it freezes, by something that stays on.
    const base::Celsius bare = group == 2 ? limits_.temperature(limit::flags_keep_above) : base::Celsius(0);
    const base::Celsius least = kind == CoverKind::bare ? bare : base::Celsius(0);
    way.exposure = {clocks_->rain_through(kind, group == 0),
                    strip ? clocks_->strip_frost(*strip, kind) : clocks_->below(least, kind, bare),
                    kind == CoverKind::bare ? clocks_->uncovered_night() : engine::no_clock};
    if (kind != CoverKind::bare) {
      const int area = std::max(1, tenths(meaning.area, true));
      if (row.uses_hessian) way.area.push_back({hessian_, area});
      if (row.uses_sheet) way.area.push_back({sheet_, area});
      if (row.uses_mat) way.area.push_back({mats_, area});
      way.hands = {{hands_, 1}, {awake_, 1}};
      // Taking it off again is counted where it is put on: nobody stays up to lift a sheet at four in the
      // morning.
      const double on = std::max(row.least_minutes, row.minutes_on_per_m2 * meaning.area.value());
      way.on = std::max(1, ticks_up(on + row.minutes_off_per_m2 * meaning.area.value()));
    }
    keep.ways.push_back(std::move(way));
  }
  green_height(id);
}

// A strip in the ground is kept for its nights (common practice); brickwork until its mortar withstands one
// frost.
Amount Builder::frost_amount(engine::KeepId id, int group) const {
  if (group == 0) return reference(base::Hours(24 * limits_.at(limit::strip_frost_nights)));
  if (group != 1) return reference(limits_.hours(limit::flags_keep_hours));
  base::Hours safe(0);
  for (const std::size_t i : laid_by_.at(id))
    safe = std::max(safe, works::frost_safe_amount(*list_.tasks[i].fresh, job_.practice));
  return reference(safe);
}

// Only where a part is higher than a day may lay: otherwise the limit can never bind.
void Builder::green_height(engine::KeepId id) {
  double height = 0;
  bool slow = false;
  for (const std::size_t i : laid_by_[id]) {
    const works::Task& task = list_.tasks[i];
    height += task.fresh->course_height.value() * static_cast<double>(task.courses.size());
    slow = slow || task.fresh->kind == FreshWork::Kind::mortar_below;
  }
  const double most = limits_.at(slow ? limit::green_height_engineering : limit::green_height_facing);
  if (height * 1000 <= most) return;
  constexpr double per_millimetre = 1e6;
  for (const std::size_t i : laid_by_[id]) {
    const works::Task& task = list_.tasks[i];
    const double millimetres =
        task.fresh->course_height.value() * 1000 * static_cast<double>(task.courses.size());
    engine::Task& made = out_.network.tasks[i];
    for (engine::Touch& touch : made.touches) {
      if (touch.keep == id && touch.lays > 0) {
        touch.lays = std::max<Amount>(
            1, std::llround(millimetres * per_millimetre / static_cast<double>(made.ways.front().amount)));
      }
    }
  }
  out_.network.keeps[at(id)].green =
      engine::Green{clocks_->plain(), reference(base::Hours(24)), std::llround(most * per_millimetre)};
}

}  // namespace weatherstruck::programme
