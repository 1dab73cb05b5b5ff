#include "weatherstruck/works/own_pace.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/standing.h"

namespace weatherstruck::works {
namespace {

/// Begins and ends are logged to some minutes, so what took less tells nothing. Assumption.
constexpr double least_hours = 0.25;
/// Farther than this beyond the range is more likely a forgotten end. As for figures that a job sets itself.
constexpr double beyond_the_range = 2;

bool learns(const Job& job, const Task& task) {
  const bool by_hand = std::any_of(job.tasks.begin(), job.tasks.end(),
                                   [&](const ExtraTask& extra) { return extra.name == task.name; });
  return !by_hand && task.operation != trade::Operation::drive && task.operation != trade::Operation::fetch &&
         task.operation != trade::Operation::other;
}

/// The job at the norms of the tables.
Job at_the_norms(Job job) {
  std::vector<LimitOverride>& own = job.limits.overrides;
  own.erase(std::remove_if(own.begin(), own.end(),
                           [](const LimitOverride& one) { return trade::operation_from_key(one.key); }),
            own.end());
  job.practice.norms = {};
  job.practice.own_pace = {};
  settle_own_figures(job);
  return job;
}

/// When each task was logged as done, and those of whose entries something is asked.
struct Logged {
  std::map<Name, std::vector<base::Instant>> done;
  std::set<Name> asked;
};

Logged logged(const Progress& progress, const Book& book, base::Instant now) {
  Logged out;
  std::map<EntryKey, Name> task_of;
  for (const Entry& entry : effective(book).entries) {
    if (entry.at > now) continue;
    if (const auto* begin = std::get_if<Begin>(&entry.what)) task_of[entry.key] = begin->task;
    if (const auto* done = std::get_if<Done>(&entry.what)) {
      task_of[entry.key] = done->task;
      out.done[done->task].push_back(entry.at);
    }
  }
  for (const Remark& remark : progress.remarks) {
    const auto task = task_of.find(remark.entry);
    if (remark.kind != Remark::Kind::advice && task != task_of.end()) out.asked.insert(task->second);
  }
  return out;
}

/// Hours up to the last of `done`, and starts; nothing where some of what was done has none.
std::pair<base::Hours, int> hours_of(const TaskProgress& state, const std::vector<base::Instant>& done) {
  base::Instant before = base::Instant::min();
  for (const base::Instant at : done) {
    const bool timed = std::any_of(state.runs.begin(), state.runs.end(),
                                   [&](const Run& run) { return run.to > before && run.to <= at; });
    // Two entries of one moment share their run.
    if (!timed && at != before) return {base::Hours(0), 0};
    before = at;
  }
  base::Hours worked(0);
  int starts = 0;
  base::Instant left = base::Instant::min();
  for (const Run& run : state.runs) {
    if (run.to > done.back()) continue;
    worked += run.worked;
    starts += run.from == left ? 0 : 1;
    left = run.to;
  }
  return {worked, starts};
}

base::Hours hours_by_the_way(const Task& task, const TaskProgress& state) {
  for (const TaskWay& way : task.ways) {
    if (state.way && way.key == *state.way) return way.hours;
  }
  return task.hours;
}

bool forgotten(const TimedWork& one, std::span<const PaceStart> starts) {
  return std::any_of(starts.begin(), starts.end(), [&](const PaceStart& start) {
    return one.at < start.from && (start.work.empty() || start.work == trade::row_for(one.operation).key);
  });
}

/// One kind of work: what counts of it, job after job.
class Learner {
 public:
  explicit Learner(trade::Operation operation)
      : range_(trade::row_for(operation).spread()), spread_(trade::pace_spread(trade::row_for(operation))) {
    out_.operation = operation;
  }

  void take(const TimedWork& one) {
    const double times = one.worked / one.norm;
    if (times < range_.low / beyond_the_range || times > range_.high * beyond_the_range) {
      ++out_.slips;
      return;
    }
    jobs_[one.job].push_back(std::log(times));
    ++out_.entries;
  }

