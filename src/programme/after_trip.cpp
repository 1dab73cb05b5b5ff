#include "weatherstruck/programme/after_trip.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string_view>

#include "weatherstruck/engine/network.h"
#include "weatherstruck/programme/clocks.h"
#include "weatherstruck/programme/slots.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using trade::Operation;
using works::Wait;

constexpr std::chrono::days looks_ahead{20};

bool lays(Operation operation) {
  return operation == Operation::lay_below || operation == Operation::lay_facing ||
         operation == Operation::lay_common;
}

class Afterwards {
 public:
  Afterwards(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
             const trade::LimitValues& limits, const Plan& plan, Instant from, Instant to)
      : job_(job),
        list_(list),
        limits_(limits),
        plan_(plan),
        table_(make_slots(job.site, job.kit, weather, from, to)),
        maker_(job, limits, table_, network_) {}

  std::vector<MayBear> all() {
    for (const works::Part& part : job_.parts)
      part_done(works::name_of(part));
    return std::move(out_);
  }

 private:
  /// When the last of such work on the part was done.
  template <class Is>
  [[nodiscard]] std::optional<Instant> last(const works::Name& of, const Is& is) const {
    std::optional<Instant> when;
    for (const PlannedTask& planned : plan_.tasks) {
      const works::Task* task = list_.find(planned.task);
      if (task == nullptr || task->of != of || !planned.placed() || !is(task->operation)) continue;
      when = std::max(when.value_or(planned.finish()), planned.finish());
    }
    return when;
  }
  [[nodiscard]] std::optional<Instant> last(const works::Name& of, Operation operation) const {
    return last(of, [operation](Operation other) { return other == operation; });
  }
  [[nodiscard]] Wait wait_on_concrete(const works::Name& of) const {
    for (const works::Link& link : list_.links) {
      const works::Task* from = list_.find(link.from);
      if (from != nullptr && from->of == of && from->operation == Operation::pour && link.wait != Wait::none)
        return link.wait;
    }
    return Wait::concrete_to_lay;
  }
  engine::ClockId concrete_clock(Wait wait) {
    if (wait == Wait::concrete_to_lay_box) return maker_.box_wait();
    return wait == Wait::concrete_to_lay_high ? maker_.high_wall_wait() : maker_.strip_wait();
  }

  void add(MayBear::Load load, const works::Name& of, Instant worked, std::optional<Instant> from) {
    out_.push_back({load, of, worked, from, from.value_or(Instant::max()) > table_.forecast_until});
  }
  void by_clock(MayBear::Load load, const works::Name& of, Instant worked, engine::ClockId clock) {
    const engine::Tick when = network_.clocks[static_cast<std::size_t>(clock)].advance(
        table_.tick_up(worked), ClockMaker::kWaitWhole);
    add(load, of, worked, when == engine::never ? std::nullopt : std::optional(table_.at_tick(when)));
  }
  void by_hours(MayBear::Load load, const works::Name& of, Instant worked, std::string_view limit) {
    const std::chrono::seconds wait(std::lround(limits_.at(limit) * 3600));
    out_.push_back({load, of, worked, worked + wait, false});
  }

  void part_done(const works::Name& of) {
    using Load = MayBear::Load;
    const auto laid = last(of, lays);
    const auto stepped = last(of, Operation::form_step);
    const auto poured = last(of, Operation::pour);
    if (poured && !laid && !stepped)
      by_clock(Load::bricks, of, *poured, concrete_clock(wait_on_concrete(of)));
    const auto walked = last(of, [](Operation operation) {
      return operation == Operation::lay_flags || operation == Operation::grout_flags ||
             operation == Operation::form_step;
    });
    if (walked) by_hours(Load::feet, of, *walked, trade::limit::flags_foot_wait);
    if (laid) {
      by_clock(Load::soil_half, of, *laid, maker_.fill_half_wait());
      by_clock(Load::soil, of, *laid, maker_.fill_wait());
    }
    if (const auto bedded = last(of, Operation::bed_plate))
      by_hours(Load::roof, of, *bedded, trade::limit::plate_load_wait);
  }

  const works::Job& job_;
  const works::TaskList& list_;
  const trade::LimitValues& limits_;
  const Plan& plan_;
  SlotTable table_;
  engine::Network network_;
  ClockMaker maker_;
  std::vector<MayBear> out_;
};

}  // namespace

std::vector<MayBear> may_bear(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
                              const trade::LimitValues& limits, const Plan& plan) {
  std::optional<Instant> first;
  std::optional<Instant> last;
  for (const PlannedTask& task : plan.tasks) {
    if (!task.placed()) continue;
    first = std::min(first.value_or(task.start()), task.start());
    last = std::max(last.value_or(task.finish()), task.finish());
  }
  if (!first) return {};
  const auto whole = [](Instant t) { return std::chrono::floor<std::chrono::hours>(t); };
  return Afterwards(job, list, weather, limits, plan, whole(*first), whole(*last) + looks_ahead).all();
}

}  // namespace weatherstruck::programme
