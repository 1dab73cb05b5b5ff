#include "weatherstruck/works/run_keeper.h"

#include <algorithm>
#include <chrono>
#include <utility>

namespace weatherstruck::works {

RunKeeper::RunKeeper(const Job& job, std::vector<StandDown> stood_down, std::size_t tasks)
    : job_(job), runs_(tasks) {
  std::sort(stood_down.begin(), stood_down.end(),
            [](const StandDown& a, const StandDown& b) { return a.from < b.from; });
  for (StandDown& span : stood_down) {
    if (!stood_down_.empty() && span.from <= stood_down_.back().to) {
      stood_down_.back().to = std::max(stood_down_.back().to, span.to);
    } else {
      stood_down_.push_back(std::move(span));
    }
  }
}

base::Instant RunKeeper::day_end_of(base::Instant from) const {
  const base::Zone& zone = job_.site.zone;
  const base::LocalDay day = zone.day_of(from);
  const base::Instant end = zone.to_instant_earliest(base::LocalTime(day) + job_.trip.working_day.to);
  return end > from ? end : zone.end_of(day);
}

base::Hours RunKeeper::between(base::Instant from, base::Instant to) const {
  std::chrono::seconds worked = to - from;
  for (const StandDown& span : stood_down_) {
    const base::Instant begin = std::max(span.from, from);
    const base::Instant end = std::min(span.to, to);
    if (begin < end) worked -= end - begin;
  }
  return base::Hours(static_cast<double>(worked.count()) / 3600.0);
}

void RunKeeper::advance(base::Instant to) {
  while (!open_.empty() && clock_ < to) {
    base::Instant until = to;
    for (const Open& run : open_)
      until = std::min(until, run.day_end);
    const double people = static_cast<double>(std::max<std::size_t>(job_.crew.size(), 1));
    const base::Hours each = between(clock_, until) * (people / static_cast<double>(open_.size()));
    for (Open& run : open_)
      run.worked += each;
    clock_ = until;
    for (std::size_t i = open_.size(); i-- > 0;) {
      if (open_[i].day_end != until || until == to) continue;
      left_open_.push_back({open_[i].task, open_[i].begin, open_[i].from, until});
      end(i, until, false);
    }
  }
  clock_ = to;
}

void RunKeeper::end(std::size_t place, base::Instant to, bool open) {
  const Open& run = open_[place];
  if (to > run.from || open) runs_[run.task].push_back({run.from, to, open, run.worked});
  open_.erase(open_.begin() + static_cast<std::ptrdiff_t>(place));
}

bool RunKeeper::begin(std::size_t task, base::Instant at, const EntryKey& entry) {
  advance(at);
  resume_.reset();
  const bool was_open =
      std::any_of(open_.begin(), open_.end(), [task](const Open& run) { return run.task == task; });
  if (was_open) return false;
  if (job_.crew.size() <= 1) {
    for (std::size_t i = open_.size(); i-- > 0;)
      end(i, at, false);
  }
  open_.push_back({task, entry, at, day_end_of(at)});
  return true;
}

bool RunKeeper::done(std::size_t task, base::Instant at, bool finished, const EntryKey& entry) {
  const bool goes_on = resume_ && resume_->task == task && at <= resume_->day_end;
  if (goes_on) {
    clock_ = resume_->at;
    open_.push_back({task, entry, resume_->at, resume_->day_end});
  }
  resume_.reset();
  advance(at);
  const auto run =
      std::find_if(open_.begin(), open_.end(), [task](const Open& open) { return open.task == task; });
  if (run == open_.end()) return false;
  const base::Instant day_end = run->day_end;
  end(static_cast<std::size_t>(run - open_.begin()), at, false);
  if (!finished && open_.empty()) resume_ = Resume{task, at, day_end};
  return true;
}

void RunKeeper::close(base::Instant now) {
  advance(now);
  for (std::size_t i = open_.size(); i-- > 0;)
    end(i, now, true);
}

std::vector<RunKeeper::LeftOpen> RunKeeper::take_left_open() {
  return std::exchange(left_open_, {});
}

}  // namespace weatherstruck::works
