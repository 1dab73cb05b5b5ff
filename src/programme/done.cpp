#include "weatherstruck/programme/done.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "weatherstruck/works/said.h"

namespace weatherstruck::programme {
namespace {

constexpr std::chrono::minutes moment{5};  ///< what takes the place of hours that nobody wrote down

class Looker {
 public:
  Looker(const works::Job& job, const works::TaskList& list, const works::Progress& progress,
         const Plan* before, base::Instant now)
      : job_(job), list_(list), progress_(progress), before_(before), now_(now) {}

  DoneSoFar look() {
    for (std::size_t i = 0; i < list_.tasks.size(); ++i) {
      index_.emplace(list_.tasks[i].name, i);
      out_.plan.tasks.push_back(done(i));
    }
    take_for_granted();
    drive_out();
    still_to_do();
    out_.plan.horizon_from = job_.trip.leave_home;
    out_.plan.horizon_to = now_;
    out_.plan.forecast_until = now_;
    return std::move(out_);
  }

 private:
  [[nodiscard]] static std::string quoted(const works::Task& task) {
    return "\"" + works::short_title(task) + "\"";
  }

  PlannedTask done(std::size_t i) const {
    const works::Task& task = list_.tasks[i];
    const works::TaskProgress& state = progress_.tasks[i];
    PlannedTask out;
    out.task = task.name;
    const PlannedTask* planned = planned_before(task.name);
    if (state.way) {
      out.way = state.way;
    } else if (planned != nullptr && planned->placed()) {
      out.way = planned->way;
    } else if (!task.ways.empty()) {
      out.way = task.ways.front().key;
    }
    if (planned != nullptr) {
      out.people = planned->people;
      out.turn = planned->turn;
      out.held_until = planned->held_until;
    }
    const double share = state.finished ? 1.0 : state.share();
    if (share <= 0) return out;
    base::Hours worked{0};
    for (const works::Run& run : state.runs)
      worked += run.worked;
    if (state.runs.empty() || worked.value() <= 0) {
      const base::Instant end = std::min(now_, state.finished.value_or(state.begun.value_or(now_)));
      out.runs.push_back(run_of(task, {end - moment, end}, share, share));
      return out;
    }
    double so_far = 0;
    for (const works::Run& run : state.runs) {
      if (run.worked.value() <= 0) continue;
      const double part = share * (run.worked / worked);
      so_far += part;
      out.runs.push_back(run_of(task, {run.from, std::min(run.to, now_)}, part, so_far));
    }
    return out;
  }

  static PlannedRun run_of(const works::Task& task, Span span, double part, double so_far) {
    PlannedRun run;
    run.span = span;
    if (run.span.to <= run.span.from) run.span.from = run.span.to - moment;
    run.share = part;
    double laid = 0;
    for (const double course : task.courses) {
      laid += course;
      if (laid <= so_far * task.amount * (1 + 1e-9)) ++run.courses_after;
    }
    return run;
  }

  const PlannedTask* planned_before(const works::Name& name) const {
    if (before_ == nullptr) return nullptr;
    const auto found = std::find_if(before_->tasks.begin(), before_->tasks.end(),
                                    [&](const PlannedTask& task) { return task.task == name; });
    return found == before_->tasks.end() ? nullptr : &*found;
  }

  [[nodiscard]] bool there(std::size_t i) const {
    const auto& only = list_.tasks[i].only_if;
    if (!only) return true;
    const auto parent = index_.find(only->task);
    return parent == index_.end() || out_.plan.tasks[parent->second].way.value_or("") == only->way;
  }

  // Backwards through the links, so that a whole chain of things not written down is seen.
  void take_for_granted() {
    for (std::size_t i = list_.tasks.size(); i-- > 0;) {
      PlannedTask& task = out_.plan.tasks[i];
      if (progress_.tasks[i].finished || !there(i)) continue;
      std::optional<base::Instant> needed;
      for (const works::Link& link : list_.links) {
        if (link.from != task.task || link.kind != works::Link::Kind::finish_start) continue;
        const auto to = index_.find(link.to);
        if (to == index_.end() || out_.plan.tasks[to->second].runs.empty()) continue;
        // What need not be done holds up nothing else (see build_programme), so it says nothing of it either.
        if (list_.tasks[i].importance != works::Importance::must &&
            list_.tasks[i].of != list_.tasks[to->second].of)
          continue;
        const base::Instant begun = out_.plan.tasks[to->second].start();
        if (!needed || begun < *needed) needed = begun;
      }
      if (!needed) continue;
      double done = 0;
      for (const PlannedRun& run : task.runs)
        done += run.share;
      if (done >= 1) continue;
      const base::Instant end = task.runs.empty() ? *needed : std::max(*needed, task.finish() + moment);
      task.runs.push_back(run_of(list_.tasks[i], {end - moment, std::min(end, now_)}, 1 - done, 1));
      if (list_.tasks[i].operation != trade::Operation::drive)
        out_.assumed.push_back(
            fmt::format("{} is taken as done, since what follows it is begun.", quoted(list_.tasks[i])));
    }
    std::reverse(out_.assumed.begin(), out_.assumed.end());
  }

  void drive_out() {
    if (list_.tasks.empty() || list_.tasks.front().operation != trade::Operation::drive) return;
    PlannedTask& drive = out_.plan.tasks.front();
    const bool on_site = std::any_of(out_.plan.tasks.begin() + 1, out_.plan.tasks.end(),
                                     [](const PlannedTask& task) { return task.placed(); });
    if (!on_site) return;
    base::Instant arrived = now_;
    for (const PlannedTask& task : out_.plan.tasks) {
      if (&task != &drive && task.placed()) arrived = std::min(arrived, task.start());
    }
    const base::Instant left = std::min(job_.trip.leave_home, arrived - moment);
    drive.runs = {run_of(list_.tasks.front(), {left, arrived}, 1, 1)};
  }

  // In the order of the plan of before, from now on: make_plan reads order and ways from it, no hours.
  void still_to_do() {
    if (before_ == nullptr) return;
    for (PlannedTask& task : out_.plan.tasks) {
      const PlannedTask* planned = planned_before(task.task);
      if (planned == nullptr) continue;
      if (task.placed()) continue;
      task.present = planned->present;
      for (const PlannedRun& run : planned->runs) {
        PlannedRun later = run;
        if (later.span.from < now_) later.span = {now_, now_ + (run.span.to - run.span.from)};
        task.runs.push_back(later);
      }
    }
  }

  const works::Job& job_;
  const works::TaskList& list_;
  const works::Progress& progress_;
  const Plan* before_;
  base::Instant now_;
  std::map<works::Name, std::size_t> index_;
  DoneSoFar out_;
};

}  // namespace

DoneSoFar done_so_far(const works::Job& job, const works::TaskList& list, const works::Progress& progress,
                      const Plan* before, base::Instant now) {
  return Looker(job, list, progress, before, now).look();
}

}  // namespace weatherstruck::programme
