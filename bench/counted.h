#pragma once
// What the program holds of memory and how often it asked for some. Linking counted.cpp counts all `new`.
#include <cstddef>

namespace weatherstruck::bench {

struct Memory {
  std::size_t bytes_held = 0;
  std::size_t times_asked = 0;
};
[[nodiscard]] Memory memory();

}  // namespace weatherstruck::bench
