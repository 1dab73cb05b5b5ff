#include "weatherstruck/programme/read_back.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "weatherstruck/works/spoken.h"

namespace weatherstruck::programme {
namespace {

using engine::Blocker;
using engine::Tick;

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

class ReadBack {
 public:
  ReadBack(const PlanRequest& request, const Programme& programme, const engine::Decoded& decoded)
      : request_(request),
        list_(request.list),
        programme_(programme),
        decoded_(decoded),
        net_(programme.network) {}

  Plan read() {
    plan_.horizon_from = programme_.table.begin_time();
    plan_.horizon_to = programme_.table.end_time();
    plan_.forecast_until = programme_.table.forecast_until;
    plan_.assumptions = programme_.table.assumptions;
    for (std::size_t i = 0; i < list_.tasks.size(); ++i)
      plan_.tasks.push_back(task(i));
    trip();
    covers();
    canopy();
    waits();
    return std::move(plan_);
  }

 private:
  [[nodiscard]] base::Instant moment(Tick tick) const { return programme_.table.at_tick(tick); }
  [[nodiscard]] Span span(Tick from, Tick to) const { return {moment(from), moment(to)}; }

  PlannedTask task(std::size_t i) {
    const engine::Placement& placement = decoded_.schedule.tasks[i];
    const WayMeaning& meaning = programme_.ways[i][at(placement.way)];
    const engine::Way& way = net_.tasks[i].ways[at(placement.way)];
    PlannedTask planned;
    planned.task = list_.tasks[i].name;
    planned.present = placement.present;
    if (!meaning.key.empty()) planned.way = meaning.key;
    planned.way_title = meaning.title;
    planned.people = meaning.people;
    engine::Amount done = 0;
    for (const engine::Run& run : placement.runs) {
      done += run.done;
      PlannedRun made;
      made.span = span(run.start, run.end);
      made.share = static_cast<double>(run.done) / static_cast<double>(way.amount);
      if (!list_.tasks[i].courses.empty()) made.courses_after = courses_after(list_.tasks[i], done, way);
      made.under_canopy = meaning.under_canopy;
      for (Tick t = run.start; t < run.end; t += kTicksPerSlot)
        made.floodlit = made.floodlit || slot(t).light == trade::Light::floodlit;
      made.floodlit = made.floodlit || slot(run.end - 1).light == trade::Light::floodlit;
      made.beyond_forecast = made.span.to > plan_.forecast_until;
      planned.runs.push_back(made);
    }
    planned.reasons = reasons(i, way);
    // What was begun and finds no time to be finished is left out as well.
    if (placement.present && !placement.has(net_.tasks[i], engine::Edge::finish))
      plan_.left_out.push_back(planned.task);
    return planned;
  }

  static int courses_after(const works::Task& task, engine::Amount done, const engine::Way& way) {
    if (done >= way.amount) return static_cast<int>(task.courses.size());
    return static_cast<int>(std::upper_bound(way.breaks.begin(), way.breaks.end(), done) -
                            way.breaks.begin());
  }
  [[nodiscard]] const Slot& slot(Tick t) const { return programme_.table.slots[at(net_.slot_of(t))]; }

  // ---------------------------------------------------------------------------------------------- reasons

  std::vector<Reason> reasons(std::size_t i, const engine::Way& way) {
    std::vector<Reason> list;
    for (const Blocker& blocker : decoded_.why[i]) {
      Reason reason = meaning_of(blocker, i, way);
      reason.span = span(blocker.from, std::min(blocker.to, net_.horizon()));
      if (!list.empty() && list.back().code == reason.code && list.back().text == reason.text &&
          list.back().span.to >= reason.span.from) {
        list.back().span.to = std::max(list.back().span.to, reason.span.to);
      } else {
        list.push_back(std::move(reason));
      }
    }
    return list;
  }

  Reason meaning_of(const Blocker& blocker, std::size_t i, const engine::Way& way) {
    switch (blocker.kind) {
      case Blocker::Kind::link: {
        if (blocker.id < 0) return {{}, "wait", "would end before the work that it must not outrun"};
        const works::Link& link = list_.links[programme_.list_links[at(blocker.id)]];
        const works::Task* from = list_.find(link.from);
        return {{},
                link.wait == works::Wait::none ? "after" : "wait",
                fmt::format("{}: {}", link.wait == works::Wait::none ? "comes after" : "waits for",
                            from == nullptr ? link.from : from->title),
                link.from};
      }
      case Blocker::Kind::cure:
        return {{}, "wait", "the work below is still soft"};
      case Blocker::Kind::clock: {
        const Cause& cause = programme_.causes[blocker.cause];
        return {{},
                cause.code.empty() ? "stopped" : cause.code,
                cause.text.empty() ? "cannot go on" : cause.text};
      }
      case Blocker::Kind::resource:
        return busy_with(blocker, i);
      case Blocker::Kind::bucket:
        return {{}, "day-full", "the day's hours are used up"};
      case Blocker::Kind::state:
        return {{}, "canopy", "the canopy cannot stand there: wind, or it is over another place"};
      case Blocker::Kind::guard:
        return {{},
                "stiffening",
                at(blocker.id) < way.guards.size()
                    ? "its joints would not be hard enough to strike before dark"
                    : "would not be safe in time"};
      case Blocker::Kind::keep:
        return {{},
                "cover",
                fmt::format("{} could not be kept safe afterwards", programme_.keeps[at(blocker.id)].title)};
      case Blocker::Kind::span:
        return {{}, "span", "would be under way too long"};
      case Blocker::Kind::short_run:
        return {{}, "short-run", "too short a time to set up and get to a place where it may stop"};
      case Blocker::Kind::order:
        return {{}, "order", "put off so that what follows comes in time"};
    }
    return {};
  }

