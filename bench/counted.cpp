#include "counted.h"

#include <malloc.h>

#include <cstdlib>
#include <new>

namespace weatherstruck::bench {
namespace {
Memory counted;  // one thread
}  // namespace
Memory memory() {
  return counted;
}
}  // namespace weatherstruck::bench

void* operator new(std::size_t size) {
  void* const place = std::malloc(size);
  if (place == nullptr) throw std::bad_alloc();
  weatherstruck::bench::counted.bytes_held += malloc_usable_size(place);
  ++weatherstruck::bench::counted.times_asked;
  return place;
}
void operator delete(void* place) noexcept {
  weatherstruck::bench::counted.bytes_held -= place == nullptr ? 0 : malloc_usable_size(place);
  std::free(place);
}
void operator delete(void* place, std::size_t) noexcept {
  operator delete(place);
}
