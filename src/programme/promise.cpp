#include "weatherstruck/programme/promise.h"

#include <algorithm>
#include <cstdint>

#include "weatherstruck/works/check.h"
#include "weatherstruck/works/without_part.h"

namespace weatherstruck::programme {
namespace {

constexpr int quick_look = 60;
// As many of his musts as are tried in every choice of them.
constexpr std::size_t most_parts = 6;

works::Importance importance_of(const works::Job& job, const works::Name& part) {
  for (const works::PartImportance& one : job.importance) {
    if (one.part == part) return one.importance;
  }
  return works::Importance::must;
}

/// The job with the fallback made use of; nullopt where it cannot be.
std::optional<works::Job> with_fallback(works::Job job, const works::Fallback& fallback) {
  if (fallback.kind == works::Fallback::Kind::drop) return works::without_part(std::move(job), fallback.part);
  bool changed = false;
  for (works::Part& part : job.parts) {
    if (works::name_of(part) != fallback.part) continue;
    if (fallback.kind == works::Fallback::Kind::gravel_for_flags) {
      if (auto* path = std::get_if<works::Path>(&part)) {
        changed = path->surface != trade::Surface::gravel;
        path->surface = trade::Surface::gravel;
      }
    } else {
      std::visit(
          [&](auto& any) {
            if constexpr (requires { any.courses; }) {
              changed = any.courses > 1;
              any.courses -= 1;
            }
          },
          part);
    }
  }
  if (!changed || !works::check(job).faults.empty()) return {};
  return job;
}

class Search {
 public:
  Search(const TripCase& trip, int most_plans) : t_(trip), most_plans_(most_plans) {}

