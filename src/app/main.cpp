#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <chrono>
#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "weatherstruck/app/program.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/record/folder.h"

namespace {

std::string_view variable(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr ? value : "";
}

weatherstruck::base::Instant machine_clock() {
  return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

std::filesystem::path record_file() {
  weatherstruck::record::Environment environment;
  for (const char* name : {"HOME", "XDG_DATA_HOME"}) {
    if (const char* value = std::getenv(name)) environment.emplace(name, value);
  }
  return weatherstruck::record::record_file(environment);
}

}  // namespace

// A plan takes and gives back some megabytes many times over. Given back to the system each time they cost a
// fifth of a morning; the process ends soon enough. Taken in pages of 4 kB they cost another tenth: where the
// system has pages of 2 MB it is asked for those. It may say no.
void keep_memory() {
  constexpr int megabyte = 1 << 20;
  constexpr int longer_by = 32 * megabyte;
  constexpr std::size_t large_page = std::size_t{2} * megabyte;
  mallopt(M_TRIM_THRESHOLD, 256 * megabyte);
  mallopt(M_MMAP_THRESHOLD, 32 * megabyte);
  mallopt(M_TOP_PAD, longer_by);
  // More than there is yet, so that the heap grows by it and by the padding; from there to the heap's end.
  std::string taken(megabyte, '\0');
  void* from = taken.data();
  std::size_t space = longer_by;
  if (std::align(large_page, large_page, from, space) != nullptr) madvise(from, space, MADV_HUGEPAGE);
}

int main(int argc, char** argv) {
  keep_memory();
  std::ios::sync_with_stdio(false);
  const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  weatherstruck::app::Network network;
  network.address = variable("WEATHERSTRUCK_SERVICE");
  network.open_meteo_key = variable("WEATHERSTRUCK_OPEN_METEO_KEY");
  const bool plain = !variable("NO_COLOR").empty() || variable("TERM") == "dumb";
  return static_cast<int>(weatherstruck::app::run_program(
      words, {std::cout, std::cerr, isatty(STDOUT_FILENO) != 0, plain, machine_clock, WEATHERSTRUCK_VERSION,
              std::cin, isatty(STDIN_FILENO) != 0, record_file, std::move(network),
              weatherstruck::files::machine_zone(variable("TZ"))}));
}
