#include "weatherstruck/works/check.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using base::Fault;
using base::Hours;
using base::Metres;

/// The one fault of a job that has one.
Fault only(const Job& job) {
  const base::Faults faults = check(job).faults;
  std::string all;
  for (const Fault& f : faults)
    all += to_text(f) + "\n";
  EXPECT_EQ(faults.size(), 1U) << all;
  return faults.empty() ? Fault{} : faults.front();
}

Footing strip(const Name& name) {
  return {name, Metres(4), Metres(0.45), Metres(0.15), Metres(0.45), Metres(0)};
}
Wall run(const Name& name, const Name& footing) {
  Wall wall;
  wall.name = name;
  wall.footing = footing;
  wall.length = Metres(4);
  wall.courses = 6;
  return wall;
}
ExtraTask extra(const Name& name, std::vector<Name> after) {
  return {name, name, trade::Operation::other, Hours(1), 1, std::move(after), Importance::must, false};
}

TEST(Check, TheDemoIsSound) {
  const CheckResult result = check(demo_job());
  EXPECT_TRUE(result.faults.empty());
}

TEST(Check, AWallOnNoFootingIsNamed) {
  Job job = demo_job();
  job.parts.emplace_back(run("screen", ""));
  const Fault f = only(job);
  EXPECT_EQ(to_text(f),
            "/parts/4/footing: found nothing; allowed: the name of a footing of this job. "
            "Add a footing part and name it here.");
  EXPECT_EQ(f.code, "wall-on-no-footing");
}

TEST(Check, WhatStandsOnAWallEndsOnIt) {
  Job job = demo_job();
  job.parts.emplace_back(strip("strip"));
  Wall wall = run("screen", "strip");
  wall.openings.push_back({Metres(0.9), 2, Metres(3.5)});
  job.parts.emplace_back(wall);
  EXPECT_EQ(
      to_text(only(job)),
      "/parts/5/openings/0/at: found 3.5 m, 0.9 m wide; allowed: a near side from 0 to 3.1 m, so that it "
      "ends on the wall. Measure from the high end to its near side.");
}

TEST(Check, AWallMeetsWallsOfTheJobOneAtEachEnd) {
  Job job = demo_job();
  job.parts.emplace_back(strip("strip"));
  job.parts.emplace_back(run("screen", "strip"));
  Wall wall = run("side", "strip");
  wall.meets = {{WallEnd::high, "screem"}};
  job.parts.emplace_back(wall);
  EXPECT_EQ(only(job).code, "unknown-wall");
  std::get<Wall>(job.parts.back()).meets = {{WallEnd::low, "screen"}, {WallEnd::low, "screen"}};
  EXPECT_EQ(only(job).code, "end-twice");
  std::get<Wall>(job.parts.back()).meets = {{WallEnd::low, "screen"}};
  EXPECT_TRUE(check(job).faults.empty());
}

TEST(Check, AMisspeltFootingGetsTheNearestName) {
  Job job = demo_job();
  job.parts.emplace_back(strip("screen-strip"));
  job.parts.emplace_back(run("screen", "screen-stripe"));
  const Fault f = only(job);
  EXPECT_EQ(f.code, "unknown-footing");
  EXPECT_EQ(f.place, "/parts/5/footing");
  EXPECT_EQ(f.remedy, "Write \"screen-strip\", if that is meant.");
}

TEST(Check, AWallMayStandOnAStripOfABase) {
  Job job = demo_job();
  Wall wall = run("screen", "shelter-north-footing");
  wall.length = Metres(3);
  job.parts.emplace_back(wall);
  EXPECT_TRUE(check(job).faults.empty());
}

TEST(Check, AWallLongerThanItsFootingIsAFault) {
  Job job = demo_job();
  job.parts.emplace_back(strip("screen-strip"));
  Wall wall = run("screen", "screen-strip");
  wall.length = Metres(5);
  job.parts.emplace_back(wall);
  EXPECT_EQ(only(job).code, "wall-longer-than-footing");
}

