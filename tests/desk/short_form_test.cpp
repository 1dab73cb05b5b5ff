// The short form of being asked: what is mostly as usual is passed over, listed, and asked once it is named.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "desk/job_talk_support.h"
#include "weatherstruck/desk/job_talk.h"
#include "weatherstruck/desk/me_talk.h"

namespace weatherstruck::desk {
namespace {

using testing::HasSubstr;
using testing::Not;

AskedJob ask_shortly(const std::string& input) {
  std::istringstream in(input);
  std::ostringstream out;
  Talk talk(in, out, true);
  AskedJob result;
  result.talk = ask_job(talk, me(), saturday_evening(), {}, zones(), false);
  result.said = out.str();
  return result;
}

/// How often he was asked.
std::ptrdiff_t prompts_in(const std::string& said) {
  std::ptrdiff_t count = said.rfind("> ", 0) == 0 ? 1 : 0;
  for (std::size_t at = said.find("\n> "); at != std::string::npos; at = said.find("\n> ", at + 1))
    ++count;
  return count;
}

const std::string a_base =
    "Log store\n51.9 -3.4\n2 h\nMon 5:00\nThu 21:00\nbase\n3 x 1.8 m\nlog store\n\n\n4\n";
const std::string usual_end = "\n\n\n\n";  // nothing else, the way in, what is delivered, what may wait

TEST(ShortForm, MakesTheJobOfTheLongOneWithEnterAtWhatIsUsual) {
  const AskedJob shortly = ask_shortly(a_base + usual_end + "yes\n");
  ASSERT_TRUE(shortly.talk.job) << shortly.said;
  const AskedJob at_length =
      ask_for("Log store\n\n\n51.9 -3.4\n2 h\nMon 5:00\nThu 21:00\nbase\n3 x 1.8 m\nlog store\n\n\n4\n\n" +
              std::string(12, '\n'));
  ASSERT_TRUE(at_length.talk.job) << at_length.said;
  EXPECT_EQ(shortly.talk.document, at_length.talk.document);
  EXPECT_LE(prompts_in(shortly.said) + 5, prompts_in(at_length.said));
}

TEST(ShortForm, ListsWhatItPassedOverAndAsksItOnceItIsNamed) {
  const AskedJob asked = ask_shortly(a_base + usual_end +
                                     "change customer and footing\nA. Neighbour, 1 High Street\n"
                                     "500 wide, 200 thick, 600 deep\nyes\n");
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("Left as usual"));
  EXPECT_THAT(asked.said, HasSubstr("customer"));
  EXPECT_EQ(asked.talk.job->customer.name, "A. Neighbour");
  const auto& base = std::get<works::Base>(asked.talk.job->parts.front());
  EXPECT_DOUBLE_EQ(base.footing_depth.value(), 0.6);
}

TEST(ShortForm, GoesBackToWhatWasHeardBefore) {
  // Between the title and the place a name and a customer are passed over.
  const AskedJob asked = ask_shortly("Lig store\nback\n" + a_base + usual_end + "yes\n");
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_EQ(asked.talk.job->title, "Log store");
}

TEST(ShortForm, OfHimAsksNineThings) {
  std::istringstream in("Tom Mason\n\n\n\n\n\n\n\n\n");
  std::ostringstream out;
  Talk talk(in, out, true);
  const MeTalk asked = ask_me(talk, {}, zones(), {}, false);
  ASSERT_TRUE(asked.document) << out.str();
  EXPECT_EQ(prompts_in(out.str()), 9) << out.str();
  EXPECT_FALSE(asked.document->rates);
}

TEST(ShortForm, TakesAmericanLimitsFromTheClockHeLivesBy) {
  std::istringstream in("Joe\n\nNew York\n\n\n\n\n\n\n");
  std::ostringstream out;
  Talk talk(in, out, true);
  const MeTalk asked = ask_me(talk, {}, zones(), {}, false);
  ASSERT_TRUE(asked.document) << out.str();
  EXPECT_EQ(asked.document->me.limits.set, trade::LimitSet::us);
}

TEST(Newcomer, WhoDoesNotKnowTakesWhatIsUsual) {
  const AskedJob asked = ask_shortly(
      "Log store\n51.9 -3.4\ndunno\n2 h\nMon 5:00\nThu 21:00\nbase\n3 x 1.8 m\nlog store\n"
      "not sure\n\n4\n" +
      usual_end + "yes\n");
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("Then none."));
  EXPECT_THAT(asked.said, HasSubstr("Rests not counted")) << "without a usual answer it explains";
}

