#include "weatherstruck/trade/limits.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/own_figures.h"

namespace weatherstruck::trade {
namespace {

std::string unit_text(std::string_view unit) {
  return unit.empty() ? std::string() : ' ' + std::string(unit);
}

std::string range_text(double low, double high, std::string_view unit) {
  return fmt::format("{} to {}{}", base::plain_number(low, 4), base::plain_number(high, 4), unit_text(unit));
}

bool in_force(const Limit& row, LimitSet set, ColdRule rule) {
  if (row.set && *row.set != set) return false;
  return !row.rule || *row.rule == rule;
}

}  // namespace

struct LimitsMaker {
  static LimitValues::Entry* find(LimitValues& values, std::string_view key) {
    for (LimitValues::Entry& entry : values.entries_) {
      if (entry.row->key == key) return &entry;
    }
    return nullptr;
  }

  static std::string nearest(const LimitValues& values, std::string_view key) {
    std::vector<std::string> keys;
    for (const LimitValues::Entry& entry : values.entries_)
      keys.emplace_back(entry.row->key);
    for (const SettableFigure& figure : settable_figures())
      keys.push_back(figure.key);
    const std::optional<std::string> near = base::nearest_name(key, keys);
    return near ? fmt::format("Write \"{}\" if that is meant.", *near)
                : std::string("Take a key that \"weatherstruck limits\" lists.");
  }

  static bool check_range(ResolvedLimits& made, const LimitSetting& setting, const std::string& place,
                          double low, double high, double usual, std::string_view unit) {
    if (std::isfinite(setting.value) && setting.value >= low && setting.value <= high) return true;
    made.faults.push_back({"limit-out-of-range", place + "/value",
                           std::isfinite(setting.value) ? base::plain_number(setting.value, 6)
                                                        : std::string("not a finite number"),
                           range_text(low, high, unit),
                           fmt::format("Set {} inside that range, or leave it out to keep {}{}.", setting.key,
                                       base::plain_number(usual, 4), unit_text(unit))});
    return false;
  }

  static void apply(ResolvedLimits& made, const LimitSetting& setting, const std::string& place) {
    LimitValues::Entry* entry = find(made.values, setting.key);
    if (const SettableFigure* figure = find_settable(setting.key); entry == nullptr && figure != nullptr) {
      // Held by NormValues and CoverValues; here it is only looked at.
      check_range(made, setting, place, figure->low, figure->high, figure->value, figure->unit);
      return;
    }
    if (entry == nullptr) {
      const std::string_view elsewhere = set_elsewhere(setting.key);
      made.faults.push_back({"unknown-limit", place + "/key", '"' + setting.key + '"',
                             "a key of the tables of limits, norms, paces and covers",
                             elsewhere.empty() ? nearest(made.values, setting.key)
                                               : fmt::format("Set {} instead.", elsewhere)});
      return;
    }
    const Limit& row = *entry->row;
    if (!check_range(made, setting, place, row.low, row.high, row.value, row.unit)) return;
    if (entry->overridden) {
      made.faults.push_back({"limit-twice", place + "/key", '"' + setting.key + '"', "each limit set once",
                             fmt::format("Keep one of the settings of {}.", row.key)});
      return;
    }
    entry->value = setting.value;
    entry->overridden = true;
  }

  // Of limits the entry itself remembers it.
  static bool said_before(ResolvedLimits& made, std::span<const LimitSetting> settings, std::size_t i,
                          const std::string& place) {
    if (find_settable(settings[i].key) == nullptr || find(made.values, settings[i].key) != nullptr)
      return false;
    const bool before = std::any_of(settings.begin(), settings.begin() + static_cast<std::ptrdiff_t>(i),
                                    [&](const LimitSetting& s) { return s.key == settings[i].key; });
    if (before) {
      made.faults.push_back({"limit-twice", place + "/key", '"' + settings[i].key + '"', "each set once",
                             fmt::format("Keep one of the settings of {}.", settings[i].key)});
    }
    return before;
  }

  static ResolvedLimits make(LimitSet set, ColdRule rule, std::span<const LimitSetting> settings,
                             std::string_view place) {
    ResolvedLimits made;
    for (const Limit& row : limit_table()) {
      if (in_force(row, set, rule)) made.values.entries_.push_back({&row, row.value, false});
    }
    for (std::size_t i = 0; i < settings.size(); ++i) {
      if (said_before(made, settings, i, fmt::format("{}/{}", place, i))) continue;
      apply(made, settings[i], fmt::format("{}/{}", place, i));
    }
    return made;
  }
};

const LimitValues::Entry* LimitValues::find(std::string_view key) const& {
  const auto at =
      std::find_if(entries_.begin(), entries_.end(), [&](const Entry& e) { return e.row->key == key; });
  return at == entries_.end() ? nullptr : &*at;
}

const LimitValues::Entry& LimitValues::entry(std::string_view key) const& {
  const Entry* found = find(key);
  if (found == nullptr) throw std::logic_error(fmt::format("no limit \"{}\" in this set", key));
  return *found;
}

namespace {

const LimitValues::Entry& with_unit(const LimitValues::Entry& entry, std::string_view unit) {
  if (entry.row->unit != unit) {
    throw std::logic_error(
        fmt::format("limit \"{}\" is in {}, not {}", entry.row->key, entry.row->unit, unit));
  }
  return entry;
}

}  // namespace

base::Celsius LimitValues::temperature(std::string_view key) const {
  return base::Celsius(with_unit(entry(key), "C").value);
}
base::MillimetresPerHour LimitValues::rain_rate(std::string_view key) const {
  return base::MillimetresPerHour(with_unit(entry(key), "mm/h").value);
}
base::Millimetres LimitValues::depth(std::string_view key) const {
  return base::Millimetres(with_unit(entry(key), "mm").value);
}
base::MetresPerSecond LimitValues::speed(std::string_view key) const {
  return base::MetresPerSecond(with_unit(entry(key), "m/s").value);
}
base::Hours LimitValues::hours(std::string_view key) const {
  const Entry& found = entry(key);
  if (found.row->unit == "min") return base::Hours(found.value / 60.0);
  if (found.row->unit == "days") return base::Hours(found.value * 24.0);
  return base::Hours(with_unit(found, "h").value);
}

ResolvedLimits limits_for(LimitSet set, ColdRule rule, std::span<const LimitSetting> settings,
                          std::string_view place) {
  return LimitsMaker::make(set, rule, settings, place);
}

}  // namespace weatherstruck::trade
