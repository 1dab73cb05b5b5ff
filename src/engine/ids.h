#pragma once
// Ids are indices.
#include <cstddef>

namespace weatherstruck::engine {

inline std::size_t at(int id) {
  return static_cast<std::size_t>(id);
}

}  // namespace weatherstruck::engine
