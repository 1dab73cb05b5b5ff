#include "engine/state_key_support.h"

#include <algorithm>
#include <cstdint>
#include <utility>

#include "engine/lists_support.h"

namespace weatherstruck::engine::brute {
namespace {

class Key {
 public:
  void add(Amount value) {
    const auto number = static_cast<std::int32_t>(value);
    text_.append(reinterpret_cast<const char*>(&number), sizeof number);
  }
  [[nodiscard]] std::string text() { return std::move(text_); }

 private:
  std::string text_;
};

}  // namespace

std::string key_of(const Simulator& simulator, const State& state) {
  const Network& network = simulator.network();
  const auto placed = [&](TaskId task) { return at(simulator.ways(), task) >= 0; };
  Key key;
  std::vector<char> keep_matters(network.keeps.size());
  for (TaskId i = 0; i < count_of(network.tasks); ++i) {
    if (!placed(i)) continue;
    const TaskState& it = at(state.tasks, i);
    key.add(static_cast<Amount>(it.phase));
    if (it.phase != Phase::finished) {
      key.add(it.done);
      key.add(it.gone);
      if (simulator.way(i).longest_span && it.new_first >= 0) key.add(it.new_first);
      for (const Touch& touch : at(network.tasks, i).touches)
        at(keep_matters, touch.keep) = 1;
    }
  }
  for (const Link& link : network.links) {
    if (!placed(link.from) || !placed(link.to)) continue;
    const Tick from = simulator.edge(state, link.from, link.from_edge);
    const Tick to = simulator.edge(state, link.to, link.to_edge);
    if (from < 0 || to >= 0) continue;
    if (link.least_clock != no_clock) {
      key.add(std::min(link.least, simulator.gone_by(link.least_clock, from, state.now)));
    }
    if (link.most_clock != no_clock) key.add(simulator.gone_by(link.most_clock, from, state.now));
  }
  for (KeepId k = 0; k < count_of(network.keeps); ++k) {
    const Keep& keep = at(network.keeps, k);
    const KeepState& it = at(state.keeps, k);
    key.add(static_cast<Amount>(it.work));
    key.add(static_cast<Amount>(it.cover));
    if (it.cover != Cover::off) {
      key.add(it.way);
      if (it.cover != Cover::on) key.add(it.until);
    }
    const bool resting = it.work == Work::resting;  // while laying goes on, both begin anew
    for (const CureLink& link : network.cure_links) {
      if (resting && link.keep == k && placed(link.to) && at(state.tasks, link.to).first < 0) {
        key.add(std::min(link.least, it.cured));
      }
    }
    for (int layer = 0; layer < simulator.layers_of(k); ++layer) {
      const LayerState& laid = state.layers[simulator.layer_index(k, layer)];
      key.add(static_cast<Amount>(laid.work));
      if (laid.work != Work::resting) continue;
      key.add(laid.past ? 1 : 0);
      for (int h = 0; h < count_of(keep.hazards); ++h) {
        if (!simulator.counts(k, layer, h)) continue;
        const auto& hazard = state.hazards[simulator.hazard_index(k, layer, h)];
        const bool over = hazard.progress >= at(keep.hazards, h).until;
        key.add(over ? -1 : hazard.progress);
        key.add(over ? 0 : hazard.exposure);
      }
    }
    if (keep.green && at(keep_matters, k)) {
      const int row = k * (network.horizon() + 1);
      const Tick since = simulator.green_since(k, state.now);
      // The boundary `now` itself is not filled in yet: it follows from the tasks.
      for (Tick t = since; t < state.now; ++t)
        key.add(at(state.laid, row + t) - at(state.laid, row + since));
      Amount total = 0;
      for (TaskId i = 0; i < count_of(network.tasks); ++i) {
        for (const Touch& touch : at(network.tasks, i).touches) {
          if (touch.keep == k && placed(i)) total += touch.lays * at(state.tasks, i).done;
        }
      }
      key.add(total - at(state.laid, row + since));
    }
  }
  for (StatefulId s = 0; s < count_of(network.statefuls); ++s) {
    const StatefulState& it = at(state.statefuls, s);
    const bool changing = it.ready > state.now;
    key.add(it.state);
    key.add(changing ? it.ready : -1);
    key.add(changing ? it.from : -1);
  }
  const bool new_day = state.now == network.horizon() || state.now == 0 ||
                       network.day_of(state.now - 1) != network.day_of(state.now);
  for (std::size_t b = 0; b < state.used.size(); ++b) {
    key.add(new_day ? 0 : state.used[b]);
    key.add(new_day ? 0 : state.bucket_judged[b]);
  }
  return key.text();
}

}  // namespace weatherstruck::engine::brute
