#pragma once
// What the weather really did to fresh work: a verdict for each piece that was not yet safe. The plan says
// what may happen, this says what did; it shares the physics and the limits with the site checker.
//
// How it is reckoned, from the end of laying on, in steps of five minutes through the hours of weather:
// - A piece is what was laid of one kind on one part, with breaks of at most an hour; where only some walls
//   or footings of a part were covered, each of them.
// - Rain through what lay over it counts until joints are thumbprint hard (trade::thumbprint_hours, usual),
//   concrete until initial set. Over `soft-joint-inspect` mm: inspect; over `soft-joint-remake` mm: make
//   good (limits table, common practice; taken for concrete too). Concrete is inspected as well where the
//   rain that reaches it came at `rain-pour-stop` or harder.
// - Frost counts until the work is safe from it: mortar by its class and binder (trade::MortarBehaviour,
//   8 h at 5 degrees of usual cement mortar); concrete its strength, its nights,
//   or brickwork on it (as the site checker has it). The work has the temperature of the air; in frost a
//   cover keeps it warmer (trade::under_cover). Concrete in the ground has that of its top by the full
//   balance of heat (strip_frost.h), or, bare, that of the air if it is less. Any frost: inspect. Joints
//   frozen while still soft, concrete frozen before initial set or so cold that it no longer sets
//   (matter::setting_rate): make good.
// - The bed of flags bare below `flags-keep-above` in its first `flags-keep-hours`: inspect.
// - A cover is never held against the work: under one joints are taken to stiffen as in the open air, though
//   the plan waits longer for them, and one that a gust took is told of without making the piece worse.
// - A cover in a gust above its limit (covers table) is off from then on, until one is put on again; a
//   canopy in a gust at its limit (kit or limits table, the lesser) is down from then on: inspect it and
//   the work beneath.
#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/matter/heat.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// A cover over a piece, or the canopy; `to` is when it was taken off, far in the future while it lies.
struct OverIt {
  trade::CoverKind kind{};
  Span span;
  friend bool operator==(const OverIt&, const OverIt&) = default;
};

/// Fresh work as it lies on site.
struct FreshPiece {
  works::Name part;   ///< expanded part; of a wall or footing covered apart from its part, that
  works::Name of;     ///< part as written
  std::string title;  ///< "the north footing of the shelter", "the brickwork of the bed"
  works::FreshWork::Kind kind{};
  Span laid;
  double amount = 0;         ///< laid in that time, in `unit`; 0: not known
  std::string unit;          ///< "courses" where it is laid so, "strip" for concrete, else the task's
  std::vector<OverIt> over;  ///< rising by start
  std::optional<base::Instant> covered;                ///< concrete: first bricks on it
  trade::MortarClass mortar = trade::MortarClass::m4;  ///< mortar work: with the job's binder
  bool quick_suction = true;                           ///< mortar work: bricks draw the water out of it
  std::optional<matter::StripShape> strip{};           ///< concrete in the ground
};

/// What happened on site up to a moment.
struct SiteState {
  std::vector<FreshPiece> pieces;                    ///< by end of laying, then part
  std::vector<std::pair<works::Name, Span>> canopy;  ///< over which part, as told; rising
};

/// From the site book: work, covers and canopy as logged; work that it does not name is not there. Amounts of
/// several runs are shared by their hours; of hours without an amount it is 0. A cover on a part as written
/// lies on all of it, one on brickwork also on the strip beneath; work on a part took off what lay on it.
[[nodiscard]] SiteState site_state(const works::Job& job, const works::TaskList& list,
                                   const works::Progress& progress, base::Instant now);
/// From a plan taken as followed to the minute until `now`.
[[nodiscard]] SiteState site_state(const works::Job& job, const works::TaskList& list, const Plan& followed,
                                   base::Instant now);

enum class Finding { sound, inspect, make_good };

/// One thing that happened to a piece.
struct Harm {
  enum class Cause { rain, frost, cold_bed, canopy, cover };
  Cause cause{};
  Finding finding{};  ///< sound: a cover to be put back, no more
  Span span;          ///< first to last of the hours that did it
  std::string text;   ///< "6.0 mm of rain on soft joints, looked at from 2, made good from 5"
};

struct Verdict {
  works::Name part;
  std::string title;
  std::optional<works::FreshWork::Kind> kind;  ///< nullopt: the canopy itself
  Span laid;
  Finding finding = Finding::sound;
  /// Worst first; empty where nothing worth telling happened.
  std::vector<Harm> harms;
  std::string look;       ///< inspect, make good: what to look for and how to test it, a sentence or two
  std::string make_good;  ///< make good: what to do
  double amount = 0;      ///< of the piece, in `unit`
  std::string unit;       ///< "courses", "strip", "m2", ...

  // What it saw from the end of laying until it was safe, or until now.
  base::Millimetres rain{0};             ///< on soft joints or unset concrete, through what lay over it
  base::Millimetres rain_fell{0};        ///< in the open in the same time
  std::optional<base::Celsius> coldest;  ///< of the work, before it was safe from frost
  base::KelvinHours frost{0};            ///< below zero, likewise
  std::chrono::minutes below_zero{0};    ///< likewise
  base::MetresPerSecond gust{0};         ///< greatest while it was not safe; of the canopy, while it was up
  std::optional<base::MetresPerSecond> gust_limit;  ///< the lowest of what lay over it; nullopt: nothing did
  std::optional<base::Instant> safe;                ///< from rain and frost; nullopt: not yet
  bool rain_measured = false;                       ///< every hour of that rain was caught on site
  bool air_measured = false;                        ///< every hour of that temperature was read on site
  int hours_unknown = 0;  ///< hours without rain or temperature; another day's stood in
};

struct NightRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;  ///< with readings (sky::observe); must reach back to the laying
  const trade::LimitValues& limits;
  base::Instant now;
  /// Pieces safe by then are not judged. Absent: the beginning of the working day before that of `now`.
  std::optional<base::Instant> since{};
};

/// Worst first, then by end of laying; the canopy, where it stood in too much wind, among them. Only hours
/// before `now`. Empty where there was no fresh work, or no weather at all to judge by.
[[nodiscard]] std::vector<Verdict> judge_night(const NightRequest& request, const SiteState& state);
[[nodiscard]] std::vector<Verdict> judge_night(const NightRequest& request, const works::Progress& progress);
[[nodiscard]] std::vector<Verdict> judge_night(const NightRequest& request, const Plan& followed);

}  // namespace weatherstruck::programme
