#include "weatherstruck/programme/follow.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

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

/// Weathers one after the other, or several at a time: what is asked of each is written to its own place.
class Weathers {
 public:
  explicit Weathers(const PossibleRequest& where) : where_(where), trips_(where.lanes.count()) {}

  template <class Fn>
  void each(int first, int weathers, Fn&& fn) {
    where_.lanes.each(at(weathers), [&](std::size_t k, std::size_t lane) {
      std::optional<PossibleTrips>& trips = trips_[lane];
      if (!trips) trips.emplace(where_);
      trips->put(first + static_cast<int>(k));
      fn(k, *trips);
    });
  }

 private:
  const PossibleRequest& where_;
  std::vector<std::optional<PossibleTrips>> trips_;  ///< by lane
};

class Follower {
 public:
  explicit Follower(const OutlookRequest& request) : r_(request) {}

  Outlook follow() {
    out_.starts.resize(r_.where.list.tasks.size());
    std::vector<std::vector<base::Instant>> starts(r_.where.list.tasks.size());
    std::vector<base::Instant> back;
    std::map<works::Name, int> late;
    std::map<works::Name, int> spoilt;
    for (const Followed& followed : followed_through_all()) {
      const engine::Schedule& schedule = followed.schedule;
      const bool home = followed.home;
      const bool sound = followed.sound;
      ++out_.weathers;
      out_.home += home ? 1 : 0;
      out_.home_and_sound += home && sound ? 1 : 0;
      out_.spoilt += sound ? 0 : 1;
      out_.each.push_back(home && sound ? 1 : 0);
      out_.less += home && sound && lacks_work(schedule) ? 1 : 0;
      for (const engine::KeepId keep : followed.damaged)
        ++spoilt[programme().keeps[at(keep)].part];
      if (!home) {
        if (const auto first = first_late(schedule)) ++late[r_.where.list.tasks[*first].name];
      }
      for (std::size_t i = 0; i < starts.size(); ++i) {
        if (schedule.tasks[i].placed()) starts[i].push_back(moment(schedule.tasks[i].start()));
      }
      if (programme().drive_home && schedule.tasks[at(*programme().drive_home)].placed())
        back.push_back(moment(schedule.tasks[at(*programme().drive_home)].finish()));
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
  struct Followed {
    engine::Schedule schedule;
    bool home = false;
    bool sound = false;
    std::vector<engine::KeepId> damaged;
  };
  [[nodiscard]] std::vector<Followed> followed_through_all() const {
    std::vector<Followed> all(at(r_.weathers));
    Weathers(r_.where).each(0, r_.weathers, [&](std::size_t k, PossibleTrips& trips) {
      Followed& one = all[k];
      one.schedule = trips.done(r_.genes);
      one.home = trips.is_home(one.schedule);
      const engine::Network& comes = trips.comes().network;
      one.damaged = engine::damaged_keeps(comes, one.schedule);
      one.sound = one.damaged.empty() && engine::overrun_tasks(comes, one.schedule).empty();
    });
    return all;
  }
  /// What no weather changes of it: times, names.
  [[nodiscard]] const Programme& programme() const { return r_.where.programme; }
  [[nodiscard]] base::Instant moment(Tick tick) const { return programme().table.at_tick(tick); }

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
      if (!planned.placed() || programme().network.tasks[i].importance != engine::Importance::must) continue;
      if (done.placed() && done.finish() < planned.finish() + late_by) continue;
      if (!first || planned.finish() < r_.plan.tasks[*first].finish()) first = i;
    }
    return first;
  }

  const OutlookRequest& r_;
  Outlook out_;
};

}  // namespace

std::vector<int> race(const PossibleRequest& where, const std::vector<engine::Genes>& runners, int first,
                      int weathers) {
  first += 1'000'000;  // no outlook has so many weathers
  std::vector<std::vector<char>> well(at(weathers), std::vector<char>(runners.size(), 0));
  Weathers through(where);
  through.each(first, weathers, [&](std::size_t k, PossibleTrips& trips) {
    for (std::size_t r = 0; r < runners.size(); ++r)
      well[k][r] = trips.ends_well(runners[r]) ? 1 : 0;
  });
  std::vector<int> good(runners.size(), 0);
  for (const std::vector<char>& one : well) {
    for (std::size_t r = 0; r < runners.size(); ++r)
      good[r] += one[r];
  }
  return good;
}

Outlook outlook_of(const OutlookRequest& request) {
  return Follower(request).follow();
}

}  // namespace weatherstruck::programme
