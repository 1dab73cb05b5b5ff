#pragma once
// Where the weather enters: work clocks, curing clocks and exposure clocks from the slot table and the
// limits, each slot with the cause of its rate.
#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "weatherstruck/engine/network.h"
#include "weatherstruck/programme/slots.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::programme {

/// Why a clock stands still: a stable code, and words with the value and the limit.
struct Cause {
  std::string
      code;  ///< "rain", "cold", "heat", "dark", "quiet-hours", "off-hours", "fixed-time", "merchant", ...
  std::string text;
  friend bool operator==(const Cause&, const Cause&) = default;
};

/// A full tick of one person at pace 1 on a work clock.
inline constexpr int kPersonTick = 1000;
/// A full tick at the reference rate (20 degrees) on a curing clock; also one tick of plain time.
inline constexpr int kReferenceTick = 1000;

/// The rates of a clock in the weather of a table, written over what stands there; one for each slot.
using Rates = std::vector<std::int32_t>;
using Recipe = std::function<void(const SlotTable&, Rates&)>;

/// Whether fresh work is covered every night of that month, 1..12.
[[nodiscard]] bool cover_month(const trade::LimitValues& limits, unsigned month);

/// Whether clocks say why they stand still. Finding the words takes longer than all else; a schedule that
/// only asks "when" goes without.
enum class Causes { told, untold };

/// Makes the clocks of one job in one weather, each once, and keeps the causes that they name. What several
/// clocks ask of the weather is worked out once and kept with the table.
class ClockMaker {
 public:
  ClockMaker(const works::Job& job, const trade::LimitValues& limits, SlotTable& table,
             engine::Network& network, Causes told = Causes::told);

  /// Person-ticks x kPersonTick of an operation. Under the canopy rain does not stop it.
  engine::ClockId work(trade::Operation operation, bool noisy, bool under_canopy);
  /// The drive home: plain time, standing in the hours in which nobody should be at the wheel after a full
  /// day.
  engine::ClockId drive_home();
  /// What the nights until then cost, for a drive home of so many ticks: in ticks of work in the wet.
  engine::ClockId nights_away(engine::Tick drive);
  engine::ClockId merchant();
  /// Plain time, kReferenceTick per tick.
  engine::ClockId plain();
  /// Fresh mortar until thumbprint hard, and until safe from frost; concrete until set, and its strength.
  /// Of joints, in the air as it is. `at_the_least`: also if the canopy should stand over them.
  engine::ClockId stiffening(trade::CoverKind cover, bool at_the_least = false);
  engine::ClockId mortar_frost_safety(trade::CoverKind cover);
  engine::ClockId setting(trade::CoverKind cover);
  engine::ClockId strength(trade::CoverKind cover);
  /// Waits of the limits table: kWaitWhole has gone by when the wait is over.
  static constexpr engine::Amount kWaitWhole = 1'000'000;
  engine::ClockId strip_wait();
  engine::ClockId box_wait();
  engine::ClockId high_wall_wait();
  engine::ClockId fill_half_wait();
  engine::ClockId fill_wait();
  /// Rain that reaches the work, micrometres; on concrete a heavy quarter of an hour counts as kSpoilt a
  /// tick.
  static constexpr double kSpoilt = 1e6;
  engine::ClockId rain_through(trade::CoverKind cover, bool on_concrete);
  /// Millikelvin-hours of the work below a temperature; below another while its cover does not hold.
  engine::ClockId below(base::Celsius least, trade::CoverKind cover, base::Celsius least_bare);
  engine::ClockId below(base::Celsius least, trade::CoverKind cover) { return below(least, cover, least); }
  /// Millikelvin-hours of a strip's top (of table.strips) at or below `strip-top-above`; bare, also of the
  /// air below freezing. See strip_frost.h.
  engine::ClockId strip_frost(std::size_t strip, trade::CoverKind cover);
  /// Ticks of night in the months in which work is always covered.
  engine::ClockId uncovered_night();
  /// Ticks without daylight.
  engine::ClockId darkness();
  /// Cost clocks: ticks of evening, ticks in the wet, all ticks.
  engine::ClockId evening();
  engine::ClockId wet();
  engine::ClockId ticks();

  [[nodiscard]] const std::vector<Cause>& causes() const { return causes_; }
  [[nodiscard]] const SlotTable& table() const { return table_; }
  /// How each clock of the network is made, by its id, for another weather of the same hours. They look at
  /// the job and the limits when they are called, not at the maker.
  [[nodiscard]] std::vector<Recipe> take_recipes() { return std::move(recipes_); }

 private:
  /// The cause at slot i of the table, asked where the rate is zero.
  using Why = std::function<engine::CauseId(std::size_t)>;
  enum class HangsOn { weather, calendar };
  engine::ClockId make(const std::string& name, Recipe recipe, const Why& why = {},
                       HangsOn hangs_on = HangsOn::weather);
  /// One clock for all that have the same figures, under the name of the first.
  engine::ClockId make_shared(const std::string& name, const std::string& figures, Recipe recipe,
                              const Why& why = {}, HangsOn hangs_on = HangsOn::weather);
  engine::CauseId cause(std::string code, std::string text);
  engine::ClockId wait(const std::string& name, base::Hours mild, base::Celsius mild_from, base::Hours cold,
                       base::Celsius cold_from);

  const works::Job& job_;
  const trade::LimitValues& limits_;
  SlotTable& table_;
  engine::Network& network_;
  Causes told_;
  std::vector<Cause> causes_;
  std::map<std::string, engine::ClockId> made_;  // by name or by figures
  std::vector<Recipe> recipes_;
};

}  // namespace weatherstruck::programme
