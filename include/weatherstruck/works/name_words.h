#pragma once
// Which task, part or material some words stand for: by overlap of words, each put right to the nearest known
// one where it is not known. For this floor only.
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::works {

/// Everything the words could stand for.
struct NameMatch {
  std::vector<Name> names;    ///< one: understood; none: `nearest` may help; more: ask
  std::vector<Name> nearest;  ///< those that share most words where none shares all; at most four
  double confidence = 1;      ///< less for words put right
};

class NameWords {
 public:
  NameWords(const Job& job, const TaskList& tasks);

  /// Tasks for which every word has a place. Those of `allowed` only, unless it is empty.
  [[nodiscard]] NameMatch task(const std::vector<std::string>& words,
                               const std::set<Name>& allowed = {}) const;
  /// Parts as written, and their footings and walls; a part named in full wins over its pieces.
  [[nodiscard]] NameMatch part(const std::vector<std::string>& words) const;
  /// Likewise, footings only.
  [[nodiscard]] NameMatch footing(const std::vector<std::string>& words) const;
  /// Materials the job uses, else any of the table.
  [[nodiscard]] NameMatch material(const std::vector<std::string>& words) const;

 private:
  struct Known {
    Name name;
    std::set<std::string> own;    ///< words that are the work's or thing's own
    std::set<std::string> words;  ///< all, those of its name, part and title too
  };
  [[nodiscard]] static NameMatch match(const std::vector<std::string>& words,
                                       const std::vector<Known>& known);

  std::vector<Known> tasks_;
  std::vector<Known> parts_;
  std::vector<Known> footings_;
  std::vector<Known> used_materials_;
  std::vector<Known> materials_;
};

/// Words by which people name a kind of work, beside those of its title; lower case.
[[nodiscard]] std::span<const std::string_view> work_words(trade::Operation operation);
/// Whether the word says by itself that such work was done: "dug", "laid", "pointed".
[[nodiscard]] bool is_past_of_work(std::string_view word);
/// Whether it is a word of work that does not say whether it was begun or done: "digging", "pointing".
[[nodiscard]] bool is_word_of_work(std::string_view word);

}  // namespace weatherstruck::works