TEST(Check, ATripThatEndsBeforeItStartsIsNamed) {
  Job job = demo_job();
  job.trip.home_by = job.trip.leave_home - std::chrono::hours(1);
  job.supplies.deliveries.clear();
  const Fault f = only(job);
  EXPECT_EQ(f.code, "trip-ends-before-it-starts");
  EXPECT_EQ(f.place, "/trip/home_by");
  EXPECT_EQ(f.found, "2026-02-09T04:00:00Z");
  EXPECT_EQ(f.expected, "after 2026-02-09T05:00:00Z, when he leaves home");
}

TEST(Check, ATripThatIsAllDrivingIsNamed) {
  Job job = demo_job();
  job.trip.home_by = job.trip.leave_home + std::chrono::hours(4);  // two out, two back
  EXPECT_EQ(only(job).code, "trip-all-driving");
}

TEST(Check, UnknownReferencesNameTheirPlaces) {
  Job job = demo_job();
  job.tasks = {extra("hang-gate", {"bde"})};
  job.site.routes[0].shut_by = {"paths"};
  job.importance = {{"step", Importance::may}};
  job.fallbacks = {{Fallback::Kind::drop, "pathe", std::nullopt}};
  std::vector<std::string> places;
  for (const Fault& f : check(job).faults)
    places.push_back(f.place);
  EXPECT_THAT(places, testing::UnorderedElementsAre("/tasks/0/after/0", "/site/routes/0/shut_by/0",
                                                    "/importance/0/part", "/fallbacks/0/part"));
}

TEST(Check, ACircleNamesEveryTaskOnItOnce) {
  Job job = demo_job();
  job.tasks = {extra("one", {"three"}), extra("two", {"one"}), extra("three", {"two"}),
               extra("four", {"one"})};
  const Fault f = only(job);
  EXPECT_EQ(f.code, "circle");
  EXPECT_EQ(f.place, "/tasks/0/after");
  EXPECT_EQ(f.found, "one after three after two after one");
}

TEST(Check, ATaskAfterItselfIsACircle) {
  Job job = demo_job();
  job.tasks = {extra("one", {"one"})};
  EXPECT_EQ(only(job).found, "one after one");
}

TEST(Check, NamesAreUniqueAndNotThoseOfTheListOfWork) {
  Job job = demo_job();
  job.tasks = {extra("bed", {}), extra("shelter-plates", {}), extra("Gate", {})};
  std::vector<std::string> codes;
  for (const Fault& f : check(job).faults)
    codes.push_back(f.code);
  EXPECT_THAT(codes, testing::UnorderedElementsAre("name-twice", "name-taken", "bad-name"));
}

TEST(Check, SizesOutOfRangeAndNotANumberAreAllReported) {
  Job job = demo_job();
  auto& shelter = std::get<Base>(job.parts[0]);
  shelter.length = Metres(std::numeric_limits<double>::quiet_NaN());
  shelter.courses_below = 9;
  std::get<Bed>(job.parts[1]).courses = 30;
  std::get<Path>(job.parts[3]).width = Metres(1e300);
  job.crew[0].pace = 0;
  job.practice.brick_waste = 0.9;
  std::vector<std::string> places;
  for (const Fault& f : check(job).faults) {
    EXPECT_EQ(f.code, "out-of-range");
    places.push_back(f.place);
  }
  EXPECT_THAT(places,
              testing::UnorderedElementsAre("/crew/0/pace", "/practice/brick_waste", "/parts/0/length",
                                            "/parts/0/courses_below", "/parts/1/courses", "/parts/3/width"));
}

TEST(Check, AStripAboveTheGroundIsNamed) {
  Job job = demo_job();
  std::get<Base>(job.parts[0]).footing_depth = Metres(0.1);
  const Fault f = only(job);
  EXPECT_EQ(f.code, "footing-above-ground");
  EXPECT_EQ(f.place, "/parts/0/footing_depth");
}

