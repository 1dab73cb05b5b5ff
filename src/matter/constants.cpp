#include "weatherstruck/matter/constants.h"

#include <array>

namespace weatherstruck::matter {
namespace {

namespace n = number;

constexpr std::string_view c1074 = "ASTM C1074, form read (studylib.net/doc/25210779)";
constexpr std::string_view fhp = "Freiesleben Hansen and Pedersen's activation energy";
constexpr std::string_view b10 = "EN 1992-1-1 B.10 (structuralcodes, t_T)";
constexpr std::string_view classes = "EN 1992-1-1 3.1.2(6) (concrete.org.uk fingertips 1058)";
constexpr std::string_view uno = "Uno 1998, unrounded metric constants, which reproduce the US form";
constexpr std::string_view menzel = "Menzel's formula, shown beside Uno's";
constexpr std::string_view tetens = "Tetens";
constexpr std::string_view thumb =
    "a stated model; that low-suction bricks may take till late afternoon: "
    "zhclg.com, timing of jointing";
constexpr std::string_view bucket = "a first model for pace and bailing, not hydrology";

// A table reads by rows.
// clang-format off
constexpr std::array<Constant, 25> of_concrete{{
    {"gas constant", n::gas, "J/(mol K)", "from memory", "physics"},
    {"activation energy from 20 C up", n::fhp_warm, "J/mol", "from memory", fhp},
    {"activation energy by degree", n::fhp_per_degree, "J/(mol K)", "from memory", fhp},
    {"activation energy, Arrhenius", n::arrhenius_usual, "J/mol", "from memory", c1074},
    {"Eurocode age, constant", n::eurocode_constant, "", "sourced", b10},
    {"Eurocode age, temperature", n::eurocode_kelvin, "K", "sourced", b10},
    {"hydration stops below", n::hydration_stops, "C", "sourced", "sikaconcrete.co.uk"},
    {"strength, rapid cement", n::s_rapid, "", "sourced", classes},
    {"strength, normal cement", n::s_normal, "", "sourced", classes},
    {"strength, slow cement", n::s_slow, "", "sourced", classes},
    {"strength, early and cold", n::s_early, "", "derived",
     "fitted to four figures of one supplier (Hanson, nhfarmers.co.uk); no claim about a class of cement"},
    {"mean above characteristic", n::mean_over_characteristic, "N/mm2", "sourced",
     "EN 1992-1-1 table 3.1"},
    {"final set against initial", n::final_over_initial, "factor", "assumption",
     "usual C403 curves give 1.3 to 1.5"},
    {"plastic concrete freezes below", n::plastic_freezes, "C", "sourced", "NRMCA CIP 27: 25 F"},
    {"evaporation, scale", n::uno_scale, "", "sourced", uno},
    {"evaporation, shift of temperature", n::uno_shift, "C", "sourced", uno},
    {"evaporation in still air", n::uno_still, "km/h", "sourced", uno},
    {"evaporation by Menzel, scale", n::menzel_scale, "", "from memory", menzel},
    {"Menzel evaporation in still air", n::menzel_still, "", "from memory", menzel},
    {"evaporation by Menzel, wind", n::menzel_wind, "1/(km/h)", "from memory", menzel},
    {"vapour pressure at 0 C", n::tetens_scale, "kPa", "from memory", tetens},
    {"vapour pressure, factor", n::tetens_factor, "", "from memory", tetens},
    {"vapour pressure, shift", n::tetens_shift, "C", "from memory", tetens},
    {"roughness of a garden", n::roughness, "m", "assumption", "short grass"},
    {"height of the work in the wind", heat::wind_height, "m", "sourced",
     "the wind of evaporation is an average half a metre above the surface (scribd 376430127)"},
}};
constexpr std::array<Constant, 14> of_mortar{{
    {"thumbprint, quick, at least", n::quick_low, "h", "assumption", thumb},
    {"thumbprint, quick, usual", n::quick_usual, "h", "assumption", thumb},
    {"thumbprint, quick, at most", n::quick_high, "h", "assumption", thumb},
    {"thumbprint, slow, at least", n::slow_low, "h", "assumption", thumb},
    {"thumbprint, slow, usual", n::slow_usual, "h", "assumption", thumb},
    {"thumbprint, slow, at most", n::slow_high, "h", "assumption", thumb},
    {"stiffening slows from humidity", n::damp_from, "fraction", "assumption", "model"},
    {"stiffening in saturated air", n::damp_factor, "factor", "assumption", "model"},
    {"stiffening quickens from wind", n::windy_from, "m/s", "assumption", "model"},
    {"stiffening quickens to wind", n::windy_to, "m/s", "assumption", "model"},
    {"stiffening in that wind", n::windy_factor, "factor", "assumption", "model"},
    {"mortar frost hours at", n::frost_reference, "C", "sourced", "CRREL SR 97-16: 40 F"},
    {"mortar keeps less above", n::hot_mix, "C", "from memory", "hot weather: cut to about 1 h"},
    {"mortar keeps then at most", n::hot_life, "h", "from memory", "hot weather: cut to about 1 h"},
}};
constexpr std::array<Constant, 17> of_ground{{
    {"sandy ground holds", n::sandy[0], "mm", "assumption", bucket},
    {"sandy ground drains to", n::sandy[1], "mm", "assumption", bucket},
    {"sandy ground drains half in", n::sandy[2], "h", "assumption", bucket},
    {"sandy ground is sodden above", n::sandy[3], "mm", "assumption", bucket},
    {"water stands on sand above", n::sandy[4], "mm", "assumption", bucket},
    {"loamy ground holds", n::loamy[0], "mm", "assumption", bucket},
    {"loamy ground drains to", n::loamy[1], "mm", "assumption", bucket},
    {"loamy ground drains half in", n::loamy[2], "h", "assumption", bucket},
    {"loamy ground is sodden above", n::loamy[3], "mm", "assumption", bucket},
    {"water stands on loam above", n::loamy[4], "mm", "assumption", bucket},
    {"clay ground holds", n::clayey[0], "mm", "assumption", bucket},
    {"clay ground drains to", n::clayey[1], "mm", "assumption", bucket},
    {"clay ground drains half in", n::clayey[2], "h", "assumption", bucket},
    {"clay ground is sodden above", n::clayey[3], "mm", "assumption", bucket},
    {"water stands on clay above", n::clayey[4], "mm", "assumption", bucket},
    {"drying of wet ground", n::penman_scale, "mm/day per kPa", "from memory", "Penman 1948"},
    {"drying of wet ground by wind", n::penman_wind, "1/(m/s)", "from memory", "Penman 1948"},
}};
constexpr std::array<SetTime, 8> set_rows{{{30, 19.0},
                                           {40, 14.0 + 2.0 / 3.0},
                                           {50, 10.0 + 2.0 / 3.0},
                                           {60, 8.0},
                                           {70, 6.0},
                                           {80, 4.0},
                                           {90, 2.0 + 2.0 / 3.0},
                                           {100, 1.0 + 2.0 / 3.0}}};
// clang-format on

}  // namespace

std::span<const Constant> concrete_constants() {
  return of_concrete;
}
std::span<const Constant> mortar_constants() {
  return of_mortar;
}
std::span<const Constant> ground_constants() {
  return of_ground;
}
std::span<const SetTime> set_times() {
  return set_rows;
}

}  // namespace weatherstruck::matter
