#pragma once
// A mason's job of any size as a network, drawn from a seed: walls dug, poured, laid in lifts, raked, pointed
// and backfilled, slabs and paths between them, home at the end. It has every primitive of the engine, and
// weather that gets in the way (hourly.h). For benchmarks; nothing in it is a norm of the trade.
#include <cstdint>
#include <vector>

#include "weatherstruck/engine/decode.h"

namespace weatherstruck::bench {

struct JobSize {
  int tasks = 60;  ///< 20 or more
  std::uint64_t seed = 1;
  int ticks_per_slot = 3;  ///< 1, 3, 5 or 15 to the quarter of an hour
  /// false: no keeps, covers, canopy, cure links and pauses; each lift is a task. What is left are clocks,
  /// ways, guards, links with least and most, tasks that hang on a way, resources by slot, hours a day.
  bool fresh_work = true;
  /// Sheets, mats and time are so short that one task in twenty finds no place.
  bool tight = false;
};

/// Same size, same network, on every machine.
[[nodiscard]] engine::Network weather_job(const JobSize& size);

/// Genes such as a search asks for, one after another: a population of orders by length of what is to follow,
/// with some noise; each child has a window of one parent in the order of another. Every way is chosen.
[[nodiscard]] std::vector<engine::Genes> genes_for(const engine::Network& network, int count,
                                                   std::uint64_t seed);

}  // namespace weatherstruck::bench
