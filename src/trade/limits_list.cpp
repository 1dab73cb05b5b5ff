#include "weatherstruck/trade/limits_list.h"

#include <algorithm>
#include <span>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>

#include "weatherstruck/matter/constants.h"
#include "weatherstruck/matter/curing.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/mortar_behaviour.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/trade/own_figures.h"

namespace weatherstruck::trade {
namespace {

using Rows = std::vector<ListedRow>;
using Figures = std::vector<ListedFigure>;

ListedFigure figure(std::string what, double value, std::string_view unit) {
  return {std::move(what), value, std::string(unit), std::nullopt, std::nullopt};
}

ListedFigure ranged(double value, std::string_view unit, double low, double high) {
  return {"", value, std::string(unit), low, high};
}

ListedRow row(ListedTable table, WorkGroup group, std::string_view key, std::string_view title,
              Figures figures, const Source& source, std::string_view set_in = {}) {
  return {table,
          group,
          std::string(key),
          std::string(title),
          std::move(figures),
          std::nullopt,
          std::nullopt,
          std::nullopt,
          source,
          set_in,
          nullptr,
          std::nullopt};
}

// By its key among the job's own figures.
void make_settable(ListedRow& made) {
  const SettableFigure* one = find_settable(made.key);
  if (one == nullptr) return;
  made.set_in = "limits.overrides";
  made.may_be = std::pair{one->low, one->high};
}

void add_limits(Rows& rows) {
  for (const Limit& limit : limit_table()) {
    ListedRow made =
        row(ListedTable::limits, group_of(limit.key), limit.key, limit.title,
            {ranged(limit.value, limit.unit, limit.low, limit.high)}, limit.source, "limits.overrides");
    made.cls = limit.cls;
    made.set = limit.set;
    made.rule = limit.rule;
    made.limit = &limit;
    rows.push_back(std::move(made));
  }
}

WorkGroup work_of(Operation operation) {
  switch (operation) {
    case Operation::true_lines:
    case Operation::lay_below:
    case Operation::lay_facing:
    case Operation::lay_common:
    case Operation::strike:
    case Operation::rake_back:
    case Operation::point:
    case Operation::lay_coping:
    case Operation::bed_plate:
    case Operation::strap_plate:
    case Operation::form_step:
      return WorkGroup::brickwork;
    case Operation::pour:
      return WorkGroup::concrete;
    case Operation::lay_subbase:
    case Operation::lay_flags:
    case Operation::grout_flags:
      return WorkGroup::flags;
    case Operation::drive:
    case Operation::fetch:
    case Operation::clear_up:
    case Operation::other:
      return WorkGroup::hours;
    case Operation::wheel_in:
    case Operation::unload:
    case Operation::load_out:
      return WorkGroup::carrying;
    default:
      return WorkGroup::ground;
  }
}

// The source of a row is that of its hours; set-up and factors are assumptions, and the lists say so.
void add_paces(Rows& rows) {
  for (const OperationRow& one : operations()) {
    Figures figures{
        ranged(one.hours_per_unit, "h/" + std::string(one.unit_one), one.hours_low, one.hours_high)};
    figures.push_back(figure("set-up", static_cast<double>(one.set_up.count()), "min"));
    figures.push_back(figure("pace in half light", one.pace(Light::twilight), ""));
    figures.push_back(figure("under lights", one.pace(Light::floodlit), ""));
    figures.push_back(figure("in the dark", one.pace(Light::dark), ""));
    figures.push_back(figure("in thin rain", one.pace_thin_rain, ""));
    figures.push_back(figure("below 5 C", one.pace_cold, ""));
    figures.push_back(figure("on sodden ground", one.pace_wet_ground, ""));
    rows.push_back(
        row(ListedTable::paces, work_of(one.operation), one.key, one.title, std::move(figures), one.source));
    make_settable(rows.back());
    rows.back().set_in = "limits.overrides or crew.pace";
  }
}

void add_norms(Rows& rows) {
  for (const Norm& norm : norms()) {
    const std::string_view elsewhere = set_elsewhere(norm.key);
    rows.push_back(row(ListedTable::norms, group_of(norm.key), norm.key, norm.title,
                       {ranged(norm.value, norm.unit, norm.low, norm.high)}, norm.source, elsewhere));
    if (elsewhere.empty()) make_settable(rows.back());
  }
  for (const SoilRow& soil : soils()) {
    rows.push_back(row(ListedTable::soils, WorkGroup::ground, soil.key, soil.title,
                       {figure("digging time against ordinary ground", soil.dig_factor, ""),
                        figure("grows when dug by", soil.bulking, ""),
                        figure("mass in the ground", soil.kg_per_m3, "kg/m3")},
                       soil.source));
  }
}

// A row for each figure, as a job sets them one by one.
void add_covers(Rows& rows) {
  for (const SettableFigure& one : settable_figures()) {
    if (one.table != SettableFigure::Table::covers) continue;
    rows.push_back(row(ListedTable::covers, WorkGroup::covers, one.key, one.title,
                       {figure("", one.value, one.unit)}, one.source));
    make_settable(rows.back());
  }
}

void add_materials(Rows& rows) {
  for (const Material& one : materials()) {
    const std::string unit(one.unit);
    Figures figures{figure("mass", one.kg_per_unit, unit == "kg" ? "kg/kg" : "kg/" + unit),
                    figure("room", one.m3_per_unit, "m3/" + unit)};
    // Bought by ones there is no pack to speak of.
    if (one.pack_size != 1) {
      figures.push_back(
          figure(one.pack == "each" ? "one is" : "bought by the " + std::string(one.pack) + " of",
                 one.pack_size, unit));
    }
    if (one.small_pack_size > 0 && one.small_pack_size != 1) {
      figures.push_back(
          figure("on the way by the " + std::string(one.small_pack) + " of", one.small_pack_size, unit));
    }
    rows.push_back(
        row(ListedTable::materials, WorkGroup::stock, one.key, one.title, std::move(figures), one.source));
  }
  const Source size{Standing::sourced, "UK metric brick, scribd 366389516"};
  rows.push_back(row(
      ListedTable::materials, WorkGroup::stock, "brick-size", "work size of a brick",
      {figure("long", brick_length.value(), "mm"), figure("wide", brick_width.value(), "mm"),
       figure("high", brick_height.value(), "mm"), figure("joint", joint.value(), "mm"),
       figure("course", course_height.value(), "mm"), figure("brick and joint", brick_pitch.value(), "mm")},
      size));
  const auto density = [&](std::string_view key, std::string_view title, double value,
                           std::string_view said) {
    rows.push_back(row(ListedTable::materials, WorkGroup::stock, key, title, {figure("", value, "kg/m3")},
                       {Standing::from_memory, said}));
  };
  density("fresh-concrete", "density of fresh concrete", fresh_concrete_density.value(), "2400 kg/m3");
  density("fresh-mortar", "density of fresh mortar", fresh_mortar_density.value(), "1900-2200 kg/m3");
  for (const BrickRow& brick : bricks()) {
    rows.push_back(row(ListedTable::materials, WorkGroup::stock, "brick-kind-" + std::string(brick.material),
                       std::string(brick.title) + " brick",
                       {figure("mass", brick.mass.value(), "kg"),
                        figure("takes water, at most", brick.water_absorption, "% of its mass")},
                       brick.source));
  }
}

// Two rows each: stiffening and frost have sources of their own.
void add_mortar_behaviours(Rows& rows) {
  for (const MortarBehaviour& one : mortar_behaviours()) {
    const std::string mortar = mortar_title(one.mortar.value_or(MortarClass::m4), one.binder, LimitSet::uk);
    const std::string key = (one.mortar ? std::string(row_for(*one.mortar).key) + "-" : std::string()) +
                            (one.binder == Binder::cement        ? "cement"
                             : one.binder == Binder::cement_lime ? "cement-lime"
                                                                 : "hydraulic-lime");
    Figures stiffens{figure("", one.stiffening, "factor")};
    if (one.life) stiffens.push_back(figure("kept in the tub", one.life->value(), "h"));
    rows.push_back(row(ListedTable::mixes, WorkGroup::brickwork, key + "-stiffens",
                       mortar + ": time to thumbprint hard against the usual", std::move(stiffens),
                       one.stiffening_source));
    rows.push_back(row(ListedTable::mixes, WorkGroup::brickwork, key + "-frost",
                       mortar + ": until it withstands a frost, at 5 C or warmer",
                       {figure("", one.frost_safe.value(), "h")}, one.frost_source));
  }
}

void add_mixes(Rows& rows) {
  for (const BondRow& bond : bonds()) {
    rows.push_back(row(ListedTable::mixes, WorkGroup::brickwork, bond.key, bond.title,
                       {figure("thickness", bond.thickness.value(), "mm"),
                        figure("bricks by rule", bond.bricks_per_m2, "a m2"),
                        figure("bricks by size", bond.bricks_per_m2_exact, "a m2"),
                        figure("mortar net", bond.mortar_m3_per_m2, "m3/m2"),
                        figure("mortar allowed", bond.mortar_m3_per_m2_allowed, "m3/m2")},
                       bond.source));
  }
  for (const MortarRow& mortar : mortars()) {
    rows.push_back(row(ListedTable::mixes, WorkGroup::brickwork, mortar.key, mortar.title,
                       {figure("sand to one of cement", mortar.sand_parts, ""),
                        figure("cement", mortar.cement_per_m3.value(), "kg/m3"),
                        figure("sand", mortar.sand_per_m3.value(), "m3/m3"),
                        figure("gauged with lime: lime", mortar.lime_parts_gauged, ""),
                        figure("sand", mortar.sand_parts_gauged, ""),
                        figure("cement", mortar.cement_per_m3_gauged.value(), "kg/m3"),
                        figure("lime", mortar.lime_per_m3_gauged.value(), "kg/m3")},
                       mortar.source, "practice.mortar"));
  }
  add_mortar_behaviours(rows);
  for (const ConcreteRow& mix : concretes()) {
    rows.push_back(
        row(ListedTable::mixes, WorkGroup::concrete, mix.key, mix.title,
            {figure("cylinder", mix.cylinder.value(), "N/mm2"), figure("cube", mix.cube.value(), "N/mm2"),
             figure("cement", mix.cement_per_m3.value(), "kg/m3"),
             figure("sand", mix.sand_per_m3.value(), "m3/m3"),
             figure(mix.ballast ? "ballast" : "coarse", mix.coarse_per_m3.value(), "m3/m3"),
             figure("water", mix.water_litres_per_m3, "litres/m3")},
            mix.source, "practice.concrete"));
  }
}

// The floor below knows its standings as words.
Source source_of(std::string_view standing, std::string_view text) {
  for (const Standing one : {Standing::sourced, Standing::derived, Standing::common_practice,
                             Standing::from_memory, Standing::assumption}) {
    if (words_for(one) == standing) return {one, text};
  }
  throw std::logic_error("a standing that is none: " + std::string(standing));
}

void add_physics(Rows& rows) {
  for (const matter::CuringRow& one : matter::curing_rows()) {
    Figures figures;
    for (std::size_t i = 0; i < one.columns; ++i)
      figures.push_back(figure(std::string(matter::curing_columns(one.table)[i]), one.days[i], "days"));
    rows.push_back(row(ListedTable::curing, WorkGroup::concrete, one.key, one.title, std::move(figures),
                       source_of(one.standing, one.source)));
  }
  const auto constants = [&](ListedTable table, WorkGroup group, std::span<const matter::Constant> list) {
    for (const matter::Constant& one : list) {
      std::string key(one.key);
      std::replace(key.begin(), key.end(), ' ', '-');
      key.erase(std::remove(key.begin(), key.end(), ','), key.end());
      rows.push_back(row(table, group, key, one.key, {figure("", one.value, one.unit)},
                         source_of(one.standing, one.source)));
    }
  };
  constants(ListedTable::constants, WorkGroup::concrete, matter::concrete_constants());
  Figures set_times;
  for (const matter::SetTime& one : matter::set_times())
    set_times.push_back(figure(fmt::format("at {:g} F", one.fahrenheit), one.hours, "h"));
  rows.push_back(row(ListedTable::constants, WorkGroup::concrete, "initial-set",
                     "initial set of fresh concrete by its temperature", std::move(set_times),
                     {Standing::from_memory, "ACI/PCA handbook; about doubling for 20 F, NRMCA CIP 27"}));
  constants(ListedTable::constants, WorkGroup::brickwork, matter::mortar_constants());
  constants(ListedTable::constants, WorkGroup::ground, matter::ground_constants());
  constants(ListedTable::heat, WorkGroup::heat, matter::heat_constants());
}

}  // namespace

std::vector<ListedRow> listed_rows() {
  Rows rows;
  add_limits(rows);
  add_paces(rows);
  add_norms(rows);
  add_covers(rows);
  add_materials(rows);
  add_mixes(rows);
  add_physics(rows);
  std::stable_sort(rows.begin(), rows.end(),
                   [](const ListedRow& a, const ListedRow& b) { return a.group < b.group; });
  return rows;
}

}  // namespace weatherstruck::trade
