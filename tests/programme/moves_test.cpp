// Two plans by hand, one moved against the other; what moved and why is known because the test moved it.
#include "weatherstruck/programme/moves.h"

#include <gmock/gmock.h>

#include "programme/site_by_hand.h"
#include "weatherstruck/programme/planner.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// Tuesday 10 February 07:00, strip poured on Monday as planned.
class Morning : public ::testing::Test {
 protected:
  Morning() : before_(sound_site()), after_(sound_site()) {}

  std::vector<Move> moves(Instant now = feb(10, 7), std::size_t most = 5) const {
    return moves_between({.before = before_.plan,
                          .after = after_.plan,
                          .list = after_.list,
                          .zone = after_.job.site.zone,
                          .now = now,
                          .progress = progress_ ? &*progress_ : nullptr,
                          .most = most});
  }
  void because(const std::string& task, const char* code, const char* text, Instant from, Instant to) {
    after_.planned(task).reasons.push_back({{from, to}, code, text});
  }
  void open_the_book() {
    progress_.emplace();
    for (const works::Task& task : after_.list.tasks) {
      works::TaskProgress state;
      state.task = task.name;
      state.amount = task.amount;
      progress_->tasks.push_back(state);
    }
  }

  SiteByHand before_;
  SiteByHand after_;
  std::optional<works::Progress> progress_;
};

TEST_F(Morning, LikeTheEveningBeforeHasNothingToTell) {
  EXPECT_THAT(moves(), IsEmpty());
  // Half an hour is nothing, and neither is what is done.
  after_.place("point", feb(11, 9, 30), feb(11, 11));
  after_.place("dig", feb(9, 11), feb(9, 12));
  EXPECT_THAT(moves(), IsEmpty());
}

TEST_F(Morning, NamesTheRainThatStandsAtTheOldTime) {
  after_.place("facing", feb(10, 14), feb(10, 17));
  after_.planned("facing").way = "rake";
  because("facing", "off-hours", "outside his working hours", feb(9, 19), feb(10, 7));
  because("facing", "rain", "rain 2.1 mm/h, stops at 0.5", feb(10, 9), feb(10, 13, 45));
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].kind, Move::Kind::later);
  EXPECT_EQ(told[0].task, "facing");
  EXPECT_EQ(told[0].from, feb(10, 9, 30));
  EXPECT_EQ(told[0].to, feb(10, 14));
  EXPECT_FALSE(told[0].other_day);
  EXPECT_EQ(told[0].fact, Fact::weather);
  EXPECT_EQ(told[0].text, "rain 2.1 mm/h, stops at 0.5, Tue 10 Feb 09:00 to 13:45");
}

TEST_F(Morning, TellsOnceWhatOneRainDidToSeveral) {
  // The wall waits for the rain, and its pointing for the wall.
  after_.place("facing", feb(11, 9), feb(11, 12));
  after_.planned("facing").way = "rake";
  because("facing", "rain", "rain 2.1 mm/h, stops at 0.5", feb(10, 9), feb(10, 19));
  after_.place("point", feb(12, 8), feb(12, 9, 30));
  because("point", "wait", "waits for: facing", feb(11, 9), feb(12, 8));
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_TRUE(told[0].other_day);
  EXPECT_EQ(told[0].fact, Fact::weather);
  // Facing moved by 23 h 30 min, pointing by 23.
  EXPECT_EQ(told[0].task, "facing");
  EXPECT_THAT(told[0].with, ElementsAre("point"));
}

TEST_F(Morning, OpensWithHomeAndTheFactAtTheBottomOfIt) {
  after_.place("straps", feb(12, 14), feb(12, 14, 45));
  because("straps", "cold", "-1 C, no work below 0", feb(12, 11), feb(12, 13, 45));
  after_.place("clear-up", feb(12, 14, 45), feb(12, 15, 15));
  drives_home(after_, feb(12, 15, 15), feb(12, 18, 30));
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(2));
  EXPECT_EQ(told[0].kind, Move::Kind::home);
  EXPECT_EQ(told[0].from, feb(12, 16, 15));
  EXPECT_EQ(told[0].to, feb(12, 18, 30));
  EXPECT_EQ(told[0].fact, Fact::weather);
  EXPECT_EQ(told[1].task, "straps");
  EXPECT_THAT(told[1].with, ElementsAre("clear-up"));
}

