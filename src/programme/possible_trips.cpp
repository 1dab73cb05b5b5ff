#include "weatherstruck/programme/possible_trips.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/outcome.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/trade/own_pace.h"

namespace weatherstruck::programme {
namespace {

using engine::Amount;
using engine::ClockId;

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

/// Streams of the seed: weathers are numbered from 0.
constexpr std::uint64_t pace_stream = std::uint64_t{1} << 40U;
/// No better than this is any plan that is late or lacks what must be done.
engine::Value home_at_worst() {
  constexpr auto most = std::numeric_limits<std::int64_t>::max();
  constexpr int many = std::numeric_limits<int>::max();
  return {0, 0, many, many, most, most, engine::never};
}

bool in_time(const engine::Value& value) {
  return value.must_unplaced == 0 && value.must_late == 0;
}

/// Hours of the series, by number, in which he is on the site and sees what comes: those of the longest day
/// that he works, until he has to set off home. He may be there longer; that is not counted on.
std::vector<std::size_t> hours_on_site(const sky::Series& weather, const works::Job& job) {
  const works::Trip& trip = job.trip;
  const auto wheel = std::chrono::duration<double, std::ratio<3600>>(trip.drive_back.value());
  const base::Instant leaves = trip.home_by - std::chrono::ceil<std::chrono::seconds>(wheel);
  const auto longest = std::chrono::duration<double, std::ratio<3600>>(trip.longest_day.value());
  const auto stops =
      std::min<std::chrono::duration<double>>(trip.working_day.to, trip.working_day.from + longest);
  std::vector<std::size_t> list;
  for (std::size_t i = 0; i < weather.hours.size(); ++i) {
    const base::Instant from = weather.hours[i].start;
    const base::Instant to = from + std::chrono::hours(1);
    if (from < trip.leave_home || to > leaves) continue;
    const auto since = job.site.zone.to_local(from) - base::LocalTime(job.site.zone.day_of(from));
    if (since >= trip.working_day.from && since + std::chrono::hours(1) <= stops) list.push_back(i);
  }
  return list;
}

}  // namespace

PossibleTrips::PossibleTrips(const PossibleRequest& request)
    : r_(request),
      comes_(request.programme),
      foreseen_(request.programme),
      dangers_(danger_clocks()),
      on_site_(hours_on_site(request.weather, request.job)) {}

// What he goes by in deciding, and cannot know: how much rain and frost fresh work will see. A clock on
// which work or waiting goes by is not among them; that he sees.
std::vector<ClockId> PossibleTrips::danger_clocks() const {
  const engine::Network& net = r_.programme.network;
  std::vector<char> danger(net.clocks.size(), 0);
  const auto set = [&](ClockId id, char to) {
    if (id != engine::no_clock) danger[at(id)] = to;
  };
  for (const engine::Keep& keep : net.keeps) {
    for (const engine::CoverWay& way : keep.ways) {
      for (const ClockId id : way.exposure)
        set(id, 1);
    }
    for (const engine::Hazard& hazard : keep.hazards)
      set(hazard.under_shelter.value_or(engine::no_clock), 1);
  }
  for (const engine::Task& task : net.tasks) {
    for (const engine::Way& way : task.ways) {
      for (const engine::Guard& guard : way.guards)
        set(guard.exposure, 1);
    }
  }
  for (const engine::Link& link : net.links)
    set(link.most_clock, 1);
  for (const engine::Task& task : net.tasks) {
    for (const engine::Way& way : task.ways)
      set(way.clock, 0);
  }
  for (const engine::Link& link : net.links)
    set(link.least_clock, 0);
  std::vector<ClockId> list;
  for (std::size_t c = 0; c < danger.size(); ++c) {
    if (danger[c] != 0) list.push_back(static_cast<ClockId>(c));
  }
  return list;
}

std::vector<double> draw_paces(const works::TaskList& list, std::uint64_t seed, int number) {
  base::Random random(seed, pace_stream + static_cast<std::uint64_t>(number));
  const double trip = random.normal();
  std::vector<double> paces;
  for (const works::Task& task : list.tasks) {
    const double own = random.normal();
    const trade::Spread range = trade::row_for(task.operation).spread();
    const double by_the_norm =
        range.low > 0 ? std::log(range.high / range.low) / trade::sigmas_of_a_range : 0;
    const double sigma = task.own_pace ? task.own_pace->sigma : by_the_norm;
    constexpr double of_trip = trade::pace_of_the_trip;
    paces.push_back(std::exp(sigma * (of_trip * trip + std::sqrt(1 - of_trip * of_trip) * own)));
  }
  return paces;
}

void PossibleTrips::put(int number) {
  put(sky::draw_weather(r_.weather, r_.now, r_.seed, number), number);
}

// A shower that comes while he is there is seen, and what is fresh is covered for it, whatever the morning's
// forecast said. That some minutes of it fall before the cover lies is not counted: they are far from what
// spoils a joint.
void PossibleTrips::put(sky::PossibleWeather weather, int pace_number) {
  decoder_.reset();
  for (const std::size_t i : on_site_)
    weather.foreseen.hours[i].rain = weather.comes.hours[i].rain;
  put_weather(comes_, r_.job, r_.limits, weather.comes);
  put_weather(foreseen_, r_.job, r_.limits, weather.foreseen, dangers_);
  const std::vector<double> paces = draw_paces(r_.list, r_.seed, pace_number);
  for (std::size_t i = 0; i < paces.size(); ++i)
    longer(i, paces[i]);
}

// What is done already took as long as it took.
void PossibleTrips::longer(std::size_t i, double pace) {
  const engine::Task& planned = r_.programme.network.tasks[i];
  if (!planned.history.runs.empty()) return;
  engine::Task& task = comes_.network.tasks[i];
  for (std::size_t w = 0; w < task.ways.size(); ++w) {
    const auto scaled = [&](Amount amount) {
      return std::max<Amount>(1, std::llround(static_cast<double>(amount) * pace));
    };
    task.ways[w].amount = scaled(planned.ways[w].amount);
    Amount last = 0;
    for (std::size_t b = 0; b < task.ways[w].breaks.size(); ++b) {
      Amount& stop = task.ways[w].breaks[b];
      stop = std::max(last + 1, scaled(planned.ways[w].breaks[b]));
      last = stop;
    }
    task.ways[w].amount = std::max(task.ways[w].amount, last + 1);
  }
}

// Done in this order as the weather lets him, by what each morning's forecast says of the nights. Where
// that is too late he leaves what need not be done. (Other ways of the work, as the if-lines have them,
// would cost more to try than all the rest.)
engine::Schedule PossibleTrips::done(const engine::Genes& genes) {
  swap_dangers();
  const engine::Decoded& whole = decoder().decode(genes);
  engine::Schedule best = whole.schedule;
  if (!in_time(whole.value)) {
    const engine::Value late = whole.value;
    const engine::Decoded& less = decoder().decode(without_what_may_go(genes));
    if (less.value < late) best = less.schedule;
  }
  swap_dangers();
  return best;
}

bool PossibleTrips::ends_well(const engine::Genes& genes) {
  const engine::Value worst = home_at_worst();
  swap_dangers();
  const engine::Decoded* done = &decoder().decode(genes, &worst);
  if (!in_time(done->value)) done = &decoder().decode(without_what_may_go(genes), &worst);
  swap_dangers();
  return in_time(done->value) && is_sound(done->schedule);
}

// Made when it is first asked, with the dangers swapped: it may not see the network change.
engine::StandingDecoder& PossibleTrips::decoder() {
  if (!decoder_) decoder_.emplace(comes_.network);
  return *decoder_;
}

void PossibleTrips::swap_dangers() {
  for (const ClockId id : dangers_)
    std::swap(comes_.network.clocks[at(id)], foreseen_.network.clocks[at(id)]);
}

engine::Genes PossibleTrips::without_what_may_go(engine::Genes genes) const {
  for (std::size_t i = 0; i < comes_.network.tasks.size(); ++i) {
    const engine::Task& task = comes_.network.tasks[i];
    if (task.importance != engine::Importance::must && task.history.runs.empty()) genes.left_out[i] = 1;
  }
  return genes;
}

bool PossibleTrips::is_home(const engine::Schedule& schedule) const {
  return in_time(engine::value_of(comes_.network, schedule));
}

bool PossibleTrips::is_sound(const engine::Schedule& schedule) const {
  return engine::damaged_keeps(comes_.network, schedule).empty() &&
         engine::overrun_tasks(comes_.network, schedule).empty();
}

}  // namespace weatherstruck::programme
