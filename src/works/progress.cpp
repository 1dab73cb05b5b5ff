#include "weatherstruck/works/progress.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/cover_book.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/level_book.h"
#include "weatherstruck/works/needs_first.h"
#include "weatherstruck/works/run_keeper.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/spoken.h"
#include "weatherstruck/works/stock_book.h"

namespace weatherstruck::works {
namespace {

constexpr double slack = 1e-6;  ///< of a whole task: sums of courses are not exact

std::vector<StandDown> stand_downs(const std::vector<Entry>& entries) {
  std::vector<StandDown> spans;
  for (const Entry& entry : entries) {
    if (const auto* span = std::get_if<StoodDown>(&entry.what)) {
      spans.push_back({span->cause, span->from, span->to});
    }
  }
  return spans;
}

class Fold {
 public:
  Fold(const Job& job, const TaskList& tasks, std::vector<Entry> entries, base::Instant now)
      : job_(job),
        list_(tasks),
        entries_(std::move(entries)),
        now_(now),
        expansion_(expand(job)),
        runs_(job, stand_downs(entries_), tasks.tasks.size()),
        levels_(job, expansion_),
        stock_(job, tasks) {
    for (std::size_t i = 0; i < list_.tasks.size(); ++i) {
      const Task& task = list_.tasks[i];
      index_.emplace(task.name, i);
      TaskProgress state;
      state.task = task.name;
      state.amount = task.amount;
      out_.tasks.push_back(std::move(state));
      parts_.insert(task.part);
      parts_.insert(task.of);
    }
    for (const Part& part : job_.parts)
      parts_.insert(name_of(part));
    for (const FootingPart& footing : expansion_.footings)
      parts_.insert(footing.shape.name);
    for (const WallPart& wall : expansion_.walls)
      parts_.insert(wall.shape.name);
    parts_.erase("");
    for (const Entry& entry : entries_) {
      if (const auto* begin = std::get_if<Begin>(&entry.what)) first_begin_.emplace(begin->task, entry.at);
    }
  }

  Progress run(const base::Faults& faults) {
    first_.emplace(job_, list_, out_);
    for (const base::Fault& fault : faults)
      out_.remarks.push_back(
          {Remark::Kind::fault, fault.code, fault.place.substr(entry_place.size()), base::to_text(fault)});
    for (const Entry& entry : entries_) {
      entry_ = &entry;
      std::visit([this](const auto& what) { (*this)(what); }, entry.what);
      ask_about_left_open();
    }
    runs_.close(now_);
    ask_about_left_open();
    for (std::size_t i = 0; i < out_.tasks.size(); ++i) {
      TaskProgress& task = out_.tasks[i];
      task.runs = runs_.runs_of(i);
      for (const Run& run : task.runs)
        task.worked += run.worked;
    }
    for (const NeedsFirst::Taken& taken : first_->settle())
      stock_.draw(list_.tasks[taken.task], taken.before, out_.tasks[taken.task].amount, taken.at);
    stock_.weigh(out_, [this](std::size_t task) { return first_->there(task); });
    levels_.finish(out_);
    return std::move(out_);
  }

  void operator()(const Begin& what) {
    const auto at = task_at(what.task);
    if (!at) return;
    TaskProgress& state = out_.tasks[*at];
    if (state.finished) advise("finished-already", title(*at) + " is finished in the book, and begun again.");
    touch(*at);
    if (!runs_.begin(*at, entry_->at, entry_->key)) {
      advise("begun-already", title(*at) + " was being worked on already; the earlier begin counts.");
    }
  }

  void operator()(const Done& what) {
    const auto at = task_at(what.task);
    if (!at) return;
    TaskProgress& state = out_.tasks[*at];
    const bool worked_before = state.begun.has_value();
    touch(*at);
    const std::optional<double> reached = reached_by(what.amount, *at);
    const bool finishes = reached && *reached >= state.amount;
    const bool had_run = runs_.done(*at, entry_->at, finishes, entry_->key);
    if (!had_run && !worked_before) ask_for_begin(*at);
    if (!reached) return;
    if (state.finished) {
      advise("finished-already", title(*at) + " was finished already.");
      return;
    }
    stock_.draw(list_.tasks[*at], state.done, *reached, entry_->at);
    state.done = *reached;
    state.courses_done = static_cast<int>(std::floor(courses_at(*at, *reached) + slack));
    if (finishes) {
      state.finished = entry_->at;
      first_->seen(*at, true, *entry_);
    }
  }

