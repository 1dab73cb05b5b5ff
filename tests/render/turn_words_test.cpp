#include "weatherstruck/render/turn_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using programme::Turn;
using sample::at;
using testing::ElementsAre;

// Monday: a drive out, b dig 07-10:45, c pour 14-15:30, d lay 18-18:30; home Tuesday 13:00.
Turn rain() {
  Turn turn;
  turn.kind = Turn::Kind::rain;
  turn.at = at(9, 13);
  turn.until = at(9, 19);
  turn.rain = base::MillimetresPerHour(2);
  turn.stops = {"wall-pour", "wall-lay"};
  turn.home = at(10, 13);
  turn.in_hand = std::chrono::hours(7);
  return turn;
}

std::string line(const Turn& turn) {
  static const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  return turn_line(facts, trip_days(facts)[0], turn);
}

TEST(TurnWords, SayWhenWhatIsLeftAndThatHomeStands) {
  EXPECT_EQ(line(rain()), "Steady rain 13:00 to 19:00: leave c d for later; home still Tue 13:00.");
}

TEST(TurnWords, SayWhatComesInsteadAndWhatGoesUnderTheCanopy) {
  Turn turn = rain();
  turn.stops = {"wall-pour"};
  turn.then = {{"wall-dig", {at(9, 13), at(9, 14)}, false, true, 0},
               {"wall-lay", {at(9, 14), at(9, 17)}, true, false, 2}};
  turn.canopy = {{"wall", at(9, 13, 50), {at(9, 14), at(9, 17)}, at(9, 17, 10)}};
  EXPECT_EQ(
      line(turn),
      "Steady rain 13:00 to 19:00: then b and d under the canopy, leave c for later; home still Tue 13:00.");
}

TEST(TurnWords, CoverByLetterWhatWasLaidTodayAndByNameWhatWasNot) {
  const sample::Trip made = sample::trip();
  sample::Trip trip = made;
  trip.list.tasks[2].part = "wall-footing";
  trip.list.tasks[2].fresh = works::FreshWork{};
  const TripFacts facts = trip.facts();
  Turn turn = rain();
  turn.at = at(9, 16);
  turn.stops = {};
  turn.covers = {trip.plan.covers[0]};
  EXPECT_EQ(turn_line(facts, trip_days(facts)[0], turn),
            "Steady rain 16:00 to 19:00: cover c, nothing more that day; home still Tue 13:00.");
  turn.covers[0].part = "bed";
  turn.covers[0].concrete = false;
  EXPECT_EQ(turn_line(facts, trip_days(facts)[0], turn),
            "Steady rain 16:00 to 19:00: cover the bed, nothing more that day; home still Tue 13:00.");
}

TEST(TurnWords, SayWhatItCosts) {
  Turn turn = rain();
  turn.home = at(10, 21);
  turn.in_hand = -std::chrono::hours(1);
  EXPECT_EQ(line(turn), "Steady rain 13:00 to 19:00: leave c d for later; home Tue 21:00, late.");
  turn.home.reset();
  EXPECT_EQ(line(turn),
            "Steady rain 13:00 to 19:00: leave c d for later; no way found to be home by Tue 20:00.");
}

TEST(TurnWords, NameEachTurnByWhatIsSeen) {
  Turn turn = rain();
  turn.kind = Turn::Kind::overrun;
  turn.task = "wall-pour";
  turn.at = at(9, 15, 25);
  turn.stops = {"wall-lay"};
  EXPECT_EQ(line(turn), "c not done by about 15:30: leave d for later; home still Tue 13:00.");
  turn.kind = Turn::Kind::canopy_down;
  turn.at = at(9, 18);
  EXPECT_EQ(line(turn),
            "Gusts of 25 mph from about 18:00, canopy down: leave d for later; home still Tue 13:00.");
  turn.kind = Turn::Kind::short_of;
  turn.task = "wall-lay";
  turn.material = "facing-brick";
  EXPECT_EQ(line(turn),
            "Facing bricks short when counted before d: leave d for later; home still Tue 13:00.");
  turn.kind = Turn::Kind::frost;
  turn.low = base::Celsius(-4.4);
  EXPECT_EQ(line(turn), "A colder night, to -4 °C: leave d for later; home still Tue 13:00.");
}

TEST(TurnWords, KeepToWhatIsStillToComeAndToAFew) {
  const sample::Trip trip = sample::trip();
  TripFacts facts = trip.facts();
  Turn later = rain();
  later.at = at(9, 15);
  Turn frost = rain();
  frost.kind = Turn::Kind::frost;
  frost.at = at(9, 16);
  facts.turns = {rain(), later, frost};
  const TripDay day = trip_days(facts)[0];
  EXPECT_EQ(turn_lines(facts, day, at(9, 5), 3).size(), 3U);
  EXPECT_EQ(turn_lines(facts, day, at(9, 15), 3).size(), 2U);
  EXPECT_THAT(turn_lines(facts, day, at(9, 5), 2),
              ElementsAre(turn_line(facts, day, facts.turns[0]), turn_line(facts, day, facts.turns[2])));
}

TEST(TurnWords, PiecesThatAreDroppedWholeGoByTheirName) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  // Of the wall only the laying is not done by Monday evening; dig and pour are.
  EXPECT_EQ(pieces_and_tasks(facts, {"wall-lay"}, at(9, 17)), "the wall");
  EXPECT_EQ(pieces_and_tasks(facts, {"wall-lay"}, at(9, 13)), "lay the wall");
  EXPECT_EQ(pieces_and_tasks(facts, {"wall-pour", "wall-lay"}, at(9, 9)), "2 tasks of the wall");
}

TEST(TurnWords, DrawLettersTogether) {
  EXPECT_EQ(letters_of({'a', 'b', 'c', 'd', 'f', 'h', 'i'}), "a to d f h i");
  EXPECT_EQ(letters_of({}), "");
}

TEST(TurnWords, ATitleInsideASentenceLeavesOutHowMuch) {
  EXPECT_EQ(inside("Wheel away 2.27 m3 of soil (29 loads)"), "wheel away soil");
  EXPECT_EQ(inside("Lay courses 3 to 8 of the shelter, all walls together (185 facing bricks)"),
            "lay courses 3 to 8 of the shelter, all walls together");
}

}  // namespace
}  // namespace weatherstruck::render