TEST_F(Morning, KnowsWhichWorkTookLonger) {
  // At noon on Tuesday: the courses below took from 8:00 to 11:30, planned an hour and a half.
  after_.place("below", feb(10, 8), feb(10, 11, 30));
  after_.place("facing", feb(10, 12), feb(10, 15));
  after_.planned("facing").way = "rake";
  open_the_book();
  const std::vector<Move> told = moves(feb(10, 11, 45));
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].task, "facing");
  EXPECT_EQ(told[0].fact, Fact::took_longer);
  EXPECT_EQ(told[0].cause, "below");
  EXPECT_EQ(told[0].text, "\"below\" took 3 h 30 min, planned 1 h 30 min");
}

TEST_F(Morning, BelievesTheBooksStandingDown) {
  after_.place("below", feb(10, 12), feb(10, 13, 30));
  after_.place("facing", feb(10, 13, 30), feb(10, 16, 30));
  after_.planned("facing").way = "rake";
  open_the_book();
  progress_->stood_down.push_back({"rain", feb(10, 8), feb(10, 11, 30)});
  const std::vector<Move> told = moves(feb(10, 11, 45));
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].fact, Fact::stood_down);
  EXPECT_EQ(told[0].text, "stood down for rain, Tue 10 Feb 08:00 to 11:30");
  EXPECT_THAT(told[0].with, SizeIs(1));
}

TEST_F(Morning, SaysWhatIsNotDone) {
  // Wednesday morning: the courses below were for Tuesday, and the book has nothing of them.
  after_.place("below", feb(11, 8), feb(11, 9, 30));
  after_.place("facing", feb(11, 9, 30), feb(11, 12, 30));
  after_.planned("facing").way = "rake";
  open_the_book();
  const std::vector<Move> told = moves(feb(11, 7));
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].fact, Fact::not_done);
  EXPECT_EQ(told[0].cause, "below");
  EXPECT_THAT(told[0].text, HasSubstr("is not done by the book"));
}

TEST_F(Morning, SaysWhatIsShort) {
  after_.task("plates").materials = {{"dpc", 4}};
  after_.place("plates", feb(12, 8), feb(12, 9));
  because("plates", "merchant", "the merchant is shut", feb(11, 7), feb(11, 17));
  open_the_book();
  works::Stock stock;
  stock.material = "dpc";
  stock.short_by = 4;
  progress_->stock.push_back(stock);
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].fact, Fact::stock);
  EXPECT_THAT(told[0].text, HasSubstr("short of "));
}

TEST_F(Morning, SaysWhatTheLevelsChanged) {
  after_.place("facing", feb(10, 9, 30), feb(10, 15));
  after_.planned("facing").way = "rake";
  after_.place("point", feb(11, 13), feb(11, 15));
  open_the_book();
  progress_->walls.push_back({"wall", 6, 8});
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].task, "point");
  EXPECT_EQ(told[0].fact, Fact::levels);
  EXPECT_EQ(told[0].text, "by the levels read it has 8 courses at the low end, not 6");
}

TEST_F(Morning, SaysWhatWasFinishedEarly) {
  after_.place("below", feb(10, 8), feb(10, 8, 30));
  after_.place("facing", feb(10, 8, 45), feb(10, 11, 45));
  after_.planned("facing").way = "rake";
  open_the_book();
  const std::vector<Move> told = moves(feb(10, 8, 40));
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].kind, Move::Kind::earlier);
  EXPECT_EQ(told[0].fact, Fact::finished_early);
  EXPECT_EQ(told[0].cause, "below");
}

TEST_F(Morning, SaysThatTheRainIsGone) {
  before_.planned("point").reasons.push_back(
      {{feb(10, 18), feb(11, 9)}, "rain", "rain 1.2 mm/h, stops at 0.5"});
  after_.place("point", feb(11, 7), feb(11, 8, 30));
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].fact, Fact::weather);
  EXPECT_THAT(told[0].text, HasSubstr("no longer in the way: rain 1.2 mm/h"));
}

