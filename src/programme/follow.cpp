#include "weatherstruck/programme/follow.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "weatherstruck/engine/outcome.h"

namespace weatherstruck::programme {
namespace {

using engine::Tick;

std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

/// A task counts as late when it ends so much later than planned.
constexpr Tick late_by = 12;  // ticks: an hour

Tenths tenths_of(std::vector<base::Instant>& moments) {
  std::sort(moments.begin(), moments.end());
  const auto place = [&](double share) {
    return moments[static_cast<std::size_t>(std::lround(share * static_cast<double>(moments.size() - 1)))];
  };
  return {place(0.1), place(0.5), place(0.9)};
}

class Follower {
 public:
  explicit Follower(const OutlookRequest& request) : r_(request), trips_(request.where) {}

  Outlook follow() {
    out_.starts.resize(r_.where.list.tasks.size());
    std::vector<std::vector<base::Instant>> starts(r_.where.list.tasks.size());
    std::vector<base::Instant> back;
    std::map<works::Name, int> late;
    std::map<works::Name, int> spoilt;
    for (int k = 0; k < r_.weathers; ++k) {
      trips_.put(k);
      const engine::Schedule schedule = trips_.done(r_.genes);
      const bool home = trips_.is_home(schedule);
      const auto keeps = engine::damaged_keeps(trips_.comes().network, schedule);
      const bool sound = keeps.empty() && engine::overrun_tasks(trips_.comes().network, schedule).empty();
      ++out_.weathers;
      out_.home += home ? 1 : 0;
      out_.home_and_sound += home && sound ? 1 : 0;
      out_.spoilt += sound ? 0 : 1;
      out_.each.push_back(home && sound ? 1 : 0);
      out_.less += home && sound && lacks_work(schedule) ? 1 : 0;
      for (const engine::KeepId keep : keeps)
        ++spoilt[trips_.comes().keeps[at(keep)].part];
      if (!home) {
        if (const auto first = first_late(schedule)) ++late[r_.where.list.tasks[*first].name];
      }
      for (std::size_t i = 0; i < starts.size(); ++i) {
        if (schedule.tasks[i].placed()) starts[i].push_back(moment(schedule.tasks[i].start()));
      }
      if (trips_.comes().drive_home && schedule.tasks[at(*trips_.comes().drive_home)].placed())
        back.push_back(moment(schedule.tasks[at(*trips_.comes().drive_home)].finish()));
    }
    const auto often = [&](const std::vector<base::Instant>& moments) {
      return !moments.empty() && static_cast<int>(moments.size()) * 10 >= out_.weathers * 9;
    };
    for (std::size_t i = 0; i < starts.size(); ++i) {
      if (often(starts[i])) out_.starts[i] = tenths_of(starts[i]);
    }
    if (often(back)) out_.back = tenths_of(back);
    for (const auto& [name, times] : late)
      out_.decides.push_back({name, times});
    for (const auto& [part, times] : spoilt)
      out_.spoils.push_back({part, times});
    const auto more = [](const auto& a, const auto& b) { return a.times > b.times; };
    std::stable_sort(out_.decides.begin(), out_.decides.end(), more);
    std::stable_sort(out_.spoils.begin(), out_.spoils.end(), more);
    return std::move(out_);
  }

 private:
  [[nodiscard]] base::Instant moment(Tick tick) const { return trips_.comes().table.at_tick(tick); }

  [[nodiscard]] bool lacks_work(const engine::Schedule& schedule) const {
    for (std::size_t i = 0; i < schedule.tasks.size(); ++i) {
      if (r_.plan.tasks[i].placed() && schedule.tasks[i].present && !schedule.tasks[i].placed()) return true;
    }
    return false;
  }

  // The first, by the plan, that ends an hour later than planned, or finds no place.
  [[nodiscard]] std::optional<std::size_t> first_late(const engine::Schedule& schedule) const {
    std::optional<std::size_t> first;
    for (std::size_t i = 0; i < schedule.tasks.size(); ++i) {
      const engine::Placement& planned = r_.plan.tasks[i];
      const engine::Placement& done = schedule.tasks[i];
      if (!planned.placed() || trips_.comes().network.tasks[i].importance != engine::Importance::must)
        continue;
      if (done.placed() && done.finish() < planned.finish() + late_by) continue;
      if (!first || planned.finish() < r_.plan.tasks[*first].finish()) first = i;
    }
    return first;
  }

  const OutlookRequest& r_;
  PossibleTrips trips_;
  Outlook out_;
};

}  // namespace

std::vector<int> race(const PossibleRequest& where, const std::vector<engine::Genes>& runners, int first,
                      int weathers) {
  first += 1'000'000;  // no outlook has so many weathers
  PossibleTrips trips(where);
  std::vector<int> good(runners.size(), 0);
  for (int k = first; k < first + weathers; ++k) {
    trips.put(k);
    for (std::size_t r = 0; r < runners.size(); ++r) {
      const engine::Schedule schedule = trips.done(runners[r]);
      good[r] += trips.is_home(schedule) && trips.is_sound(schedule) ? 1 : 0;
    }
  }
  return good;
}

Outlook outlook_of(const OutlookRequest& request) {
  return Follower(request).follow();
}

}  // namespace weatherstruck::programme
