#include "weatherstruck/matter/heat_constants.h"

#include <array>

namespace weatherstruck::matter {
namespace {

// A table reads by rows.
// clang-format off
constexpr std::array<HeatConstant, 36> rows{{
    {"concrete conductivity", heat::concrete_conductivity, "W/(m K)", "from memory",
     "EN ISO 10456 table 3, concrete of 2,400 kg/m3; fresh concrete, being wet, conducts rather more"},
    {"concrete density", heat::concrete_density, "kg/m3", "sourced",
     "what public formulas after CIRIA C766 take (gist.github.com/jsb2505/319cb0037b59094bbcf242a06a628427)"},
    {"concrete specific heat", heat::concrete_specific_heat, "J/(kg K)", "sourced",
     "the same formulas after CIRIA C766; EN ISO 10456 gives the same (from memory)"},
    {"clay conductivity", heat::clay_conductivity, "W/(m K)", "sourced",
     "NS 3031 table B.8, clay or silt (github.com/ErlendKK/Energikalkulator); EN ISO 13370 has the same (from memory)"},
    {"clay capacity", heat::clay_capacity, "J/(m3 K)", "sourced", "the same table: 833 Wh/(m3 K)"},
    {"sand conductivity", heat::sand_conductivity, "W/(m K)", "sourced", "the same table, sand or gravel"},
    {"sand capacity", heat::sand_capacity, "J/(m3 K)", "sourced", "the same table: 556 Wh/(m3 K)"},
    {"ground mean", heat::ground_mean, "C", "from memory", "lowland England, a year's mean at 1 m"},
    {"ground amplitude", heat::ground_amplitude, "K", "from memory",
     "lowland England, half of the year's range of the surface"},
    {"ground coldest day", heat::ground_coldest_day, "day of the year", "from memory",
     "end of January at the surface, later below"},
    {"convection in still air", heat::convection_still, "W/(m2 K)", "sourced",
     "EN ISO 6946 annex A, hc = 4 + 4 v (as in the Modelica Buildings library, simbuild.lbl.gov)"},
    {"convection for each m/s", heat::convection_per_wind, "W/(m2 K) per m/s", "sourced",
     "the same; its table A.2 of surface resistances by wind agrees (tested)"},
    {"height of the wind", heat::wind_height, "m", "assumption",
     "as for evaporation; that the trench shelters the strip is not counted on"},
    {"Stefan-Boltzmann constant", heat::stefan_boltzmann, "W/(m2 K4)", "from memory", "CODATA 2018"},
    {"emissivity", heat::emissivity, "", "from memory",
     "EN ISO 6946, ordinary surfaces; taken for covers too (a silvered face does better)"},
    {"sky emissivity, clear, at 0 C", heat::sky_clear_at_0, "", "sourced",
     "Campbell & Norman 1998, p. 286 (rdrr.io/rforge/EcoHydRology, AtmosphericEmissivity)"},
    {"sky emissivity for each degree", heat::sky_clear_per_degree, "1/K", "sourced", "the same"},
    {"sky emissivity of cloud", heat::sky_cloud, "", "sourced",
     "the same: (1 - 0.84 c) of the clear sky and 0.84 c"},
    {"sun absorbed", heat::sun_absorbed, "", "from memory", "grey concrete, textbooks give 0.6 to 0.7"},
    {"latent heat of water at 0 C", heat::latent_heat_at_0, "J/kg", "from memory", "FAO 56 annex 3"},
    {"latent heat for each degree", heat::latent_heat_per_degree, "J/(kg K)", "from memory", "the same"},
    {"humidity if unknown", heat::humidity_if_unknown, "", "assumption",
     "drier than most cold nights, so that evaporation is not made too small"},
    {"heat of cement", heat::cement_heat, "J/kg", "derived",
     "57 % C3S, 16 % C2S, 8 % C3A, 9 % C4AF, 3 % SO3 at 500, 260, 866, 420, 624 kJ/kg (from memory, "
     "Schindler & Folliard 2005), 2 % free lime and magnesia; up to 500 is published (doi 10.1201/b14493-9)"},
    {"hydration time", heat::hydration_time, "h", "derived",
     "Schindler & Folliard 2005 (ACI Materials Journal 102-M04, regression from memory) for that cement "
     "ground to 350 m2/kg: 15.9"},
    {"hydration shape", heat::hydration_shape, "", "derived", "the same regression: 0.679"},
    {"ultimate hydration, scale", heat::ultimate_scale, "", "sourced",
     "Mills 1966: 1.031 w/c / (0.194 + w/c), in public code that cites doi 10.14359/14246"},
    {"ultimate hydration, shift", heat::ultimate_shift, "", "sourced", "the same"},
    {"heat of a young strip, at least", heat::young_share, "1/h", "derived",
     "of the heat of all its cement: from about 6 h after the pour, at 0 to 5 C, until after the second night "
     "(the law above and fhp_rate); in the first hours it is still warm from the mixer"},
    {"hessian", heat::hessian_resistance, "m2 K/W", "assumption",
     "two layers, 2 mm at 0.06 W/(m K); dry jute batts reach 0.036 (dach-holzbau.de, Jute daemmt gut), woven "
     "cloth that draws damp does not"},
    {"sheet with its air gap", heat::sheet_resistance, "m2 K/W", "derived",
     "half of 0.15 for 10 mm of shut air, heat going up (EN ISO 6946, from memory): its rule for a gap that "
     "leaks a little, since no edge is tight; rounded up for the film itself"},
    {"insulating mat", heat::mat_resistance, "m2 K/W", "derived",
     "closed-cell polyethylene 1/2 in thick (layfieldenvironmental.com, curing blankets of 1/4 in layers) at "
     "R 3.5 per inch (hotelsabruzzo.com, low authority): 0.31; dry, or it does nothing"},
    {"evaporation through hessian", heat::hessian_evaporation, "", "assumption",
     "as the covers table has it for drying"},
    {"largest step", heat::largest_step, "min", "assumption",
     "of hydration and evaporation; conduction goes in far smaller ones"},
    {"depth of the ground", heat::ground_depth, "m", "derived",
     "sqrt(4 a t) is 1.3 m in ten days: what lies deeper does not feel the strip"},
    {"way to the open", heat::open_arc, "", "derived",
     "pi / 4: quarter circles about the upper edge of the strip, their mean over half its height; held against "
     "the trench in two dimensions (tested)"},
    {"ground on that way", heat::open_ground_share, "", "assumption",
     "half of it warms and cools with the cell; held against the trench in two dimensions (tested)"},
}};
// clang-format on

}  // namespace

std::span<const HeatConstant> heat_constants() {
  return rows;
}

}  // namespace weatherstruck::matter
