#pragma once
// Collecting the faults of a job: the wording of the common ones, in one place. For this floor only.
#include <set>
#include <string>
#include <vector>

#include "weatherstruck/works/check.h"

namespace weatherstruck::works {

/// A small letter, then up to 39 small letters, digits or dashes.
[[nodiscard]] bool is_name(const Name& name);

class FaultList {
 public:
  void fault(std::string code, std::string place, std::string found, std::string expected,
             std::string remedy);
  void advice(base::Fault advice) { found_.advice.push_back(std::move(advice)); }
  void add(base::Faults faults);

  /// "out-of-range" unless low <= value <= high; what is not a number is out of every range.
  void range(double value, double low, double high, const std::string& place, const std::string& unit);
  void range(base::Metres value, double low, double high, const std::string& place);
  void range(int value, int low, int high, const std::string& place);
  /// "bad-name".
  void name(const Name& name, const std::string& place);
  /// "name-twice" unless the word is new to `seen`.
  void unique(std::set<Name>& seen, const Name& word, const std::string& place);
  /// "span-backwards".
  void span(const DaySpan& span, const std::string& place);
  void spans(const std::vector<DaySpan>& list, const std::string& place);
  /// "unknown-WHAT", with the nearest known word.
  void unknown(const Name& word, const std::string& place, const std::string& what,
               const std::vector<std::string>& known);

  [[nodiscard]] std::size_t count() const { return found_.faults.size(); }
  [[nodiscard]] CheckResult take() { return std::move(found_); }

 private:
  CheckResult found_;
};

/// A number as faults show it: four decimals at most, "not a number" for what is none.
[[nodiscard]] std::string shown(double value);

/// Sizes of every part, what walls stand on, and (where the sizes make sense) the steps of footings.
void check_parts(const Job& job, FaultList& list);

}  // namespace weatherstruck::works
