// Tasks and the ways of doing them.
#include <algorithm>
#include <cmath>

#include "builder.h"

namespace weatherstruck::programme {
namespace {

using trade::CoverKind;
using trade::Operation;

// Person-ticks of an amount of hours, at least one unit so that every task takes some time.
Amount person_ticks(base::Hours hours) {
  return std::max<Amount>(1, std::llround(hours.value() * kTicksPerHour * kPersonTick));
}

}  // namespace

bool can_go_under_canopy(const works::Task& task) {
  switch (task.operation) {
    case Operation::lay_below:
    case Operation::lay_facing:
    case Operation::lay_common:
    case Operation::strike:
    case Operation::rake_back:
    case Operation::point:
    case Operation::lay_coping:
    case Operation::bed_plate:
    case Operation::lay_flags:
    case Operation::grout_flags:
      return task.outdoors && task.length.value() > 0;
    default:
      return false;
  }
}

void Builder::add_task(const works::Task& task) {
  const auto id = static_cast<engine::TaskId>(out_.network.tasks.size());
  engine::Task made;
  made.name = task.name;
  made.group = group_of(task.of);
  made.importance = task.importance == works::Importance::must     ? engine::Importance::must
                    : task.importance == works::Importance::should ? engine::Importance::should
                                                                   : engine::Importance::may;
  made.release = std::max(0, out_.table.tick_up(now_));
  for (const works::MaterialDraw& draw : task.materials) {
    for (const works::Delivery& delivery : job_.supplies.deliveries) {
      if (delivery.material == draw.material)
        made.release = std::max(made.release, out_.table.tick_up(delivery.at));
    }
  }
  std::vector<WayMeaning> meanings;
  if (task.operation == Operation::drive) {
    drive(task, id, made, meanings);
  } else {
    const std::vector<works::TaskWay> one{{"", "", task.hours}};
    for (const works::TaskWay& way : task.ways.empty() ? one : task.ways) {
      for (int people = task.people; people <= std::min(crew(), task.people + 1); ++people) {
        add_way(task, way, people, false, made, meanings);
        if (job_.kit.canopy && can_go_under_canopy(task)) add_way(task, way, people, true, made, meanings);
      }
    }
  }
  if (task.only_if) {
    engine::Presence presence{index_.at(task.only_if->task), {}};
    const auto& ways = out_.ways[at(presence.task)];
    for (std::size_t w = 0; w < ways.size(); ++w) {
      if (ways[w].key == task.only_if->way) presence.ways.push_back(static_cast<int>(w));
    }
    made.presence = std::move(presence);
  }
  out_.network.tasks.push_back(std::move(made));
  out_.ways.push_back(std::move(meanings));
}

void Builder::drive(const works::Task& task, engine::TaskId id, engine::Task& made,
                    std::vector<WayMeaning>& meanings) {
  const bool out = !out_.drive_out && id == 0;
  const base::Hours whole = drive_with_rests(out ? job_.trip.drive_out : job_.trip.drive_back, limits_);
  engine::Way way;
  way.clock = out ? clocks_->plain() : clocks_->drive_home();
  way.amount = std::max<Amount>(1, std::llround(whole.value() * kTicksPerHour * kReferenceTick));
  way.needs = {{awake_, crew()}};
  if (!out) {
    made.due = out_.table.tick_down(job_.trip.home_by);
    if (!out_.network.statefuls.empty()) way.state = engine::StateNeed{0, 0};
    out_.drive_home = id;
    way.costs = {{clocks_->nights_away(static_cast<Tick>(way.amount / kReferenceTick)), 1}};
  } else {
    out_.drive_out = id;
  }
  made.ways.push_back(std::move(way));
  meanings.push_back({"", task.title, false, crew()});
}

void Builder::add_way(const works::Task& task, const works::TaskWay& how, int people, bool under_canopy,
                      engine::Task& made, std::vector<WayMeaning>& meanings) {
  const trade::OperationRow& row = trade::row_for(task.operation);
  engine::Way way;
  way.clock = task.operation == Operation::fetch ? clocks_->merchant()
                                                 : clocks_->work(task.operation, task.noisy, under_canopy);
  const double shared = people > task.people ? shared_by(people, row.lays) / task.people : 1.0;
  base::Hours hours = how.hours / (task.people * shared);
  if (under_canopy) {
    const double moves = std::ceil(task.length / job_.kit.canopy->length - 1e-9) - 1;
    hours += base::Hours(std::max(0.0, moves) * static_cast<double>(job_.kit.canopy->move.count()) / 60.0);
    for (std::size_t p = 0; p < out_.canopy_places.size(); ++p) {
      if (out_.canopy_places[p] == task.of) way.state = engine::StateNeed{0, static_cast<int>(p) + 1};
    }
  }
  way.amount = person_ticks(hours);
  way.setup = std::llround(task.set_up.value() * kTicksPerHour * kPersonTick / task.people);
  if (row.pausing == trade::Pausing::never) {
    way.pause = engine::Pause::none;
  } else if (row.pausing == trade::Pausing::at_courses || !task.courses.empty()) {
    way.pause = engine::Pause::at_breaks;
    way.breaks = course_breaks(task, way.amount);
  } else {
    way.pause = engine::Pause::anywhere;
  }
  way.needs = {{hands_, people}, {awake_, people}};
  // Somebody who lays bricks; whoever helps him need not.
  if (row.lays) way.needs.push_back({bricklayers_, 1});
  if (how.key == "strike" && task.fresh) {
    // Struck the same day: thumbprint hard before it is too dark to see the joint.
    way.guards.push_back(
        {clocks_->stiffening(CoverKind::bare), thumbprint(*task.fresh), clocks_->darkness(), 0, false});
  }
  way.costs = {{clocks_->darkness(), 2}, {clocks_->evening(), 1}};
  way.shelters = under_canopy;
  // The canopy is work of its own and in the way: not without need.
  way.costs.push_back(under_canopy ? engine::Cost{clocks_->ticks(), 1} : engine::Cost{clocks_->wet(), 1});
  made.ways.push_back(std::move(way));
  meanings.push_back({how.key, how.title, under_canopy, people});
}

// How many times as much as one several do. Two do not do twice as much: a tenth is lost to standing in each
// other's way (assumption). Who does not lay bricks serves those who do, one two of them.
double Builder::shared_by(int people, bool laying) const {
  const auto together = [](int hands) { return hands > 1 ? hands / 1.1 : static_cast<double>(hands); };
  if (!laying) return together(people);
  const auto lay = static_cast<int>(std::count_if(job_.crew.begin(), job_.crew.end(),
                                                  [](const works::Person& p) { return p.lays_bricks; }));
  const int layers = std::min(people, lay);
  const double served = std::min(1.0, 2.0 * (people - layers) / std::max(1, layers));
  return together(layers) / (1 - served * job_.practice.norms.at(trade::norm_key::mate_serves));
}

std::vector<Amount> Builder::course_breaks(const works::Task& task, Amount whole) {
  std::vector<Amount> breaks;
  double laid = 0;
  for (const double course : task.courses) {
    laid += course;
    const Amount stop = std::llround(static_cast<double>(whole) * laid / task.amount);
    if (stop > (breaks.empty() ? 0 : breaks.back()) && stop < whole) breaks.push_back(stop);
  }
  return breaks;
}

Amount Builder::thumbprint(const FreshWork& fresh) const {
  return reference(works::thumbprint_hours(fresh, job_.practice).usual);
}

}  // namespace weatherstruck::programme
