#include "book_meant.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <set>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/works/needs_first.h"

namespace weatherstruck::desk {
namespace {

using Names = std::vector<std::string>;

/// Those that fit; all of them where none does, or all do.
template <class Fits>
Names left_of(const Names& names, Names& dropped, const Fits& fits) {
  Names left;
  Names gone;
  for (const std::string& name : names)
    (fits(name) ? left : gone).push_back(name);
  if (left.empty()) return names;
  dropped = std::move(gone);
  return left;
}

std::string all_are(const Names& names, const std::string& singular, const std::string& plural) {
  constexpr std::size_t most = 3;
  const std::string who = names.size() > most ? "the others" : base::join_and(names);
  return names.empty() ? "" : who + " " + (names.size() == 1 ? singular : plural);
}

/// Whether there is as much left of a task as was said to be done of it.
bool has_room(const works::Task& task, const works::TaskProgress& state,
              const std::optional<works::Amount>& amount) {
  constexpr double slack = 1e-6;
  if (!amount) return true;
  if (const auto* courses = std::get_if<works::Courses>(&*amount))
    return courses->count <= static_cast<int>(task.courses.size()) - state.courses_done;
  const auto* measured = std::get_if<works::Measured>(&*amount);
  return measured == nullptr || measured->value <= state.amount * (1 + slack) - state.done;
}

/// Whether one task has to be finished before another, over however many links.
bool comes_before(const works::TaskList& list, const works::Name& first, const works::Name& later) {
  std::set<works::Name> reached{first};
  // Every link runs forward in the list, so the tasks are met in an order that needs no second look.
  for (const works::Task& task : list.tasks) {
    if (reached.count(task.name) == 0) continue;
    for (const works::Link& link : list.links) {
      if (link.from == task.name && link.kind == works::Link::Kind::finish_start) reached.insert(link.to);
    }
  }
  return reached.count(later) > 0;
}

std::optional<std::string> planned_task(const Names& names, const programme::Plan& plan,
                                        const base::Zone& zone, base::Instant at) {
  const auto only = [&](const auto& fits) -> std::optional<std::string> {
    std::set<std::string> found;
    for (const programme::PlannedTask& task : plan.tasks) {
      if (std::find(names.begin(), names.end(), task.task) == names.end()) continue;
      if (std::any_of(task.runs.begin(), task.runs.end(),
                      [&](const programme::PlannedRun& run) { return fits(run.span); }))
        found.insert(task.task);
    }
    return found.size() == 1 ? std::optional(*found.begin()) : std::nullopt;
  };
  if (auto then = only([at](const programme::Span& span) { return span.from <= at && at <= span.to; }))
    return then;
  return only([&](const programme::Span& span) { return zone.day_of(span.from) == zone.day_of(at); });
}

std::optional<Meant> task_meant(const works::Question& question, const works::Standing& standing,
                                const works::Book& book, const programme::Plan* plan) {
  // Just before: what was done at that moment is what is asked about.
  works::Progress progress =
      works::progress_of(standing.job, standing.list, book, question.at - std::chrono::seconds(1));
  const works::NeedsFirst needs(standing.job, standing.list, progress);
  Names finished;
  Names left = left_of(question.candidates, finished, [&](const std::string& name) {
    const works::TaskProgress* state = progress.find(name);
    return state != nullptr && !state->finished;
  });
  Names too_short;
  left = left_of(left, too_short, [&](const std::string& name) {
    const works::TaskProgress* state = progress.find(name);
    return state != nullptr && has_room(*standing.list.find(name), *state, question.amount);
  });
  Names too_early;
  const Names unfinished = left;
  left = left_of(left, too_early, [&](const std::string& name) {
    const works::TaskProgress* state = progress.find(name);
    if (state != nullptr && state->begun) return true;
    return std::none_of(unfinished.begin(), unfinished.end(), [&](const std::string& other) {
      return other != name && comes_before(standing.list, other, name);
    });
  });
  Names not_yet;
  left = left_of(left, not_yet, [&](const std::string& name) {
    const works::TaskProgress* state = progress.find(name);
    return state != nullptr &&
           (state->begun || needs.can_begin(static_cast<std::size_t>(state - progress.tasks.data())));
  });
  too_early.insert(too_early.end(), not_yet.begin(), not_yet.end());
  std::vector<std::string> reasons{all_are(finished, "is finished", "are finished"),
                                   all_are(too_short, "has less than that left", "have less than that left"),
                                   all_are(too_early, "cannot have begun", "cannot have begun")};
  std::optional<std::string> choice = left.size() == 1 ? std::optional(left.front()) : std::nullopt;
  if (!choice && plan != nullptr) {
    choice = planned_task(left, *plan, standing.job.site.zone, question.at);
    reasons.emplace_back("the plan has it then");
  }
  if (!choice) return std::nullopt;
  reasons.erase(std::remove(reasons.begin(), reasons.end(), std::string()), reasons.end());
  return Meant{*choice, base::join_and(reasons)};
}

std::optional<Meant> cover_meant(const works::Question& question, const works::Standing& standing,
                                 const programme::Plan& plan) {
  const base::Zone& zone = standing.job.site.zone;
  std::set<works::Name> of_part{question.part};
  for (const works::Task& task : standing.list.tasks) {
    if (task.of == question.part) of_part.insert(task.part);
  }
  std::set<std::string> kinds;
  for (const programme::PlannedCover& cover : plan.covers) {
    if (of_part.count(cover.part) == 0) continue;
    const bool that_day =
        zone.day_of(cover.span.from) <= zone.day_of(question.at) && cover.span.to >= question.at;
    if (that_day) kinds.insert(std::string(trade::row_for(cover.kind).title));
  }
  if (kinds.size() != 1) return std::nullopt;
  const bool both = *kinds.begin() == trade::row_for(trade::CoverKind::hessian_and_sheet).title;
  const std::string choice = both ? "hessian and sheet" : *kinds.begin();
  const bool asked =
      std::find(question.candidates.begin(), question.candidates.end(), choice) != question.candidates.end();
  return asked ? std::optional(Meant{choice, "the plan has that cover then"}) : std::nullopt;
}

}  // namespace

std::optional<Meant> meant_by(const works::Question& question, const works::Standing& standing,
                              const works::Book& book, const programme::Plan* plan) {
  if (question.about == works::Question::About::task) return task_meant(question, standing, book, plan);
  if (question.about == works::Question::About::cover && plan != nullptr)
    return cover_meant(question, standing, *plan);
  return std::nullopt;
}

}  // namespace weatherstruck::desk