  void operator()(const StoodDown& what) { out_.stood_down.push_back({what.cause, what.from, what.to}); }
  void operator()(const LevelRead& what) { levels_.read(what, *entry_, out_); }
  void operator()(const StockCount& what) { stock_.count(what, *entry_); }
  void operator()(const Arrived& what) { stock_.arrived(what); }
  void operator()(const Note& what) { out_.notes.push_back({entry_->at, what}); }
  void operator()(const Expense& what) { out_.expenses.push_back({entry_->at, what}); }
  void operator()(const Extra& what) {
    out_.extras.push_back({entry_->at, what});
    if (what.agreed_by.empty()) {
      remark(Remark::Kind::question, "agreed-by", "Who agreed to the extra \"" + what.what + "\"?");
    }
  }

  void operator()(const CoverOn& what) {
    if (knows(what.part)) cover_on(what, *entry_, out_);
  }
  void operator()(const CoverOff& what) {
    if (knows(what.part)) cover_off(what, *entry_, out_);
  }
  void operator()(const CanopyUp& what) {
    if (knows(what.part)) canopy_up(what, *entry_, out_);
  }
  void operator()(const CanopyDown& /*what*/) { canopy_down(*entry_, out_); }
  void operator()(const Thermometer& what) { out_.temperatures.push_back({entry_->at, what.air}); }
  void operator()(const Gauge& what) { out_.rain.push_back({what.since, entry_->at, what.rain}); }
  void operator()(const Struck& /*what*/) {}

 private:
  [[nodiscard]] std::string title(std::size_t task) const {
    return "\"" + short_title(list_.tasks[task]) + "\"";
  }
  void remark(Remark::Kind kind, std::string code, std::string text) {
    out_.remarks.push_back({kind, std::move(code), entry_->key, std::move(text)});
  }
  void advise(std::string code, std::string text) {
    remark(Remark::Kind::advice, std::move(code), std::move(text));
  }
  [[nodiscard]] std::string when(base::Instant t) const {
    return base::day_and_time(job_.site.zone.to_local(t));
  }

  [[nodiscard]] std::optional<std::size_t> task_at(const Name& name) {
    const auto place = index_.find(name);
    if (place != index_.end()) return place->second;
    remark(Remark::Kind::fault, "unknown-task",
           "The job has no task \"" + name + "\" (any more). Correct the entry, or strike it out.");
    return std::nullopt;
  }
  [[nodiscard]] bool knows(const Name& part) {
    if (parts_.count(part) > 0) return true;
    remark(Remark::Kind::fault, "unknown-part",
           "The job has no part \"" + part + "\". Correct the entry, or strike it out.");
    return false;
  }
  /// First sight of work on a task: what it tells about the way of another, and what should have come first.
  void touch(std::size_t at) {
    first_->named(at, entry_->at);
    if (out_.tasks[at].begun) return;
    out_.tasks[at].begun = entry_->at;
    if (const auto& only = list_.tasks[at].only_if) {
      const auto parent = index_.find(only->task);
      if (parent != index_.end()) out_.tasks[parent->second].way = only->way;
    }
    first_->seen(at, false, *entry_);
  }

  [[nodiscard]] double courses_at(std::size_t at, double amount) const {
    double place = 0;
    double rest = amount;
    for (const double course : list_.tasks[at].courses) {
      if (rest <= 0) break;
      place += course > 0 ? std::min(1.0, rest / course) : 1.0;
      rest -= course;
    }
    return place;
  }
  [[nodiscard]] double amount_at(std::size_t at, double courses) const {
    double amount = 0;
    for (const double course : list_.tasks[at].courses) {
      if (courses <= 0) break;
      amount += course * std::min(1.0, courses);
      courses -= 1;
    }
    return amount;
  }

