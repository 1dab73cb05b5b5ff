#include "weatherstruck/programme/build.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/mortar.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::programme {
namespace {

namespace limit = trade::limit;
using engine::Amount;
using engine::ClockId;
using engine::Tick;
using trade::CoverKind;
using trade::Operation;
using works::FreshWork;

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

constexpr double kTicksPerHour = 12;

// Person-ticks of an amount of hours, at least one unit so that every task takes some time.
Amount person_ticks(base::Hours hours) {
  return std::max<Amount>(1, std::llround(hours.value() * kTicksPerHour * kPersonTick));
}
Tick ticks_up(double minutes) {
  return static_cast<Tick>(std::ceil(minutes / static_cast<double>(kTick.count())));
}
// Areas are held in tenths of a square metre.
int tenths(base::SquareMetres area, bool up) {
  return static_cast<int>(up ? std::ceil(area.value() * 10 - 1e-9) : std::floor(area.value() * 10 + 1e-9));
}

bool is_brickwork(FreshWork::Kind kind) {
  return kind == FreshWork::Kind::mortar_below || kind == FreshWork::Kind::mortar_facing ||
         kind == FreshWork::Kind::pointing || kind == FreshWork::Kind::plate_bed;
}
// Work that goes on under the canopy while it rains.
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

class Builder {
 public:
  Builder(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
          const trade::LimitValues& limits, base::Instant now, const Plan* followed)
      : job_(job), list_(list), limits_(limits), followed_(followed) {
    const auto from = std::chrono::floor<std::chrono::hours>(job.trip.leave_home);
    const auto to = std::chrono::ceil<std::chrono::hours>(job.trip.home_by) + std::chrono::hours(72);
    out_.table = make_slots(job.site, job.kit, weather, from, to);
    now_ = std::max(now, job.trip.leave_home);
    engine::Network& net = out_.network;
    net.ticks_per_slot = kTicksPerSlot;
    net.slots = static_cast<int>(out_.table.slots.size());
    for (const Slot& slot : out_.table.slots)
      net.day_of_slot.push_back(slot.day);
  }

  Programme build() {
    ClockMaker clocks(job_, limits_, out_.table, out_.network);
    clocks_ = &clocks;
    people();
    canopy();
    stocks();
    for (std::size_t i = 0; i < list_.tasks.size(); ++i)
      index_[list_.tasks[i].name] = static_cast<engine::TaskId>(i);
    for (const works::Task& task : list_.tasks)
      add_task(task);
    keeps();
    links();
    if (followed_ != nullptr) history();
    out_.causes = clocks.causes();
    return std::move(out_);
  }

 private:
  [[nodiscard]] int crew() const { return static_cast<int>(job_.crew.size()); }
  engine::ResourceId resource(std::string name, std::vector<int> capacity) {
    out_.network.resources.push_back({std::move(name), std::move(capacity)});
    return static_cast<engine::ResourceId>(out_.network.resources.size() - 1);
  }
  [[nodiscard]] std::vector<int> always(int quantity) const {
    return std::vector<int>(at(out_.network.slots), quantity);
  }

  void people() {
    engine::Network& net = out_.network;
    // Hands are there in the working day and an hour round it, for covers; work itself is held to his hours
    // by its clock.
    std::vector<int> hands;
    const auto from = job_.trip.working_day.from - std::chrono::minutes(30);
    const auto to = job_.trip.working_day.to + std::chrono::minutes(60);
    for (const Slot& slot : out_.table.slots)
      hands.push_back(slot.clock >= from && slot.clock < to ? crew() : 0);
    hands_ = resource("hands", std::move(hands));
    out_.hands = hands_;
    const auto layers = std::count_if(job_.crew.begin(), job_.crew.end(),
                                      [](const works::Person& p) { return p.lays_bricks; });
    bricklayers_ = resource("bricklayers", always(static_cast<int>(layers)));
    awake_ = resource("people on the road or at work", always(crew()));
    const int days = net.day_of_slot.back() + 1;
    const auto day_limit = [&](base::Hours hours) {
      return std::vector<Tick>(at(days),
                               static_cast<Tick>(std::llround(hours.value() * kTicksPerHour)) * crew());
    };
    net.buckets.push_back({hands_, day_limit(job_.trip.longest_day)});
    net.buckets.push_back({awake_, day_limit(limits_.hours(limit::day_red_line))});
  }

