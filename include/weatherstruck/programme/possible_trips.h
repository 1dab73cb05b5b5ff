#pragma once
// The weathers that may come, one at a time: the tables of what comes and of what each morning's forecast
// says of it, his pace, and what he does then.
#include <cstdint>
#include <optional>
#include <vector>

#include "weatherstruck/base/lanes.h"
#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/sky/possible.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// All of it outlives what is made with it.
struct PossibleRequest {
  const works::Job& job;
  const works::TaskList& list;
  const sky::Series& weather;
  const trade::LimitValues& limits;
  base::Instant now;
  const Programme& programme;  ///< built with all these
  std::uint64_t seed = 1;
  base::Lanes lanes{};  ///< weathers go side by side where there are several
};

/// His pace in the weather of that number: for each task of the list how many times as long as planned it
/// takes.
[[nodiscard]] std::vector<double> draw_paces(const works::TaskList& list, std::uint64_t seed, int number);

class PossibleTrips {
 public:
  explicit PossibleTrips(const PossibleRequest& request);

  /// The tables of the weather of that number, and his pace in it.
  void put(int number);
  /// The same for a weather that is known, such as one that has been.
  /// @param weather     both series have the hours of the request's
  /// @param pace_number of his pace, from 0
  void put(sky::PossibleWeather weather, int pace_number);
  /// What he does in it with that order of work and those ways.
  [[nodiscard]] engine::Schedule done(const engine::Genes& genes);
  /// Whether that brings him home with the work sound: as `done`, but it is given up as soon as it is late.
  [[nodiscard]] bool ends_well(const engine::Genes& genes);
  /// The network of what comes, to judge it by.
  [[nodiscard]] const Programme& comes() const { return comes_; }
  [[nodiscard]] bool is_home(const engine::Schedule& schedule) const;
  [[nodiscard]] bool is_sound(const engine::Schedule& schedule) const;

 private:
  [[nodiscard]] std::vector<engine::ClockId> danger_clocks() const;
  void longer(std::size_t task, double pace);
  void swap_dangers();
  [[nodiscard]] engine::StandingDecoder& decoder();
  [[nodiscard]] engine::Genes without_what_may_go(engine::Genes genes) const;

  PossibleRequest r_;
  Programme comes_;
  Programme foreseen_;
  std::vector<engine::ClockId> dangers_;
  std::vector<std::size_t> on_site_;                ///< hours in which he sees what comes
  std::optional<engine::StandingDecoder> decoder_;  ///< of the weather that was put last, by what he goes by
};

}  // namespace weatherstruck::programme
