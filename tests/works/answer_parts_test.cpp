#include "weatherstruck/works/answer_parts.h"

#include <gtest/gtest.h>

#include <string>

namespace weatherstruck::works {
namespace {

TEST(PartsSaid, AreNamedInOneLine) {
  const auto wanted = [](std::string_view text) -> std::string {
    const auto answer = parts_answer(text);
    const auto* parts = std::get_if<PartsWanted>(&answer);
    if (parts == nullptr) return "refused";
    return std::to_string(parts->bases) + std::to_string(parts->beds) + std::to_string(parts->boxes) +
           std::to_string(parts->paths) +
           (parts->steps ? " steps " + std::to_string(parts->risers.value_or(0)) : "");
  };
  EXPECT_EQ(wanted("a base, 2 beds and a path"), "1201");
  EXPECT_EQ(wanted("shed base, two raised beds"), "1200");
  EXPECT_EQ(wanted("3 steps"), "0000 steps 3");
  EXPECT_EQ(wanted("brick steps and a planter"), "0010 steps 0");
  EXPECT_EQ(wanted("Log store"), "1000");
  for (const char* text : {"", "none", "a pond", "40 beds", "steps, steps"})
    EXPECT_EQ(wanted(text), "refused") << text;
}

}  // namespace
}  // namespace weatherstruck::works