TEST(Check, GroundTooSteepForStepsIsAFaultAtItsDrop) {
  Job job = demo_job();
  std::get<Bed>(job.parts[1]).drop = Metres(4);
  const CheckResult result = check(job);
  ASSERT_FALSE(result.faults.empty());
  EXPECT_EQ(result.faults[0].code, "ground-too-steep");
  EXPECT_EQ(result.faults[0].place, "/parts/1/drop");
}

// Rules written for houses are advice for a garden wall.
TEST(Check, HouseRulesAreAdvice) {
  const CheckResult result = check(demo_job());
  std::vector<std::string> codes;
  for (const Fault& f : result.advice)
    codes.push_back(f.place + " " + f.code);
  EXPECT_THAT(codes, testing::Contains("/parts/0/footing_depth footing-shallow-for-frost"));
}

// Common practice, no source: half a brick holding wet soil above 450 mm wants piers; above 600 mm an
// engineer.
TEST(Check, AHighBedIsAdvisedAgainst) {
  Job job = demo_job();
  auto& bed = std::get<Bed>(job.parts[1]);
  bed.drop = Metres(0);
  const auto advised = [&](const std::string& code) {
    const base::Faults advice = check(job).advice;
    return std::any_of(advice.begin(), advice.end(), [&](const Fault& f) { return f.code == code; });
  };
  bed.courses = 6;  // 450 mm
  EXPECT_FALSE(advised("bed-wants-piers"));
  bed.courses = 7;
  EXPECT_TRUE(advised("bed-wants-piers"));
  bed.courses = 9;
  EXPECT_TRUE(advised("bed-for-an-engineer"));
}

TEST(Check, SuppliesAreHeldAgainstTheMaterialsTable) {
  Job job = demo_job();
  job.supplies.on_site = {"facing-bricks"};
  job.supplies.deliveries = {{"cement", 0, job.trip.home_by + std::chrono::hours(1)}};
  std::vector<std::string> codes;
  for (const Fault& f : check(job).faults)
    codes.push_back(f.code);
  EXPECT_THAT(codes, testing::UnorderedElementsAre("out-of-range", "delivery-too-late", "unknown-material"));
}

TEST(Check, AFallbackMustFitItsPart) {
  Job job = demo_job();
  job.fallbacks = {{Fallback::Kind::gravel_for_flags, "bed", std::nullopt},
                   {Fallback::Kind::one_course_lower, "path", std::nullopt},
                   {Fallback::Kind::one_course_lower, "bed", std::nullopt}};
  const base::Faults faults = check(job).faults;
  ASSERT_EQ(faults.size(), 2U);
  EXPECT_EQ(faults[0].code, "fallback-does-not-fit");
  EXPECT_EQ(faults[1].place, "/fallbacks/1/kind");
}

TEST(Check, NobodyToLayBricksIsAFault) {
  Job job = demo_job();
  job.crew[0].lays_bricks = false;
  EXPECT_EQ(only(job).code, "nobody-lays");
}

TEST(Check, LimitsComeWithTheirOwnFaults) {
  Job job = demo_job();
  job.limits.overrides = {{"no-such-limit", 3}};
  EXPECT_EQ(only(job).place, "/limits/overrides/0/key");
}

TEST(Check, AnEmptyJobHasFaultsAndDoesNotThrow) {
  Job job = demo_job();
  job.parts.clear();
  job.crew.clear();
  job.site.routes.clear();
  job.importance.clear();
  job.fallbacks.clear();
  std::vector<std::string> codes;
  for (const Fault& f : check(job).faults)
    codes.push_back(f.code);
  EXPECT_THAT(codes, testing::UnorderedElementsAre("no-route", "crew-size"));
}

}  // namespace
}  // namespace weatherstruck::works