  void canopy() {
    if (!job_.kit.canopy) return;
    const works::Canopy& canopy = *job_.kit.canopy;
    for (const works::Task& task : list_.tasks) {
      if (can_go_under_canopy(task) && std::find(out_.canopy_places.begin(), out_.canopy_places.end(),
                                                 task.of) == out_.canopy_places.end()) {
        out_.canopy_places.push_back(task.of);
      }
    }
    const std::size_t states = out_.canopy_places.size() + 1;
    engine::Stateful stateful;
    stateful.name = "canopy";
    stateful.change.assign(states,
                           std::vector<Tick>(states, ticks_up(static_cast<double>(canopy.move.count()))));
    for (std::size_t s = 1; s < states; ++s) {
      stateful.change[0][s] = ticks_up(static_cast<double>(canopy.pitch.count()));
      stateful.change[s][0] = ticks_up(static_cast<double>(canopy.strike.count()));
    }
    const double gust_limit = std::min(canopy.gust_limit.value(), limits_.speed(limit::canopy_gust).value());
    const double night_limit = std::min(gust_limit, limits_.speed(limit::canopy_overnight_gust).value());
    const auto& slots = out_.table.slots;
    std::vector<std::uint8_t> allowed(slots.size());
    for (std::size_t i = 0; i < slots.size();) {
      const bool night = at_night(slots[i]);
      std::size_t end = i;
      double worst = 0;
      while (end < slots.size() && at_night(slots[end]) == night)
        worst = std::max(worst, slots[end++].gust.value());
      for (; i < end; ++i)
        allowed[i] = night ? worst < night_limit : slots[i].gust.value() < gust_limit;
    }
    stateful.allowed.assign(states, allowed);
    stateful.allowed[0].assign(slots.size(), 1);
    stateful.hands = {{hands_, 1}, {awake_, 1}};
    out_.network.statefuls.push_back(std::move(stateful));
  }
  [[nodiscard]] bool at_night(const Slot& slot) const {
    return slot.clock < job_.trip.working_day.from || slot.clock >= job_.trip.working_day.to;
  }

  void stocks() {
    hessian_ = resource("hessian", always(tenths(job_.kit.hessian, false)));
    sheet_ = resource("sheet", always(tenths(job_.kit.sheet, false)));
    mats_ = resource("mats", always(tenths(job_.kit.mats, false)));
  }

  // ------------------------------------------------------------------------------------------------ tasks

  void add_task(const works::Task& task) {
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

  void drive(const works::Task& task, engine::TaskId id, engine::Task& made,
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
    } else {
      out_.drive_out = id;
    }
    made.ways.push_back(std::move(way));
    meanings.push_back({"", task.title, false, crew()});
  }

  void add_way(const works::Task& task, const works::TaskWay& how, int people, bool under_canopy,
               engine::Task& made, std::vector<WayMeaning>& meanings) {
    const trade::OperationRow& row = trade::row_for(task.operation);
    engine::Way way;
    way.clock = task.operation == Operation::fetch ? clocks_->merchant()
                                                   : clocks_->work(task.operation, task.noisy, under_canopy);
    // Two do not do twice as much as one: a tenth is lost to standing in each other's way (assumption).
    const double shared = people > task.people ? static_cast<double>(people) / 1.1 / task.people : 1.0;
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
    // The canopy is work of its own and in the way: not without need.
    way.costs.push_back(under_canopy ? engine::Cost{clocks_->ticks(), 1} : engine::Cost{clocks_->wet(), 1});
    made.ways.push_back(std::move(way));
    meanings.push_back({how.key, how.title, under_canopy, people});
  }

