// What comes after what, and how long it waits.
#include <algorithm>

#include "builder.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;
using trade::CoverKind;

}  // namespace

void Builder::links() {
  for (std::size_t l = 0; l < list_.links.size(); ++l) {
    const works::Link& link = list_.links[l];
    const works::Task& from = *list_.find(link.from);
    const works::Task& to = *list_.find(link.to);
    engine::Link made;
    made.from = index_.at(link.from);
    made.to = index_.at(link.to);
    made.from_edge = link.kind == works::Link::Kind::start_start ? engine::Edge::start : engine::Edge::finish;
    made.to_edge = link.kind == works::Link::Kind::finish_finish ? engine::Edge::finish : engine::Edge::start;
    wait(link, from, made);
    // What need not be done does not hold up the rest of the job when it is left out.
    made.waived_if_left_out = from.importance != works::Importance::must && from.of != to.of;
    out_.network.links.push_back(made);
    out_.list_links.push_back(l);
  }
  if (followed_ != nullptr && out_.drive_home) nothing_after_home();
}

// Work reaches the drive home by way of clearing up and loading. Once those are done they hold up nothing any
// more, yet nobody works where he no longer is.
void Builder::nothing_after_home() {
  const auto home = std::find_if(list_.links.begin(), list_.links.end(), [&](const works::Link& link) {
    return index_.at(link.to) == *out_.drive_home;
  });
  if (home == list_.links.end()) return;
  for (std::size_t i = 0; i < list_.tasks.size(); ++i) {
    const works::Task& task = list_.tasks[i];
    if (task.operation == trade::Operation::drive) continue;
    engine::Link made;
    made.from = static_cast<engine::TaskId>(i);
    made.to = *out_.drive_home;
    made.from_edge = engine::Edge::finish;
    made.to_edge = engine::Edge::start;
    made.waived_if_left_out = task.importance != works::Importance::must;
    out_.network.links.push_back(made);
    out_.list_links.push_back(static_cast<std::size_t>(home - list_.links.begin()));
  }
}

void Builder::wait(const works::Link& link, const works::Task& from, engine::Link& made) {
  using works::Wait;
  const auto set = [&](ClockId clock, Amount amount) {
    made.least_clock = clock;
    made.least = amount;
  };
  const auto plain_hours = [&](base::Hours hours) { set(clocks_->plain(), reference(hours)); };
  switch (link.wait) {
    case Wait::none:
      break;
    case Wait::concrete_to_lay:
      set(clocks_->strip_wait(), ClockMaker::kWaitWhole);
      break;
    case Wait::concrete_to_lay_box:
      set(clocks_->box_wait(), ClockMaker::kWaitWhole);
      break;
    case Wait::concrete_to_lay_high:
      set(clocks_->high_wall_wait(), ClockMaker::kWaitWhole);
      break;
    case Wait::mortar_to_fill_half:
      set(clocks_->fill_half_wait(), ClockMaker::kWaitWhole);
      break;
    case Wait::mortar_to_fill:
      set(clocks_->fill_wait(), ClockMaker::kWaitWhole);
      break;
    case Wait::mortar_to_point:
      set(clocks_->stiffening(CoverKind::bare), from.fresh ? thumbprint(*from.fresh) : 0);
      break;
    case Wait::plate_to_strap:
      plain_hours(limits_.hours(limit::strap_wait));
      break;
    case Wait::bed_to_grout:
      plain_hours(limits_.hours(limit::grout_wait));
      break;
    case Wait::hours:
      plain_hours(link.hours);
      break;
  }
}

}  // namespace weatherstruck::programme
