#include "weatherstruck/works/answer_parts.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace weatherstruck::works {
namespace {

TEST(PartsSaid, AreNamedInOneLine) {
  const auto wanted = [](std::string_view text) -> std::string {
    const auto answer = parts_answer(text);
    const auto* parts = std::get_if<PartsWanted>(&answer);
    if (parts == nullptr) return "refused";
    return (parts->walls > 0 ? std::to_string(parts->walls) + " walls " : "") + std::to_string(parts->bases) +
           std::to_string(parts->beds) + std::to_string(parts->boxes) + std::to_string(parts->paths) +
           (parts->steps ? " steps " + std::to_string(parts->risers.value_or(0)) : "");
  };
  EXPECT_EQ(wanted("a base, 2 beds and a path"), "1201");
  EXPECT_EQ(wanted("shed base, two raised beds"), "1200");
  EXPECT_EQ(wanted("3 steps"), "0000 steps 3");
  EXPECT_EQ(wanted("brick steps and a planter"), "0010 steps 0");
  EXPECT_EQ(wanted("Log store"), "1000");
  EXPECT_EQ(wanted("2 dwarf walls, paving slabs"), "2 walls 0001");
  for (const char* text : {"", "none", "a pond", "40 beds", "steps, steps"})
    EXPECT_EQ(wanted(text), "refused") << text;
}

TEST(WallSaid, IsALengthAndCourses) {
  const auto said = [](std::string_view text, Measure measure = Measure::metric) -> std::string {
    const auto answer = wall_answer(text, measure);
    const auto* wall = std::get_if<WallSaid>(&answer);
    if (wall == nullptr) return "refused";
    return std::to_string(std::lround(wall->length.value() * 1000)) + " " + std::to_string(wall->courses) +
           (wall->fall.value() > 0 ? " falls " + std::to_string(std::lround(wall->fall.value() * 1000))
                                   : "") +
           (!wall->bond                                  ? ""
            : *wall->bond == trade::Bond::half_stretcher ? " half"
                                                         : " one") +
           (wall->coping ? " coping" : "");
  };
  EXPECT_EQ(said("6 m"), "6000 4");
  EXPECT_EQ(said("6 m, 5 courses"), "6000 5");
  EXPECT_EQ(said("6m long 5 courses, coping on top"), "6000 5 coping");
  EXPECT_EQ(said("6 m by six courses, one brick"), "6000 6 one");
  EXPECT_EQ(said("4.5 m x 450 mm high"), "4500 6") << "six courses of 75 mm";
  EXPECT_EQ(said("5 m, 3 courses, half brick, falls 150 mm"), "5000 3 falls 150 half");
  EXPECT_EQ(said("20 ft, 4 courses", Measure::feet), "6096 4");
  for (const char* text : {"", "5 courses", "6 m, 40 courses", "6 m, 3 courses, 4 courses", "6 m, a gate"})
    EXPECT_EQ(said(text), "refused") << text;
}

}  // namespace
}  // namespace weatherstruck::works
