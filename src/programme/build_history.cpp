// What was done before now, from a plan that was followed until then.
#include <algorithm>
#include <cmath>
#include <limits>

#include "builder.h"

namespace weatherstruck::programme {

void Builder::history() {
  out_.network.now = std::clamp(out_.table.tick_up(now_), 0, out_.network.horizon());
  for (const PlannedTask& planned : followed_->tasks) {
    const auto id = index_.find(planned.task);
    if (id == index_.end() || !planned.placed() || planned.start() >= now_) continue;
    engine::Task& task = out_.network.tasks[at(id->second)];
    const auto& ways = out_.ways[at(id->second)];
    for (std::size_t w = ways.size(); w-- > 0;) {
      const bool same = ways[w].key == planned.way.value_or("") &&
                        ways[w].under_canopy == planned.runs.front().under_canopy;
      if (same) task.history.way = static_cast<int>(w);
    }
    add_past_runs(planned, task);
  }
  for (std::size_t k = 0; k < out_.network.keeps.size(); ++k)
    excuse_the_past(static_cast<engine::KeepId>(k));
}

// What was laid in good faith and can by no cover be kept within its limit any more must not stop the rest
// of the plan: the least that it can suffer is allowed, and told as a danger by whoever reads the plan
// back.
void Builder::excuse_the_past(engine::KeepId id) {
  Tick stop = -1;
  for (const std::size_t i : laid_by_[id]) {
    for (const engine::Run& run : out_.network.tasks[i].history.runs)
      stop = std::max(stop, run.end);
  }
  if (stop < 0) return;
  engine::Keep& keep = out_.network.keeps[at(id)];
  const Tick now = std::max(stop, out_.network.now);
  for (std::size_t h = 0; h < keep.hazards.size(); ++h) {
    Amount least = std::numeric_limits<Amount>::max();
    for (const engine::CoverWay& way : keep.ways) {
      if (way.exposure[h] == engine::no_clock) {
        least = 0;
        continue;
      }
      const engine::Clock& until = out_.network.clocks[at(way.until[h])];
      const Amount left = keep.hazards[h].until - until.passed(stop, now);
      const Tick over = std::min(out_.network.horizon(), until.advance(now, left));
      least = std::min(least, out_.network.clocks[at(way.exposure[h])].passed(now, over));
    }
    keep.hazards[h].most_for_past = least;
  }
}

void Builder::add_past_runs(const PlannedTask& planned, engine::Task& task) const {
  const engine::Way& way = task.ways[at(task.history.way)];
  const Tick now = out_.network.now;
  auto& past = task.history.runs;
  double share = 0;
  Amount done = 0;
  for (const PlannedRun& run : planned.runs) {
    if (out_.table.tick_down(run.span.from) >= now) break;
    // Hours that somebody wrote down keep to no ticks: two runs may share one, or lie before the first.
    const Tick start = std::max(out_.table.tick_down(run.span.from), past.empty() ? 0 : past.back().end);
    Tick end = std::max(start + 1, std::min(out_.table.tick_up(run.span.to), out_.network.horizon()));
    double part = run.share;
    if (end > now && start < now && way.pause != engine::Pause::none) {
      // Under way at this moment: what has been got through by the clock, down to where it may stop.
      part *= static_cast<double>(now - start) / static_cast<double>(end - start);
      end = now;
    }
    share += part;
    Amount total =
        std::min(way.amount, static_cast<Amount>(std::llround(share * static_cast<double>(way.amount))));
    if (share > 1 - 1e-9) total = way.amount;
    if (way.pause == engine::Pause::at_breaks && total < way.amount) {
      const auto stop = std::upper_bound(way.breaks.begin(), way.breaks.end(), total);
      total = stop == way.breaks.begin() ? 0 : *(stop - 1);
    }
    if (total <= done) continue;
    if (start < now) {
      past.push_back({start, end, total - done});
    } else {
      past.back().done += total - done;
    }
    done = total;
  }
}

}  // namespace weatherstruck::programme
