#include "weatherstruck/works/answer_pieces.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace weatherstruck::works {
namespace {

using base::Metres;
using testing::ElementsAre;
using testing::HasSubstr;

template <class T>
std::string why(const Answer<T>& answer) {
  const auto* refused = std::get_if<Refused>(&answer);
  return refused == nullptr ? "taken" : refused->why + " " + refused->allowed;
}

TEST(Pieces, ArePartedByCommasAndAnd) {
  EXPECT_THAT(pieces_of("Bricks, cement and sand; flags,"), ElementsAre("bricks", "cement", "sand", "flags"));
  EXPECT_THAT(pieces_of("1,100 kg, 6 m3"), ElementsAre("1,100 kg", "6 m3"));
  EXPECT_THAT(pieces_of(" , "), ElementsAre());
}

constexpr StripSize usual_strip{Metres(0.45), Metres(0.175), Metres(0.45)};

TEST(StripSaid, KeepsWhatIsNotSaid) {
  const auto said = [](std::string_view text, Measure measure = Measure::metric) {
    const auto answer = strip_answer(text, usual_strip, measure);
    const auto* strip = std::get_if<StripSize>(&answer);
    return strip == nullptr ? why(answer) : strip_text(*strip, measure);
  };
  EXPECT_EQ(said("600 wide"), "600 mm wide, 175 mm thick, 450 mm deep");
  EXPECT_EQ(said("450 mm wide, 150 thick and 350 deep"), "450 mm wide, 150 mm thick, 350 mm deep");
  EXPECT_EQ(said(strip_text(usual_strip, Measure::metric)), strip_text(usual_strip, Measure::metric));
  EXPECT_EQ(said("18 wide, 7 thick, 18 deep", Measure::feet), "18 in wide, 7 in thick, 18 in deep");
  EXPECT_THAT(said("100 deep"), HasSubstr("no less than that is thick"));
  for (const char* text : {"450", "450 wide, 500 wide", "3 m wide", "", "wide", "450 wide thick"})
    EXPECT_THAT(said(text), HasSubstr(" ")) << text;
  EXPECT_THAT(said("3 m wide"), HasSubstr("a width of 200 mm to 1.5 m"));
  EXPECT_THAT(said("450"), HasSubstr("such as"));
}

TEST(GroundFallSaid, HasItsWay) {
  // Millimetres to the right and to the front.
  const auto said = [](std::string_view text) {
    const auto answer = ground_fall_answer(text, Measure::metric);
    const auto* fall = std::get_if<GroundFall>(&answer);
    return fall == nullptr
               ? why(answer)
               : fmt::format("{:.0f} {:.0f}", fall->to_right.value() * 1000, fall->to_front.value() * 1000);
  };
  EXPECT_EQ(said("level"), "0 0");
  EXPECT_EQ(said("150 mm to the right"), "150 0");
  EXPECT_EQ(said("falls 150 mm to the left and 0.1 m to the back"), "-150 -100");
  EXPECT_EQ(said("100 forward"), "0 100");
  EXPECT_EQ(said("drops 4 inches left to right"), "102 0");
  EXPECT_EQ(said("50 mm front to back"), "0 -50");
  EXPECT_THAT(said("150 mm"), HasSubstr("Which way does it fall?"));
  EXPECT_THAT(said("1 m right, 1 m left"), HasSubstr("such as"));
}

TEST(WayInSaid, IsReadPieceByPiece) {
  const WayIn usual{Metres(20), Metres(0), 0, Metres(0.9)};
  const auto said = [&](std::string_view text) {
    const auto answer = way_in_answer(text, usual, Measure::metric);
    const auto* way = std::get_if<WayIn>(&answer);
    return way == nullptr ? why(answer) : way_in_text(*way, Measure::metric);
  };
  EXPECT_EQ(said("38 m, 3 m up, none steps, 750 mm wide"), "38 m, 3 m up, no steps, 750 mm wide");
  EXPECT_EQ(said("30 m"), "30 m, level, no steps, 900 mm wide");
  EXPECT_THAT(said("4 steps down? "), HasSubstr("\"4 steps down?\" is not understood."));
  EXPECT_EQ(said("12 m long, 2 m down, 4 steps, gate of 700 mm"), "12 m, 2 m down, 4 steps, 700 mm wide");
  EXPECT_EQ(said(way_in_text(usual, Measure::metric)), way_in_text(usual, Measure::metric));
  EXPECT_THAT(said("30 m, 40 m"), HasSubstr("such as"));
}

TEST(BedShapeSaid, IsReadPieceByPiece) {
  const auto said = [](std::string_view text) {
    const auto answer = bed_shape_answer(text, BedShape{}, Measure::metric);
    const auto* bed = std::get_if<BedShape>(&answer);
    return bed == nullptr ? why(answer) : bed_shape_text(*bed, Measure::metric);
  };
  EXPECT_EQ(said("4"), "4 courses, 4 sides, level");
  EXPECT_EQ(said("5 courses all round"), "5 courses, 4 sides, level");
  EXPECT_EQ(said("5 courses, all round, level"), "5 courses, 4 sides, level");
  EXPECT_EQ(said("three courses, 3 sides, falls 150 mm"), "3 courses, 3 sides, falls 150 mm");
  EXPECT_EQ(said("150 mm"), "3 courses, 4 sides, falls 150 mm");
  EXPECT_EQ(said(bed_shape_text(BedShape{}, Measure::metric)), "3 courses, 4 sides, level");
  EXPECT_THAT(said("5 sides"), HasSubstr("such as"));
}

TEST(OpeningSaid, IsADoorOrASideWithoutAWall) {
  const auto said = [](std::string_view text) -> std::string {
    const auto answer = opening_answer(text, Metres(2.55), Metres(0.3), Measure::metric);
    const auto* opening = std::get_if<std::optional<SideOpening>>(&answer);
    if (opening == nullptr) return why(answer);
    if (!*opening) return "none";
    const SideOpening& one = **opening;
    return std::string(seen_from_front(one.side)) + (one.open ? " open" : "") +
           (one.width ? " " + std::to_string(std::lround(one.width->value() * 1000)) : "");
  };
  EXPECT_EQ(said("none"), "none");
  EXPECT_EQ(said("front"), "front");
  EXPECT_EQ(said("front, 900 mm"), "front 900");
  EXPECT_EQ(said("a door 900 wide at the front"), "front 900");
  for (const char* text :
       {"open front", "front open", "none, open front", "front, no wall", "the front is open",
        "no wall at the front", "a wall on three sides, open at the front"})
    EXPECT_EQ(said(text), "front open") << text;
  EXPECT_THAT(said("open"), HasSubstr("Which side?"));
  EXPECT_THAT(said("front, 3 m"), HasSubstr("from 400 mm to 2.55 m, such as 900 mm"));
  EXPECT_THAT(said("front, 3 m"), HasSubstr("or open front"));
  EXPECT_THAT(said("left, 900 mm"), HasSubstr("too short for a door"));
  EXPECT_EQ(said("open left"), "left open");
  EXPECT_THAT(said("front back"), HasSubstr("such as"));
}

TEST(ExtraSaidByHim, IsATitleWithItsHours) {
  const auto said = [](std::string_view text) -> std::string {
    const auto answer = extra_answer(text);
    const auto* extra = std::get_if<std::optional<ExtraSaid>>(&answer);
    if (extra == nullptr) return "refused";
    return *extra ? (*extra)->title + "|" + std::to_string(std::lround((*extra)->hours.value() * 60))
                  : "none";
  };
  EXPECT_EQ(said("hang the gate, 2 hours"), "hang the gate|120");
  EXPECT_EQ(said("hang the gate 2 h"), "hang the gate|120");
  EXPECT_EQ(said("Hang the gate, half an hour"), "Hang the gate|30");
  EXPECT_EQ(said("lay 12 slates, 90 min"), "lay 12 slates|90");
  EXPECT_EQ(said("hang the gate, 2"), "hang the gate|120");
  EXPECT_EQ(said("none"), "none");
  for (const char* text : {"hang the gate", "2 hours", "hang the gate, long", "hang gate 2"})
    EXPECT_EQ(said(text), "refused") << text;
}

RC_GTEST_PROP(PiecesOfAnything, AreTakenOrRefused, (const std::string& text)) {
  (void)strip_answer(text, usual_strip, Measure::feet);
  (void)ground_fall_answer(text, Measure::metric);
  (void)way_in_answer(text, {Metres(20), Metres(0), 0, Metres(0.9)}, Measure::feet);
  (void)bed_shape_answer(text, {}, Measure::metric);
  (void)opening_answer(text, Metres(2), Metres(1), Measure::metric);
  const auto extra = extra_answer(text);
  if (const auto* one = std::get_if<std::optional<ExtraSaid>>(&extra); one != nullptr && *one)
    RC_ASSERT(!(*one)->title.empty());
}

}  // namespace
}  // namespace weatherstruck::works
