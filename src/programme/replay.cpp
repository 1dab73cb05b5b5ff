#include "replay.h"

#include <algorithm>
#include <cstdint>
#include <tuple>

#include "plan_genes.h"
#include "weatherstruck/engine/check.h"
#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"

namespace weatherstruck::programme {
namespace {

using engine::Tick;

constexpr int most_repairs = 4;
// All the turns of a morning together have to be found in the time of a blink: 40 ms.
constexpr int most_decodes = 20;
constexpr Tick ticks_an_hour = 12;

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

class Replayer {
 public:
  explicit Replayer(const ReplayRequest& request)
      : r_(request),
        programme_(build_programme(request.job, request.list, request.weather, request.limits, request.from,
                                   &request.followed, Causes::untold)),
        net_(programme_.network),
        decoder_(net_) {}

  Replay replay() {
    const engine::Genes as_planned = genes_of(r_.followed, programme_, 0);
    try_it(as_planned);
    try_it(under_canopy(as_planned));
    engine::Genes free = as_planned;
    std::fill(free.way.begin(), free.way.end(), -1);
    keep_hosts(free, as_planned);
    try_it(std::move(free));
    if (late()) {
      const engine::Genes first = best_genes_;  // a copy: the best moves on meanwhile
      other_ways(first);
      for (const engine::Genes& all : {best_genes_, as_planned}) {
        if (!late()) break;
        const engine::Genes fewer = without_what_may_go(all);
        try_it(fewer);
        other_ways(fewer);
      }
      bring_back(as_planned);
    }
    return {read(), engine::check(net_, best_.schedule).empty()};
  }

 private:
  // As the engine values plans, but hours for what must be done are worth the trouble of a canopy or an
  // evening: who has lost some already does not give away more.
  [[nodiscard]] bool better(const engine::Decoded& a, const engine::Decoded& b) const {
    const auto rank = [&](const engine::Decoded& d) {
      std::int64_t musts = 0;
      for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
        const engine::Placement& placement = d.schedule.tasks[i];
        if (net_.tasks[i].importance == engine::Importance::must && placement.placed())
          musts += placement.finish();
      }
      const engine::Value& v = d.value;
      return std::make_tuple(v.must_unplaced, v.must_late, v.should_unplaced, v.may_unplaced, v.other_late,
                             musts / ticks_an_hour, v.cost, v.finish);
    };
    return rank(a) < rank(b);
  }
  [[nodiscard]] bool late() const { return best_.value.must_unplaced > 0 || best_.value.must_late > 0; }

  [[nodiscard]] engine::Genes under_canopy(engine::Genes genes) const {
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      const auto& ways = programme_.ways[i];
      const WayMeaning& planned = ways[at(genes.way[i])];
      for (std::size_t w = 0; w < ways.size(); ++w) {
        if (ways[w].under_canopy && ways[w].key == planned.key && ways[w].people == planned.people)
          genes.way[i] = static_cast<int>(w);
      }
    }
    return genes;
  }

  // Joints struck at once instead of pointed later, or the other way round, until it is in time.
  void other_ways(const engine::Genes& from) {
    std::vector<engine::TaskId> hosts;
    for (const engine::Task& task : net_.tasks) {
      if (task.presence && std::find(hosts.begin(), hosts.end(), task.presence->task) == hosts.end())
        hosts.push_back(task.presence->task);
    }
    for (const engine::TaskId host : hosts) {
      const engine::Task& task = net_.tasks[at(host)];
      if (!task.history.runs.empty()) continue;
      for (int w = 0; w < static_cast<int>(task.ways.size()) && late(); ++w) {
        if (from.way[at(host)] == w) continue;
        engine::Genes genes = best_genes_.left_out == from.left_out ? best_genes_ : from;
        genes.way[at(host)] = w;
        try_it(std::move(genes));
      }
    }
  }

  [[nodiscard]] bool may_be_left(std::size_t i) const {
    return net_.tasks[i].importance != engine::Importance::must && net_.tasks[i].history.runs.empty();
  }

