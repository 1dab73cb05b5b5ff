#include "weatherstruck/works/turn.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

const Base& shelter_of(const Job& job) {
  return std::get<Base>(job.parts[0]);
}
Turned turned_shelter(const Job& job, Quarter quarter) {
  return std::get<Turned>(turn(job, "shelter", quarter));
}

TEST(Turn, SwapsLengthAndWidthAndTakesTheDoorAlong) {
  const Base after = shelter_of(turned_shelter(demo_job(), Quarter::right).job);
  EXPECT_EQ(after.length.value(), 1.8);
  EXPECT_EQ(after.width.value(), 3.0);
  EXPECT_EQ(after.door_side, Side::west) << "clockwise, seen from above, front becomes left";
  EXPECT_EQ(shelter_of(turned_shelter(demo_job(), Quarter::left).job).door_side, Side::east);
}

// 150 mm over 3 m is 1 in 20; over 1.8 m that is 90 mm. A course is 75 mm: two steps become one (nearest
// whole number), and the low end, 6 courses at the high end, goes from 8 to 7.
TEST(Turn, LeavesTheGroundAsItLies) {
  const Turned turned = turned_shelter(demo_job(), Quarter::right);
  EXPECT_NEAR(shelter_of(turned.job).drop_along_length.value(), 0.09, 1e-12);
  EXPECT_EQ(shelter_of(turned.job).drop_along_width.value(), 0);
  EXPECT_EQ(turned.before.steps(), 4) << "two in each of the two long strips";
  EXPECT_EQ(turned.after.steps(), 2);
  EXPECT_EQ(turned.before.most_courses(), 8);
  EXPECT_EQ(turned.after.most_courses(), 7);
  EXPECT_LT(turned.after.bricks, turned.before.bricks);
}

TEST(Turn, ThereAndBackChangesNothing) {
  Job job = demo_job();
  std::get<Base>(job.parts[0]).drop_along_width = base::Metres(-0.11);
  const Base before = shelter_of(job);
  const Base after = shelter_of(turned_shelter(turned_shelter(job, Quarter::left).job, Quarter::right).job);
  EXPECT_EQ(after.length, before.length);
  EXPECT_EQ(after.width, before.width);
  EXPECT_EQ(after.door_side, before.door_side);
  EXPECT_NEAR(after.drop_along_length.value(), before.drop_along_length.value(), 2e-6);
  EXPECT_NEAR(after.drop_along_width.value(), before.drop_along_width.value(), 2e-6);
}

// By hand: the front door stands .3 m from the west end of 3 m. Turned clockwise the west end of the front
// becomes the north end of the left side; turned the other way the south end of the right one: 3 - .3 - .9
// = 1.8 from north.
TEST(Turn, CarriesTheDoorToTheEndItWentTo) {
  Job job = demo_job();
  std::get<Base>(job.parts[0]).door_at = base::Metres(0.3);
  EXPECT_NEAR(shelter_of(turned_shelter(job, Quarter::right).job).door_at.value().value(), 0.3, 1e-12);
  const Job left = turned_shelter(job, Quarter::left).job;
  EXPECT_NEAR(shelter_of(left).door_at.value().value(), 1.8, 1e-12);
  EXPECT_NEAR(shelter_of(turned_shelter(left, Quarter::right).job).door_at.value().value(), 0.3, 1e-12);
}

TEST(Turn, FourQuartersBringTheDoorRound) {
  for (const Quarter way : {Quarter::left, Quarter::right}) {
    Side side = Side::south;
    for (int i = 0; i < 4; ++i)
      side = turned(side, way);
    EXPECT_EQ(side, Side::south);
  }
}

TEST(Turn, OfAWholeBedGoesAndOfOneAgainstAWallDoesNot) {
  Job job = demo_job();
  const Turned bed = std::get<Turned>(turn(job, "bed", Quarter::right));
  EXPECT_EQ(std::get<Bed>(bed.job.parts[1]).length.value(), 0.9);
  EXPECT_NEAR(std::get<Bed>(bed.job.parts[1]).drop.value(), 0.045, 1e-12) << "1 in 20 still";
  std::get<Bed>(job.parts[1]).sides = 3;
  EXPECT_EQ(std::get<base::Fault>(turn(job, "bed", Quarter::right)).code, "cannot-turn");
}

TEST(Turn, OfSomethingElseSaysWhatCanBeTurned) {
  const base::Fault path = std::get<base::Fault>(turn(demo_job(), "path", Quarter::left));
  EXPECT_EQ(path.code, "cannot-turn");
  const base::Fault typo = std::get<base::Fault>(turn(demo_job(), "sheltr", Quarter::left));
  EXPECT_EQ(typo.code, "no-such-part");
  EXPECT_THAT(typo.remedy, testing::HasSubstr("\"shelter\""));
}

TEST(Turn, TouchesNoOtherPart) {
  const Turned turned = turned_shelter(demo_job(), Quarter::right);
  EXPECT_EQ(std::get<Bed>(turned.job.parts[1]).length.value(), 3.0);
  EXPECT_EQ(turned.job.parts.size(), demo_job().parts.size());
}

}  // namespace
}  // namespace weatherstruck::works
