#pragma once
// What is left of each material, from one entry to the next. For this floor only.
#include <functional>
#include <map>
#include <string>

#include "weatherstruck/works/progress.h"

namespace weatherstruck::works {

class StockBook {
 public:
  explicit StockBook(const Job& job, const TaskList& list);

  void count(const StockCount& what, const Entry& entry);
  void arrived(const Arrived& what) { stock_[what.material].arrived += what.amount; }
  /// What a task drew when it went from one amount to another. Drawn before the last count it is in that.
  void draw(const Task& task, double before, double after, base::Instant at);
  /// Puts every material into the progress, with what the rest of the work needs. `there` of a place in the
  /// list.
  void weigh(Progress& progress, const std::function<bool(std::size_t)>& there);

 private:
  const Job& job_;
  const TaskList& list_;
  std::map<std::string, Stock> stock_;
  std::map<std::string, EntryKey> count_entry_;
};

}  // namespace weatherstruck::works