  /// What stands done after an amount is added; nullopt with a question where that cannot be.
  std::optional<double> reached_by(const Amount& amount, std::size_t at) {
    const Task& task = list_.tasks[at];
    const TaskProgress& state = out_.tasks[at];
    const double left = state.amount - state.done;
    double reached = state.amount;
    if (const auto* courses = std::get_if<Courses>(&amount)) {
      if (task.courses.empty()) {
        return refuse("not-in-courses",
                      title(at) + " is not laid in courses. How much of it was done, in " + task.unit + "?");
      }
      const double there_are = static_cast<double>(task.courses.size());
      const double before = courses_at(at, state.done);
      const double wanted = before + courses->count;
      if (wanted > there_are + slack) {
        return refuse("more-than-there-is",
                      title(at) + " has " + base::plain_number(there_are - before, 1) +
                          " courses left, and " + std::to_string(courses->count) +
                          " were logged; they are not counted. How many was it, or is the "
                          "job higher than was asked for?");
      }
      reached = amount_at(at, wanted);
    } else if (const auto* measured = std::get_if<Measured>(&amount)) {
      if (!measured->unit.empty() && measured->unit != task.unit) {
        return refuse("other-unit", title(at) + " is measured in " + task.unit + ", not in " +
                                        measured->unit + "; the entry is not counted. How much was it?");
      }
      if (measured->value > left + slack * state.amount) {
        return refuse("more-than-there-is",
                      title(at) + " has " + base::plain_number(left, 2) + " " + task.unit + " left, and " +
                          base::plain_number(measured->value, 2) +
                          " were logged; they are not counted. How much was it, or is there "
                          "more to do than was reckoned?");
      }
      reached = state.done + measured->value;
    } else if (const auto* share = std::get_if<Share>(&amount)) {
      reached = share->of_all.value() * state.amount;
      if (reached < state.done - slack * state.amount) {
        return refuse("less-than-before",
                      title(at) + " stood at " + base::plain_number(100 * state.share(), 0) +
                          " % already, and less was logged; it is not counted. How much of "
                          "all of it is done?");
      }
    }
    return reached > state.amount * (1 - slack) ? state.amount : std::max(reached, state.done);
  }
  std::optional<double> refuse(std::string code, std::string text) {
    remark(Remark::Kind::question, std::move(code), std::move(text));
    return std::nullopt;
  }

  void ask_for_begin(std::size_t at) {
    const auto begin = first_begin_.find(list_.tasks[at].name);
    if (begin != first_begin_.end() && begin->second > entry_->at) {
      remark(Remark::Kind::question, "done-before-begun",
             title(at) + " was logged done at " + when(entry_->at) + ", but begun at " + when(begin->second) +
                 ". Which of the two is wrong?");
    } else {
      advise("no-begin",
             "The book does not say when " + title(at) + " was begun; its hours are not counted.");
    }
  }

  void ask_about_left_open() {
    for (const RunKeeper::LeftOpen& run : runs_.take_left_open()) {
      out_.remarks.push_back({Remark::Kind::question, "left-open", run.begin,
                              "Nothing says when you left " + title(run.task) + ", begun " + when(run.from) +
                                  "; " + when(run.taken_as_end) + " is taken. When was it?"});
    }
  }

  const Job& job_;
  const TaskList& list_;
  std::vector<Entry> entries_;
  base::Instant now_;
  Expansion expansion_;
  RunKeeper runs_;
  LevelBook levels_;
  std::map<Name, std::size_t> index_;
  std::map<Name, base::Instant> first_begin_;
  std::set<Name> parts_;
  StockBook stock_;
  std::optional<NeedsFirst> first_;  ///< of `out_`
  const Entry* entry_ = nullptr;
  Progress out_;
};

}  // namespace

const TaskProgress* Progress::find(const Name& task) const {
  const auto found = std::find_if(tasks.begin(), tasks.end(),
                                  [&task](const TaskProgress& state) { return state.task == task; });
  return found == tasks.end() ? nullptr : &*found;
}

const Cover* Progress::cover_on(const Name& part) const {
  const auto found = std::find_if(covers.begin(), covers.end(),
                                  [&part](const Cover& cover) { return cover.part == part && !cover.to; });
  return found == covers.end() ? nullptr : &*found;
}

const Cover* Progress::canopy_up() const {
  return canopy.empty() || canopy.back().to ? nullptr : &canopy.back();
}

const Stock* Progress::stock_of(const std::string& material) const {
  const auto found = std::find_if(stock.begin(), stock.end(),
                                  [&material](const Stock& line) { return line.material == material; });
  return found == stock.end() ? nullptr : &*found;
}

Progress progress_of(const Job& job, const TaskList& tasks, const Book& book, base::Instant now) {
  Effective counted = effective(book);
  std::vector<Entry> entries;
  for (Entry& entry : counted.entries) {
    if (entry.at <= now) entries.push_back(std::move(entry));
  }
  return Fold(job, tasks, std::move(entries), now).run(counted.faults);
}

}  // namespace weatherstruck::works