  static std::vector<Amount> course_breaks(const works::Task& task, Amount whole) {
    std::vector<Amount> breaks;
    double laid = 0;
    for (const double course : task.courses) {
      laid += course;
      const Amount stop = std::llround(static_cast<double>(whole) * laid / task.amount);
      if (stop > (breaks.empty() ? 0 : breaks.back()) && stop < whole) breaks.push_back(stop);
    }
    return breaks;
  }

  Amount thumbprint(const FreshWork& fresh) const {
    const bool slow = fresh.kind == FreshWork::Kind::mortar_below;
    const auto hours = matter::thumbprint_hours(slow ? matter::Suction::slow : matter::Suction::quick).usual;
    return reference(hours);
  }
  static Amount reference(base::Hours hours) {
    return std::llround(hours.value() * kTicksPerHour * kReferenceTick);
  }

  // ------------------------------------------------------------------------------------------------ keeps

  struct KeepKey {
    works::Name part;
    int group;  // 0 concrete, 1 brickwork, 2 flags
    friend bool operator<(const KeepKey& a, const KeepKey& b) {
      return a.part != b.part ? a.part < b.part : a.group < b.group;
    }
  };
  // Parts as written are the pieces that are left out or done as one.
  int group_of(const works::Name& part) {
    if (part.empty()) return -1;
    return groups_.emplace(part, static_cast<int>(groups_.size())).first->second;
  }
  static int group_of(FreshWork::Kind kind) {
    if (kind == FreshWork::Kind::concrete) return 0;
    return is_brickwork(kind) ? 1 : 2;
  }

  void keeps() {
    std::map<KeepKey, engine::KeepId> made;
    for (std::size_t i = 0; i < list_.tasks.size(); ++i) {
      const works::Task& task = list_.tasks[i];
      if (!task.fresh) continue;
      const KeepKey key{task.part, group_of(task.fresh->kind)};
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
      out_.network.tasks[i].touches.push_back({found->second, 1, false});
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
      const auto strip = made.find({from->part, group_of(from->fresh->kind)});
      if (strip == made.end()) continue;
      // With the lines on it he is building: what follows is walls, and they end the care of the strip.
      touch(link.to, strip->second);
      if (!to->fresh) bares_strip_.insert(link.to);
    }
  }

  static bool on_strip(works::Wait wait) {
    return wait == works::Wait::concrete_to_lay || wait == works::Wait::concrete_to_lay_box ||
           wait == works::Wait::concrete_to_lay_high;
  }

  void touch(const works::Name& task, engine::KeepId keep) {
    auto& touches = out_.network.tasks[at(index_.at(task))].touches;
    const bool known = std::any_of(touches.begin(), touches.end(),
                                   [&](const engine::Touch& touch) { return touch.keep == keep; });
    if (known) return;
    touches.push_back({keep, 0, true});
    // ... but nobody lays a young strip bare in a frost.
    for (engine::Way& way : out_.network.tasks[at(index_.at(task))].ways) {
      way.guards.push_back({clocks_->plain(), reference(base::Hours(3)),
                            clocks_->below(base::Celsius(0), CoverKind::bare), 0, true});
    }
  }

