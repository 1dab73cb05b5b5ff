#include "weatherstruck/works/book_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "weatherstruck/base/text.h"
#include "works/book_words_support.h"

namespace weatherstruck::works {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::IsSupersetOf;
using trade::CoverKind;

struct Sentence {
  std::string words;
  What what;
  base::Instant at;
};

base::Money pounds(std::int64_t pence) {
  return {pence, sterling()};
}

std::vector<Sentence> understood_sentences() {
  const base::Instant now = feb(10, 16, 10);
  const auto metres = [](double m) { return base::Metres(m); };
  const auto share = [](double part) { return Share{base::Fraction(part)}; };
  return {
      {"began digging the north trench at 8", Begin{"shelter-north-dig"}, feb(10, 8)},
      {"Started digging the bed trench at 8am.", Begin{"bed-dig"}, feb(10, 8)},
      {"begun pouring the north footing at half past nine", Begin{"shelter-north-pour"}, feb(10, 9, 30)},
      {"started pointing the shelter", Begin{"shelter-lay-point"}, now},
      {"began shelter-lay at 2026-02-09T14:00", Begin{"shelter-lay"}, feb(9, 14)},
      {"started laying the flags yesterday at 3pm", Begin{"path-flags"}, feb(9, 15)},
      {"began unloading the van at quarter to nine", Begin{"unload"}, feb(10, 8, 45)},
      {"began stripping turf at 0915", Begin{"strip-turf"}, feb(10, 9, 15)},
      {"started diging the north trench at 8", Begin{"shelter-north-dig"}, feb(10, 8)},
      {"did 3 courses on the bed", Done{"bed-lay", Courses{3}}, now},
      {"did three courses on the bed at 4", Done{"bed-lay", Courses{3}}, feb(10, 16)},
      {"another course on the bed", Done{"bed-lay", Courses{1}}, now},
      {"did a couple of courses on the bed", Done{"bed-lay", Courses{2}}, now},
      {"shelter pointing done", Done{"shelter-lay-point", Whole{}}, now},
      {"finished pointing the shelter at 3:15", Done{"shelter-lay-point", Whole{}}, feb(10, 15, 15)},
      {"dug the bed trench", Done{"bed-dig", Whole{}}, now},
      {"dug 0.4 m3 of the bed trench", Done{"bed-dig", Measured{0.4, "m3"}}, now},
      {"dug 0.4m3 of the bed trench by noon", Done{"bed-dig", Measured{0.4, "m3"}}, feb(10, 12)},
      {"poured the east footing at 11.20", Done{"shelter-east-pour", Whole{}}, feb(10, 11, 20)},
      {"flags 60 % done", Done{"path-flags", share(0.6)}, now},
      {"did half of the flags", Done{"path-flags", share(0.5)}, now},
      {"grouted the flags", Done{"path-joints", Whole{}}, now},
      {"two thirds of the bed backfilled", Done{"bed-backfill", share(2.0 / 3.0)}, now},
      {"laid 60 facing bricks on the bed", Done{"bed-lay", Measured{60, "bricks"}}, now},
      {"did all of bed-fill-half", Done{"bed-fill-half", Whole{}}, now},
      {"filled the bed to the top", Done{"bed-fill", Whole{}}, now},
      {"bedded the plates on the shelter", Done{"shelter-plates", Whole{}}, now},
      {"plates strapped", Done{"shelter-straps", Whole{}}, now},
      {"turf stripped", Done{"strip-turf", Whole{}}, now},
      {"compacted the sub base of the path", Done{"path-subbase", Whole{}}, now},
      {"built 2 steps", Done{"steps-build", Measured{2, "steps"}}, now},
      {"did 5 loads for the concrete of the shelter", Done{"shelter-wheel-concrete", Measured{5, "loads"}},
       now},
      {"stood down 2 to 3:30, rain", StoodDown{"rain", feb(10, 14), feb(10, 15, 30)}, feb(10, 14)},
      {"stood down from 11 till quarter past 12 for hail", StoodDown{"hail", feb(10, 11), feb(10, 12, 15)},
       feb(10, 11)},
      {"rained off since 3", StoodDown{"rain", feb(10, 15), now}, feb(10, 15)},
      {"rained off 8-10:30 yesterday", StoodDown{"rain", feb(9, 8), feb(9, 10, 30)}, feb(9, 8)},
      {"level north footing of the shelter 0 m: 0 m",
       LevelRead{"shelter-north-footing", metres(0), metres(0)}, now},
      {"level on the bed south footing at 2.4 m, 150 mm down",
       LevelRead{"bed-south-footing", metres(2.4), metres(-0.15)}, now},
      {"level shelter-east-footing 1.2 m: -0.08 m",
       LevelRead{"shelter-east-footing", metres(1.2), metres(-0.08)}, now},
      {"60 facing bricks left", StockCount{"facing-brick", 60}, now},
      {"3 bags of cement left at 4", StockCount{"cement", 75}, feb(10, 16)},
      {"no cement left", StockCount{"cement", 0}, now},
      {"counted 120 engineering bricks", StockCount{"engineering-brick", 120}, now},
      {"one bulk bag of building sand left", StockCount{"building-sand", 0.6}, now},
      {"1,000 facing bricks delivered at 9", Arrived{"facing-brick", 1000}, feb(10, 9)},
      {"fetched 4 bags of cement", Arrived{"cement", 100}, now},
      {"note the gate must stay shut, and the dog is loose",
       Note{"the gate must stay shut, and the dog is loose"}, now},
      {"note at 9: frost on the sand", Note{"frost on the sand"}, feb(10, 9)},
      {"spent 34.50 on sand", Expense{"sand", pounds(3450), std::nullopt}, now},
      {"paid \xc2\xa3"
       "12 for screws, receipt 0447",
       Expense{"screws", pounds(1200), "0447"}, now},
      {"bought fuel for 9.5, no receipt", Expense{"fuel", pounds(950), std::nullopt}, now},
      {"extra: step at the gate, 80 pounds, agreed with her", Extra{"step at the gate", "her", pounds(8000)},
       now},
      {"extra moving the water butt, day work, agreed with Marged at 2",
       Extra{"moving the water butt", "Marged", std::nullopt}, feb(10, 14)},
      {"covered the shelter, sheet", CoverOn{"shelter", CoverKind::sheet}, now},
      {"covered the bed with hessian and sheet at 4", CoverOn{"bed", CoverKind::hessian_and_sheet},
       feb(10, 16)},
      {"hessian on the north wall of the bed", CoverOn{"bed-north", CoverKind::hessian}, now},
      {"put frost mats over the steps", CoverOn{"steps", CoverKind::mat}, now},
      {"uncovered the bed at 7:30", CoverOff{"bed", std::nullopt}, feb(10, 7, 30)},
      {"took the sheet off the shelter", CoverOff{"shelter", CoverKind::sheet}, now},
      {"canopy up over the bed", CanopyUp{"bed"}, now},
      {"moved the canopy to the shelter at 1", CanopyUp{"shelter"}, feb(10, 13)},
      {"canopy down at ten past 4", CanopyDown{}, now},
      {"took the canopy down", CanopyDown{}, now},
      {"-2 C at 6:30 this morning", Thermometer{base::Celsius(-2)}, feb(10, 6, 30)},
      {"thermometer 3 at 8 am", Thermometer{base::Celsius(3)}, feb(10, 8)},
      {"two degrees of frost at 7 this morning", Thermometer{base::Celsius(-2)}, feb(10, 7)},
      {"thermometer reads 41 f", Thermometer{base::Celsius(5)}, now},
      {"covered the bed with plastic", CoverOn{"bed", CoverKind::sheet}, now},
      {"north footing of the shelter done", Done{"shelter-north-pour", Whole{}}, now},
      {"dug the bed trench at 18:00", Done{"bed-dig", Whole{}}, feb(9, 18)},
      {"it rained 4 mm since six", Gauge{base::Millimetres(4), feb(10, 6)}, now},
      {"4 mm since six", Gauge{base::Millimetres(4), feb(10, 6)}, now},
      {"dug the bed trench by half three", Done{"bed-dig", Whole{}}, feb(10, 15, 30)},
      {"dug the bed trench, half two", Done{"bed-dig", Whole{}}, feb(10, 14, 30)},
      {"covered the bed with sheet at half past two", CoverOn{"bed", CoverKind::sheet}, feb(10, 14, 30)},
      {"dug half of the bed trench half three", Done{"bed-dig", share(0.5)}, feb(10, 15, 30)},
      {"stood down half two till quarter past three, hail",
       StoodDown{"hail", feb(10, 14, 30), feb(10, 15, 15)}, feb(10, 14, 30)},
      {"stood down at 2 till 4, rain", StoodDown{"rain", feb(10, 14), feb(10, 16)}, feb(10, 14)},
      {"hailed off 2 to 3", StoodDown{"hail", feb(10, 14), feb(10, 15)}, feb(10, 14)},
      {"unloaded by 9", Done{"unload", Whole{}}, feb(10, 9)},
      {"set out by ten", Done{"set-out", Whole{}}, feb(10, 10)},
      {"pointing the shelter till four", Done{"shelter-lay-point", Whole{}}, feb(10, 16)},
      {"rained at two", Note{"rain"}, feb(10, 14)},
      {"rain from 2", Note{"rain"}, feb(10, 14)},
      {"it started raining at half two", Note{"rain"}, feb(10, 14, 30)},
      {"rained 2 to 4", Note{"rain until 16:00"}, feb(10, 14)},
      {"rained on the fresh wall at 2", Note{"rained on the fresh wall"}, feb(10, 14)},
      {"minus 2.5 C at 7", Thermometer{base::Celsius(-2.5)}, feb(10, 7)},
      {"minus 2.5", Thermometer{base::Celsius(-2.5)}, now},
      {"gauge 12.5 mm from 6pm yesterday", Gauge{base::Millimetres(12.5), feb(9, 18)}, now},
  };
}

TEST(BookWords, EachSentenceBecomesItsEntry) {
  for (const Sentence& expected : understood_sentences()) {
    const std::vector<Heard> heard = hear(expected.words);
    ASSERT_EQ(heard.size(), 1U) << expected.words;
    const auto* got = std::get_if<Understood>(&heard[0].reading);
    EXPECT_NE(got, nullptr) << expected.words << "\n  " << describe(heard[0].reading);
    if (got == nullptr) continue;
    EXPECT_EQ(got->what, expected.what) << expected.words << "\n  " << got->sentence;
    EXPECT_EQ(base::iso_utc(got->at), base::iso_utc(expected.at)) << expected.words;
    EXPECT_GT(got->confidence, 0) << expected.words;
    EXPECT_LE(got->confidence, 1) << expected.words;
  }
}

struct Asked {
  std::string words;
  std::string about;                    ///< part of the question
  std::vector<std::string> candidates;  ///< some of them
};

TEST(BookWords, WhatCouldMeanTwoThingsIsAsked) {
  const std::vector<Asked> table{
      {"pointing done", "Which task", {"shelter-lay-point", "bed-lay-point"}},
      {"dug the shelter trenches 8 to 12", "Which task", {"shelter-north-dig", "shelter-west-dig"}},
      {"dug half of the shelter trenches", "Which task", {"shelter-north-dig", "shelter-west-dig"}},
      {"half of the path", "Which task", {"path-dig", "path-flags"}},
      {"did 3 courses on the left",
       "\"left\" is no name of this job. Which task",
       {"bed-lay", "shelter-lay"}},
      {"covered it", "What was covered", {"shelter", "bed"}},
      {"stood down till four", "from when to when", {}},
      {"bed finished", "Which task", {"bed-dig", "bed-lay"}},
      {"did 2 courses on the shelter", "Which task", {"shelter-below", "shelter-lay"}},
      {"began the path", "Which task", {"path-dig", "path-flags"}},
      {"poured the footing", "Which task", {"shelter-north-pour", "bed-pour"}},
      {"covered the north wall with sheet", "Which part", {"shelter-north", "bed-north"}},
      {"covered the shelter", "covered with", {"hessian", "sheet"}},
      {"covered with hessian", "What was covered", {"shelter", "bed"}},
      {"canopy up", "Over which part", {"shelter", "bed"}},
      {"60 bricks left", "Which material", {"facing-brick", "engineering-brick"}},
      {"2 bags of sand left", "Which material", {"building-sand", "sharp-sand"}},
      {"2 cement left", "How much is that", {}},
      {"4 mm overnight", "Since when", {}},
      {"stood down at 2, rain", "from when to when", {}},
      {"rained off", "from when to when", {}},
      {"pointing the shelter", "Begun, or done", {"begun", "done"}},
      {"did some of the flags", "How much", {}},
      {"laid 12 flags", "measured in", {}},
      {"spent 12 and 13 on screws", "as one sum", {}},
      {"spent 34.505 pounds on sand", "no amount of GBP", {}},
      {"extra: step at the gate, agreed with her", "price", {"day work"}},
      {"level bed-north-footing 1.2 m", "How far along", {}},
      {"level bed-north-footing 1.2 and 0.15", "metres or millimetres", {}},
      {"level north footing 1 m: 0 m", "Which footing", {"shelter-north-footing", "bed-north-footing"}},
      {"minus two yesterday", "what time", {}},
      {"began digging the bed trench at 8 tonight", "has not been yet", {}},
  };
  for (const Asked& expected : table) {
    const std::vector<Heard> heard = hear(expected.words);
    ASSERT_EQ(heard.size(), 1U) << expected.words;
    EXPECT_EQ(std::get_if<Understood>(&heard[0].reading), nullptr)
        << expected.words << "\n  " << describe(heard[0].reading);
    const auto* asked = std::get_if<Question>(&heard[0].reading);
    EXPECT_NE(asked, nullptr) << expected.words << "\n  " << describe(heard[0].reading);
    if (asked == nullptr) continue;
    EXPECT_THAT(asked->text, HasSubstr(expected.about)) << expected.words;
    EXPECT_THAT(asked->candidates, IsSupersetOf(expected.candidates)) << expected.words;
  }
}

TEST(BookWords, NothingIsDroppedInSilence) {
  for (const std::string words :
       {"did not finish the bed pointing", "covered the bed and the shelter with sheet",
        "did 3 courses on the barn", "nearly dug", "dug the bed trench except the corner",
        "canopy down because of the gusts", "hello", "did 3 courses on the bed and 2 on the shelter",
        "began nothing much", "minus two or three", "did 3 courses of the path flags"}) {
    const std::vector<Heard> heard = hear(words);
    for (const Heard& one : heard) {
      EXPECT_EQ(std::get_if<Understood>(&one.reading), nullptr) << words << "\n  " << describe(one.reading);
    }
    EXPECT_FALSE(heard.empty()) << words;
  }
}

TEST(BookWords, WhatIsNotUnderstoodComesWithTheNearest) {
  const auto heard = hear("dug the barn path");
  const auto* lost = std::get_if<NotUnderstood>(&heard.at(0).reading);
  ASSERT_NE(lost, nullptr) << describe(heard[0].reading);
  EXPECT_THAT(lost->text, HasSubstr("barn"));
  EXPECT_THAT(lost->nearest, testing::Contains("path-dig"));
}

TEST(BookWords, EachEntryIsShownBack) {
  const auto heard = hear("did 3 courses on the bed");
  EXPECT_EQ(std::get<Understood>(heard.at(0).reading).sentence,
            "Lay courses 1 to 5 of the bed, all walls together: 3 courses done at 16:10. Right?");
}

TEST(BookWords, AWordPutRightIsLessSure) {
  const auto good = hear("began digging the north trench at 8am");
  const auto poor = hear("began diging the nroth trench at 8am");
  EXPECT_EQ(std::get<Understood>(good.at(0).reading).confidence, 1);
  EXPECT_LT(std::get<Understood>(poor.at(0).reading).confidence, 0.6);
}

TEST(BookWords, FromWhenToWhenIsABeginAndADone) {
  const auto heard = hear("did 3 courses on the bed from 8 to 11:30");
  ASSERT_EQ(heard.size(), 2U);
  const auto& begun = std::get<Understood>(heard[0].reading);
  const auto& done = std::get<Understood>(heard[1].reading);
  EXPECT_EQ(begun.what, What(Begin{"bed-lay"}));
  EXPECT_EQ(begun.at, feb(10, 8));
  EXPECT_EQ(done.what, What(Done{"bed-lay", Courses{3}}));
  EXPECT_EQ(done.at, feb(10, 11, 30));
}

TEST(BookWords, MinusTwoThisMorningIsAboutNowInTheMorningAndAskedLater) {
  Surroundings dawn = at_ten_past_four();
  dawn.now = feb(10, 7, 5);
  const auto early = hear("minus two this morning", dawn);
  EXPECT_EQ(std::get<Understood>(early.at(0).reading).what, What(Thermometer{base::Celsius(-2)}));
  EXPECT_EQ(std::get<Understood>(early.at(0).reading).at, feb(10, 7, 5));
  EXPECT_TRUE(std::holds_alternative<Question>(hear("minus two this morning").at(0).reading));
}

TEST(BookWords, AnHourThatCouldBeTwoIsAsked) {
  Surroundings night = at_ten_past_four();
  night.now = feb(10, 22);
  const auto heard = hear("covered the bed with sheet at 8", night);
  const auto* asked = std::get_if<Question>(&heard.at(0).reading);
  ASSERT_NE(asked, nullptr) << describe(heard[0].reading);
  EXPECT_THAT(asked->candidates, ElementsAre("Tue 10 Feb 08:00", "Tue 10 Feb 20:00"));
  EXPECT_TRUE(std::holds_alternative<Question>(hear("4 mm since six", night).at(0).reading));
}

TEST(BookWords, AnHourThatCameTwiceIsAskedAndOneThatNeverWasToo) {
  Job summer = demo_job();
  const auto day = [](unsigned month, unsigned d) {
    return std::chrono::sys_days(std::chrono::year(2026) / std::chrono::month(month) / std::chrono::day(d));
  };
  using std::chrono::hours;
  // British clocks of 2026: forward 29 March, back 25 October, both at 01:00 UTC.
  summer.site.zone =
      base::Zone("Europe/London", std::chrono::seconds(0), "GMT",
                 {{day(3, 29) + hours(1), hours(1), "BST"}, {day(10, 25) + hours(1), hours(0), "GMT"}});
  const TaskList list = derive_tasks(summer);
  const BookWords words(summer, list);
  const auto twice = words.read("2 C at 1:30 am", {day(10, 25) + hours(9), sterling(), {}});
  const auto* asked = std::get_if<Question>(&twice.at(0).reading);
  ASSERT_NE(asked, nullptr) << describe(twice[0].reading);
  EXPECT_THAT(asked->candidates, ElementsAre("Sun 25 Oct 01:30 BST", "Sun 25 Oct 01:30 GMT"));
  const auto never = words.read("2 C at 1:30 am today", {day(3, 29) + hours(9), sterling(), {}});
  EXPECT_TRUE(std::holds_alternative<Question>(never.at(0).reading)) << describe(never[0].reading);
}

TEST(ParseAmount, ReadsTheFormsOfCommands) {
  EXPECT_EQ(parse_amount("all"), Amount(Whole{}));
  EXPECT_EQ(parse_amount("3 courses"), Amount(Courses{3}));
  EXPECT_EQ(parse_amount("0.4 m3"), Amount(Measured{0.4, "m3"}));
  EXPECT_EQ(parse_amount("0.4m3"), Amount(Measured{0.4, "m3"}));
  EXPECT_EQ(parse_amount("60 %"), Amount(Share{base::Fraction(0.6)}));
  EXPECT_EQ(parse_amount("half"), Amount(Share{base::Fraction(0.5)}));
  for (const char* bad :
       {"", "3", "3.5 courses", "-3 courses", "101 %", "3 courses 4 courses", "0 m3", "much"})
    EXPECT_EQ(parse_amount(bad), std::nullopt) << bad;
}

RC_GTEST_PROP(BookWordsProperties, AnyBytesAreTaken, ()) {
  const auto text = *rc::gen::container<std::string>(rc::gen::arbitrary<char>());
  hear(text);
}

RC_GTEST_PROP(BookWordsProperties, AnyPiecesOfSentencesAreTakenAndWhatIsUnderstoodIsSound, ()) {
  static const std::vector<std::string> pieces{
      "did",   "3",     "courses", "bed",     "at",       "8",      "began",     "-",     ",",      ";",
      "and",   "half",  "past",    "spent",   "\xc2\xa3", "1,000",  "34.50",     "level", "m",      "mm",
      "since", "to",    "covered", "hessian", "sheet",    "extra:", "note",      "left",  "cement", "bags",
      "%",     "minus", "stood",   "down",    "off",      "canopy", "yesterday", "."};
  const auto chosen = *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(pieces));
  std::string text;
  for (const std::string& piece : chosen)
    text += piece + " ";
  for (const Heard& heard : hear(text)) {
    if (const auto* got = std::get_if<Understood>(&heard.reading)) {
      RC_ASSERT(faults_of({"k", got->what, got->at, feb(10, 16, 10), std::nullopt}).empty());
      RC_ASSERT(got->confidence > 0 && got->confidence <= 1);
      RC_ASSERT(!got->sentence.empty());
    }
  }
}

}  // namespace
}  // namespace weatherstruck::works
