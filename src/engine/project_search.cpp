// A search with two populations of plans, one placed from the front and one from the end, each the parents of
// the other (after Debels & Vanhoucke, "A bi-population based genetic algorithm for the resource-constrained
// project scheduling problem", ICCSA 2005): a child takes the order of one parent, but a window of it in the
// order of the other, and is placed from the other end of time. That alone is the justification of Valls,
// Ballestin & Quintanilla (2005), so that no schedule is spent on it.
#include <algorithm>
#include <cstddef>
#include <numeric>
#include <span>
#include <stdexcept>

#include "project_placer.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/engine/project.h"

namespace weatherstruck::engine {
namespace {

std::size_t in(std::int32_t i) {
  return static_cast<std::size_t>(i);
}

// Plans in each population: enough that they are not all alike before the budget is spent. Found by trial on
// J30 and J60 at budgets of 1, 5 and 50 thousand (docs/projects.md): 32, 94 and 436.
std::size_t population_of(int schedules) {
  const auto budget = static_cast<std::uint64_t>(schedules);
  std::uint64_t size = 4;
  while (30 * (size + 1) * (size + 1) * (size + 1) <= budget * budget)
    ++size;
  return std::min<std::uint64_t>(size, std::max<std::uint64_t>(budget, 1));
}

template <std::size_t Words>
class Searcher {
 public:
  Searcher(const Project& project, const ProjectOptions& options)
      : project_(project),
        tasks_(project.duration.size()),
        placers_{{{project, false}, {project, true}}},
        random_(options.seed),
        budget_(std::max(1, options.schedules)),
        child_(tasks_),
        start_(tasks_),
        marked_(tasks_) {
    follows_[0].resize(tasks_);
    follows_[1].resize(tasks_);
    for (std::size_t i = 0; i < tasks_; ++i) {
      for (const int after : project.successors[i]) {
        follows_[0][i].push_back(after);
        follows_[1][in(after)].push_back(static_cast<std::int32_t>(i));
      }
    }
  }

  ProjectPlan run() {
    find_tails();
    plan_.bound = least();
    begin();
    for (std::size_t from = 0; !over(); from = 1 - from)
      breed(from);
    plan_.schedules = made_;
    return std::move(plan_);
  }

 private:
  /// The order in which the tasks end, last first: the order for a placement from the other end.
  struct Plan {
    std::vector<std::int32_t> order;
    Tick makespan = 0;
    std::uint64_t mark = 0;  ///< equal for equal starts
  };

  [[nodiscard]] bool over() const { return made_ >= budget_ || (made_ > 0 && plan_.makespan <= plan_.bound); }

  // Time from the start of each task to the end of all, resources aside.
  void find_tails() {
    tail_.assign(tasks_, 0);
    for (std::size_t round = 0; round < tasks_; ++round) {
      bool moved = false;
      for (std::size_t i = 0; i < tasks_; ++i) {
        Tick longest = 0;
        for (const std::int32_t after : follows_[0][i])
          longest = std::max(longest, tail_[in(after)]);
        const Tick tail = longest + project_.duration[i];
        moved = moved || tail != tail_[i];
        tail_[i] = tail;
      }
      if (!moved) break;
    }
  }

  // The longest chain, and the work on each resource spread over all its capacity.
  [[nodiscard]] Tick least() const {
    Tick bound = tasks_ == 0 ? 0 : *std::max_element(tail_.begin(), tail_.end());
    for (std::size_t r = 0; r < project_.capacity.size(); ++r) {
      std::int64_t work = 0;
      for (std::size_t i = 0; i < tasks_; ++i)
        work += static_cast<std::int64_t>(project_.duration[i]) * project_.demand[i][r];
      const std::int64_t capacity = project_.capacity[r];
      if (capacity > 0) bound = std::max(bound, static_cast<Tick>((work + capacity - 1) / capacity));
    }
    return bound;
  }

  // The first by the longest tail; the others draw each next task with a chance that grows with its tail.
  void begin() {
    const std::size_t size = population_of(budget_);
    for (std::size_t k = 0; k < size && !over(); ++k) {
      draw_order(k == 0);
      plans_[0].push_back(placed(0));
    }
  }

