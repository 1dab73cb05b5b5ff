#include "weatherstruck/trade/own_figures.h"

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/trade/operations.h"

namespace weatherstruck::trade {
namespace {

// Where a job has a number of its own for a norm.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> elsewhere{
    {{norm_key::waste_bricks, "practice.brick_waste"},
     {norm_key::waste_mortar, "practice.mortar_waste"},
     {norm_key::waste_concrete, "practice.concrete_waste"},
     {norm_key::waste_flags, "practice.flag_waste"},
     {norm_key::barrow_load, "kit.barrow_litres"}}};

struct CoverFigure {
  std::string_view suffix;
  std::string_view title;
  std::string_view unit;
  double low, high;
  double (*get)(const CoverRow&);
  void (*set)(CoverRow&, double);
};

constexpr std::array<CoverFigure, 7> figures{{
    {"rain", "rain let through", "", 0, 1, [](const CoverRow& r) { return r.rain_through; },
     [](CoverRow& r, double v) { r.rain_through = v; }},
    {"drying", "drying let through", "", 0, 1, [](const CoverRow& r) { return r.drying_through; },
     [](CoverRow& r, double v) { r.drying_through = v; }},
    {"lift", "the work warmer than the air in a frost by", "K", 0, 15,
     [](const CoverRow& r) { return r.lift.value(); },
     [](CoverRow& r, double v) { r.lift = base::Kelvins(v); }},
    {"on", "putting on", "min/m2", 0, 20, [](const CoverRow& r) { return r.minutes_on_per_m2; },
     [](CoverRow& r, double v) { r.minutes_on_per_m2 = v; }},
    {"off", "taking off", "min/m2", 0, 20, [](const CoverRow& r) { return r.minutes_off_per_m2; },
     [](CoverRow& r, double v) { r.minutes_off_per_m2 = v; }},
    {"least", "putting on, however small", "min", 0, 60, [](const CoverRow& r) { return r.least_minutes; },
     [](CoverRow& r, double v) { r.least_minutes = v; }},
    {"gust", "off above a gust of", "m/s", 3, 40, [](const CoverRow& r) { return r.gust_limit.value(); },
     [](CoverRow& r, double v) { r.gust_limit = base::MetresPerSecond(v); }},
}};

std::string cover_key(const CoverRow& row, const CoverFigure& figure) {
  return "cover-" + std::string(row.key) + '-' + std::string(figure.suffix);
}

// Of a canopy, minutes and wind stand in the kit and in the limits.
bool means_something(const CoverRow& row, const CoverFigure& figure) {
  if (row.kind == CoverKind::bare) return false;
  return !row.uses_canopy ||
         (figure.suffix == "rain" || figure.suffix == "drying" || figure.suffix == "lift");
}

std::vector<SettableFigure> all_figures() {
  using Table = SettableFigure::Table;
  std::vector<SettableFigure> list;
  for (const Norm& one : norms()) {
    if (!set_elsewhere(one.key).empty() || one.key == norm_key::joint_give) continue;
    list.push_back({Table::norms, std::string(one.key), std::string(one.title), one.value,
                    std::string(one.unit), one.low / 2, one.high * 2, one.source});
  }
  for (const OperationRow& one : operations()) {
    list.push_back({Table::paces, std::string(one.key), std::string(one.title), one.hours_per_unit,
                    "h/" + std::string(one.unit_one), one.hours_low / 2, one.hours_high * 2, one.source});
  }
  for (const CoverRow& row : covers()) {
    for (const CoverFigure& figure : figures) {
      if (!means_something(row, figure)) continue;
      list.push_back({Table::covers, cover_key(row, figure),
                      std::string(row.title) + ": " + std::string(figure.title), figure.get(row),
                      std::string(figure.unit), figure.low, figure.high, row.source, row.kind});
    }
  }
  return list;
}

}  // namespace

std::string_view set_elsewhere(std::string_view norm_key) {
  const auto* const found =
      std::find_if(elsewhere.begin(), elsewhere.end(), [&](const auto& e) { return e.first == norm_key; });
  return found == elsewhere.end() ? std::string_view() : found->second;
}

std::span<const SettableFigure> settable_figures() {
  static const std::vector<SettableFigure> list = all_figures();
  return list;
}

const SettableFigure* find_settable(std::string_view key) {
  for (const SettableFigure& one : settable_figures()) {
    if (one.key == key) return &one;
  }
  return nullptr;
}

double NormValues::at(std::string_view key) const {
  for (const auto& [own, value] : own_) {
    if (own == key) return value;
  }
  return norm(key);
}

base::Hours NormValues::hours(Operation operation, double amount) const {
  const base::Hours usual = norm_hours(operation, amount);
  const OperationRow& row = trade::row_for(operation);
  for (const auto& [own, value] : own_) {
    if (own == row.key) return base::Hours(value * amount);
  }
  return usual;
}

void NormValues::set(std::string_view key, double value) {
  const SettableFigure* known = find_settable(key);
  if (known == nullptr || known->table == SettableFigure::Table::covers) return;
  own_.emplace_back(key, value);
}

CoverValues::CoverValues() {
  std::copy(covers().begin(), covers().end(), rows_.begin());
}

const CoverRow& CoverValues::at(CoverKind kind) const {
  for (const CoverRow& row : rows_) {
    if (row.kind == kind) return row;
  }
  throw std::logic_error("cover without a row in the table of covers");
}

void CoverValues::set(std::string_view key, double value) {
  for (CoverRow& row : rows_) {
    for (const CoverFigure& figure : figures) {
      if (means_something(row, figure) && cover_key(row, figure) == key) figure.set(row, value);
    }
  }
}

}  // namespace weatherstruck::trade
