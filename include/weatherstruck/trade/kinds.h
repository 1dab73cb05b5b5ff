#pragma once
// The closed lists of the trade that other floors share. The words that people see for them stand in the
// tables of this floor (operation table, brick table, ...), never here.
namespace weatherstruck::trade {

/// Kinds of work. Each has a row in the operation table: pace norm, unit, limits, mess, noise, light.
enum class Operation {
  drive,       ///< home to site or back
  unload,      ///< van to site store
  set_out,     ///< rough lines for digging
  true_lines,  ///< lines and dry bond on the hard concrete
  strip_turf,
  dig,         ///< trench or reduced level, by hand
  bail,        ///< water out of a trench
  wheel_in,    ///< barrow or bucket material along a route, m3 as used
  pour,        ///< mix and place footing concrete, one go
  lay_below,   ///< brickwork in engineering brick, below ground or where it will not be seen
  lay_facing,  ///< brickwork that is seen
  lay_common,  ///< brickwork in common brick
  strike,      ///< joint as the work proceeds, when thumbprint hard
  rake_back,   ///< rake joints to point later
  point,       ///< point raked joints
  lay_coping,
  bed_plate,  ///< timber wall plate on mortar
  strap_plate,
  lay_subbase,
  lay_flags,
  grout_flags,
  fill_bed,   ///< drain, membrane and soil behind or within brickwork
  form_step,  ///< a step of brick or flag
  backfill,
  fetch,  ///< trip to the merchant
  clear_up,
  load_out,
  other  ///< anything else the job names, by hours
};

enum class BrickKind { facing, engineering_a, engineering_b, common };
enum class Bond { half_stretcher, one_english, one_flemish, one_and_half_english };
/// How joints of seen work are finished: struck as it stiffens, or raked now and pointed later; `either`
/// lets the plan choose.
enum class JointFinish { strike_now, point_later, either, none };
enum class MortarClass { m12, m6, m4, m2 };
enum class Binder { cement, cement_lime, hydraulic_lime };
/// Concrete as he batches or orders it.
enum class ConcreteMix { c16_20, c20_25, c25_30, ballast_1_6, gen1 };
enum class CementSpeed { rapid, normal, slow };  ///< EN 1992-1-1 3.1.2(6) classes R, N, S
enum class Wetness { stiff, normal, wet };
enum class Soil { garden, sand, gravel, firm_clay, stiff_clay, rock };
enum class CoverKind { bare, hessian, sheet, hessian_and_sheet, mat, canopy };
enum class LimitSet { uk, us };
enum class ColdRule { nhbc, bda, nbs };
/// What goes wrong when a limit is passed.
enum class LimitClass { safety, damage, quality, comfort };
enum class Surface { flags, gravel };
/// Where mixes are made: at the work, from what is wheeled there dry; or where the van unloads, and every mix
/// is wheeled wet as it is used.
enum class MixerPlace { work, kerb };
/// How frogged bricks are laid: with none, nothing is added to the mortar.
enum class Frog { none, up, down };

}  // namespace weatherstruck::trade