  void draw_order(bool by_rule) {
    std::vector<int> waits(tasks_, 0);
    for (const auto& list : follows_[0]) {
      for (const std::int32_t after : list)
        ++waits[in(after)];
    }
    std::vector<std::int32_t> ready;
    for (std::size_t i = 0; i < tasks_; ++i) {
      if (waits[i] == 0) ready.push_back(static_cast<std::int32_t>(i));
    }
    const auto rest = [&](std::int32_t i) -> std::int64_t { return tail_[in(i)] - project_.duration[in(i)]; };
    for (std::int32_t& next : child_) {
      auto chosen = std::max_element(ready.begin(), ready.end(),
                                     [&](std::int32_t a, std::int32_t b) { return rest(a) < rest(b); });
      if (!by_rule) {
        const std::int64_t least = rest(*std::min_element(
            ready.begin(), ready.end(), [&](std::int32_t a, std::int32_t b) { return rest(a) < rest(b); }));
        std::uint64_t sum = 0;
        for (const std::int32_t i : ready)
          sum += static_cast<std::uint64_t>(rest(i) - least) + 1;
        std::uint64_t drawn = random_.below(sum);
        for (chosen = ready.begin();; ++chosen) {
          const auto share = static_cast<std::uint64_t>(rest(*chosen) - least) + 1;
          if (drawn < share) break;
          drawn -= share;
        }
      }
      next = *chosen;
      ready.erase(chosen);
      for (const std::int32_t after : follows_[0][in(next)]) {
        if (--waits[in(after)] == 0) ready.push_back(after);
      }
    }
  }

  // child_ placed from the front (0) or the end (1).
  Plan placed(std::size_t direction) {
    ++made_;
    Plan plan;
    plan.makespan = placers_[direction].place(child_, start_);
    if (made_ == 1 || plan.makespan < plan_.makespan) {
      plan_.makespan = plan.makespan;
      plan_.start = start_;
      for (std::size_t i = 0; direction == 1 && i < tasks_; ++i)
        plan_.start[i] = plan.makespan - start_[i] - project_.duration[i];
    }
    // Sorted by counting; of tasks that end together the later placed comes first, so that none comes before
    // one that it now waits for.
    const auto key = [&](std::int32_t i) {
      return in(plan.makespan - start_[in(i)] - project_.duration[in(i)]);
    };
    counts_.assign(in(plan.makespan) + 2, 0);
    for (std::size_t i = 0; i < tasks_; ++i) {
      ++counts_[key(static_cast<std::int32_t>(i)) + 1];
      plan.mark += (static_cast<std::uint64_t>(start_[i]) + 1) * odd_number(i);
    }
    std::partial_sum(counts_.begin(), counts_.end(), counts_.begin());
    plan.order.resize(tasks_);
    for (std::size_t k = tasks_; k-- > 0;)
      plan.order[in(counts_[key(child_[k])]++)] = child_[k];
    return plan;
  }

  static std::uint64_t odd_number(std::size_t i) {
    std::uint64_t x = (i + 1) * 0x9e3779b97f4a7c15U;
    x ^= x >> 31U;
    return x * 0xbf58476d1ce4e5b9U | 1U;
  }

  // Every plan of one population, with another of it, makes one for the other.
  void breed(std::size_t from) {
    const std::size_t to = 1 - from;
    const std::size_t size = plans_[from].size();
    for (std::size_t k = 0; k < size && !over(); ++k) {
      const Plan& one = plans_[from][k];
      const Plan& other = mate(from, k);
      const bool alike = one.mark == other.mark;
      cross(one, other);
      if (alike || random_.chance(0.5)) move_some(to, alike ? 3 : random_.between(1, 3));
      take(to, placed(to));
    }
  }

  // The better of two drawn, and not itself if that can be helped.
  const Plan& mate(std::size_t population, std::size_t but) {
    const auto& plans = plans_[population];
    const auto draw = [&] { return static_cast<std::size_t>(random_.below(plans.size())); };
    std::size_t chosen = but;
    for (int tries = 0; tries < 4 && chosen == but; ++tries) {
      const std::size_t a = draw();
      const std::size_t b = draw();
      chosen = plans[a].makespan <= plans[b].makespan ? a : b;
    }
    return plans[chosen];
  }