TEST(Newcomer, IsAskedOnWhichSideOfGreenwich) {
  const AskedJob asked = ask_shortly("Log store\n52.06 3.61\n52.06 -3.61\nquit\n");
  EXPECT_THAT(asked.said, HasSubstr("West or east of Greenwich?"));
  EXPECT_THAT(ask_shortly("Log store\n52.2 0.12E\nquit\n").said, Not(HasSubstr("Greenwich")));
}

TEST(Newcomer, LeavesAtTheNextSuchHourWithoutADay) {
  EXPECT_THAT(ask_shortly("Log store\n51.9 -3.4\n2 h\n5 in the morning\nquit\n").said,
              HasSubstr("Leave Sun 8 Feb 05:00."));
}

TEST(Newcomer, ChangesOnePartOfAnAnswerAndTheOtherStays) {
  const AskedJob asked = ask_shortly(
      "Bed\n51.9 -3.4\n2 h\nMon 5:00\nThu 21:00\nbed\n2 x 0.8 m\n5 courses, 3 sides\n\n\n\nchange bed\n\n4 "
      "courses\nyes\n");
  ASSERT_TRUE(asked.talk.job) << asked.said;
  const auto& bed = std::get<works::Bed>(asked.talk.job->parts.front());
  EXPECT_EQ(bed.courses, 4);
  EXPECT_EQ(bed.sides, 3);
  EXPECT_THAT(asked.said, HasSubstr("front and both ends built"));
}

TEST(Newcomer, HearsEachDayAtOnce) {
  const std::string said = ask_shortly("Log store\n51.9 -3.4\n2 h\nMon 5:00\nquit\n").said;
  EXPECT_THAT(said, HasSubstr("Leave Mon 9 Feb 05:00.\nWhen did you promise"));
}

TEST(Newcomer, DoesNotThrowAllAwayBySayingNone) {
  const AskedJob asked = ask_shortly(a_base + usual_end + "none\nyes\n");
  ASSERT_TRUE(asked.talk.job) << asked.said;
  EXPECT_THAT(asked.said, HasSubstr("no to throw it all away"));
}

TEST(Newcomer, SaysThatThatIsItToWhatElseAndKeepsHisJob) {
  const AskedJob asked = ask_shortly(a_base + "no, that's it\n\n\n\nthat's it\nyes\n");
  ASSERT_TRUE(asked.talk.job) << asked.said;
}

TEST(Newcomer, ReadsThatPlatesAreTakenForGranted) {
  EXPECT_THAT(ask_shortly(a_base + usual_end + "yes\n").said, HasSubstr("timber plates"));
  EXPECT_THAT(ask_shortly(a_base + usual_end + "assumed\nyes\n").said, HasSubstr("garden soil"));
}

TEST(Newcomer, SaysBallastForSandAndAggregate) {
  const AskedJob asked = ask_shortly(a_base + "\n\nbricks, cement, ballast\nMon 8:00\n\nyes\n");
  ASSERT_TRUE(asked.talk.job) << asked.said;
  std::set<std::string> brought;
  for (const works::Delivery& delivery : asked.talk.job->supplies.deliveries)
    brought.insert(std::string(delivery.material));
  EXPECT_TRUE(brought.count("coarse-aggregate") == 1 || brought.count("ballast") == 1);
}

TEST(Newcomer, IsToldWhichBitOfTheWayInIsNotUnderstood) {
  const std::string said =
      ask_shortly(a_base + "\n30 yards, up a bit, 2 steps\n30 yards, 2 steps\nquit\n").said;
  EXPECT_THAT(said, HasSubstr("\"up a bit\" is not understood."));
  EXPECT_THAT(said, HasSubstr("27"));
}

}  // namespace
}  // namespace weatherstruck::desk
