// The rows of the limits table, kept apart from the code that resolves them.
#include <array>

#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/matter/heat_constants.h"
#include "weatherstruck/trade/limits.h"

namespace weatherstruck::trade {
namespace {

constexpr auto safety = LimitClass::safety;
constexpr auto damage = LimitClass::damage;
constexpr auto quality = LimitClass::quality;
constexpr auto comfort = LimitClass::comfort;

constexpr std::optional<LimitSet> both{};
constexpr std::optional<LimitSet> uk{LimitSet::uk};
constexpr std::optional<LimitSet> us{LimitSet::us};
constexpr std::optional<ColdRule> any{};
constexpr std::optional<ColdRule> nhbc{ColdRule::nhbc};
constexpr std::optional<ColdRule> bda{ColdRule::bda};
constexpr std::optional<ColdRule> nbs{ColdRule::nbs};

constexpr Source practice{Standing::common_practice, "a limit that no standard gives"};

constexpr Source nhbc_cold{
    Standing::sourced,
    "NHBC Standards 2023, 3.2.5: below 3 C and falling; 1 C and rising with above 3 C expected"};
constexpr Source bda_cold{Standing::sourced, "BDA via labcwarranty.co.uk: 3 C falling, 3 C rising"};
constexpr Source nbs_cold{
    Standing::sourced,
    "NBS F30 clause 185 (flipbuilder huiy/fsyp p.36): 3 C falling or less unless 1 C rising, unless mortar "
    "is 4 C or more when laid and the work is protected"};
constexpr Source lime_cold{Standing::sourced,
                           "NBS F30 clause 185: hydraulic lime 5 C and falling, 3 C and rising; "
                           "limetec.co.uk, lime mortar in winter "
                           "conditions, likewise"};
// Performance ratio 9.448 + 0.0518 F - 2.819 ln F: 1.10 at 41 F, 1.34 at 32 F; 1.19 at 77 F, 1.53 at 95 F.
constexpr Source thomas{
    Standing::from_memory,
    "Thomas and Yiakoumis 1987, performance ratio by temperature, its humidity term left out; Sanders and "
    "Thomas 1991: the effects of weather on masonry are not well understood"};
constexpr Source as_the_table{Standing::assumption, "1: as the table of operations has it for each work"};
constexpr Source us_cold{Standing::sourced,
                         "TMS 602 1.8 C (masoncontractors.org): cold-weather work below 40 F (4.4 C)"};

// A table reads by rows.
// clang-format off
constexpr std::array table{
    // Cold and heat: brickwork
    Limit{limit::brick_cold_stop, "air temperature, falling, that stops bricklaying", 3, "C", -10, 15, damage,
     uk, nhbc, nhbc_cold},
    Limit{limit::brick_cold_stop, "air temperature, falling, that stops bricklaying", 3, "C", -10, 15, damage,
     uk, bda, bda_cold},
    Limit{limit::brick_cold_stop, "air temperature, falling, that stops bricklaying", 3, "C", -10, 15, damage,
     uk, nbs, nbs_cold},
    Limit{limit::brick_cold_stop, "air temperature, falling, that stops bricklaying", 4.4, "C", -10, 15,
     damage, us, any, us_cold},
    Limit{limit::brick_cold_resume, "air temperature, rising, at which bricklaying may go on", 1, "C", -10,
     15, damage, uk, nhbc, nhbc_cold},
    Limit{limit::brick_cold_resume, "air temperature, rising, at which bricklaying may go on", 3, "C", -10,
     15, damage, uk, bda, bda_cold},
    Limit{limit::brick_cold_resume, "air temperature, rising, at which bricklaying may go on", 1, "C", -10,
     15, damage, uk, nbs, nbs_cold},
    Limit{limit::brick_cold_resume, "air temperature, rising, at which bricklaying may go on", 4.4, "C", -10,
     15, damage, us, any, us_cold},
    Limit{limit::brick_cold_expected, "temperature that the day must still reach before bricklaying goes on",
     3, "C", -10, 20, damage, uk, nhbc, nhbc_cold},
    Limit{limit::brick_cold_expected, "temperature that the day must still reach before bricklaying goes on",
     3, "C", -10, 20, damage, uk, bda,
     {Standing::derived, "the BDA wording asks for nothing beyond its 3 C rising"}},
    Limit{limit::brick_cold_expected, "temperature that the day must still reach before bricklaying goes on",
     1, "C", -10, 20, damage, uk, nbs,
     {Standing::derived, "the NBS wording asks for nothing beyond its 1 C rising"}},
    Limit{limit::brick_cold_expected, "temperature that the day must still reach before bricklaying goes on",
     4.4, "C", -10, 20, damage, us, any, {Standing::derived, "TMS 602 names one threshold, 40 F"}},
    Limit{limit::brick_cold_protected,
     "bricklaying in the cold with warm mortar and cover (1: allowed, 0: not)", 0, "yes/no", 0, 1, damage, uk,
     nhbc, {Standing::derived, "NHBC 3.2.5 gives no such leave"}},
    Limit{limit::brick_cold_protected,
     "bricklaying in the cold with warm mortar and cover (1: allowed, 0: not)", 0, "yes/no", 0, 1, damage, uk,
     bda, {Standing::derived, "the BDA wording gives no such leave"}},
    Limit{limit::brick_cold_protected,
     "bricklaying in the cold with warm mortar and cover (1: allowed, 0: not)", 1, "yes/no", 0, 1, damage, uk,
     nbs, nbs_cold},
    Limit{limit::brick_cold_protected,
     "bricklaying in the cold with warm mortar and cover (1: allowed, 0: not)", 1, "yes/no", 0, 1, damage, us,
     any, {Standing::sourced, "TMS 602 and IMIAC 40-32 F band: heat water or sand, mortar 40-120 F, cover"}},
    Limit{limit::brick_cold_mortar, "mortar temperature when laid, for work in the cold under cover", 4, "C",
     0, 20, damage, uk, any, nbs_cold},
    Limit{limit::brick_cold_mortar, "mortar temperature when laid, for work in the cold under cover", 4.4,
     "C", 0, 20, damage, us, any,
     {Standing::sourced, "IMIAC table (Masonry and Concrete p.177): mortar 40-120 F"}},
    Limit{limit::brick_cold_hard_stop, "air temperature that stops bricklaying whatever the cover", 0, "C",
     -20, 5, damage, uk, any,
     {Standing::common_practice, "frozen bricks, sand or ground, or 0 C with no frost cover"}},
    Limit{limit::brick_cold_hard_stop, "air temperature that stops bricklaying whatever the cover", 0, "C",
     -20, 5, damage, us, any,
     {Standing::assumption, "below 32 F sand and water are both heated (IMIAC): one man without a heater "
     "stops"}},
    Limit{limit::brick_lime_cold_stop, "air temperature, falling, that stops laying in hydraulic lime", 5, "C",
     -10, 15, damage, both, any, lime_cold},
    Limit{limit::brick_lime_cold_resume,
     "air temperature, rising, at which laying in hydraulic lime may go on", 3, "C", -10, 15, damage, both, any,
     lime_cold},
    Limit{limit::brick_heat, "air temperature above which brickwork needs hot-weather care", 30, "C", 20, 50,
     damage, uk, any, {Standing::sourced, "NHBC 6.1.20: concern above 30 C"}},
    Limit{limit::brick_heat, "air temperature above which brickwork needs hot-weather care", 37.8, "C", 20,
     50, damage, us, any,
     {Standing::sourced, "TMS 602 hot weather, 100 F (masoncontractors.org pageID=14922)"}},
    // Concrete
    Limit{limit::pour_cold_start, "air temperature, rising, at which a pour may start", 2, "C", -10, 15,
     damage, both, any, {Standing::sourced, "contractor handbook, 2 C and rising (low authority)"}},
    Limit{limit::concrete_cold, "least temperature of fresh concrete", 5, "C", 0, 20, damage, both, any,
     {Standing::sourced, "EN 206 5.2.8, 5 C at delivery, as quoted by Hanson (nhfarmers.co.uk)"}},
    Limit{limit::concrete_heat, "greatest temperature of fresh concrete", 35, "C", 25, 45, damage, both, any,
     {Standing::sourced, "BS 8500-2 via NHBC 3.1.15: fresh concrete at most 35 C"}},
    Limit{limit::concrete_frost_strength, "strength that fresh concrete needs before frost", 5, "N/mm2", 1,
     20, damage, uk, any,
     {Standing::sourced, "Hanson ready-mix text (nhfarmers.co.uk): kept from frost until 5 N/mm2 cube"}},
    Limit{limit::concrete_frost_strength, "strength that fresh concrete needs before frost", 3.5, "N/mm2", 1,
     20, damage, us, any, {Standing::sourced, "NRMCA CIP 27: 500 psi (3.5 MPa)"}},
    Limit{limit::strip_frost_nights, "nights a new strip lies under hessian and sheet when frost is forecast",
     2, "nights", 0, 14, damage, both, any, practice},
    Limit{limit::strip_top_above,
     "temperature that the top of a new strip stays above in those nights, its own heat hardly counted", 0,
     "C", 0, 5, damage, both, any,
     {Standing::derived, "docs/heat.md: tops that the plan keeps above it do not freeze in the full balance of "
     "heat, in the winters of four stations"}},
    Limit{limit::evaporation_precaution, "drying rate at which fresh concrete is damped or covered",
     matter::evaporation_precaution.value(), "kg/m2/h", 0.1, 3, damage, both, any,
     {Standing::sourced, "ACI 305R, 0.2 lb/ft2/h, via UFGS 03300"}},
    Limit{limit::cure_plain_days,
     "days before a plain concrete base carries load where nothing gentler is allowed", 4, "days", 0, 28,
     damage, both, any,
     {Standing::sourced, "NHBC 3.1.15: plain concrete 4 days; masonry above an unreinforced strip may start "
     "early if the surface is protected"}},
    Limit{limit::concrete_place_within, "time from mixing to placing concrete", 2, "h", 0.25, 4, damage, uk,
     any, {Standing::from_memory, "EN 206 and BS 8500-2: within 2 h of batching"}},
    Limit{limit::concrete_place_within, "time from mixing to placing concrete", 1.5, "h", 0.25, 4, damage, us,
     any, {Standing::from_memory, "ASTM C94: 90 minutes"}},
    Limit{limit::mortar_life, "time from mixing to laying mortar", 2, "h", 0.25, 72, quality, uk, any,
     {Standing::sourced, "NBS clause (flipbuilder huiy/arxp p.567): cement-gauged mortar within 2 h"}},
    Limit{limit::mortar_life, "time from mixing to laying mortar", 2.5, "h", 0.25, 72, quality, us, any,
     {Standing::sourced, "ASTM C270: 2.5 h after mixing (jiaqitong.net/retempering)"}},
    // Flags
    Limit{limit::flags_cold_stop, "air temperature, falling, that stops laying flags", 3, "C", -10, 15,
     damage, both, any, {Standing::sourced, "docest.com 624562: not below 3 C falling"}},
    Limit{limit::flags_cold_resume, "air temperature, rising, at which laying flags may go on", 2, "C", -10,
     15, damage, both, any, {Standing::sourced, "docest.com 624562: not below 2 C rising"}},
    Limit{limit::flags_heat, "air temperature, rising, that stops jointing flags", 25, "C", 15, 45, quality,
     both, any, {Standing::sourced, "docest.com 624562: no jointing above 25 C rising"}},
    Limit{limit::flags_keep_above, "temperature below which a fresh flag bed is kept covered", 2, "C", -10,
     15, damage, both, any, {Standing::sourced, "docest.com 624562: materials and bed kept from below 2 C"}},
    Limit{limit::flags_keep_hours, "time for which a fresh flag bed is kept from frost", 24, "h", 0, 168,
     damage, both, any, {Standing::sourced, "docest.com 624562: for 24 h"}},
    Limit{limit::grout_wait, "wait from bedding flags to filling their joints", 12, "h", 0, 96, damage, both,
     any, {Standing::sourced, "BS 7533-9 extract: at least 12 h after bedding"}},
    Limit{limit::flags_foot_wait, "wait before feet on new flags", 24, "h", 0, 168, damage, both, any,
     {Standing::from_memory, "24-48 h on foot"}},
    // Rain
    Limit{limit::rain_facework_continue, "rain below which facing bricks are laid with hessian following",
     0.5, "mm/h", 0, 10, quality, both, any, practice},
    Limit{limit::rain_facework_stop, "rain that stops laying facing bricks", 1.0, "mm/h", 0.1, 20, damage,
     both, any, practice},
    Limit{limit::rain_facework_minutes, "how long that rain lasts before facing work stops", 30, "min", 0,
     240, quality, both, any, practice},
    Limit{limit::rain_below_stop, "rain that stops engineering bricks and work below ground", 2.0, "mm/h",
     0.1, 20, damage, both, any, practice},
    Limit{limit::rain_pour_stop, "rain in which no pour is begun", 2.0, "mm/h", 0.1, 20, damage, both, any,
     {Standing::assumption, "no standard number found; as for work below ground"}},
    Limit{limit::rain_pointing_stop, "rain that stops pointing and jointing", 0.5, "mm/h", 0.1, 20, quality,
     both, any,
     {Standing::assumption, "joints smear as soon as the face is wet; the lower of the facework figures"}},
    Limit{limit::rain_flags_stop, "rain that stops laying flags", 1.0, "mm/h", 0.1, 20, damage, both, any,
     {Standing::assumption, "the bed washes; as for facework"}},
    Limit{limit::rain_ground_stop, "rain that stops digging, carrying and filling", 4.0, "mm/h", 0.5, 50,
     comfort, both, any,
     {Standing::assumption, "heavy rain; what stops facework does not stop digging (common practice, no "
     "source)"}},
    Limit{limit::rain_cover, "rain from which fresh work is covered", 0.1, "mm/h", 0, 5, damage, both, any,
     {Standing::assumption, "any measurable rain"}},
    Limit{limit::soft_joint_inspect, "rain fallen on soft joints after which they are looked at", 2, "mm", 0,
     50, damage, both, any, practice},
    Limit{limit::soft_joint_remake, "rain fallen on soft joints after which they are made good", 5, "mm", 0,
     100, damage, both, any, practice},
    // Wind and covers
    Limit{limit::canopy_gust, "gust before which a canopy is down", 11, "m/s", 3, 25, safety, both, any,
     {Standing::common_practice, "25 mph for a pop-up canopy"}},
    Limit{limit::canopy_overnight_gust, "gust forecast for the night with which a canopy is not left up", 8.9,
     "m/s", 3, 25, safety, both, any, {Standing::common_practice, "20 mph"}},
    Limit{limit::fresh_wall_wind, "wind that a fresh unbraced wall can fall in", 8.9, "m/s", 3, 25, safety,
     both, any,
     {Standing::sourced, "masonryconstruction.com bracing: 20-30 mph; 20 mph in the first 24 h (Standard "
     "Practice for Bracing, from memory)"}},
    Limit{limit::cover_shortest, "shortest rain worth covering up for", 30, "min", 0, 240, comfort, both, any,
     practice},
    Limit{limit::night_cover_first_month, "first month in which fresh work is covered every night", 10,
     "month", 1, 12, damage, both, any, practice},
    Limit{limit::night_cover_last_month, "last month in which fresh work is covered every night", 4, "month",
     1, 12, damage, both, any, practice},
    Limit{limit::cover_mean_day,
     "mean of the day's low and high below which new brickwork is covered for 24 h", 4.4, "C", -10, 15,
     damage, us, any,
     {Standing::sourced, "TMS 602 1.8 C: mean daily below 40 F, membrane for 24 h (band from an exam site, "
     "low authority)"}},
    // Waits
    Limit{limit::strip_wait_mild, "wait from pour to low walls in mild weather", 8, "h", 0, 168, damage, both,
     any,
     {Standing::common_practice, "unreinforced strip held by its trench, and a boot heel leaves no mark"}},
    Limit{limit::strip_wait_cold, "wait from pour to low walls in cold weather", 12, "h", 0, 168, damage,
     both, any, practice},
    Limit{limit::strip_mild_from, "temperature from which the mild wait holds", 5, "C", 0, 20, damage, both,
     any, practice},
    Limit{limit::strip_cold_from, "temperature from which the cold wait holds; below it no time counts", 2,
     "C", -5, 15, damage, both, any, practice},
    Limit{limit::strip_wait_courses, "most courses laid on so young a strip", 8, "courses", 1, 30, damage,
     both, any, practice},
    Limit{limit::box_wait, "wait from pour to a box of few courses on a stiff mix", 5, "h", 0, 96, damage,
     both, any, practice},
    Limit{limit::box_wait_courses, "most courses of such a box", 4, "courses", 1, 10, damage, both, any,
     practice},
    Limit{limit::high_wall_wait_warm, "wait from pour to higher walls at 10 C or more", 24, "h", 0, 336,
     damage, both, any,
     {Standing::assumption, "practical rule: 24 h at a mean of 10 C or more, 48 h below, and 5 N/mm2 before "
     "frost"}},
    Limit{limit::high_wall_wait_cold, "wait from pour to higher walls when colder", 48, "h", 0, 336, damage,
     both, any,
     {Standing::assumption, "practical rule: 24 h at a mean of 10 C or more, 48 h below, and 5 N/mm2 before "
     "frost"}},
    Limit{limit::high_wall_warm_from, "mean temperature from which the shorter of those waits holds", 10, "C",
     0, 25, damage, both, any,
     {Standing::assumption, "practical rule: 24 h at a mean of 10 C or more, 48 h below"}},
    Limit{limit::fill_half_wait, "wait from laying to half-height fill behind a low wall", 24, "h", 0, 336,
     damage, both, any,
     {Standing::common_practice, "under 600 mm, loose soil, both sides level, no treading"}},
    Limit{limit::fill_rest_wait, "wait from laying to the rest of that fill", 48, "h", 0, 672, damage, both,
     any, practice},
    Limit{limit::fill_cold_below, "temperature below which those waits are longer", 5, "C", -5, 20, damage,
     both, any, practice},
    Limit{limit::fill_cold_factor, "how many times longer they are then", 2, "factor", 1, 10, damage, both,
     any, practice},
    Limit{limit::strap_wait, "wait from bedding a plate to strapping it", 12, "h", 0, 168, quality, both, any,
     {Standing::assumption, "bed on fresh mortar, strap after set: overnight"}},
    Limit{limit::plate_load_wait, "wait from bedding a plate to loading it", 72, "h", 0, 672, damage, both,
     any, {Standing::assumption, "about three days in ordinary weather"}},
    // Heights
    Limit{limit::green_height_facing, "height of facing brickwork laid in a day", 1500, "mm", 300, 2000,
     damage, both, any, {Standing::sourced, "labcwarranty.co.uk: at most 1.5 m a day"}},
    Limit{limit::green_height_engineering, "height of engineering brickwork laid in a day", 1100, "mm", 300,
     2000, damage, both, any, {Standing::assumption, "engineering bricks less than facing: 1.0-1.2 m"}},
    Limit{limit::retaining_caution_height,
     "height of a half-brick wall holding wet soil that calls for a caution", 450, "mm", 100, 1500, safety,
     both, any, practice},
    Limit{limit::retaining_caution_span,
     "length of such a wall between returns without pier or drain that calls for a caution", 1200, "mm", 300,
     6000, safety, both, any, practice},
    Limit{limit::retaining_engineer_height, "height of any retaining wall that is an engineer's", 600, "mm",
     300, 2000, safety, both, any, {Standing::sourced, "NHBC 10.2.4: over 600 mm needs engineered design"}},
    Limit{limit::free_wall_half_brick, "height of a free-standing half-brick wall in the windiest zone", 375,
     "mm", 200, 1000, safety, both, any,
     {Standing::sourced, "planningportal.co.uk: 525/450/400/375 mm by zone; advice for garden walls"}},
    Limit{limit::free_wall_one_brick, "height of a free-standing one-brick wall in the windiest zone", 1075,
     "mm", 300, 2500, safety, both, any,
     {Standing::from_memory, "planningportal.co.uk 1450/1300/1175 mm seen, the fourth zone from memory"}},
    // Hours
    Limit{limit::drive_rest_every, "driving after which a rest is due", 2, "h", 0.5, 5, safety, both, any,
     practice},
    Limit{limit::drive_rest, "length of that rest", 15, "min", 5, 60, safety, both, any, practice},
    Limit{limit::day_red_line, "work and driving together in a day", 13, "h", 6, 20, safety, both, any,
     practice},
    Limit{limit::rest_before_drive, "time off before the drive home", 7, "h", 0, 14, safety, both, any,
     practice},
    Limit{limit::evening_from, "time of day from which work counts as evening work", 18, "o'clock", 12, 24,
     comfort, both, any, {Standing::assumption, "the end of an ordinary working day"}},
    Limit{limit::pointing_lights_pace, "pace of pointing under lights", 0.8, "factor", 0.1, 1, quality, both,
     any, {Standing::common_practice, "with a caution for colour"}},
    Limit{limit::noise_weekday_from, "weekday time from which noisy tools may run", 8, "o'clock", 0, 24,
     comfort, both, any,
     {Standing::sourced, "council hours, Monday to Friday 08-18 (Liverpool, Stratford, Kent)"}},
    Limit{limit::noise_weekday_to, "weekday time until which noisy tools may run", 18, "o'clock", 0, 24,
     comfort, both, any,
     {Standing::sourced, "council hours, Monday to Friday 08-18 (Liverpool, Stratford, Kent)"}},
    Limit{limit::noise_saturday_from, "Saturday time from which noisy tools may run", 8, "o'clock", 0, 24,
     comfort, both, any,
     {Standing::sourced, "council hours, Saturday 08-13, none on Sunday (Liverpool, Stratford, Kent)"}},
    Limit{limit::noise_saturday_to, "Saturday time until which noisy tools may run", 13, "o'clock", 0, 24,
     comfort, both, any,
     {Standing::sourced, "council hours, Saturday 08-13, none on Sunday (Liverpool, Stratford, Kent)"}},
    // Pace
    Limit{limit::pace_half_light, "own pace in half light against that of the table", 1, "factor", 0.5, 1.5,
     comfort, both, any, as_the_table},
    Limit{limit::pace_thin_rain, "own pace in thin rain against that of the table", 1, "factor", 0.5, 1.5,
     comfort, both, any, as_the_table},
    Limit{limit::pace_wet_ground, "own pace on sodden ground against that of the table", 1, "factor", 0.5, 1.5,
     comfort, both, any, as_the_table},
    Limit{limit::pace_cold, "own pace in the cold against that of the table", 1, "factor", 0.5, 1.5, comfort,
     both, any, as_the_table},
    Limit{limit::pace_freezing, "pace of cold hands at 0 C against that at 5 C", 0.83, "factor", 0.3, 1,
     comfort, both, any, thomas},
    Limit{limit::pace_hot_from, "air temperature above which work slows in the heat", 25, "C", 15, 45, comfort,
     both, any,
     {Standing::from_memory, "Grimm and Wagner 1974: masons did most near 75 F (24 C) and 60 % humidity"}},
    Limit{limit::pace_hot, "pace ten degrees above that", 0.78, "factor", 0.3, 1, comfort, both, any, thomas},
    Limit{limit::pace_hot_damp, "pace there in saturated air against air of 60 %", 0.9, "factor", 0.3, 1,
     comfort, both, any,
     {Standing::assumption, "Grimm and Wagner 1974 found that humidity counts (abstract read, no number)"}},
    Limit{limit::pace_long_day_from, "hours after the start of his working day from which he tires", 10, "h",
     4, 16, comfort, both, any,
     {Standing::assumption, "output fell after 9 h (mafic.ltd, low authority); an hour more taken"}},
    Limit{limit::pace_long_day, "pace from then on", 1, "factor", 0.3, 1, comfort, both, any,
     {Standing::derived, "1: the bricklaying paces are means over days of 11-14 h, tired hours among them. "
     "Where his own were taken in short days: weeks of 50, 60, 70 h did 0.92, 0.84, 0.78 of one of 40 (BLS "
     "1947 in Thomas 1992)"}},
    // Ground
    Limit{limit::footing_thickness, "least thickness of a strip footing", 150, "mm", 75, 500, damage, uk, any,
     {Standing::sourced, "Approved Document A 2E2: T at least 150 mm and at least the projection; advice for "
     "garden walls"}},
    Limit{limit::footing_thickness, "least thickness of a strip footing", 152.4, "mm", 75, 500, damage, us, any,
     {Standing::sourced, "IRC R403.1: 6 in; advice for garden walls"}},
    Limit{limit::footing_overlap, "least overlap at a step of a footing", 300, "mm", 100, 1000, damage, both,
     any,
     {Standing::sourced, "Approved Document A 2E2: the greatest of twice the step, the thickness and 300 "
     "mm"}},
    Limit{limit::footing_frost_depth, "depth of a footing in ground that frost moves", 450, "mm", 0, 1500,
     quality, uk, any, {Standing::sourced, "NHBC 4.3.3: 450 mm; a rule for houses, advice here"}},
    Limit{limit::footing_frost_depth, "depth of a footing in ground that frost moves", 304.8, "mm", 0, 1500,
     quality, us, any,
     {Standing::sourced, "IRC R403.1: 12 in below grade, more by local frost line; advice here"}},
    Limit{limit::footing_slope, "slope of the bottom of a footing beyond which it is stepped", 0.1, "factor",
     0, 0.3, damage, us, any, {Standing::sourced, "IRC R403.1.5: 1 in 10"}},
    Limit{limit::ground_mean, "mean temperature of the ground over the year", matter::heat::ground_mean, "C",
     -5, 25, damage, both, any,
     {Standing::from_memory, "lowland England at 1 m; about the mean of the air over the year"}},
    Limit{limit::ground_swing, "how much the ground's surface is colder than that in the coldest week",
     matter::heat::ground_amplitude, "K", 0, 25, damage, both, any,
     {Standing::from_memory, "lowland England, half of the year's range; more inland"}},
    Limit{limit::trench_caution, "depth of trench that calls for a caution", 1, "m", 0.3, 2, safety, both,
     any,
     {Standing::common_practice, "from 1 m, or beside a wall at any depth; HSG185 says no ground stands "
     "safely unsupported"}},
    Limit{limit::trench_support, "depth of trench that must be supported", 1.52, "m", 0.5, 3, safety, us, any,
     {Standing::sourced, "OSHA: protective system from 5 ft"}},
    Limit{limit::lift_caution, "single lift that calls for a caution", 25, "kg", 5, 50, safety, both, any,
     {Standing::from_memory, "HSE guideline figure 25 kg; HSE says no weight is safe"}},
};
// clang-format on

}  // namespace

std::span<const Limit> limit_table() {
  return table;
}

}  // namespace weatherstruck::trade