  // The order of one, but a window of a quarter to three quarters of it in the order of the other.
  void cross(const Plan& one, const Plan& other) {
    const auto least = static_cast<int>(std::min(tasks_, std::max<std::size_t>(2, tasks_ / 4)));
    const auto most = static_cast<int>(std::min(tasks_, std::max<std::size_t>(2, tasks_ * 3 / 4)));
    const std::size_t length = in(random_.between(least, most));
    const std::size_t begin = random_.below(tasks_ - length + 1);
    std::copy(one.order.begin(), one.order.end(), child_.begin());
    std::fill(marked_.begin(), marked_.end(), 0);
    for (std::size_t k = begin; k < begin + length; ++k)
      marked_[in(child_[k])] = 1;
    std::size_t next = begin;
    for (const std::int32_t i : other.order) {
      child_[next] = marked_[in(i)] != 0 ? i : child_[next];
      next += in(marked_[in(i)]);
      if (next == begin + length) break;
    }
  }

  // A few tasks of child_ go somewhere else between what they wait for and what waits for them.
  void move_some(std::size_t direction, int moves) {
    const auto& before = follows_[1 - direction];
    const auto waits_for = [&](std::int32_t i, std::int32_t earlier) {
      const auto& list = before[in(i)];
      return std::find(list.begin(), list.end(), earlier) != list.end();
    };
    for (int move = 0; move < moves; ++move) {
      const std::size_t k = random_.below(tasks_);
      std::size_t low = k;
      std::size_t high = k;
      while (low > 0 && !waits_for(child_[k], child_[low - 1]))
        --low;
      while (high + 1 < tasks_ && !waits_for(child_[high + 1], child_[k]))
        ++high;
      const std::size_t to = low + random_.below(high - low + 1);
      const auto place = [&](std::size_t j) { return child_.begin() + static_cast<std::ptrdiff_t>(j); };
      if (to < k) {
        std::rotate(place(to), place(k), place(k + 1));
      } else {
        std::rotate(place(k), place(k + 1), place(to + 1));
      }
    }
  }

  // It takes the place of the worse of two drawn, unless that is better than it, or it is there already.
  void take(std::size_t population, Plan plan) {
    auto& plans = plans_[population];
    const bool known =
        std::any_of(plans.begin(), plans.end(), [&](const Plan& it) { return it.mark == plan.mark; });
    if (plans.size() < plans_[1 - population].size()) {
      plans.push_back(std::move(plan));
      return;
    }
    const std::size_t a = random_.below(plans.size());
    const std::size_t b = random_.below(plans.size());
    const std::size_t worse = plans[b].makespan > plans[a].makespan ? b : a;
    if (!known && plan.makespan <= plans[worse].makespan) std::swap(plans[worse], plan);
  }

  const Project& project_;
  std::size_t tasks_;
  std::array<ProjectPlacer<Words>, 2> placers_;
  base::Random random_;
  int budget_;
  int made_ = 0;
  ProjectPlan plan_;
  std::array<std::vector<Plan>, 2> plans_;
  std::array<std::vector<std::vector<std::int32_t>>, 2> follows_;  // by direction and task
  std::vector<Tick> tail_;
  std::vector<std::int32_t> child_;
  std::vector<Tick> start_;
  std::vector<std::int32_t> counts_;
  std::vector<std::int32_t> marked_;
};

}  // namespace

ProjectPlan plan_project(const Project& project, const ProjectOptions& options) {
  const auto faults = faults_of(project);
  if (!faults.empty()) throw std::invalid_argument(faults.front());
  if (project.duration.empty()) return {};
  switch ((project.capacity.size() + 3) / 4) {
    case 0:
    case 1:
      return Searcher<1>(project, options).run();
    case 2:
      return Searcher<2>(project, options).run();
    default:
      return Searcher<4>(project, options).run();
  }
}

}  // namespace weatherstruck::engine
