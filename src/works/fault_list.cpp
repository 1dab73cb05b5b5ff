#include "weatherstruck/works/fault_list.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iterator>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {

std::string shown(double value) {
  return std::isfinite(value) ? base::plain_number(value, 4) : "not a number";
}

bool is_name(const Name& name) {
  if (name.empty() || name.size() > 40 || name[0] < 'a' || name[0] > 'z') return false;
  return std::all_of(name.begin(), name.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; });
}

void FaultList::fault(std::string code, std::string place, std::string found, std::string expected,
                      std::string remedy) {
  found_.faults.push_back(
      {std::move(code), std::move(place), std::move(found), std::move(expected), std::move(remedy)});
}

void FaultList::add(base::Faults faults) {
  std::move(faults.begin(), faults.end(), std::back_inserter(found_.faults));
}

void FaultList::range(double value, double low, double high, const std::string& place,
                      const std::string& unit) {
  if (value >= low && value <= high) return;
  const std::string after = unit.empty() ? "" : " " + unit;
  fault("out-of-range", place, shown(value) + after, shown(low) + " to " + shown(high) + after,
        value > high ? "Make it smaller, or split the work." : "Give a size in the range.");
}

void FaultList::range(base::Metres value, double low, double high, const std::string& place) {
  range(value.value(), low, high, place, "m");
}

void FaultList::range(int value, int low, int high, const std::string& place) {
  range(static_cast<double>(value), low, high, place, "");
}

void FaultList::name(const Name& name, const std::string& place) {
  if (is_name(name)) return;
  fault("bad-name", place, "\"" + name + "\"",
        "a small letter, then up to 39 small letters, digits or dashes",
        "Give a short name such as north-wall.");
}

void FaultList::unique(std::set<Name>& seen, const Name& word, const std::string& place) {
  if (seen.insert(word).second) return;
  fault("name-twice", place, "\"" + word + "\"", "a name that nothing else in the job has",
        "Rename one of the two.");
}

void FaultList::span(const DaySpan& span, const std::string& place) {
  using namespace std::chrono_literals;
  if (span.from >= 0min && span.from < span.to && span.to <= 24h) return;
  fault("span-backwards", place,
        std::to_string(span.from.count()) + " to " + std::to_string(span.to.count()) + " min after midnight",
        "an end after its start, both within one day", "Put the earlier time first.");
}

void FaultList::spans(const std::vector<DaySpan>& list, const std::string& place) {
  for (std::size_t i = 0; i < list.size(); ++i)
    span(list[i], place + "/" + std::to_string(i));
}

void FaultList::unknown(const Name& word, const std::string& place, const std::string& what,
                        const std::vector<std::string>& known) {
  const auto near = base::nearest_name(word, known);
  const std::string all = known.empty() ? "none is there" : base::join_and(known);
  fault("unknown-" + what, place, "\"" + word + "\"", what + " of this job: " + all,
        near ? "Write \"" + *near + "\", if that is meant." : "Name one that the job has, or take this out.");
}

}  // namespace weatherstruck::works
