#include "weatherstruck/matter/heat_constants.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <string_view>

namespace weatherstruck::matter {
namespace {

TEST(HeatConstants, EachSaysHowFarItMayBeTrusted) {
  // The words of trade/source.h.
  const std::set<std::string_view> words{"sourced", "derived", "common practice, no source", "from memory",
                                         "assumption"};
  std::set<std::string_view> keys;
  for (const HeatConstant& row : heat_constants()) {
    EXPECT_TRUE(words.count(row.standing) == 1) << row.key << ": " << row.standing;
    EXPECT_FALSE(row.source.empty()) << row.key;
    EXPECT_TRUE(keys.insert(row.key).second) << row.key << " stands twice";
  }
}

TEST(HeatConstants, PageShowsEveryRow) {
  std::ifstream in(WEATHERSTRUCK_SOURCE_DIR "/docs/heat.md");
  ASSERT_TRUE(in) << "docs/heat.md is not there";
  std::ostringstream page;
  page << in.rdbuf();
  for (const HeatConstant& row : heat_constants()) {
    const std::string line =
        fmt::format("| {} | {} | {} | {} | {} |", row.key, row.value, row.unit, row.standing, row.source);
    EXPECT_NE(page.str().find(line), std::string::npos) << "docs/heat.md lacks this row:\n" << line;
  }
}

}  // namespace
}  // namespace weatherstruck::matter
