#include "changes.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>
#include <utility>

#include "weatherstruck/works/without_part.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using std::chrono::hours;

// As long a day as is spoken of; what he may be awake at work and wheel bounds it (limits table).
constexpr hours long_day_from{6};
constexpr hours long_day_to{21};
constexpr base::Metres canopy_side{3};
constexpr base::SquareMetres more_mats{10};
constexpr hours a_day{24};

}  // namespace

std::string_view key_of(Cure::Kind kind) {
  switch (kind) {
    case Cure::Kind::delivered_on_arrival:
      return "delivered-on-arrival";
    case Cure::Kind::lights:
      return "lights";
    case Cure::Kind::canopy:
      return "canopy";
    case Cure::Kind::longer_days:
      return "longer-days";
    case Cure::Kind::labourer:
      return "labourer";
    case Cure::Kind::mats:
      return "mats";
    case Cure::Kind::day_earlier:
      return "day-earlier";
    case Cure::Kind::without:
      return "without";
    case Cure::Kind::later:
      return "later";
  }
  return {};
}

std::vector<Change> changes_of(const works::Job& job, const trade::LimitValues& limits,
                               const sky::Series& weather, Instant now) {
  using Kind = Cure::Kind;
  std::vector<Change> list;
  const auto changed = [&](Kind kind, auto&& change) {
    Change made{kind, {}, job};
    if (change(made.job)) list.push_back(std::move(made));
  };
  changed(Kind::delivered_on_arrival, [&](works::Job& it) {
    const Instant there =
        it.trip.leave_home + std::chrono::seconds(std::lround(it.trip.drive_out.value() * 3600));
    bool sooner = false;
    for (works::Delivery& delivery : it.supplies.deliveries) {
      sooner = sooner || delivery.at > there;
      delivery.at = std::min(delivery.at, there);
    }
    return sooner;
  });
  changed(Kind::lights, [](works::Job& it) { return !std::exchange(it.kit.floodlights, true); });
  changed(Kind::canopy, [](works::Job& it) {
    if (it.kit.canopy) return false;
    it.kit.canopy = works::Canopy{canopy_side, canopy_side};
    return true;
  });
  changed(Kind::longer_days, [&](works::Job& it) {
    works::Trip& trip = it.trip;
    trip.working_day = {std::min<std::chrono::minutes>(trip.working_day.from, long_day_from),
                        std::max<std::chrono::minutes>(trip.working_day.to, long_day_to)};
    trip.longest_day = std::max(trip.longest_day, limits.hours(trade::limit::day_red_line));
    return true;
  });
  changed(Kind::labourer, [](works::Job& it) {
    if (it.crew.size() != 1) return false;
    it.crew.push_back({"mate", false, 1.0});
    return true;
  });
  changed(Kind::mats, [](works::Job& it) {
    it.kit.mats = it.kit.mats + more_mats;
    return true;
  });
  changed(Kind::day_earlier, [&](works::Job& it) {
    it.trip.leave_home -= a_day;
    return it.trip.leave_home >= now && (weather.empty() || weather.begin_time() <= it.trip.leave_home);
  });
  // Without the one thing that he went for there is no trip.
  const auto is_must = [&](const works::Part& part) {
    const auto said = std::find_if(job.importance.begin(), job.importance.end(),
                                   [&](const auto& one) { return one.part == works::name_of(part); });
    return said == job.importance.end() || said->importance == works::Importance::must;
  };
  for (const works::Part& part : job.parts) {
    auto less = works::without_part(job, works::name_of(part));
    if (less && std::any_of(less->parts.begin(), less->parts.end(), is_must))
      list.push_back({Kind::without, works::name_of(part), std::move(*less)});
  }
  changed(Kind::later, [&](works::Job& it) {
    if (weather.empty() || weather.end_time() <= it.trip.home_by) return false;
    it.trip.home_by = weather.end_time();
    return true;
  });
  return list;
}

}  // namespace weatherstruck::programme