TEST_F(Morning, PutsWhatIsLeftOutFirstAndTellsNoMoreThanTheFew) {
  after_.planned("fill").runs.clear();
  after_.planned("fill").reasons = {{{feb(12, 10), feb(12, 11)}, "day-full", "the day's hours are used up"}};
  after_.place("point", feb(11, 14), feb(11, 15, 30));
  because("point", "rain", "rain 1.2 mm/h, stops at 0.5", feb(11, 8), feb(11, 13));
  after_.place("plates", feb(12, 8), feb(12, 9));
  because("plates", "cold", "1 C and falling", feb(11, 9), feb(11, 17));
  std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(3));
  EXPECT_EQ(told[0].kind, Move::Kind::left_out);
  EXPECT_EQ(told[0].task, "fill");
  EXPECT_FALSE(told[0].to);
  EXPECT_EQ(told[0].text, "the day's hours are used up");
  EXPECT_EQ(told[1].task, "plates");  // another day
  EXPECT_EQ(told[2].task, "point");
  told = moves(feb(10, 7), 2);
  EXPECT_THAT(told, SizeIs(2));
}

TEST_F(Morning, SaysThatHomeIsEarlierBecauseWorkIsLeftOut) {
  after_.planned("fill").runs.clear();
  drives_home(after_, feb(12, 11), feb(12, 14, 15));
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(2));
  EXPECT_EQ(told[0].kind, Move::Kind::home);
  EXPECT_EQ(told[0].text, "\"fill\" is left out");
}

TEST_F(Morning, CountsOneRainOnceThoughItHoldsUpTasksFromDifferentHours) {
  after_.place("below", feb(10, 14), feb(10, 15, 30));
  after_.place("facing", feb(10, 15, 30), feb(10, 18, 30));
  after_.planned("facing").way = "rake";
  because("below", "rain", "rain 2.1 mm/h, stops at 0.5", feb(10, 7), feb(10, 13, 45));
  because("facing", "rain", "rain 2.1 mm/h, stops at 0.5", feb(10, 9), feb(10, 13, 45));
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_THAT(told[0].with, SizeIs(1));
}

TEST_F(Morning, NamesWhatIsTakenInAgain) {
  before_.planned("fill").runs.clear();
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].kind, Move::Kind::taken_in);
  EXPECT_FALSE(told[0].from);
  EXPECT_EQ(told[0].to, feb(12, 10));
}

TEST_F(Morning, NamesAnotherWay) {
  after_.planned("facing").way = "strike";
  after_.planned("facing").way_title = "joints struck as the work goes on";
  after_.planned("point").present = false;
  after_.planned("point").runs.clear();
  const std::vector<Move> told = moves();
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].kind, Move::Kind::other_way);
  EXPECT_EQ(told[0].way, "joints struck as the work goes on");
}

TEST_F(Morning, OfWorkUnderWayComparesWhatIsLeft) {
  // At 10:30 the facing has been under way since 9:30 in both.
  SiteByHand& site = after_;
  PlannedRun rest = site.planned("facing").runs.front();
  site.planned("facing").runs.front().span = {feb(10, 9, 30), feb(10, 10, 30)};
  rest.span = {feb(10, 10, 30), feb(10, 12, 30)};
  site.planned("facing").runs.push_back(rest);
  EXPECT_THAT(moves(feb(10, 10, 30)), IsEmpty());
}

TEST(MovesOfMadePlans, ComeFromTheRainThatTheNewForecastHas) {
  // The planner's own plans: dry, then hard rain all Tuesday.
  SiteByHand site = sound_site();
  site.job.crew.front().pace = 1.0;
  const auto limits = trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values;
  const auto plan = [&](const Plan* followed, Instant now) {
    return make_plan({.job = site.job,
                      .list = site.list,
                      .weather = site.weather,
                      .limits = limits,
                      .now = now,
                      .followed = followed,
                      .schedules = 20})
        .plan;
  };
  const Plan before = plan(nullptr, feb(9, 5));
  const Instant now = feb(10, 6);
  site.rain(feb(10, 6), feb(11, 0), 4);
  site.job.kit.canopy.reset();
  const Plan after = plan(&before, now);
  const std::vector<Move> told = moves_between(
      {.before = before, .after = after, .list = site.list, .zone = site.job.site.zone, .now = now});
  const auto weather = std::find_if(told.begin(), told.end(), [](const Move& move) {
    return move.fact == Fact::weather && move.text.find("rain") != std::string::npos;
  });
  std::string all;
  for (const Move& move : told)
    all += move.title + ": " + move.text + "\n";
  EXPECT_NE(weather, told.end()) << all;
  for (const Move& move : told) {
    if (move.to) {
      EXPECT_GE(*move.to, now);
    }
  }
}

}  // namespace
}  // namespace weatherstruck::programme