  LearntPace learnt(double stated) {
    const double prior = -std::log(stated);
    double weight = 1 / (spread_.known * spread_.known);
    double sum = prior * weight;
    for (const auto& [job, logs] : jobs_) {
      double mean = 0;
      for (const double log : logs)
        mean += log;
      const auto n = static_cast<double>(logs.size());
      const double own = 1 / (spread_.trip * spread_.trip + spread_.task * spread_.task / n);
      sum += own * mean / n;
      weight += own;
    }
    out_.jobs = static_cast<int>(jobs_.size());
    out_.times = std::exp(sum / weight);
    out_.sure = std::sqrt(1 / weight);
    out_.sigma = std::sqrt(1 / weight + spread_.trip * spread_.trip + spread_.task * spread_.task);
    return out_;
  }

 private:
  trade::Spread range_;
  trade::PaceSpread spread_;
  std::map<Name, std::vector<double>> jobs_;
  LearntPace out_;
};

}  // namespace

std::vector<TimedWork> timed_work(const Job& job, const Book& book, base::Instant now) {
  std::vector<TimedWork> timed;
  if (job.crew.size() != 1 || book.size() == 0) return timed;
  const Standing standing = standing_of(at_the_norms(job), book, now);
  const Logged said = logged(standing.progress, book, now);
  for (const Task& task : standing.list.tasks) {
    const TaskProgress* state = standing.progress.find(task.name);
    const auto done = said.done.find(task.name);
    if (state == nullptr || done == said.done.end() || state->taken || said.asked.count(task.name) > 0 ||
        !learns(job, task))
      continue;
    const auto [worked, starts] = hours_of(*state, done->second);
    const base::Hours norm = hours_by_the_way(task, *state) * state->share() + task.set_up * starts;
    if (worked.value() < least_hours || norm.value() <= 0) continue;
    timed.push_back({job.name, task.name, job.crew.front().name, task.operation, state->done, task.unit, norm,
                     worked, done->second.back()});
  }
  return timed;
}

std::vector<LearntPace> learn_paces(std::vector<TimedWork> timed, std::span<const PaceStart> starts,
                                    const Name& person, double stated, base::Instant before) {
  // Sums of doubles hang on their order, so there is one.
  std::sort(timed.begin(), timed.end(), [](const TimedWork& a, const TimedWork& b) {
    return std::tie(a.operation, a.job, a.task) < std::tie(b.operation, b.job, b.task);
  });
  std::map<trade::Operation, Learner> kinds;
  for (const TimedWork& one : timed) {
    const bool ranged = trade::pace_spread(trade::row_for(one.operation)).known > 0;
    if (one.person != person || one.at >= before || !ranged || forgotten(one, starts)) continue;
    kinds.try_emplace(one.operation, one.operation).first->second.take(one);
  }
  std::vector<LearntPace> learnt;
  learnt.reserve(kinds.size());
  for (auto& [operation, learner] : kinds)
    learnt.push_back(learner.learnt(stated));
  return learnt;
}

PaceFigures pace_figures(const LearntPace& learnt) {
  constexpr double eight_in_ten = 1.2816;  // of a normal distribution, the quantile of 0.9
  const double norm = 1 / trade::row_for(learnt.operation).hours_per_unit;
  const double own = norm / learnt.times;
  const double stray = std::exp(eight_in_ten * learnt.sigma);
  return {norm, own, own / stray, own * stray};
}

void put_own_pace(Job& job, std::span<const LearntPace> learnt) {
  if (job.crew.size() != 1) return;
  for (const LearntPace& one : learnt) {
    const std::string_view key = trade::row_for(one.operation).key;
    const bool says_itself = std::any_of(job.limits.overrides.begin(), job.limits.overrides.end(),
                                         [&](const LimitOverride& own) { return own.key == key; });
    if (one.entries == 0 || says_itself) continue;
    // Hours are divided by his pace when they are placed.
    job.practice.own_pace.set(one.operation, {one.times * job.crew.front().pace, one.sigma});
  }
}

}  // namespace weatherstruck::works
