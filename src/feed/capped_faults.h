#pragma once
// The faults of one file: as many as somebody reads, the rest counted.
#include <cstddef>
#include <utility>

#include <fmt/format.h>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::feed {

class CappedFaults {
 public:
  explicit CappedFaults(base::Faults& faults) : faults_(faults) {}

  void add(base::Fault fault) {
    if (faults_.size() < most)
      faults_.push_back(std::move(fault));
    else
      ++dropped_;
  }
  /// Of all that the list holds.
  [[nodiscard]] std::size_t size() const { return faults_.size(); }
  /// How many more there are, as the last of them; nothing where all were taken.
  void say_rest() {
    if (dropped_ > 0)
      faults_.push_back(
          {"more-faults", "", fmt::format("{} more", dropped_), "none", "Put these right first."});
    dropped_ = 0;
  }

 private:
  static constexpr std::size_t most = 50;
  base::Faults& faults_;
  std::size_t dropped_ = 0;
};

}  // namespace weatherstruck::feed
