#include "weatherstruck/trade/operations.h"

#include <cmath>
#include <stdexcept>

#include "weatherstruck/trade/limits.h"

namespace weatherstruck::trade {
namespace {

using std::chrono::minutes;

// Pace by light. Under lights joints and colours are hard to see and shadows hide a line, so seen work slows.
constexpr std::array<double, 4> any_light{1.0, 1.0, 1.0, 1.0};
constexpr std::array<double, 4> rough_work{1.0, 0.9, 0.8, 0.0};  // digging, wheeling: not in the dark
constexpr std::array<double, 4> laying{1.0, 0.9, 0.8, 0.0};
constexpr std::array<double, 4> pouring{1.0, 0.95, 0.9, 0.0};
constexpr std::array<double, 4> lines{1.0, 0.7, 0.0, 0.0};        // sighting along lines needs daylight
constexpr std::array<double, 4> seen_joints{1.0, 0.7, 0.8, 0.0};  // lights: 0.8, pointing-lights-pace

constexpr std::string_view no_stop = "";

// Dwarf walls and beds are short lengths, corners, piers and steps: the straight-wall pace of one person
// alone, mixing his own mortar, is divided by this. Also in the norms table as dwarf-wall-factor.
constexpr double dwarf = 1.2;

// The bricklaying paces are calibrated, since the published norms are for a gang: one mason alone lays
// 800-1,000 bricks in dwarf walls and beds, digs and pours 1.5-2 m3 of stepped footing, beds plates, points
// and lays 4-5 m2 of flags, carry included, in 3-4 days of 11-14 h (common practice, no source). The test of
// this file shows the sum. The slow end is the published figure.
// A table reads by rows.
// clang-format off
constexpr std::array<OperationRow, 28> rows{{
    {Operation::drive, "drive", "drive", "Drive", "hours", "hour", 1.0, 1.0, 1.25,
     {Standing::assumption, "amount is given in hours at the wheel"}, minutes{0}, Pausing::anywhere, no_stop,
     TemperatureRule::none, Noise::quiet, false, false, 1, any_light, 1.0, 1.0, 1.0, FreshWork::none},
    {Operation::unload, "unload", "unload the van", "Unload the van", "t", "t", 0.4, 0.3, 0.8,
     {Standing::assumption, "a tonne by hand in 25 kg lifts at about one and two thirds a minute"},
     minutes{10}, Pausing::anywhere, no_stop, TemperatureRule::none, Noise::quiet, false, false, 1, {1.0, 0.9,
     0.9, 0.5}, 0.95, 0.95, 0.95, FreshWork::none},
    {Operation::set_out, "set-out", "set out lines for digging", "Set out lines for digging", "m", "m", 0.04,
     0.03, 0.1,
     {Standing::assumption, "rough lines and a level at each corner, under three minutes a metre of trench"},
     minutes{15}, Pausing::anywhere, limit::rain_ground_stop, TemperatureRule::none, Noise::quiet, false,
     true, 1, lines, 0.9, 0.95, 0.9, FreshWork::none},
    {Operation::true_lines, "true-lines", "true lines and dry bond",
     "Set true lines on the concrete and lay out dry bond", "m", "m", 0.05, 0.04, 0.12,
     {Standing::assumption, "lines, diagonals and a dry course, three minutes a metre of wall"}, minutes{15},
     Pausing::anywhere, limit::rain_below_stop, TemperatureRule::none, Noise::quiet, false, true, 1, lines,
     0.9, 0.95, 1.0, FreshWork::none},
    {Operation::strip_turf, "strip-turf", "strip turf", "Strip turf", "m2", "m2", 0.1, 0.07, 0.2,
     {Standing::assumption, "50 mm of turf at the dig norm of 2.4 h/m3 comes to 0.12 h/m2; cut in strips a "
     "little less"}, minutes{5}, Pausing::anywhere, limit::rain_ground_stop, TemperatureRule::none,
     Noise::quiet, true, false, 1, rough_work, 0.9, 1.0, 0.7, FreshWork::none},
    {Operation::dig, "dig", "dig", "Dig", "m3", "m3", 2.4, 1.6, 4.0,
     {Standing::sourced, "excavate trench/pit by hand, ordinary ground to 1 m, 2.4 h/m3, BL501 norms (scribd "
     "638580882); 4.0 in IS 7272; by soil see the soil table"}, minutes{5}, Pausing::anywhere,
     limit::rain_ground_stop, TemperatureRule::none, Noise::quiet, true, false, 1, rough_work, 0.9, 1.0, 0.7,
     FreshWork::none},
    {Operation::bail, "bail", "bail out the trench", "Bail water out of the trench", "m3", "m3", 1.0, 0.5,
     2.0, {Standing::assumption, "a hundred ten-litre buckets in an hour"}, minutes{5}, Pausing::anywhere,
     limit::rain_ground_stop, TemperatureRule::none, Noise::quiet, true, false, 1, rough_work, 1.0, 1.0, 0.9,
     FreshWork::none},
    {Operation::wheel_in, "wheel-in", "wheel in material", "Wheel in", "m3", "m3", 1.0, 0.7, 2.0,
     {Standing::sourced, "wheel and deposit up to 50 m, 1.0 h/m3, estimation notes (scribd 579052623); "
     "farther, stairs and slopes by the carrying norms"}, minutes{5}, Pausing::anywhere,
     limit::rain_ground_stop, TemperatureRule::none, Noise::quiet, true, false, 1, rough_work, 0.9, 1.0, 0.8,
     FreshWork::none},
    {Operation::pour, "pour", "mix and pour concrete", "Mix and pour", "m3", "m3", 2.75, 2.5, 3.5,
     {Standing::common_practice, "one person with a small mixer 2.5-3.5 h/m3; the 13 h/m3 of IS 7272 is a "
     "gang's"}, minutes{15}, Pausing::never, limit::rain_pour_stop, TemperatureRule::concrete, Noise::mixer,
     true, false, 1, pouring, 0.95, 0.95, 0.85, FreshWork::concrete},
    {Operation::lay_below, "lay-below", "lay bricks below ground", "Lay bricks below ground", "bricks",
     "brick", dwarf / 72.0, 1.0 / 75.0, 1.35 / 60.0 * 1.08,
     {Standing::common_practice, "60 an hour alone in short lengths (72 straight, less a sixth); slow end: "
     "half-brick common 1.0 + 0.35 h/m2 at 60 to the m2 (scribd 617796324), engineering 8 % slower (from "
     "memory)"}, minutes{10}, Pausing::at_courses, limit::rain_below_stop, TemperatureRule::brickwork,
     Noise::quiet, true, true, 1, laying, 0.9, 0.9, 0.9, FreshWork::mortar_joints},
    {Operation::lay_facing, "lay-facing", "lay facing bricks", "Lay facing bricks", "bricks", "brick",
     dwarf / 60.0, 1.0 / 60.0, 2.5 / 60.0,
     {Standing::common_practice, "50 an hour alone in short lengths, small mixes included (60 straight, less "
     "a sixth); slow end: half-brick facing, bricklayer 2.0 and labourer 0.5 h/m2 done by one, at 60 to the m2 "
     "(scribd 617796324)"}, minutes{10},
     Pausing::at_courses, limit::rain_facework_stop, TemperatureRule::brickwork, Noise::quiet, true, true, 1,
     laying, 0.85, 0.9, 0.95, FreshWork::mortar_joints},
    {Operation::lay_common, "lay-common", "lay common bricks", "Lay common bricks", "bricks", "brick",
     dwarf / 78.0, 1.0 / 80.0, 1.35 / 60.0,
     {Standing::common_practice, "65 an hour alone in short lengths (78 straight, less a sixth); slow end: "
     "half-brick common 1.0 + 0.35 h/m2 (scribd 617796324)"}, minutes{10}, Pausing::at_courses,
     limit::rain_below_stop, TemperatureRule::brickwork, Noise::quiet, true, true, 1, laying, 0.9, 0.9, 0.95,
     FreshWork::mortar_joints},
    {Operation::strike, "strike", "strike the joints", "Strike the joints", "m2", "m2", 0.25, 0.2, 0.8,
     {Standing::common_practice, "iron and brush as the work stiffens; slow end: pointing 10 m2 a day, 0.8 "
     "h/m2 (civitrik, low authority)"}, minutes{5}, Pausing::anywhere, limit::rain_pointing_stop,
     TemperatureRule::brickwork, Noise::quiet, false, true, 1, seen_joints, 0.8, 0.9, 1.0, FreshWork::none},
    {Operation::rake_back, "rake-back", "rake the joints back", "Rake the joints back", "m2", "m2", 0.15, 0.1,
     0.25, {Standing::assumption, "about half the time of striking; 10-15 mm deep"}, minutes{5},
     Pausing::anywhere, limit::rain_facework_stop, TemperatureRule::none, Noise::quiet, false, true, 1, {1.0,
     0.9, 0.9, 0.0}, 0.9, 0.9, 1.0, FreshWork::none},
    {Operation::point, "point", "point raked joints", "Point the raked joints", "m2", "m2", 1.1, 0.8, 1.85,
     {Standing::from_memory, "rake and repoint 1.25-2 h/m2, less 0.15 for the raking; 0.8 h/m2 in civitrik "
     "(low authority)"}, minutes{15}, Pausing::anywhere, limit::rain_pointing_stop,
     TemperatureRule::brickwork, Noise::quiet, false, true, 1, seen_joints, 0.8, 0.9, 1.0,
     FreshWork::mortar_joints},
    {Operation::lay_coping, "lay-coping", "lay coping", "Lay the coping", "m", "m", 0.25, 0.15, 0.4,
     {Standing::assumption, "a quarter of an hour a metre, brick on edge or slab"}, minutes{15},
     Pausing::anywhere, limit::rain_facework_stop, TemperatureRule::brickwork, Noise::quiet, true, true, 1,
     laying, 0.85, 0.9, 1.0, FreshWork::mortar_joints},
    {Operation::bed_plate, "bed-plate", "bed wall plates", "Bed the wall plates", "m", "m", 0.1, 0.08, 0.2,
     {Standing::assumption, "cut, bed on mortar and level, six minutes a metre"}, minutes{10},
     Pausing::anywhere, limit::rain_below_stop, TemperatureRule::brickwork, Noise::quiet, false, true, 1,
     {1.0, 0.9, 0.8, 0.0}, 0.9, 0.9, 1.0, FreshWork::bed_mortar},
    {Operation::strap_plate, "strap-plate", "strap wall plates", "Strap the wall plates", "straps", "strap",
     0.15, 0.12, 0.35, {Standing::assumption, "drill and screw four fixings, nine minutes a strap"},
     minutes{5}, Pausing::anywhere, limit::rain_ground_stop, TemperatureRule::none, Noise::quiet, false,
     false, 1, {1.0, 0.9, 0.9, 0.0}, 0.9, 0.9, 1.0, FreshWork::none},
    {Operation::lay_subbase, "lay-subbase", "lay and compact sub-base", "Lay and compact the sub-base", "m3",
     "m3", 1.5, 1.0, 3.5,
     {Standing::assumption, "return, fill and ram 1.0 h/m3 (scribd 579052623) and half as much again to "
     "level in thin layers"}, minutes{10}, Pausing::anywhere, limit::rain_ground_stop, TemperatureRule::none,
     Noise::compactor, true, false, 1, rough_work, 0.9, 1.0, 0.7, FreshWork::none},
    {Operation::lay_flags, "lay-flags", "lay flags", "Lay flags", "m2", "m2", 0.9, 0.8, 1.5,
     {Standing::common_practice, "one person mixing his own bed; quick end: flagstone floor 0.8 h/m2 "
     "(civitrik, low authority); slow end: block paving 1.2-1.5 h/m2 (UK textbook)"}, minutes{10},
     Pausing::anywhere, limit::rain_flags_stop, TemperatureRule::flags, Noise::quiet, true, true, 1, {1.0,
     0.85, 0.8, 0.0}, 0.85, 0.9, 0.85, FreshWork::bed_mortar},
    {Operation::grout_flags, "grout-flags", "joint flags", "Fill the joints of the flags", "m2", "m2", 0.25,
     0.2, 0.5, {Standing::assumption, "mortar pressed in and struck, a quarter of an hour a square metre"},
     minutes{5}, Pausing::anywhere, limit::rain_pointing_stop, TemperatureRule::flags, Noise::quiet, false,
     true, 1, seen_joints, 0.8, 0.9, 1.0, FreshWork::mortar_joints},
    {Operation::fill_bed, "fill-bed", "fill the bed", "Lay drain and membrane and fill the bed", "m3", "m3",
     1.5, 1.0, 2.0,
     {Standing::sourced, "between return, fill and ram 1.0 h/m3 (scribd 579052623) and backfill 2.0 h/m3 (IS "
     "7272, scribd 391056131)"}, minutes{10}, Pausing::anywhere, limit::rain_ground_stop,
     TemperatureRule::none, Noise::quiet, true, false, 1, rough_work, 0.9, 1.0, 0.7, FreshWork::none},
    {Operation::form_step, "form-step", "build steps", "Build the steps", "steps", "step", 1.5, 1.0, 3.0,
     {Standing::assumption, "a riser of two courses and a tread a metre wide, an hour and a half"},
     minutes{15}, Pausing::anywhere, limit::rain_facework_stop, TemperatureRule::brickwork, Noise::quiet,
     true, true, 1, laying, 0.85, 0.9, 0.9, FreshWork::mortar_joints},
    {Operation::backfill, "backfill", "backfill", "Backfill", "m3", "m3", 1.5, 1.0, 2.0,
     {Standing::sourced, "between return, fill and ram 1.0 h/m3 (scribd 579052623) and backfill 2.0 h/m3 (IS "
     "7272, scribd 391056131)"}, minutes{5}, Pausing::anywhere, limit::rain_ground_stop,
     TemperatureRule::none, Noise::quiet, true, false, 1, rough_work, 0.9, 1.0, 0.7, FreshWork::none},
    {Operation::fetch, "fetch", "fetch from the merchant", "Fetch from the merchant", "hours", "hour", 1.0,
     0.8, 1.5, {Standing::assumption, "amount is given in hours, drive and counter together"}, minutes{0},
     Pausing::never, no_stop, TemperatureRule::none, Noise::quiet, false, false, 1, any_light, 1.0, 1.0, 1.0,
     FreshWork::none},
    {Operation::clear_up, "clear-up", "clear up", "Clear up and wash down", "hours", "hour", 1.0, 0.7, 1.5,
     {Standing::assumption, "amount is given in hours"}, minutes{0}, Pausing::anywhere, no_stop,
     TemperatureRule::none, Noise::quiet, false, false, 1, {1.0, 0.9, 0.9, 0.5}, 0.95, 0.95, 0.9,
     FreshWork::none},
    {Operation::load_out, "load-out", "load the van", "Load the van", "t", "t", 0.5, 0.3, 1.0,
     {Standing::assumption, "as unloading, and stowing"}, minutes{10}, Pausing::anywhere, no_stop,
     TemperatureRule::none, Noise::quiet, false, false, 1, {1.0, 0.9, 0.9, 0.5}, 0.95, 0.95, 0.95,
     FreshWork::none},
    {Operation::other, "other", "other work", "Do", "hours", "hour", 1.0, 0.5, 2.0,
     {Standing::assumption, "amount is given in hours"}, minutes{0}, Pausing::anywhere,
     limit::rain_ground_stop, TemperatureRule::none, Noise::quiet, false, false, 1, rough_work, 0.95, 0.95,
     0.9, FreshWork::none},
}};
// clang-format on

}  // namespace

std::span<const OperationRow> operations() {
  return rows;
}

const OperationRow& row_for(Operation operation) {
  for (const OperationRow& row : rows) {
    if (row.operation == operation) return row;
  }
  throw std::logic_error("operation without a row in the operation table");
}

std::optional<Operation> operation_from_key(std::string_view key) {
  for (const OperationRow& row : rows) {
    if (row.key == key) return row.operation;
  }
  return std::nullopt;
}

base::Hours norm_hours(Operation operation, double amount) {
  if (!std::isfinite(amount) || amount < 0) {
    throw std::invalid_argument("norm_hours: an amount of work is a finite number from 0 up");
  }
  return base::Hours(row_for(operation).hours_per_unit * amount);
}

}  // namespace weatherstruck::trade
