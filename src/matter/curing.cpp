#include "weatherstruck/matter/curing.h"

#include <array>
#include <cstddef>
#include <stdexcept>

#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

constexpr std::string_view din_source =
    "DIN 1045-3 by betontechnische-daten.de 10.7.3: to half the strength; rapid: strength at 2 days at least "
    "0.5 "
    "of that at 28, medium 0.3, slow 0.15; twice as long for XM, 12 h for X0 and XC1";
constexpr std::string_view en_source = "EN 13670:2009 annex F; rapid, medium, slow as in DIN 1045-3";
constexpr std::string_view aci_source = "ACI 306R (doczz.net/doc/726492), protection against freezing";

// A table reads by rows.
// clang-format off
constexpr std::array<CuringRow, 19> rows{{
    {CuringTable::din_1045_3, 25, "din-1045-3-at-25", "days of curing, surface at 25 C or more", {1, 2, 2, 3}, 4,
     "sourced", din_source},
    {CuringTable::din_1045_3, 15, "din-1045-3-at-15", "days of curing, surface at 15 to 25 C", {1, 2, 4, 5}, 4,
     "sourced", din_source},
    {CuringTable::din_1045_3, 10, "din-1045-3-at-10", "days of curing, surface at 10 to 15 C", {2, 4, 7, 10}, 4,
     "sourced", din_source},
    {CuringTable::din_1045_3, 5, "din-1045-3-at-5", "days of curing, surface at 5 to 10 C", {3, 6, 10, 15}, 4,
     "sourced", din_source},
    {CuringTable::en_13670_class_2, 25, "en-13670-2-at-25", "days of curing, class 2, surface at 25 C or more",
     {1, 1.5, 2.5, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_2, 15, "en-13670-2-at-15", "days of curing, class 2, surface at 15 to 25 C",
     {1, 2.5, 5, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_2, 10, "en-13670-2-at-10", "days of curing, class 2, surface at 10 to 15 C",
     {1.5, 4, 8, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_2, 5, "en-13670-2-at-5", "days of curing, class 2, surface at 5 to 10 C",
     {2, 5, 11, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_3, 25, "en-13670-3-at-25", "days of curing, class 3, surface at 25 C or more",
     {1.5, 2.5, 3.5, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_3, 15, "en-13670-3-at-15", "days of curing, class 3, surface at 15 to 25 C",
     {2, 4, 7, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_3, 10, "en-13670-3-at-10", "days of curing, class 3, surface at 10 to 15 C",
     {2.5, 7, 12, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_3, 5, "en-13670-3-at-5", "days of curing, class 3, surface at 5 to 10 C",
     {3.5, 9, 18, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_4, 25, "en-13670-4-at-25", "days of curing, class 4, surface at 25 C or more",
     {3, 5, 6, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_4, 15, "en-13670-4-at-15", "days of curing, class 4, surface at 15 to 25 C",
     {5, 9, 12, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_4, 10, "en-13670-4-at-10", "days of curing, class 4, surface at 10 to 15 C",
     {7, 13, 21, 0}, 3, "from memory", en_source},
    {CuringTable::en_13670_class_4, 5, "en-13670-4-at-5", "days of curing, class 4, surface at 5 to 10 C",
     {9, 18, 30, 0}, 3, "from memory", en_source},
    {CuringTable::aci_306_normal, 0, "aci-306", "days of protection in the cold, normal set", {2, 3, 6, 0}, 3,
     "sourced", aci_source},
    {CuringTable::aci_306_accelerated, 0, "aci-306-accelerated",
     "days of protection in the cold, accelerated set", {1, 2, 4, 0}, 3, "from memory", "ACI 306R-10"},
    {CuringTable::nhbc_before_load, 0, "nhbc-before-load", "days before concrete carries load", {4, 7, 0, 0}, 2,
     "sourced", "NHBC Standards 3.1.15"},
}};
// clang-format on

constexpr std::array<std::string_view, 4> by_ratio{"rapid", "medium", "slow", "very slow"};
constexpr std::array<std::string_view, 3> by_service{"unloaded, sheltered", "unloaded, exposed",
                                                     "part loaded, exposed"};
constexpr std::array<std::string_view, 2> by_kind{"plain", "reinforced or with cement replacement"};

std::size_t ratio_column(double ratio) {
  if (ratio >= 0.50) return 0;
  if (ratio >= 0.30) return 1;
  return ratio >= 0.15 ? 2 : 3;
}

// Below the coldest row that row holds.
const CuringRow& row_at(CuringTable table, double celsius) {
  const CuringRow* last = nullptr;
  for (const CuringRow& row : rows) {
    if (row.table != table) continue;
    last = &row;
    if (celsius >= row.from_celsius) break;
  }
  if (last == nullptr) throw std::logic_error("a curing table without rows");
  return *last;
}

constexpr base::Hours from_days(double days) {
  return base::Hours(days * 24.0);
}

void check(double ratio, base::Hours hours_below_5) {
  if (!(ratio >= 0 && ratio <= 1)) throw std::invalid_argument("days of curing: strength ratio is 0 to 1");
  if (!(hours_below_5.value() >= 0))
    throw std::invalid_argument("days of curing: hours below 5 C are 0 or more");
}

}  // namespace

std::span<const CuringRow> curing_rows() {
  return rows;
}

std::span<const std::string_view> curing_columns(CuringTable table) {
  switch (table) {
    case CuringTable::din_1045_3:
      return by_ratio;
    case CuringTable::en_13670_class_2:
    case CuringTable::en_13670_class_3:
    case CuringTable::en_13670_class_4:
      return std::span(by_ratio).first(3);
    case CuringTable::aci_306_normal:
    case CuringTable::aci_306_accelerated:
      return by_service;
    case CuringTable::nhbc_before_load:
      return by_kind;
  }
  throw std::logic_error("a curing table without columns");
}

base::Hours din_1045_curing(base::Celsius surface, double ratio, Exposure exposure,
                            base::Hours hours_below_5) {
  check(ratio, hours_below_5);
  if (exposure == Exposure::dry) return base::Hours(12) + hours_below_5;
  const double times = exposure == Exposure::abrasion ? 2.0 : 1.0;
  const CuringRow& row = row_at(CuringTable::din_1045_3, surface.value());
  return from_days(row.days[ratio_column(ratio)] * times) + hours_below_5;
}

std::optional<base::Hours> en_13670_curing(CuringTable table, base::Celsius surface, double ratio,
                                           base::Hours hours_below_5) {
  check(ratio, hours_below_5);
  if (table != CuringTable::en_13670_class_2 && table != CuringTable::en_13670_class_3 &&
      table != CuringTable::en_13670_class_4)
    throw std::invalid_argument("en_13670_curing: no table of EN 13670");
  const CuringRow& row = row_at(table, surface.value());
  const std::size_t column = ratio_column(ratio);
  if (column >= row.columns) return std::nullopt;
  return from_days(row.days[column]) + hours_below_5;
}

double strength_ratio(double class_s) {
  return beta_cc(from_days(2), class_s);
}

base::Hours aci_306_protection(Service service, bool accelerated) {
  const CuringRow& row =
      row_at(accelerated ? CuringTable::aci_306_accelerated : CuringTable::aci_306_normal, 0);
  switch (service) {
    case Service::unloaded_sheltered:
      return from_days(row.days[0]);
    case Service::unloaded_exposed:
      return from_days(row.days[1]);
    case Service::part_loaded_exposed:
      return from_days(row.days[2]);
  }
  throw std::logic_error("aci_306_protection: unknown service");
}

base::Hours nhbc_days_before_load(bool reinforced_or_blended) {
  return from_days(row_at(CuringTable::nhbc_before_load, 0).days[reinforced_or_blended ? 1 : 0]);
}

}  // namespace weatherstruck::matter
