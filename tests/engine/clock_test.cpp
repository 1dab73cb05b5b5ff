// Clock against loops over ticks.
#include "weatherstruck/engine/clock.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <stdexcept>

namespace weatherstruck::engine {
namespace {

/// A clock of a few slots, a third of which stand still, beside the rate of each of its ticks.
struct Drawn {
  std::vector<std::int32_t> ticks;
  std::vector<CauseId> causes;
  Clock clock;
};

Drawn draw() {
  const int per_slot = *rc::gen::inRange(1, 5);
  const auto slots = static_cast<std::size_t>(*rc::gen::inRange(1, 12));
  const auto rates = *rc::gen::container<std::vector<std::int32_t>>(
      slots, rc::gen::weightedOneOf<std::int32_t>({{1, rc::gen::just(0)}, {2, rc::gen::inRange(1, 7)}}));
  std::vector<CauseId> causes;
  for (std::size_t n = 0; n < slots; ++n)
    causes.push_back(static_cast<CauseId>(n * 3 + 1));
  Drawn drawn{{}, {}, Clock("drawn", per_slot, rates, causes)};
  for (std::size_t n = 0; n < slots; ++n) {
    for (int tick = 0; tick < per_slot; ++tick) {
      drawn.ticks.push_back(rates[n]);
      drawn.causes.push_back(causes[n]);
    }
  }
  return drawn;
}

Amount sum(const Drawn& drawn, Tick from, Tick to) {
  Amount total = 0;
  for (Tick t = from; t < to; ++t)
    total += drawn.ticks[static_cast<std::size_t>(t)];
  return total;
}

Tick any_tick(const Drawn& drawn) {
  return *rc::gen::inRange<Tick>(0, drawn.clock.horizon() + 1);
}
Amount any_amount() {
  return *rc::gen::inRange<Amount>(0, 60);
}

RC_GTEST_PROP(Clock, PassedIsTheSumOfTheTicksBetween, ()) {
  const Drawn drawn = draw();
  RC_ASSERT(drawn.clock.horizon() == static_cast<Tick>(drawn.ticks.size()));
  const Tick from = any_tick(drawn);
  const Tick to = *rc::gen::inRange<Tick>(from, drawn.clock.horizon() + 1);
  RC_ASSERT(drawn.clock.passed(to) == sum(drawn, 0, to));
  RC_ASSERT(drawn.clock.passed(from, to) == sum(drawn, from, to));
}

RC_GTEST_PROP(Clock, AdvanceIsTheFirstTickByWhichTheAmountHasPassed, ()) {
  const Drawn drawn = draw();
  const Tick from = any_tick(drawn);
  const Amount amount = any_amount();
  Tick expected = never;
  for (Tick t = from; t <= drawn.clock.horizon() && expected == never; ++t) {
    if (sum(drawn, from, t) >= amount) expected = t;
  }
  RC_ASSERT(drawn.clock.advance(from, amount) == expected);
}

RC_GTEST_PROP(Clock, AdvanceNeverLeavesTheHorizon, ()) {
  const Drawn drawn = draw();
  const Tick end = drawn.clock.advance(any_tick(drawn), *rc::gen::inRange<Amount>(0, Amount{1} << 40));
  RC_ASSERT(end == never || end <= drawn.clock.horizon());
}

RC_GTEST_PROP(Clock, RetreatIsTheLastTickFromWhichTheAmountPasses, ()) {
  const Drawn drawn = draw();
  const Tick to = any_tick(drawn);
  const Amount amount = any_amount();
  Tick expected = -1;
  for (Tick t = to; t >= 0 && expected < 0; --t) {
    if (sum(drawn, t, to) >= amount) expected = t;
  }
  RC_ASSERT(drawn.clock.retreat(to, amount) == expected);
}

RC_GTEST_PROP(Clock, RetreatIsAdvanceOnTheClockReadBackwards, ()) {
  const Drawn drawn = draw();
  const std::vector<std::int32_t> backwards(drawn.ticks.rbegin(), drawn.ticks.rend());
  const Clock mirror("mirror", 1, backwards);
  const Tick to = any_tick(drawn);
  const Amount amount = any_amount();
  const Tick mirrored = mirror.advance(drawn.clock.horizon() - to, amount);
  RC_ASSERT(drawn.clock.retreat(to, amount) == (mirrored == never ? -1 : drawn.clock.horizon() - mirrored));
}

RC_GTEST_PROP(Clock, RateAndCauseAreThoseOfTheSlot, ()) {
  const Drawn drawn = draw();
  for (Tick t = 0; t < drawn.clock.horizon(); ++t) {
    RC_ASSERT(drawn.clock.rate(t) == drawn.ticks[static_cast<std::size_t>(t)]);
    RC_ASSERT(drawn.clock.cause(t) == drawn.causes[static_cast<std::size_t>(t)]);
  }
}

RC_GTEST_PROP(Clock, NextRunningAndNextStandingAreTheFirstSuchTicks, ()) {
  const Drawn drawn = draw();
  const Tick from = any_tick(drawn);
  Tick running = never;
  Tick standing = drawn.clock.horizon();
  for (Tick t = drawn.clock.horizon() - 1; t >= from; --t) {
    (drawn.ticks[static_cast<std::size_t>(t)] > 0 ? running : standing) = t;
  }
  RC_ASSERT(drawn.clock.next_running(from) == running);
  RC_ASSERT(drawn.clock.next_standing(from) == standing);
}

TEST(Clock, TakesTimesOutsideTheHorizonAsItsEdges) {
  const Clock clock("work", 2, {3, 0, 1});
  EXPECT_EQ(clock.horizon(), 6);
  EXPECT_EQ(clock.passed(-5), 0);
  EXPECT_EQ(clock.passed(99), 8);
  EXPECT_EQ(clock.rate(-1), 0);
  EXPECT_EQ(clock.rate(6), 0);
}

TEST(Clock, NothingToWaitForIsReadyAtOnce) {
  const Clock clock("work", 1, {0, 0});
  EXPECT_EQ(clock.advance(1, 0), 1);
  EXPECT_EQ(clock.advance(1, -4), 1);
  EXPECT_EQ(clock.retreat(1, 0), 1);
  EXPECT_EQ(clock.advance(0, 1), never);
  EXPECT_EQ(clock.retreat(2, 1), -1);
}

TEST(Clock, HasNoCauseUnlessToldOne) {
  const Clock clock("work", 1, {1, 0});
  EXPECT_EQ(clock.cause(0), 0);
  EXPECT_EQ(clock.cause(1), 0);
}

TEST(Clock, RefusesWhatIsNoClock) {
  EXPECT_THROW(Clock("negative", 1, {1, -1}), std::invalid_argument);
  EXPECT_THROW(Clock("no ticks", 0, {1}), std::invalid_argument);
  EXPECT_THROW(Clock("no slots", 1, {}), std::invalid_argument);
  EXPECT_THROW(Clock("causes", 1, {1, 1}, {1}), std::invalid_argument);
}

TEST(Clock, LongAmountsDoNotOverflow) {
  const Clock clock("big", 288, std::vector<std::int32_t>(400, 2'000'000'000));
  EXPECT_EQ(clock.passed(clock.horizon()), Amount{2'000'000'000} * 288 * 400);
  EXPECT_EQ(clock.advance(0, Amount{2'000'000'000} * 1000), 1000);
}

}  // namespace
}  // namespace weatherstruck::engine
