#include "weatherstruck/trade/covers.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace weatherstruck::trade {
namespace {

using base::Kelvins;
using base::MetresPerSecond;

// No source gives numbers for these; the kinds of cover are those of the NBS, NHBC and BDA clauses.
// A table reads by rows.
// clang-format off
constexpr std::array<CoverRow, 6> rows{{
    {CoverKind::bare, "bare", "nothing", 1.0, 1.0, Kelvins{0}, 0, 0, 0, MetresPerSecond{100}, true, false,
     false, false, false, "open to the weather", {Standing::derived, "nothing keeps nothing off"}},
    {CoverKind::hessian, "hessian", "hessian", 0.3, 0.6, Kelvins{1}, 1.0, 0.5, 5, MetresPerSecond{17}, false,
     true, false, false, false, "keeps drizzle off, lets the wall breathe; soaks through in steady rain",
     {Standing::assumption, "hessian keeps drizzle off (common practice, no source); the numbers are chosen "
     "for planning"}},
    {CoverKind::sheet, "sheet", "sheet", 0.0, 0.1, Kelvins{1}, 1.5, 0.7, 5, MetresPerSecond{17}, false, false,
     true, false, false, "kept off the face by battens, so that air passes; weighed down along its edges",
     {Standing::assumption, "polyethylene with an air gap, NHBC 6.1.20; the numbers are chosen for "
     "planning"}},
    {CoverKind::hessian_and_sheet, "hessian-and-sheet", "hessian under sheet", 0.0, 0.05, Kelvins{3}, 2.5,
     1.2, 10, MetresPerSecond{17}, false, true, true, false, false,
     "for a frosty night: dry hessian against the work, sheet above it",
     {Standing::assumption, "hessian under polythene where overnight frost is expected, BDA via LABC; the "
     "numbers are chosen for planning"}},
    {CoverKind::mat, "mat", "frost mat", 0.0, 0.05, Kelvins{5}, 1.5, 0.8, 5, MetresPerSecond{17}, false,
     false, false, true, false, "quilted; dry, or it does nothing",
     {Standing::assumption, "insulating blankets, TMS 602 (from memory); the numbers are chosen for "
     "planning"}},
    {CoverKind::canopy, "canopy", "canopy", 0.1, 0.8, Kelvins{1}, 0, 0, 10, MetresPerSecond{11}, true, false,
     false, false, true,
     "rain still drives in at the sides; down before its gust limit, never up over a windy night",
     {Standing::common_practice, "pop-up, down before 25 mph (11 m/s), 10 minutes to move"}},
}};
// clang-format on

}  // namespace

std::span<const CoverRow> covers() {
  return rows;
}

base::Celsius under_cover(base::Celsius air, base::Kelvins lift) {
  return std::max(air, std::min(air, base::Celsius(0)) + lift);
}

const CoverRow& row_for(CoverKind kind) {
  for (const CoverRow& row : rows) {
    if (row.kind == kind) return row;
  }
  throw std::logic_error("cover without a row in the table of covers");
}

}  // namespace weatherstruck::trade
