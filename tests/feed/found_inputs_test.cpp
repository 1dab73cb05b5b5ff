// What the fuzzers begin with and what they have found (fuzz/), read again.
#include <filesystem>

#include <gtest/gtest.h>

#include "feed_support.h"

namespace weatherstruck::feed {
namespace {

std::size_t read_all(const char* folder) {
  std::size_t count = 0;
  const auto root = std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / "fuzz" / folder;
  if (!std::filesystem::exists(root)) return 0;
  ReadOptions options;
  options.zone = base::Zone::fixed("UTC", std::chrono::seconds(0));
  for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
    if (!entry.is_regular_file()) continue;
    ++count;
    try {
      EXPECT_FALSE(read_forecast(entry.path().string(), bytes_of(entry.path()), options).empty());
    } catch (const base::InputError& error) {
      EXPECT_FALSE(error.faults().empty()) << entry.path();
    }
  }
  return count;
}

TEST(FoundInputs, SeedsAreReadOrRefusedAndSoIsWhatTheFuzzersFound) {
  EXPECT_GE(read_all("seeds"), 10U);
  (void)read_all("found");
}

}  // namespace
}  // namespace weatherstruck::feed