  void finish_keep(engine::KeepId id, int group) {
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

    bool slow = false;
    for (const std::size_t i : laid_by_[id])
      slow = slow || list_.tasks[i].fresh->kind == FreshWork::Kind::mortar_below;
    const auto thumb = matter::thumbprint_hours(slow ? matter::Suction::slow : matter::Suction::quick).usual;
    const auto most_rain =
        static_cast<Amount>(std::llround(limits_.depth(limit::soft_joint_inspect).value() * 1000));
    // Putting the covers on may run a little into the dark.
    constexpr Amount dusk = 12;
    const base::Hours nights =
        group == 0 ? base::Hours(24 * limits_.at(limit::strip_frost_nights)) : base::Hours(24);
    keep.hazards.push_back({"rain on it while soft",
                            group == 0 ? reference(matter::initial_set(base::Celsius(20))) : reference(thumb),
                            most_rain});
    keep.hazards.push_back({"frost before it is safe", frost_amount(group), 0});
    keep.hazards.push_back({"a night in the open", reference(nights), dusk});
    for (const CoverKind kind : meaning.ways) {
      const trade::CoverRow& row = trade::row_for(kind);
      engine::CoverWay way;
      way.name = row.title;
      way.cure = group == 0 ? clocks_->strength(kind) : clocks_->stiffening(kind);
      way.until = {group == 0 ? clocks_->setting(kind) : clocks_->stiffening(kind),
                   group == 0   ? clocks_->plain()
                   : group == 1 ? clocks_->mortar_frost_safety(kind)
                                : clocks_->plain(),
                   clocks_->plain()};
      // A flag bed is covered in the cold before it freezes.
      const bool flags_bare = group == 2 && kind == CoverKind::bare;
      const base::Celsius least =
          flags_bare ? limits_.temperature(limit::flags_keep_above) : base::Celsius(0);
      way.exposure = {clocks_->rain_through(kind, group == 0), clocks_->below(least, kind),
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
  Amount frost_amount(int group) const {
    if (group == 0) return reference(base::Hours(24 * limits_.at(limit::strip_frost_nights)));
    if (group == 1) return reference(matter::mortar_frost_safe_hours());
    return reference(limits_.hours(limit::flags_keep_hours));
  }

  // Only where a part is higher than a day may lay: otherwise the limit can never bind.
  void green_height(engine::KeepId id) {
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

  // ---------------------------------------------------------------------------------------------- history

  void history() {
    out_.network.now = std::clamp(out_.table.tick_up(now_), 0, out_.network.horizon());
    for (const PlannedTask& planned : followed_->tasks) {
      const auto id = index_.find(planned.task);
      if (id == index_.end() || !planned.placed() || planned.start() >= now_) continue;
      engine::Task& task = out_.network.tasks[at(id->second)];
      const auto& ways = out_.ways[at(id->second)];
      for (std::size_t w = ways.size(); w-- > 0;) {
        const bool same = ways[w].key == planned.way.value_or("") &&
                          ways[w].under_canopy == planned.runs.front().under_canopy;
        if (same) task.history.way = static_cast<int>(w);
      }
      add_past_runs(planned, task);
    }
    for (std::size_t k = 0; k < out_.network.keeps.size(); ++k)
      excuse_the_past(static_cast<engine::KeepId>(k));
  }

  // What was laid in good faith and can by no cover be kept within its limit any more must not stop the rest
  // of the plan: the least that it can suffer is allowed, and told as a danger by whoever reads the plan
  // back.
  void excuse_the_past(engine::KeepId id) {
    Tick stop = -1;
    for (const std::size_t i : laid_by_[id]) {
      for (const engine::Run& run : out_.network.tasks[i].history.runs)
        stop = std::max(stop, run.end);
    }
    if (stop < 0) return;
    engine::Keep& keep = out_.network.keeps[at(id)];
    const Tick now = std::max(stop, out_.network.now);
    for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
      Amount least = std::numeric_limits<Amount>::max();
      for (const engine::CoverWay& way : keep.ways) {
        if (way.exposure[h] == engine::no_clock) {
          least = 0;
          continue;
        }
        const engine::Clock& until = out_.network.clocks[at(way.until[h])];
        const Amount left = keep.hazards[h].until - until.passed(stop, now);
        const Tick over = std::min(out_.network.horizon(), until.advance(now, left));
        least = std::min(least, out_.network.clocks[at(way.exposure[h])].passed(now, over));
      }
      keep.hazards[h].most_for_past = least;
    }
  }

  void add_past_runs(const PlannedTask& planned, engine::Task& task) const {
    const engine::Way& way = task.ways[at(task.history.way)];
    const Tick now = out_.network.now;
    auto& past = task.history.runs;
    double share = 0;
    Amount done = 0;
    for (const PlannedRun& run : planned.runs) {
      if (out_.table.tick_down(run.span.from) >= now) break;
      // Hours that somebody wrote down keep to no ticks: two runs may share one, or lie before the first.
      const Tick start = std::max(out_.table.tick_down(run.span.from), past.empty() ? 0 : past.back().end);
      Tick end = std::max(start + 1, std::min(out_.table.tick_up(run.span.to), out_.network.horizon()));
      double part = run.share;
      if (end > now && start < now && way.pause != engine::Pause::none) {
        // Under way at this moment: what has been got through by the clock, down to where it may stop.
        part *= static_cast<double>(now - start) / static_cast<double>(end - start);
        end = now;
      }
      share += part;
      Amount total =
          std::min(way.amount, static_cast<Amount>(std::llround(share * static_cast<double>(way.amount))));
      if (share > 1 - 1e-9) total = way.amount;
      if (way.pause == engine::Pause::at_breaks && total < way.amount) {
        const auto stop = std::upper_bound(way.breaks.begin(), way.breaks.end(), total);
        total = stop == way.breaks.begin() ? 0 : *(stop - 1);
      }
      if (total <= done) continue;
      if (start < now) {
        past.push_back({start, end, total - done});
      } else {
        past.back().done += total - done;
      }
      done = total;
    }
  }

  // ------------------------------------------------------------------------------------------------ links

  void links() {
    for (std::size_t l = 0; l < list_.links.size(); ++l) {
      const works::Link& link = list_.links[l];
      const works::Task& from = *list_.find(link.from);
      const works::Task& to = *list_.find(link.to);
      engine::Link made;
      made.from = index_.at(link.from);
      made.to = index_.at(link.to);
      made.from_edge =
          link.kind == works::Link::Kind::start_start ? engine::Edge::start : engine::Edge::finish;
      made.to_edge =
          link.kind == works::Link::Kind::finish_finish ? engine::Edge::finish : engine::Edge::start;
      wait(link, from, made);
      // A strip laid bare for its lines must be walled before the next frost.
      if (bares_strip_.count(link.from) > 0 && to.fresh && is_brickwork(to.fresh->kind)) {
        made.most_clock = clocks_->below(base::Celsius(0), CoverKind::bare);
        made.most = 0;
      }
      // What need not be done does not hold up the rest of the job when it is left out.
      made.waived_if_left_out = from.importance != works::Importance::must && from.of != to.of;
      out_.network.links.push_back(made);
      out_.list_links.push_back(l);
    }
  }

  void wait(const works::Link& link, const works::Task& from, engine::Link& made) {
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

  const works::Job& job_;
  const works::TaskList& list_;
  const trade::LimitValues& limits_;
  const Plan* followed_;
  base::Instant now_;
  Programme out_;
  ClockMaker* clocks_ = nullptr;
  std::map<works::Name, engine::TaskId> index_;
  std::map<works::Name, int> groups_;
  std::set<works::Name> bares_strip_;
  std::map<engine::KeepId, std::vector<std::size_t>> laid_by_;
  engine::ResourceId hands_ = 0, bricklayers_ = 0, awake_ = 0, hessian_ = 0, sheet_ = 0, mats_ = 0;
};

}  // namespace

base::Hours drive_with_rests(base::Hours driving, const trade::LimitValues& limits) {
  const double every = limits.hours(limit::drive_rest_every).value();
  const double rests = every > 0 ? std::max(0.0, std::ceil(driving.value() / every - 1e-9) - 1) : 0;
  return driving + limits.hours(limit::drive_rest) * rests;
}

Programme build_programme(const works::Job& job, const works::TaskList& list, const sky::Series& weather,
                          const trade::LimitValues& limits, base::Instant now, const Plan* followed) {
  return Builder(job, list, weather, limits, now, followed).build();
}

}  // namespace weatherstruck::programme
