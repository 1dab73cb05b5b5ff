#include "weatherstruck/files/words.h"

namespace weatherstruck::files {
namespace {

using trade::Operation;

constexpr std::array<Word<Operation>, 28> operations = {{
    {"drive", Operation::drive},
    {"unload", Operation::unload},
    {"set-out", Operation::set_out},
    {"true-lines", Operation::true_lines},
    {"strip-turf", Operation::strip_turf},
    {"dig", Operation::dig},
    {"bail", Operation::bail},
    {"wheel-in", Operation::wheel_in},
    {"pour", Operation::pour},
    {"lay-below", Operation::lay_below},
    {"lay-facing", Operation::lay_facing},
    {"lay-common", Operation::lay_common},
    {"strike", Operation::strike},
    {"rake-back", Operation::rake_back},
    {"point", Operation::point},
    {"lay-coping", Operation::lay_coping},
    {"bed-plate", Operation::bed_plate},
    {"strap-plate", Operation::strap_plate},
    {"lay-subbase", Operation::lay_subbase},
    {"lay-flags", Operation::lay_flags},
    {"grout-flags", Operation::grout_flags},
    {"fill-bed", Operation::fill_bed},
    {"form-step", Operation::form_step},
    {"backfill", Operation::backfill},
    {"fetch", Operation::fetch},
    {"clear-up", Operation::clear_up},
    {"load-out", Operation::load_out},
    {"other", Operation::other},
}};

constexpr std::array<Word<trade::BrickKind>, 4> bricks = {{
    {"facing", trade::BrickKind::facing},
    {"engineering-a", trade::BrickKind::engineering_a},
    {"engineering-b", trade::BrickKind::engineering_b},
    {"common", trade::BrickKind::common},
}};

constexpr std::array<Word<trade::Bond>, 4> bonds = {{
    {"half-stretcher", trade::Bond::half_stretcher},
    {"one-english", trade::Bond::one_english},
    {"one-flemish", trade::Bond::one_flemish},
    {"one-and-half-english", trade::Bond::one_and_half_english},
}};

constexpr std::array<Word<trade::JointFinish>, 4> joints = {{
    {"strike-now", trade::JointFinish::strike_now},
    {"point-later", trade::JointFinish::point_later},
    {"either", trade::JointFinish::either},
    {"none", trade::JointFinish::none},
}};

constexpr std::array<Word<trade::MortarClass>, 4> mortars = {{
    {"m12", trade::MortarClass::m12},
    {"m6", trade::MortarClass::m6},
    {"m4", trade::MortarClass::m4},
    {"m2", trade::MortarClass::m2},
}};

constexpr std::array<Word<trade::Binder>, 3> binders = {{
    {"cement", trade::Binder::cement},
    {"cement-lime", trade::Binder::cement_lime},
    {"hydraulic-lime", trade::Binder::hydraulic_lime},
}};

constexpr std::array<Word<trade::ConcreteMix>, 5> mixes = {{
    {"c16-20", trade::ConcreteMix::c16_20},
    {"c20-25", trade::ConcreteMix::c20_25},
    {"c25-30", trade::ConcreteMix::c25_30},
    {"ballast-1-6", trade::ConcreteMix::ballast_1_6},
    {"gen1", trade::ConcreteMix::gen1},
}};

constexpr std::array<Word<trade::CementSpeed>, 3> cements = {{
    {"rapid", trade::CementSpeed::rapid},
    {"normal", trade::CementSpeed::normal},
    {"slow", trade::CementSpeed::slow},
}};

constexpr std::array<Word<trade::Wetness>, 3> wetnesses = {{
    {"stiff", trade::Wetness::stiff},
    {"normal", trade::Wetness::normal},
    {"wet", trade::Wetness::wet},
}};

constexpr std::array<Word<trade::Soil>, 6> soils = {{
    {"garden", trade::Soil::garden},
    {"sand", trade::Soil::sand},
    {"gravel", trade::Soil::gravel},
    {"firm-clay", trade::Soil::firm_clay},
    {"stiff-clay", trade::Soil::stiff_clay},
    {"rock", trade::Soil::rock},
}};

constexpr std::array<Word<trade::CoverKind>, 6> covers = {{
    {"bare", trade::CoverKind::bare},
    {"hessian", trade::CoverKind::hessian},
    {"sheet", trade::CoverKind::sheet},
    {"hessian-and-sheet", trade::CoverKind::hessian_and_sheet},
    {"mat", trade::CoverKind::mat},
    {"canopy", trade::CoverKind::canopy},
}};

constexpr std::array<Word<trade::LimitSet>, 2> limit_sets = {{
    {"uk", trade::LimitSet::uk},
    {"us", trade::LimitSet::us},
}};

constexpr std::array<Word<trade::ColdRule>, 3> cold_rules = {{
    {"nhbc", trade::ColdRule::nhbc},
    {"bda", trade::ColdRule::bda},
    {"nbs", trade::ColdRule::nbs},
}};

constexpr std::array<Word<trade::LimitClass>, 4> limit_classes = {{
    {"safety", trade::LimitClass::safety},
    {"damage", trade::LimitClass::damage},
    {"quality", trade::LimitClass::quality},
    {"comfort", trade::LimitClass::comfort},
}};

constexpr std::array<Word<trade::Surface>, 2> surfaces = {{
    {"flags", trade::Surface::flags},
    {"gravel", trade::Surface::gravel},
}};

constexpr std::array<Word<trade::MixerPlace>, 2> mixer_places = {{
    {"work", trade::MixerPlace::work},
    {"kerb", trade::MixerPlace::kerb},
}};

constexpr std::array<Word<trade::Frog>, 3> frogs = {{
    {"none", trade::Frog::none},
    {"up", trade::Frog::up},
    {"down", trade::Frog::down},
}};

constexpr std::array<Word<works::WallEnd>, 2> wall_ends = {{
    {"high", works::WallEnd::high},
    {"low", works::WallEnd::low},
}};

constexpr std::array<Word<works::Side>, 4> sides = {{
    {"north", works::Side::north},
    {"east", works::Side::east},
    {"south", works::Side::south},
    {"west", works::Side::west},
}};

constexpr std::array<Word<works::Importance>, 3> importances = {{
    {"must", works::Importance::must},
    {"should", works::Importance::should},
    {"may", works::Importance::may},
}};

constexpr std::array<Word<works::Fallback::Kind>, 3> fallback_kinds = {{
    {"drop", works::Fallback::Kind::drop},
    {"gravel-for-flags", works::Fallback::Kind::gravel_for_flags},
    {"one-course-lower", works::Fallback::Kind::one_course_lower},
}};

}  // namespace

template <>
std::span<const Word<trade::Operation>> words_of<trade::Operation>() {
  return operations;
}
template <>
std::span<const Word<trade::BrickKind>> words_of<trade::BrickKind>() {
  return bricks;
}
template <>
std::span<const Word<trade::Bond>> words_of<trade::Bond>() {
  return bonds;
}
template <>
std::span<const Word<trade::JointFinish>> words_of<trade::JointFinish>() {
  return joints;
}
template <>
std::span<const Word<trade::MortarClass>> words_of<trade::MortarClass>() {
  return mortars;
}
template <>
std::span<const Word<trade::Binder>> words_of<trade::Binder>() {
  return binders;
}
template <>
std::span<const Word<trade::ConcreteMix>> words_of<trade::ConcreteMix>() {
  return mixes;
}
template <>
std::span<const Word<trade::CementSpeed>> words_of<trade::CementSpeed>() {
  return cements;
}
template <>
std::span<const Word<trade::Wetness>> words_of<trade::Wetness>() {
  return wetnesses;
}
template <>
std::span<const Word<trade::Soil>> words_of<trade::Soil>() {
  return soils;
}
template <>
std::span<const Word<trade::CoverKind>> words_of<trade::CoverKind>() {
  return covers;
}
template <>
std::span<const Word<trade::LimitSet>> words_of<trade::LimitSet>() {
  return limit_sets;
}
template <>
std::span<const Word<trade::ColdRule>> words_of<trade::ColdRule>() {
  return cold_rules;
}
template <>
std::span<const Word<trade::LimitClass>> words_of<trade::LimitClass>() {
  return limit_classes;
}
template <>
std::span<const Word<trade::Surface>> words_of<trade::Surface>() {
  return surfaces;
}
template <>
std::span<const Word<trade::Frog>> words_of<trade::Frog>() {
  return frogs;
}
template <>
std::span<const Word<trade::MixerPlace>> words_of<trade::MixerPlace>() {
  return mixer_places;
}
template <>
std::span<const Word<works::WallEnd>> words_of<works::WallEnd>() {
  return wall_ends;
}
template <>
std::span<const Word<works::Side>> words_of<works::Side>() {
  return sides;
}
template <>
std::span<const Word<works::Importance>> words_of<works::Importance>() {
  return importances;
}
template <>
std::span<const Word<works::Fallback::Kind>> words_of<works::Fallback::Kind>() {
  return fallback_kinds;
}

}  // namespace weatherstruck::files
