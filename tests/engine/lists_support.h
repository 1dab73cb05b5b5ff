#pragma once
// Ids are ints, vectors count in size_t: the two put together in one place.
#include <cstddef>
#include <vector>

namespace weatherstruck::engine::brute {

template <class T>
[[nodiscard]] auto& at(std::vector<T>& list, int index) {
  return list[static_cast<std::size_t>(index)];
}
template <class T>
[[nodiscard]] const auto& at(const std::vector<T>& list, int index) {
  return list[static_cast<std::size_t>(index)];
}
template <class T>
[[nodiscard]] int count_of(const std::vector<T>& list) {
  return static_cast<int>(list.size());
}

}  // namespace weatherstruck::engine::brute
