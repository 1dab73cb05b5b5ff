#pragma once
// A job as the tool understands it: what was written, after every fault has been found and reported.
// Everything here is in domain types and has passed the checks named beside it. Nothing here knows JSON.
// Lengths in metres; amounts of time in Hours; moments in UTC, read from site-local or home-local clock
// times. A value that was not given and is not derived is std::optional.
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "weatherstruck/base/money.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/own_figures.h"
#include "weatherstruck/trade/own_pace.h"

namespace weatherstruck::works {

/// Short lower-case name of a part, task, route or person, unique in its job: [a-z][a-z0-9-]{0,39}.
using Name = std::string;

/// A stretch of the day by the site's clock, [from, to), minutes since midnight, to may be 24 h.
struct DaySpan {
  std::chrono::minutes from{};
  std::chrono::minutes to{};
};

/// Whom the bill goes to. Only name and address are asked for; the rest is what electronic invoices want.
struct Customer {
  std::string name;
  std::string address;           ///< commas between its lines
  std::string town{};            ///< where it does not stand in the address
  std::string postcode{};        ///< likewise
  std::string country{};         ///< ISO 3166-1, two letters
  std::string tax_number{};      ///< with the country's letters before it, as for VAT
  std::string registration{};    ///< in a register of companies
  std::string reference{};       ///< what the customer wants to find the bill by
  std::string purchase_order{};  ///< the number of the customer's order
};

/// Hours in which noisy tools (mixer, disc cutter) may run, by weekday; a day without a span: none at all.
/// Default: weekdays 08-18, Saturday 08-13, Sunday none (council hours, see the limits table).
struct NoisyHours {
  std::vector<DaySpan> monday_to_friday;
  std::vector<DaySpan> saturday;
  std::vector<DaySpan> sunday;
};

/// One way from the kerb (or store) to the work.
struct Route {
  Name name;
  base::Metres length;        ///< 1..2000
  base::Metres rise;          ///< climb from drop to work, -30..30
  int steps = 0;              ///< stairs on the way, 0..200
  base::Metres narrowest;     ///< 0.3..10
  std::vector<Name> shut_by;  ///< parts whose work shuts this route while open or fresh
};

struct Site {
  double latitude = 0;   ///< degrees north, -90..90
  double longitude = 0;  ///< degrees east, -180..180
  std::optional<base::Metres> altitude;
  base::Zone zone;  ///< the site's time zone, resolved
  trade::Soil soil = trade::Soil::garden;
  std::vector<Route> routes;  ///< at least one; the first is used unless a rival is cheaper
  NoisyHours noisy;
  trade::MixerPlace mixer = trade::MixerPlace::work;
};

struct Trip {
  base::Instant leave_home;  ///< sets off
  base::Instant home_by;     ///< promised; after leave_home, at most 31 days later
  base::Hours drive_out;     ///< wheel time one way, 0..24, rests not counted
  base::Hours drive_back;
  base::Zone home_zone;     ///< zone in which leave_home and home_by were written
  DaySpan working_day;      ///< earliest start, latest stop on site
  base::Hours longest_day;  ///< most work in a day, 1..16
};

struct Person {
  Name name;
  bool lays_bricks = true;  ///< false: labours only
  double pace = 1.0;        ///< 1 = the norm; 1.2 does a fifth more in an hour; 0.2..3
};

struct Canopy {
  base::Metres length;  ///< ground it covers
  base::Metres width;
  std::chrono::minutes pitch{10};
  std::chrono::minutes move{10};
  std::chrono::minutes strike{10};
  base::MetresPerSecond gust_limit{11.0};
};

struct Kit {
  base::CubicMetres mixer{0.09};  ///< batch of the mixer; zero: by hand
  base::CubicMetres barrow{0.08};
  base::SquareMetres hessian{0};
  base::SquareMetres sheet{0};
  base::SquareMetres mats{0};
  std::optional<Canopy> canopy;
  bool floodlights = false;
  base::CubicMetres gauge_box{0.014};  ///< box or bucket that mixes are measured with; a builder's bucket
  base::Kilograms van_payload{1000};
  base::CubicMetres van_volume{6};
};

/// A limit, norm, pace or figure of a cover that this job sets itself; `key` and unit are those of the table.
struct LimitOverride {
  std::string key;
  double value = 0;
};

struct Limits {
  trade::LimitSet set = trade::LimitSet::uk;
  trade::ColdRule cold_rule = trade::ColdRule::nbs;
  std::vector<LimitOverride> overrides;
};

/// Materials and mixes that parts use unless they say otherwise.
struct Practice {
  trade::ConcreteMix concrete = trade::ConcreteMix::c20_25;
  trade::CementSpeed cement = trade::CementSpeed::normal;
  trade::Wetness wetness = trade::Wetness::normal;
  trade::MortarClass mortar = trade::MortarClass::m4;
  trade::MortarClass mortar_below = trade::MortarClass::m12;
  trade::Binder binder = trade::Binder::cement;
  double brick_waste = 0.05;  ///< 0..0.5, likewise below
  double mortar_waste = 0.10;
  double concrete_waste = 0.10;
  double flag_waste = 0.05;
  base::Metres coping_length{0.6};       ///< of one coping, 0.2..2
  trade::Frog frog = trade::Frog::none;  ///< of facing and common bricks; engineering ones have none
  trade::NormValues norms{};             ///< with what limits.overrides says of them
  trade::OwnPaces own_pace{};            ///< learnt from jobs before; the document holds none
};

/// A strip of concrete in a trench. `drop` is the fall of the ground along its length (first end high).
struct Footing {
  Name name;
  base::Metres length;     ///< 0.3..60, on its centre line
  base::Metres width;      ///< 0.2..1.5
  base::Metres thickness;  ///< 0.1..1
  base::Metres depth;      ///< top of ground to bottom of concrete at the high end, thickness..2
  base::Metres drop{0};    ///< 0..5
};

/// `at`: from the wall's high end to the near side; nullopt: spread evenly along the wall. An end pier is at
/// 0, or at the wall's length less its own width.
struct Pier {
  base::Metres width{0.215};
  base::Metres projection{0.1025};  ///< beyond one face
  std::optional<base::Metres> at{};
};

struct Opening {
  base::Metres width;  ///< clear; runs the whole height above `from_course`
  int from_course = 0;
  std::optional<base::Metres> at{};
};

enum class WallEnd { high, low };

/// Where a wall stops against another, which runs through and counts the corner.
struct Meeting {
  WallEnd end = WallEnd::high;  ///< of the wall that stops
  Name wall;                    ///< the one that runs through, a Wall of the same job
};

/// One straight run of brickwork on a footing. Corners: how many of its ends meet another run that
/// already counted the corner brick (0, 1, 2); `meets` says against which, so that its thickness counts.
struct Wall {
  Name name;
  Name footing;           ///< a Footing of the same job
  base::Metres length;    ///< 0.2..60
  int courses = 0;        ///< at the high end, 1..40; steps of the footing add at the low end
  int courses_below = 2;  ///< of those at the high end, laid in `below` bricks, 0..courses
  trade::Bond bond = trade::Bond::half_stretcher;
  trade::BrickKind brick = trade::BrickKind::facing;
  trade::BrickKind brick_below = trade::BrickKind::engineering_b;
  trade::JointFinish joints = trade::JointFinish::either;
  int shared_corners = 0;
  std::vector<Pier> piers;
  std::vector<Opening> openings;
  bool plate = false;  ///< a timber plate is bedded on top
  bool coping = false;
  std::vector<Meeting> meets{};  ///< at most one for each end
  bool dpc = false;              ///< a damp-proof course on the courses below
  base::Metres weep_spacing{0};  ///< greatest distance between weep holes, 0.2..3; zero: none
};

enum class Side { north, east, south, west };  ///< as drawn, not by compass: front is south

/// A rectangle of footings, walls and plates entered as one thing: `length` runs west to east.
/// It is expanded into Footing and Wall parts named NAME-north, NAME-east, ...
struct Base {
  Name name;
  base::Metres length;  ///< outside of brickwork
  base::Metres width;
  base::Metres drop_along_length{0};  ///< ground at the west less ground at the east; negative: east is high
  base::Metres drop_along_width{0};   ///< ground at the north less ground at the south
  int courses = 0;                    ///< showing and below together at the highest corner
  int courses_below = 2;
  std::optional<Side> door_side;
  base::Metres door_width{0.9};           ///< 0.4..60, at most open_width()
  std::optional<base::Metres> door_at{};  ///< from the west or north end of its side; nullopt: in the middle
  base::Metres footing_width{0.45};
  base::Metres footing_thickness{0.15};
  base::Metres footing_depth{0.35};
  trade::Bond bond = trade::Bond::half_stretcher;
  trade::BrickKind brick = trade::BrickKind::facing;
  trade::BrickKind brick_below = trade::BrickKind::engineering_b;
  trade::JointFinish joints = trade::JointFinish::either;
  bool plates = true;
};

/// Of an opening that leaves nothing of the wall on that side above the ground but the ends of the walls
/// beside it; the strip and the bricks below ground run through.
[[nodiscard]] base::Metres open_width(const Base& base, Side side);
/// Whether the door is one: the base has walls on three sides only.
[[nodiscard]] bool is_open_sided(const Base& base);

/// A raised bed of brick, filled with soil; `sides` of its four are built (a wall may be the fourth).
struct Bed {
  Name name;
  base::Metres length;
  base::Metres width;
  int courses = 0;  ///< 1..20
  int sides = 4;    ///< 1..4; the front, the left end, the right end, the back
  base::Metres footing_width{0.3};
  base::Metres footing_thickness{0.15};
  base::Metres footing_depth{0.25};
  base::Metres drop{0};
  trade::Bond bond = trade::Bond::half_stretcher;
  trade::BrickKind brick = trade::BrickKind::facing;
  trade::JointFinish joints = trade::JointFinish::either;
  bool filled = true;
  int courses_below = 0;  ///< of its courses, buried and laid in `below` bricks; 0..courses
  trade::BrickKind brick_below = trade::BrickKind::engineering_b;
  base::Metres weep_spacing{0};  ///< as of a wall
};

/// Flags or gravel on sub-base.
struct Path {
  Name name;
  base::Metres length;
  base::Metres width;
  trade::Surface surface = trade::Surface::flags;
  base::Metres flag_length{0.45};
  base::Metres flag_width{0.45};
  base::Metres subbase{0.1};
};

/// A flight of garden steps in brick on a concrete base.
struct Steps {
  Name name;
  int count = 0;  ///< risers, 1..20
  base::Metres width;
  base::Metres going{0.3};
  base::Metres riser{0.15};
};

/// A small brick box (planter, cold frame), up to four courses on a stiff mix in a shallow trench.
struct Box {
  Name name;
  base::Metres length;
  base::Metres width;
  int courses = 0;  ///< 1..4
  trade::BrickKind brick = trade::BrickKind::facing;
  trade::JointFinish joints = trade::JointFinish::either;
};

using Part = std::variant<Footing, Wall, Base, Bed, Path, Steps, Box>;
[[nodiscard]] const Name& name_of(const Part& part);

enum class Importance { must, should, may };

/// Work that no part implies, written by hand.
struct ExtraTask {
  Name name;
  std::string title;
  trade::Operation operation = trade::Operation::other;
  base::Hours hours;  ///< for one person at the norm, > 0, at most 200
  int people = 1;
  std::vector<Name> after;  ///< tasks that must be finished, or parts: all their work
  Importance importance = Importance::must;
  bool noisy = false;
};

/// Hours in which the merchant serves.
struct Merchant {
  base::Hours drive_each_way;
  std::vector<DaySpan> monday_to_friday;
  std::vector<DaySpan> saturday;
};

/// A material brought otherwise than in the van on the way out.
struct Delivery {
  std::string material;  ///< key of the materials table
  double amount = 0;     ///< in the table's unit
  base::Instant at;      ///< when it is on the kerb
};

/// What lies at the work and was counted. Whatever the job takes beyond it and the deliveries is short.
struct StockAtWork {
  std::string material;  ///< key of the materials table
  double amount = 0;     ///< in the table's unit, 0..1e6
};

struct Supplies {
  std::optional<Merchant> merchant;
  std::vector<Delivery> deliveries;
  std::vector<std::string> on_site;  ///< materials already at the work, as much as it takes
  std::vector<StockAtWork> stock{};  ///< counted at the work before anything is begun
};

/// An appointment or a stretch of hours in which nothing is done on site.
struct FixedTime {
  std::string title;
  base::Instant from;
  base::Instant to;
};

/// What may be dropped or changed if the promise cannot be kept, first one first.
struct Fallback {
  enum class Kind { drop, gravel_for_flags, one_course_lower };
  Kind kind = Kind::drop;
  Name part;
  std::optional<base::Money> price;  ///< taken off the bill
};

/// A part's importance where it is not must.
struct PartImportance {
  Name part;
  Importance importance = Importance::must;
};

/// A share of the price that falls due when its work is done.
/// Another tax than he usually charges. What it may be is judged where bills are made (account/tax.h).
struct PriceTax {
  std::string category;  ///< "S", "Z", "E", "AE" or "O", as in EN 16931
  int rate = 0;          ///< hundredths of a percent
  std::string name;
  std::string reason;
};

/// Something taken off a price: a share or an amount.
struct PriceOff {
  int percent = 0;  ///< hundredths of a percent; 0 where it is an amount
  std::optional<base::Money> amount{};
  std::string reason;
};

struct PriceStage {
  std::string title;
  base::Money price;
  std::vector<Name> of;  ///< tasks, or parts: all their work; at least one
  std::optional<PriceTax> tax{};
  std::optional<PriceOff> off{};
};

/// What was agreed with the customer, before tax. Absent amounts are asked for when the bill is made.
struct Price {
  std::optional<base::Money> fixed;  ///< for the job as it stands
  std::vector<PriceStage> stages;    ///< with a fixed price they come to it
  bool by_the_hour = false;          ///< the hours of the book are billed
  std::optional<bool> materials_on_top;
  std::optional<bool> travel_on_top;
  std::optional<base::Money> deposit;  ///< taken already, with its tax
  std::optional<double> distance;  ///< all trips, out and back, in the unit he charges travel by; 0..100000
  std::optional<PriceTax> tax{};   ///< on everything of this job
  std::optional<PriceOff> off{};   ///< from the whole
};

/// Levels read beside a trench, which say more than the fall that was guessed.
struct GroundRead {
  Name footing;  ///< as expand() names it
  std::vector<measure::Level>
      levels;  ///< `along` rising; at least two, and they make a footing without faults
};

struct Job {
  Name name;
  std::string title;
  Customer customer;
  Site site;
  Trip trip;
  std::vector<Person> crew;  ///< at least one, at most 6
  Kit kit;
  Limits limits;
  Practice practice;
  std::vector<Part> parts;  ///< as written; expand() makes Footing and Wall of composite ones
  std::vector<PartImportance> importance;
  std::vector<ExtraTask> tasks;
  Supplies supplies;
  std::vector<FixedTime> fixed;
  std::vector<Fallback> fallbacks;
  std::optional<Price> price{};
  std::vector<GroundRead> ground{};  ///< from the site book; the document holds none
  trade::CoverValues covers{};       ///< with what limits.overrides says of them
};

/// Puts what limits.overrides says of norms, paces and covers into practice.norms and covers.
void settle_own_figures(Job& job);

}  // namespace weatherstruck::works
