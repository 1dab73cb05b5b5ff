#include "weatherstruck/programme/slots.h"

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/matter/ground.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/sun.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::hours;

// One hour's values with whether the series gave them.
struct HourValues {
  base::Celsius air;
  base::MillimetresPerHour rain;
  base::MetresPerSecond wind;
  base::MetresPerSecond gust;
  base::Fraction humidity;
  std::optional<base::Fraction> cloud;  ///< of this very hour; absent: clear, the coldest
  bool given = true;
};

// Values of the hour at `start`: the series' own, else those of the same hour up to ten days before.
class HourReader {
 public:
  explicit HourReader(const sky::Series& series) : series_(series) {
    if (series.empty() || !first(&sky::Hour::temperature) || !first(&sky::Hour::rain) ||
        !first(&sky::Hour::wind)) {
      throw std::invalid_argument("the forecast gives no temperature, no rain or no wind at all");
    }
  }

  HourValues read(base::Instant start) const {
    HourValues values;
    values.air = pick(&sky::Hour::temperature, start, values.given);
    values.rain = base::MillimetresPerHour(pick(&sky::Hour::rain, start, values.given).value());
    values.wind = pick(&sky::Hour::wind, start, values.given);
    bool ignored =
        true;  // humidity only slows drying a little; its absence alone does not make an hour "not given"
    values.humidity =
        first(&sky::Hour::humidity) ? pick(&sky::Hour::humidity, start, ignored) : base::Fraction(0.85);
    const sky::Hour* hour = series_.at(start);
    if (hour != nullptr && hour->cloud) values.cloud = hour->cloud->value;
    values.gust = hour != nullptr && hour->gust && hour->wind
                      ? hour->gust->value
                      : base::MetresPerSecond(values.wind.value() * sky::GustFactor::inland);
    return values;
  }

  // The end of the unbroken stretch, from the first hour on, in which nothing needed is missing.
  [[nodiscard]] base::Instant given_until() const {
    for (const sky::Hour& hour : series_.hours) {
      if (!hour.temperature || !hour.rain || !hour.wind) return hour.start;
    }
    return series_.end_time();
  }

 private:
  template <class T>
  [[nodiscard]] const sky::Value<T>* first(sky::Maybe<T> sky::Hour::*layer) const {
    for (const sky::Hour& hour : series_.hours) {
      if (hour.*layer) return &*(hour.*layer);
    }
    return nullptr;
  }
  template <class T>
  T pick(sky::Maybe<T> sky::Hour::*layer, base::Instant start, bool& given) const {
    for (int days = 0; days <= 10; ++days) {
      const sky::Hour* hour = series_.at(start - hours(24 * days));
      if (hour != nullptr && hour->*layer) {
        if (days > 0) given = false;
        return (*(hour->*layer)).value;
      }
    }
    // An hour or two before the first are as the first; anything else is a guess and marked.
    if (start + hours(2) < series_.begin_time() || start > series_.begin_time()) given = false;
    // The constructor made sure that the layer holds a value somewhere.
    return first(layer)->value;
  }

  const sky::Series& series_;
};

matter::GroundKind ground_kind(trade::Soil soil) {
  switch (soil) {
    case trade::Soil::sand:
    case trade::Soil::gravel:
      return matter::sandy_ground;
    case trade::Soil::firm_clay:
    case trade::Soil::stiff_clay:
      return matter::clay_ground;
    case trade::Soil::garden:
    case trade::Soil::rock:
      break;
  }
  return matter::loamy_ground;
}

// The darkest light of [from, to): plans must not count on the first bright minute of a slot.
trade::Light light_in(const std::vector<sky::DayLight>& days, base::Instant from, base::Instant to,
                      bool floodlights) {
  const auto within = [&](sky::LightBand sky::DayLight::*band) {
    for (const sky::DayLight& day : days) {
      for (const sky::LightSpan& span : (day.*band).spans) {
        if (span.from <= from && to <= span.to) return true;
      }
    }
    return false;
  };
  if (within(&sky::DayLight::sun)) return trade::Light::day;
  if (within(&sky::DayLight::civil)) return trade::Light::twilight;
  return floodlights ? trade::Light::floodlit : trade::Light::dark;
}

}  // namespace