  // What need not be done goes, all of it, where what must be done would be late ...
  [[nodiscard]] engine::Genes without_what_may_go(engine::Genes genes) const {
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      if (may_be_left(i)) genes.left_out[i] = 1;
    }
    return genes;
  }
  // ... and what the plan has of it comes back, a piece at a time, where it does no harm.
  void bring_back(const engine::Genes& planned) {
    for (const engine::Importance level : {engine::Importance::should, engine::Importance::may}) {
      std::vector<int> tried;
      for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
        const int group = net_.tasks[i].group;
        if (net_.tasks[i].importance != level || best_genes_.left_out[i] == 0 || planned.left_out[i] != 0 ||
            std::find(tried.begin(), tried.end(), group) != tried.end()) {
          continue;
        }
        if (group >= 0) tried.push_back(group);
        engine::Genes genes = best_genes_;
        for (std::size_t j = 0; j < net_.tasks.size(); ++j) {
          const bool same = j == i || (group >= 0 && net_.tasks[j].group == group);
          if (same && net_.tasks[j].importance == level) genes.left_out[j] = planned.left_out[j];
        }
        try_it(std::move(genes));
      }
    }
  }

  // Where other work hangs on the way, "whichever ends first" would always put that work off.
  void keep_hosts(engine::Genes& genes, const engine::Genes& planned) const {
    for (const engine::Task& task : net_.tasks) {
      if (task.presence) genes.way[at(task.presence->task)] = planned.way[at(task.presence->task)];
    }
  }

  // Keeps it if it is better; a link that may not take too long is met by beginning its first task later.
  void try_it(engine::Genes genes) {
    for (int round = 0; round <= most_repairs && made_ < most_decodes; ++round) {
      ++made_;
      const engine::Decoded& decoded = decoder_.decode(genes);
      const int missed = decoded.missed_link;
      const Tick missed_at = decoded.missed_at;
      std::optional<engine::Placement> from;
      if (missed >= 0) from = decoded.schedule.tasks[at(net_.links[at(missed)].from)];
      if (!have_ || better(decoded, best_)) {
        best_ = decoded;
        best_genes_ = genes;
        have_ = true;
      }
      if (!from || !from->placed()) return;
      const engine::Link& link = net_.links[at(missed)];
      const Tick event = link.from_edge == engine::Edge::start ? from->start() : from->finish();
      const Tick soonest = net_.clocks[at(link.most_clock)].retreat(missed_at, link.most + 1) + 1;
      Tick& held = genes.not_before[at(link.from)];
      held = std::max(held + 1, from->start() + std::max(1, soonest - event));
      if (held >= net_.horizon()) return;
    }
  }

  // ------------------------------------------------------------------------------------------------- read

  [[nodiscard]] base::Instant moment(Tick tick) const { return programme_.table.at_tick(tick); }

  Plan read() {
    Plan plan;
    plan.horizon_from = programme_.table.begin_time();
    plan.horizon_to = programme_.table.end_time();
    plan.forecast_until = programme_.table.forecast_until;
    for (std::size_t i = 0; i < net_.tasks.size(); ++i) {
      plan.tasks.push_back(task(i));
      if (plan.tasks.back().present && !plan.tasks.back().placed())
        plan.left_out.push_back(plan.tasks.back().task);
    }
    if (programme_.drive_home) {
      const engine::Placement& drive = best_.schedule.tasks[at(*programme_.drive_home)];
      if (drive.placed()) {
        plan.leaves_site = moment(drive.start());
        plan.home = moment(drive.finish());
        plan.in_hand = r_.job.trip.home_by - *plan.home;
      }
    }
    covers(plan);
    canopy(plan);
    return plan;
  }

  [[nodiscard]] PlannedTask task(std::size_t i) const {
    const engine::Placement& placement = best_.schedule.tasks[i];
    const engine::Way& way = net_.tasks[i].ways[at(placement.way)];
    const WayMeaning& meaning = programme_.ways[i][at(placement.way)];
    PlannedTask out;
    out.task = r_.list.tasks[i].name;
    out.present = placement.present;
    if (!meaning.key.empty()) out.way = meaning.key;
    out.people = meaning.people;
    engine::Amount done = 0;
    for (const engine::Run& run : placement.runs) {
      done += run.done;
      PlannedRun made;
      made.span = {moment(run.start), moment(run.end)};
      made.share = static_cast<double>(run.done) / static_cast<double>(way.amount);
      made.under_canopy = meaning.under_canopy;
      const auto& courses = r_.list.tasks[i].courses;
      if (done >= way.amount) {
        made.courses_after = static_cast<int>(courses.size());
      } else if (!courses.empty()) {
        made.courses_after = static_cast<int>(std::upper_bound(way.breaks.begin(), way.breaks.end(), done) -
                                              way.breaks.begin());
      }
      out.runs.push_back(made);
    }
    return out;
  }

  void covers(Plan& plan) const {
    for (std::size_t k = 0; k < programme_.keeps.size(); ++k) {
      const KeepMeaning& meaning = programme_.keeps[k];
      for (const engine::Spell& spell : best_.schedule.spells[k]) {
        plan.covers.push_back({meaning.part,
                               meaning.title,
                               meaning.concrete,
                               meaning.ways[at(spell.way)],
                               meaning.area,
                               {moment(spell.from), moment(spell.to)},
                               false});
        plan.covers.back().stays_on = plan.leaves_site && moment(spell.to) > *plan.leaves_site;
      }
    }
    std::stable_sort(plan.covers.begin(), plan.covers.end(),
                     [](const PlannedCover& a, const PlannedCover& b) { return a.span.from < b.span.from; });
  }

  void canopy(Plan& plan) const {
    if (net_.statefuls.empty()) return;
    const auto& changes = best_.schedule.changes.front();
    const auto& times = net_.statefuls.front().change;
    int before = 0;
    for (std::size_t c = 0; c < changes.size(); ++c) {
      const int state = changes[c].state;
      if (state != 0) {
        const bool last = c + 1 == changes.size();
        plan.canopy.push_back({programme_.canopy_places[at(state - 1)],
                               moment(changes[c].at),
                               {moment(changes[c].at + times[at(before)][at(state)]),
                                last ? plan.horizon_to : moment(changes[c + 1].at)},
                               last
                                   ? plan.horizon_to
                                   : moment(changes[c + 1].at + times[at(state)][at(changes[c + 1].state)])});
      }
      before = state;
    }
  }

  const ReplayRequest& r_;
  const Programme programme_;
  const engine::Network& net_;
  engine::StandingDecoder decoder_;
  engine::Decoded best_;
  engine::Genes best_genes_;
  bool have_ = false;
  int made_ = 0;
};

}  // namespace

Replay replay_from(const ReplayRequest& request) {
  return Replayer(request).replay();
}

}  // namespace weatherstruck::programme