  Promise run() {
    const Without same = look(t_, {});
    if (same.keeps_promise) {
      out_.kept_after_all = same.plan.home;
    } else {
      together();
      instead();
    }
    out_.plans = plans_;
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool more() const { return plans_ < most_plans_; }
  Without look(const TripCase& trip, const std::vector<Hindrance>& without) {
    ++plans_;
    return plan_without(trip, without, quick_look);
  }

  void together() {
    std::vector<Hindrance> others;
    std::vector<Forbids> unsettled;
    for (const Hindrance& one : hindrances_of(t_)) {
      // A third of the budget is for what can be done instead.
      if (plans_ >= most_plans_ / 3) {
        unsettled.push_back({one, Forbids::Mark::not_settled, false, {}});
        continue;
      }
      const Without without = look(t_, {one});
      if (without.keeps_promise) {
        // With more time he would also do what need not be done; the plan as it is says when he could be
        // home.
        const bool as_it_is =
            one.kind == Hindrance::Kind::promise && t_.plan.home && t_.plan.all_musts_placed(t_.list);
        out_.together.push_back(
            {one, Forbids::Mark::needed, true, as_it_is ? t_.plan.home : without.plan.home});
      } else {
        others.push_back(one);
      }
    }
    // Mostly all of them at once are not enough either, and nothing more has to be asked.
    std::vector<Hindrance> lifted;
    Without all = look(t_, others);
    if (!all.keeps_promise) {
      lifted = others;
      out_.proved = all.out_of_reach;
    } else {
      for (const Hindrance& one : others) {
        if (plans_ >= 2 * most_plans_ / 3) {
          out_.together.push_back({one, Forbids::Mark::not_settled, false, {}});
          continue;
        }
        std::vector<Hindrance> wider = lifted;
        wider.push_back(one);
        const Without without = look(t_, wider);
        if (without.keeps_promise) {
          out_.together.push_back({one, Forbids::Mark::needed, false, without.plan.home});
        } else {
          lifted = std::move(wider);
          out_.proved = without.out_of_reach;
        }
      }
      if (lifted.empty()) out_.proved = t_.plan.soonest_home && *t_.plan.soonest_home > t_.job.trip.home_by;
    }
    out_.beside = std::move(lifted);
    out_.together.insert(out_.together.end(), unsettled.begin(), unsettled.end());
  }

  struct Attempt {
    works::Job job;
    Plan plan;
  };
  std::optional<Attempt> attempt(const works::Job& job) {
    const works::TaskList list = works::derive_tasks(job);
    const TripCase trip{job, list, t_.weather, t_.limits, t_.plan, t_.now, t_.seed};
    Without without = look(trip, {});
    if (!without.keeps_promise) return {};
    return Attempt{job, std::move(without.plan)};
  }

  [[nodiscard]] bool is_begun(const works::Name& part) const {
    return std::any_of(t_.plan.tasks.begin(), t_.plan.tasks.end(), [&](const PlannedTask& task) {
      const works::Task* listed = t_.list.find(task.task);
      return listed != nullptr && listed->of == part && task.placed() && task.start() < t_.now;
    });
  }

  // First his fallbacks, in his order, as many as it takes; then parts that must be built, the least work
  // that suffices; then each fallback back that was not needed.
  void instead() {
    works::Job job = t_.job;
    std::vector<works::Fallback> used;
    std::optional<Attempt> found;
    for (const works::Fallback& fallback : t_.job.fallbacks) {
      if (!more() || found) break;
      if (is_begun(fallback.part)) continue;
      const auto changed = with_fallback(job, fallback);
      if (!changed) continue;
      job = *changed;
      used.push_back(fallback);
      found = attempt(job);
    }
    std::vector<works::Name> without;
    if (!found) found = with_fewer(job, without);
    if (!found) return;
    for (std::size_t i = used.size(); i-- > 0 && more();) {
      std::vector<works::Fallback> fewer = used;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      const auto made = made_of(fewer, without);
      if (!made) continue;
      if (auto better = attempt(*made)) {
        found = std::move(better);
        used = std::move(fewer);
      }
    }
    out_.instead = Instead{std::move(used), std::move(without), found->plan.left_out, *found->plan.home};
  }

  [[nodiscard]] std::optional<works::Job> made_of(const std::vector<works::Fallback>& fallbacks,
                                                  const std::vector<works::Name>& without) const {
    std::optional<works::Job> job = t_.job;
    for (const works::Fallback& fallback : fallbacks) {
      if (job) job = with_fallback(std::move(*job), fallback);
    }
    for (const works::Name& part : without) {
      if (job) job = works::without_part(std::move(*job), part);
    }
    return job;
  }

  std::optional<Attempt> with_fewer(const works::Job& job, std::vector<works::Name>& without) {
    struct Piece {
      works::Name name;
      double hours = 0;
    };
    const works::TaskList list = works::derive_tasks(job);
    std::vector<Piece> pieces;
    for (const works::Part& part : job.parts) {
      const works::Name& name = works::name_of(part);
      if (importance_of(job, name) != works::Importance::must || is_begun(name) ||
          !works::without_part(job, name))
        continue;
      Piece piece{name, 0};
      for (const works::Task& task : list.tasks) {
        if (task.of == name) piece.hours += task.hours.value();
      }
      pieces.push_back(std::move(piece));
    }
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Piece& a, const Piece& b) { return a.hours < b.hours; });
    if (pieces.size() > most_parts) pieces.resize(most_parts);
    struct Choice {
      std::vector<works::Name> names;
      double hours = 0;
    };
    std::vector<Choice> choices;
    for (std::uint32_t set = 1; set < (1U << pieces.size()); ++set) {
      Choice choice;
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        if ((set >> i & 1U) == 0) continue;
        choice.names.push_back(pieces[i].name);
        choice.hours += pieces[i].hours;
      }
      choices.push_back(std::move(choice));
    }
    std::stable_sort(choices.begin(), choices.end(),
                     [](const Choice& a, const Choice& b) { return a.hours < b.hours; });
    for (const Choice& choice : choices) {
      if (!more()) return {};
      std::optional<works::Job> less = job;
      for (const works::Name& name : choice.names) {
        if (less) less = works::without_part(std::move(*less), name);
      }
      if (!less) continue;
      if (auto found = attempt(*less)) {
        without = choice.names;
        return found;
      }
    }
    return {};
  }

  const TripCase& t_;
  int most_plans_;
  int plans_ = 0;
  Promise out_;
};

}  // namespace

std::optional<Promise> promise_of(const TripCase& trip, int most_plans) {
  if (trip.plan.home && trip.plan.in_hand.count() >= 0 && trip.plan.all_musts_placed(trip.list)) return {};
  return Search(trip, most_plans).run();
}

}  // namespace weatherstruck::programme