int SlotTable::tick_down(base::Instant t) const {
  const auto ticks = (t - begin_time()) / kTick;
  const bool before = begin_time() + ticks * kTick > t;
  return static_cast<int>(ticks) - (before ? 1 : 0);
}

int SlotTable::tick_up(base::Instant t) const {
  const int down = tick_down(t);
  return at_tick(down) < t ? down + 1 : down;
}

SlotTable make_slots(const works::Site& site, const works::Kit& kit, const sky::Series& weather,
                     base::Instant from, base::Instant to) {
  SlotTable table;
  const base::LocalDay first_day = site.zone.day_of(from);
  std::vector<sky::DayLight> light;
  for (base::LocalDay day = first_day; site.zone.start_of(day) < to; day += std::chrono::days(1)) {
    light.push_back(
        sky::day_light(site.latitude, site.longitude, site.zone.start_of(day), site.zone.end_of(day)));
  }
  for (base::Instant t = from; t < to; t += kSlot) {
    const base::LocalTime local = site.zone.to_local(t);
    const base::LocalDay day = std::chrono::floor<std::chrono::days>(local);
    Slot slot;
    slot.start = t;
    slot.day = static_cast<int>((day - first_day).count());
    slot.clock = std::chrono::floor<std::chrono::minutes>(local - day);
    slot.weekday = std::chrono::weekday(day);
    slot.month = static_cast<unsigned>(std::chrono::year_month_day(day).month());
    slot.light = light_in(light, t, t + kSlot, kit.floodlights);
    if (table.hours.empty() || std::chrono::floor<hours>(t) == t)
      table.hours.push_back({table.slots.size(), table.slots.size()});
    table.slots.push_back(slot);
    table.hours.back().to = table.slots.size();
  }
  put_weather(table, site, weather);
  return table;
}

void put_weather(SlotTable& table, const works::Site& site, const sky::Series& weather) {
  const HourReader reader(weather);
  table.forecast_until = reader.given_until();
  const matter::GroundKind kind = ground_kind(site.soil);
  matter::GroundState ground{kind.drains_to};
  bool all_given = true;
  table.open.clear();
  const double at_2m = matter::wind_at_height(base::MetresPerSecond(1), base::Metres(2)).value();
  for (const SlotTable::HourOf& of : table.hours) {
    const Slot& first = table.slots[of.from];
    const HourValues hour = reader.read(std::chrono::floor<hours>(first.start));
    ground = matter::step(ground, kind, hour.rain * base::Hours(1),
                          matter::drying_rate(hour.air, hour.humidity, hour.wind * at_2m), base::Hours(1));
    const bool sodden = matter::is_sodden(ground, kind);
    all_given = all_given && hour.given;
    // By day the sun gives back what a clear sky takes (strip_frost.h).
    const auto cloud = first.light == trade::Light::day ? base::Fraction(1) : hour.cloud;
    table.open.push_back(matter::open_air({hour.air, hour.wind, cloud}));
    for (std::size_t i = of.from; i < of.to; ++i) {
      Slot& slot = table.slots[i];
      slot.air = hour.air;
      slot.rain = hour.rain;
      slot.wind = hour.wind;
      slot.gust = hour.gust;
      slot.humidity = hour.humidity;
      slot.sodden = sodden;
      slot.given = hour.given;
    }
  }
  table.assumptions.clear();
  if (!all_given) {
    table.assumptions.emplace_back(
        "Hours that the forecast does not give are taken as the same hour of the day before.");
  }
  const bool no_gusts = std::any_of(weather.hours.begin(), weather.hours.end(), [](const sky::Hour& h) {
    return h.wind && (!h.gust || h.gust->origin == sky::Origin::derived);
  });
  if (no_gusts)
    table.assumptions.emplace_back(
        "Gusts are not in the forecast; they are worked out from the mean wind on the safe side.");
}

}  // namespace weatherstruck::programme