  // Whoever was at work in the first of the blocked ticks.
  Reason busy_with(const Blocker& blocker, std::size_t self) const {
    for (std::size_t j = 0; j < list_.tasks.size(); ++j) {
      if (j == self) continue;
      for (const engine::Run& run : decoded_.schedule.tasks[j].runs) {
        if (run.start <= blocker.from && blocker.from < run.end)
          return {{}, "person", fmt::format("busy with: {}", list_.tasks[j].title), list_.tasks[j].name};
      }
    }
    const Slot& when = slot(blocker.from);
    const auto& capacity = net_.resources[at(blocker.id)].capacity;
    if (capacity[at(net_.slot_of(blocker.from))] == 0) {
      const bool before = when.clock < std::chrono::hours(12);
      return {{}, "person", before ? "before his day begins" : "after his day has ended"};
    }
    return {{}, "person", "busy covering up or with the canopy"};
  }

  // ------------------------------------------------------------------------------------------ trip, covers

  void trip() {
    if (!programme_.drive_home) return;
    const engine::Placement& drive = decoded_.schedule.tasks[at(*programme_.drive_home)];
    if (!drive.has(net_.tasks[at(*programme_.drive_home)], engine::Edge::finish)) return;
    plan_.leaves_site = moment(drive.start());
    plan_.home = moment(drive.finish());
    plan_.in_hand = request_.job.trip.home_by - *plan_.home;
  }

  void covers() {
    for (std::size_t k = 0; k < programme_.keeps.size(); ++k) {
      const KeepMeaning& meaning = programme_.keeps[k];
      for (const engine::Spell& spell : decoded_.schedule.spells[k]) {
        PlannedCover cover;
        cover.part = meaning.part;
        cover.title = meaning.title;
        cover.concrete = meaning.concrete;
        cover.kind = meaning.ways[at(spell.way)];
        cover.area = meaning.area;
        cover.span = span(spell.from, spell.to);
        cover.stays_on = plan_.leaves_site && cover.span.to > *plan_.leaves_site;
        plan_.covers.push_back(std::move(cover));
      }
    }
    std::stable_sort(plan_.covers.begin(), plan_.covers.end(),
                     [](const PlannedCover& a, const PlannedCover& b) { return a.span.from < b.span.from; });
  }

  void canopy() {
    if (net_.statefuls.empty()) return;
    const auto& changes = decoded_.schedule.changes.front();
    const auto& times = net_.statefuls.front().change;
    int before = 0;
    for (std::size_t c = 0; c < changes.size(); ++c) {
      const int state = changes[c].state;
      if (state != 0) {
        CanopySitting sitting;
        sitting.part = programme_.canopy_places[at(state - 1)];
        sitting.pitch_from = moment(changes[c].at);
        sitting.over.from = moment(changes[c].at + times[at(before)][at(state)]);
        const bool last = c + 1 == changes.size();
        sitting.over.to = last ? plan_.horizon_to : moment(changes[c + 1].at);
        sitting.struck_by =
            last ? plan_.horizon_to : moment(changes[c + 1].at + times[at(state)][at(changes[c + 1].state)]);
        plan_.canopy.push_back(std::move(sitting));
      }
      before = state;
    }
  }

  void waits() {
    for (std::size_t l = 0; l < net_.links.size(); ++l) {
      const engine::Link& link = net_.links[l];
      const works::Link& listed = list_.links[programme_.list_links[l]];
      const engine::Placement& from = decoded_.schedule.tasks[at(link.from)];
      const engine::Placement& to = decoded_.schedule.tasks[at(link.to)];
      if (listed.wait == works::Wait::none || link.least_clock == engine::no_clock || !from.placed() ||
          !to.placed() || !from.has(net_.tasks[at(link.from)], link.from_edge))
        continue;
      const Tick left = link.from_edge == engine::Edge::start ? from.start() : from.finish();
      const Tick ready =
          std::min(net_.horizon(), net_.clocks[at(link.least_clock)].advance(left, link.least));
      PlannedWait wait;
      wait.part = list_.tasks[at(link.from)].part;
      wait.what = works::spoken(list_.tasks[at(link.from)].part);
      wait.next = listed.to;
      wait.wait = listed.wait;
      wait.span = span(left, ready);
      plan_.waits.push_back(std::move(wait));
    }
    std::stable_sort(plan_.waits.begin(), plan_.waits.end(),
                     [](const PlannedWait& a, const PlannedWait& b) { return a.span.from < b.span.from; });
  }

  const PlanRequest& request_;
  const works::TaskList& list_;
  const Programme& programme_;
  const engine::Decoded& decoded_;
  const engine::Network& net_;
  Plan plan_;
};

}  // namespace

Plan read_back(const PlanRequest& request, const Programme& programme, const engine::ListPlan& listed) {
  Plan plan = ReadBack(request, programme, listed.best).read();
  for (std::size_t turn = 0; turn < listed.genes.order.size(); ++turn) {
    const std::size_t i = at(listed.genes.order[turn]);
    plan.tasks[i].turn = static_cast<int>(turn);
    if (const Tick held = listed.genes.not_before[i]; held > 0)
      plan.tasks[i].held_until = programme.table.at_tick(held);
  }
  plan.schedules = listed.schedules;
  return plan;
}

}  // namespace weatherstruck::programme
