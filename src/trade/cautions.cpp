#include "weatherstruck/trade/cautions.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "weatherstruck/trade/operations.h"

namespace weatherstruck::trade {
namespace {

// In order of what can go worst and soonest; the chooser takes them in this order.
// A table reads by rows.
// clang-format off
constexpr std::array<CautionRow, 16> rows{{
    {Hazard::trench_side, "trench-side",
     "No trench side stands safely unsupported: keep spoil back 0.6 m, look before going in, never kneel in "
     "it alone.", {Standing::sourced, "HSE HSG185; spoil 2 ft back, OSHA"}, LimitSet::uk},
    {Hazard::trench_side, "trench-side",
     "No trench side stands safely unsupported: keep spoil back 2 ft, look before going in, never kneel in "
     "it alone.", {Standing::sourced, "OSHA 29 CFR 1926.651(j)(2), 1926.652"}, LimitSet::us},
    {Hazard::buried_services, "buried-services",
     "Scan for cables and pipes before the first spade, then dig by hand around anything found.",
     {Standing::sourced, "HSE HSG47"}, LimitSet::uk},
    {Hazard::buried_services, "buried-services",
     "Have buried lines marked (call 811) before the first spade, then dig by hand around the marks.",
     {Standing::from_memory, "OSHA 29 CFR 1926.651(b); 811 is the number to call before digging"}, LimitSet::us},
    {Hazard::tired_driving, "tired-driving",
     "A long drive on top of a day's work: rest fifteen minutes in every two hours, or leave it till "
     "morning.", {Standing::common_practice, "13 h of work and driving in a day is the red line"}},
    {Hazard::canopy_wind, "canopy-wind",
     "Canopy: 18 kg on every leg, start to strike it at 80 % of its wind limit, flat before the limit.",
     {Standing::sourced, "40 lb a leg (scribd 337811370); act at 60 and 80 % of the limit (bute-park.com)"}, LimitSet::uk},
    {Hazard::canopy_wind, "canopy-wind",
     "Canopy: 40 lb on every leg, start to strike it at 80 % of its wind limit, flat before the limit.",
     {Standing::sourced, "40 lb a leg (scribd 337811370); act at 60 and 80 % of the limit (bute-park.com)"},
     LimitSet::us},
    {Hazard::electricity_wet, "electricity-wet",
     "Mains tools in the wet: RCD of 30 mA or 110 V, test the button, keep joints of the cable off the "
     "ground.", {Standing::sourced, "HSE HSG141, HSG150"}, LimitSet::uk},
    {Hazard::electricity_wet, "electricity-wet",
     "Corded tools in the wet: a ground-fault interrupter on every outlet, test it, keep plugs off the ground.",
     {Standing::from_memory, "OSHA 29 CFR 1926.404(b)(1)(ii)"}, LimitSet::us},
    {Hazard::silica_dust, "silica-dust",
     "Cut wet, or with extraction and an FFP3 mask: brick and flag dust is silica.",
     {Standing::sourced, "HSE EH40, limit 0.1 mg/m3 over 8 h"}, LimitSet::uk},
    {Hazard::silica_dust, "silica-dust",
     "Cut wet, or with a shroud and a respirator that fits: brick and flag dust is silica.",
     {Standing::from_memory, "OSHA 29 CFR 1926.1153, 50 ug/m3 over 8 h and table 1"}, LimitSet::us},
    {Hazard::wet_cement, "wet-cement",
     "Wet cement burns before it is felt: waterproof gloves, no kneeling in it, wash it off at once.",
     {Standing::sourced, "HSE cement leaflets; Concrete Society"}},
    {Hazard::lifting, "lifting",
     "Heavy lifts today: break loads down, keep them close, do not twist, carry under 10 m.",
     {Standing::sourced, "HSE INDG143, L23; the 25 kg figure from memory"}, LimitSet::uk},
    {Hazard::lifting, "lifting",
     "Heavy lifts today: break loads down, keep them close, do not twist, carry under 30 ft.",
     {Standing::sourced, "HSE INDG143, L23; 51 lb is NIOSH's figure (from memory)"}, LimitSet::us},
    {Hazard::cold_hands, "cold-hands",
     "Frost about: grit the walkway, dry gloves, and nothing laid on frozen ground or with frozen bricks.",
     {Standing::sourced, "NHBC 6.1.20 for frozen materials; the rest common practice"}},
    {Hazard::alone, "alone", "Working alone: somebody knows where you are and when you will call.",
     {Standing::sourced, "HSE INDG73"}},
}};
// clang-format on

bool any_of(const DayFacts& day, bool (*test)(const OperationRow&)) {
  return std::any_of(day.operations.begin(), day.operations.end(),
                     [&](Operation o) { return test(row_for(o)); });
}

bool digs(const OperationRow& row) {
  return row.operation == Operation::dig || row.operation == Operation::strip_turf;
}

// A canopy is watched from this share of its gust limit (sourced: bute-park.com, act at 60 % and 80 %).
constexpr double canopy_watch = 0.6;

bool calls_for(Hazard hazard, const DayFacts& day, const LimitValues& limits) {
  switch (hazard) {
    case Hazard::trench_side:
      return day.deepest_trench.value() >= limits.at(limit::trench_caution) ||
             (day.trench_beside_wall && day.deepest_trench.value() > 0);
    case Hazard::buried_services:
      return day.first_digging && any_of(day, digs);
    case Hazard::tired_driving:
      return day.drive.value() > 0 && (day.work_and_drive.value() >= limits.at(limit::day_red_line) ||
                                       day.drive.value() > limits.at(limit::drive_rest_every));
    case Hazard::canopy_wind:
      return day.canopy_up && day.highest_gust.value() >= canopy_watch * limits.at(limit::canopy_gust);
    case Hazard::electricity_wet:
      return day.power_tools_wet;
    case Hazard::silica_dust:
      return day.cuts;
    case Hazard::wet_cement:
      return any_of(day, [](const OperationRow& r) { return r.leaves != FreshWork::none; });
    case Hazard::lifting:
      return day.heaviest_lift.value() >= limits.at(limit::lift_caution);
    case Hazard::cold_hands:
      return day.lowest_air.value() <= 0.0 && !day.operations.empty();
    case Hazard::alone:
      return day.alone && any_of(day, digs);
  }
  return false;
}

}  // namespace

std::span<const CautionRow> cautions() {
  return rows;
}

const CautionRow& row_for(Hazard hazard, LimitSet set) {
  for (const CautionRow& row : rows) {
    if (row.hazard == hazard && row.set.value_or(set) == set) return row;
  }
  throw std::logic_error("hazard without a row in the table of cautions");
}

std::vector<const CautionRow*> choose_cautions(const DayFacts& day, const LimitValues& limits,
                                               std::size_t most) {
  std::vector<const CautionRow*> chosen;
  for (const CautionRow& row : rows) {
    if (chosen.size() >= most) break;
    if (row.set.value_or(day.set) == day.set && calls_for(row.hazard, day, limits)) chosen.push_back(&row);
  }
  return chosen;
}

}  // namespace weatherstruck::trade
