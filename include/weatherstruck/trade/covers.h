#pragma once
// Ways of protecting fresh work: what each keeps off and lets through, what it costs to put on.
#include <span>
#include <string_view>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

struct CoverRow {
  CoverKind kind;
  std::string_view key;      ///< "hessian-and-sheet"
  std::string_view title;    ///< "hessian under sheet"
  double rain_through;       ///< share of the rain that still reaches the work, 0..1
  double drying_through;     ///< share of wind drying that still reaches it, 0..1
  base::Kelvins lift;        ///< the work stays this much warmer than the air on a frosty night
  double minutes_on_per_m2;  ///< of one person, to put on and weigh down
  double minutes_off_per_m2;
  double least_minutes;                                  ///< on or off, however small
  base::MetresPerSecond gust_limit;                      ///< comes off or is down above this gust
  bool works_under;                                      ///< work can go on beneath it
  bool uses_hessian, uses_sheet, uses_mat, uses_canopy;  ///< which stock it holds
  std::string_view note;
  Source source;
};

[[nodiscard]] std::span<const CoverRow> covers();
/// Temperature of work under a cover that keeps in `lift` on a frosty night: so much above the air in frost,
/// that much above zero while the air is less far from it, else the air. Colder air never makes it warmer.
/// @param lift of the covers table, 0 or more
[[nodiscard]] base::Celsius under_cover(base::Celsius air, base::Kelvins lift);

[[nodiscard]] const CoverRow& row_for(CoverKind kind);

}  // namespace weatherstruck::trade
