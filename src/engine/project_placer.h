#pragma once
// Places the tasks of a project one after the other, each as early as it goes, in one direction of time.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "weatherstruck/engine/project.h"

namespace weatherstruck::engine {

/// What is left of every resource at a tick lies in lanes of sixteen bits, four to a word, each with its top
/// bit set: after a subtraction a lane that has not enough has lost it. So a tick is asked with one
/// subtraction and one mask for each four resources.
template <std::size_t Words>
class ProjectPlacer {
 public:
  using Lanes = std::array<std::uint64_t, Words>;

  /// Mirrored, time runs from the end: whoever follows goes first.
  ProjectPlacer(const Project& project, bool mirrored)
      : duration_(project.duration), need_(project.duration.size()), finish_(project.duration.size()) {
    const std::size_t tasks = project.duration.size();
    for (std::size_t r = 0; r < project.capacity.size(); ++r) {
      full_[r / 4] |= (top | static_cast<std::uint64_t>(project.capacity[r])) << (16 * (r % 4));
      tops_[r / 4] |= top << (16 * (r % 4));
    }
    std::vector<std::vector<std::int32_t>> before(tasks);
    Tick horizon = 1;
    for (std::size_t i = 0; i < tasks; ++i) {
      horizon += duration_[i];
      for (std::size_t r = 0; r < project.capacity.size(); ++r)
        need_[i][r / 4] |= static_cast<std::uint64_t>(project.demand[i][r]) << (16 * (r % 4));
      for (const int next : project.successors[i]) {
        const auto after = static_cast<std::size_t>(next);
        before[mirrored ? i : after].push_back(static_cast<std::int32_t>(mirrored ? after : i));
      }
    }
    for (const auto& list : before) {
      first_before_.push_back(static_cast<std::int32_t>(before_.size()));
      before_.insert(before_.end(), list.begin(), list.end());
    }
    first_before_.push_back(static_cast<std::int32_t>(before_.size()));
    free_.assign(static_cast<std::size_t>(horizon), full_);
  }

  /// The ticks that the project takes, its tasks placed in this order, in which none comes before one that it
  /// waits for. Their starts (in this direction of time) are in start().
  Tick place(std::span<const std::int32_t> order, std::span<Tick> start) {
    std::fill_n(free_.begin(), used_, full_);
    // By pointers: most of a search is spent here, and the checks of the hardened library cost a third.
    Lanes* const free = free_.data();
    Tick* const finish = finish_.data();
    const std::int32_t* const first = first_before_.data();
    const std::int32_t* const before = before_.data();
    Tick last = 0;
    for (const std::int32_t task : order) {
      const auto i = static_cast<std::size_t>(task);
      Tick t = 0;
      for (std::int32_t p = first[i]; p < first[i + 1]; ++p)
        t = std::max(t, finish[before[p]]);
      const Tick length = duration_[i];
      const Lanes need = need_[i];
      for (Tick held = t; held < t + length; ++held) {
        if (!fits(free[held], need)) t = held + 1;
      }
      for (Tick held = t; held < t + length; ++held)
        subtract(free[held], need);
      start[i] = t;
      finish[i] = t + length;
      last = std::max(last, t + length);
    }
    used_ = last;
    return last;
  }

  [[nodiscard]] const std::vector<Tick>& duration() const { return duration_; }

 private:
  static constexpr std::uint64_t top = 0x8000;

  [[nodiscard]] bool fits(const Lanes& free, const Lanes& need) const {
    bool all = true;
    for (std::size_t w = 0; w < Words; ++w)
      all = all && ((free[w] - need[w]) & tops_[w]) == tops_[w];
    return all;
  }
  static void subtract(Lanes& free, const Lanes& need) {
    for (std::size_t w = 0; w < Words; ++w)
      free[w] -= need[w];
  }

  std::vector<Tick> duration_;
  std::vector<Lanes> need_;
  std::vector<Tick> finish_;
  std::vector<std::int32_t> first_before_;  // by task, and one more: where its predecessors begin in before_
  std::vector<std::int32_t> before_;
  std::vector<Lanes> free_;  // by tick
  Lanes full_{};
  Lanes tops_{};
  Tick used_ = 0;  // ticks that the last placement may have touched
};

}  // namespace weatherstruck::engine
