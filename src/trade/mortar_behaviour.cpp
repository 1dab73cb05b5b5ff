#include "weatherstruck/trade/mortar_behaviour.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "weatherstruck/trade/materials.h"

namespace weatherstruck::trade {
namespace {

using base::Hours;

constexpr Source usual_mix{
    Standing::assumption,
    "the hours of the model (1-2 h in facing, 5-8 h in engineering bricks) are taken with the cement mortars "
    "usual for them; no source tells 1:3 from 1:5"};
constexpr Source lean{Standing::assumption,
                      "a fifth longer: little cement, the suction of the bricks does the work"};
constexpr Source lime_holds_water{
    Standing::assumption,
    "a quarter longer for each part of lime to one of cement: lime keeps its water (Hanson hydraulic lime "
    "data sheet: good water retention; no number)"};
constexpr Source lime_firms{Standing::assumption,
                            "four times cement: a mix of natural hydraulic lime can still be reworked after "
                            "8 h (limeworks.us, making "
                            "NHL mortar) to 12 h (stastier.co.uk, NHL 3.5), so in the joint 4 to 8 h"};

constexpr Source crrel{Standing::sourced, "CRREL SR 97-16: kept at 40 F (5 C) or more for 8 h"};
constexpr Source crrel_lean{Standing::assumption,
                            "half as long again as the 8 h of CRREL SR 97-16: half the cement"};
constexpr Source crrel_lime{Standing::assumption,
                            "8 h of CRREL SR 97-16, longer as it stiffens later: a quarter for each part of "
                            "lime to one of cement"};
constexpr Source lime_frost{
    Standing::sourced,
    "three weeks in summer until NHL 3.5 resists frost (cornishlime.co.uk, winter working); others say at "
    "least 7 days above 40 F (limeworks.us) and about 90 days at 18-20 C (anglialime.com)"};

constexpr double per_part_of_lime = 0.25;
constexpr Hours eight{8};
constexpr Hours three_weeks{21 * 24};

constexpr MortarBehaviour with_lime(MortarClass mortar, double lime_parts) {
  const double longer = 1 + per_part_of_lime * lime_parts;
  return {mortar, Binder::cement_lime, longer, eight * longer, std::nullopt, lime_holds_water, crrel_lime};
}

// A table reads by rows.
// clang-format off
constexpr std::array<MortarBehaviour, 9> rows{{
    {MortarClass::m12, Binder::cement, 1.0, eight, std::nullopt, usual_mix, crrel},
    {MortarClass::m6, Binder::cement, 1.0, eight, std::nullopt, usual_mix, crrel},
    {MortarClass::m4, Binder::cement, 1.0, eight, std::nullopt, usual_mix, crrel},
    {MortarClass::m2, Binder::cement, 1.2, Hours{12}, std::nullopt, lean, crrel_lean},
    with_lime(MortarClass::m12, 0.25),
    with_lime(MortarClass::m6, 0.5),
    with_lime(MortarClass::m4, 1),
    with_lime(MortarClass::m2, 2),
    {std::nullopt, Binder::hydraulic_lime, 4.0, three_weeks, eight, lime_firms, lime_frost},
}};
// clang-format on

}  // namespace

std::span<const MortarBehaviour> mortar_behaviours() {
  return rows;
}

const MortarBehaviour& behaviour_of(MortarClass mortar, Binder binder) {
  for (const MortarBehaviour& row : rows) {
    if (row.binder == binder && (!row.mortar || *row.mortar == mortar)) return row;
  }
  throw std::logic_error("mortar without a row in the table of how mortars behave");
}

matter::HourRange thumbprint_hours(MortarClass mortar, Binder binder, matter::Suction suction) {
  const double longer = behaviour_of(mortar, binder).stiffening;
  const matter::HourRange usual = matter::thumbprint_hours(suction);
  return {usual.low * longer, usual.usual * longer, usual.high * longer};
}

base::Hours frost_safe_amount(MortarClass mortar, Binder binder) {
  return matter::mortar_frost_safe_hours(behaviour_of(mortar, binder).frost_safe);
}

base::Hours workable_life(MortarClass mortar, Binder binder, base::Celsius air, base::Hours limit) {
  const std::optional<Hours>& own = behaviour_of(mortar, binder).life;
  return matter::workable_life(air, own ? std::max(*own, limit) : limit);
}

std::string mortar_title(MortarClass mortar, Binder binder, LimitSet set) {
  const MortarRow& row = row_for(mortar);
  switch (binder) {
    case Binder::cement:
      break;
    case Binder::cement_lime: {
      std::string title(row.title_gauged);
      if (set == LimitSet::us) title += " (type " + std::string(row.us_type) + ")";
      return title;
    }
    case Binder::hydraulic_lime:
      return "hydraulic lime 1:3";
  }
  return std::string(row.title);
}

}  // namespace weatherstruck::trade
