#pragma once
// What must have come before the work that the book names: taken as done where the book is silent, asked
// about where it says otherwise. For this floor only.
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/works/progress.h"

namespace weatherstruck::works {

class NeedsFirst {
 public:
  /// `progress` holds a state for each task of the list.
  NeedsFirst(const Job& job, const TaskList& list, Progress& progress);

  /// Whether work of an optional task is to be reckoned with: by the way known, else by the usual one.
  [[nodiscard]] bool there(std::size_t task) const;
  /// Whether all that has to come before a task is begun is done.
  [[nodiscard]] bool can_begin(std::size_t task) const { return missing(task, false).empty(); }
  /// First sight of work on a task, or its finish: a remark where something should have come first.
  void seen(std::size_t task, bool at_finish, const Entry& entry);
  /// The last entry that names a task.
  void named(std::size_t task, base::Instant at) { last_named_[task] = at; }

  struct Taken {
    std::size_t task = 0;
    double before = 0;  ///< done of it by the book
    base::Instant at;
  };
  /// After the last entry: work on which later work stands is finished at the latest by the start of that,
  /// less what had to go by between them, though not before he can have been there. Remarks say so.
  [[nodiscard]] std::vector<Taken> settle();

 private:
  struct Wanting {
    std::size_t remark = 0;  ///< place among the remarks
    std::size_t task = 0;
    bool at_finish = false;
    std::vector<std::size_t> missing;
  };
  struct Needed {
    base::Instant by;
    std::size_t root = 0;  ///< the task of the book that stands on it
  };
  [[nodiscard]] std::string title(std::size_t task) const;
  [[nodiscard]] std::vector<std::size_t> missing(std::size_t task, bool at_finish) const;
  [[nodiscard]] std::optional<std::size_t> needed_from(const Link& link, std::size_t to) const;
  [[nodiscard]] base::Hours must_go_by(const Link& link) const;
  [[nodiscard]] base::Instant at_the_latest(base::Instant start, base::Hours wait) const;
  [[nodiscard]] std::optional<Needed> needed(std::size_t task, const std::vector<Needed>& roots) const;
  void say(const std::vector<std::vector<std::size_t>>& taken_for);

  const Job& job_;
  const TaskList& list_;
  Progress& progress_;
  trade::ResolvedLimits limits_;
  std::map<Name, std::size_t> index_;
  std::map<std::size_t, base::Instant> last_named_;
  std::vector<Wanting> wanting_;
};

}  // namespace weatherstruck::works
