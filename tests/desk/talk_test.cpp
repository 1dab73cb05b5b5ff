#include "weatherstruck/desk/talk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "desk/talk_support.h"

namespace weatherstruck::desk {
namespace {

using testing::HasSubstr;
using testing::Not;

struct Talked {
  TalkEnd end = TalkEnd::cut_off;
  std::vector<int> numbers;
  std::string said;
};

/// Asks for a count, then for as many numbers; 7 is usual.
Talked talk_of_numbers(const std::string& input, bool echo = false) {
  std::istringstream in(input);
  std::ostringstream out;
  Talk talk(in, out, echo);
  Talked result;
  result.end = talk.run([&] {
    result.numbers.clear();
    talk.heading("Numbers");
    const int many = talk.ask<int>({"many", "How many?", "", "Of the numbers."},
                                   [](auto text) { return works::count_answer(text, 0, 5, "number"); });
    for (int i = 0; i < many; ++i) {
      talk.say("Next.");
      result.numbers.push_back(talk.ask<int>(
          {"number-" + std::to_string(i), "Which?", "7", "Any."},
          [](auto text) { return works::count_answer(text, 0, 99, ""); }, 7));
    }
  });
  result.said = out.str();
  return result;
}

/// A length, a width that is at most as long, a colour; "change WIDTH" at the end asks for that again.
struct Changed {
  TalkEnd end = TalkEnd::cut_off;
  std::vector<int> numbers;
  std::string said;
};
Changed talk_that_changes(const std::string& input) {
  std::istringstream in(input);
  std::ostringstream out;
  Talk talk(in, out, true);
  Changed result;
  result.end = talk.run([&] {
    result.numbers.clear();
    int most = 99;
    for (const char* key : {"length", "width", "height"}) {
      talk.heading(std::string("Part ") + key);
      result.numbers.push_back(talk.ask<int>({key, std::string("The ") + key, "", "Any."}, [&](auto text) {
        return works::count_answer(text, 0, most, "");
      }));
      most = result.numbers.front();
    }
    talk.say("That makes it.");
    (void)talk.ask<bool>(
        {"keep", "Keep it?", "yes", "Or change."},
        [&](std::string_view text) -> works::Answer<bool> {
          for (const std::string& key : talk.keys()) {
            if (text == "change " + key) talk.reopen({key});
          }
          return works::yes_no_answer(text);
        },
        true);
  });
  result.said = out.str();
  return result;
}

TEST(TalkThatChanges, AsksOneQuestionAgainAndKeepsTheOtherAnswers) {
  const Changed changed = talk_that_changes("9\n5\n6\nchange width\n4\n\n");
  EXPECT_EQ(changed.end, TalkEnd::through) << changed.said;
  EXPECT_THAT(changed.numbers, testing::ElementsAre(9, 4, 6));
  const std::string behind = changed.said.substr(changed.said.find("change width"));
  EXPECT_THAT(behind, HasSubstr("The width [5]\n> 4\n"));
  EXPECT_THAT(behind, Not(HasSubstr("The height")));
  EXPECT_THAT(behind, Not(HasSubstr("Part length"))) << "nothing is said of what is not asked";
  EXPECT_THAT(behind, HasSubstr("That makes it."));
}

TEST(TalkThatChanges, AsksWhatNoLongerHoldsAsWell) {
  const Changed changed = talk_that_changes("9\n5\n6\nchange length\n5\n\n3\n\n");
  EXPECT_EQ(changed.end, TalkEnd::through) << changed.said;
  EXPECT_THAT(changed.numbers, testing::ElementsAre(5, 5, 3)) << changed.said;
}

TEST(TalkThatChanges, GoesBackFromTheQuestionAskedAgain) {
  const Changed changed = talk_that_changes("9\n5\n6\nchange width\nback\n8\n4\n\n");
  EXPECT_EQ(changed.end, TalkEnd::through) << changed.said;
  EXPECT_THAT(changed.numbers, testing::ElementsAre(8, 4, 6)) << changed.said;
}

TEST(TalkOf, SingleQuestionsTakesTheUsualAnswerOfTheRest) {
  std::istringstream in("3\n");
  std::ostringstream out;
  Talk talk(in, out, true);
  talk.ask_only([](std::string_view key) { return key == "b"; });
  std::vector<int> numbers;
  EXPECT_EQ(talk.run([&] {
    for (const char* key : {"a", "b", "c"})
      numbers.push_back(talk.ask<int>(
          {key, key, "7", ""}, [](auto text) { return works::count_answer(text, 0, 9, ""); }, 7));
  }),
            TalkEnd::through);
  EXPECT_THAT(numbers, testing::ElementsAre(7, 3, 7));
}

TEST(TalkOf, AnswersGoesThrough) {
  const Talked talked = talk_of_numbers("2\n3\n4\n");
  EXPECT_EQ(talked.end, TalkEnd::through);
  EXPECT_THAT(talked.numbers, testing::ElementsAre(3, 4));
  EXPECT_THAT(talked.said, HasSubstr("Which? [7]\n> "));
}

TEST(TalkOf, EnterTakesTheUsualAnswerAndOnlyWhereThereIsOne) {
  const Talked talked = talk_of_numbers("\n1\n\n");
  EXPECT_EQ(talked.end, TalkEnd::through);
  EXPECT_THAT(talked.numbers, testing::ElementsAre(7));
  EXPECT_THAT(talked.said, HasSubstr("An answer is needed here"));
}

TEST(TalkOf, AnAnswerNotUnderstoodIsToldWhatIsAllowedAndAskedAgain) {
  const Talked talked = talk_of_numbers("six\n6\n1\n200\n5\n");
  EXPECT_EQ(talked.end, TalkEnd::through);
  EXPECT_THAT(talked.numbers, testing::ElementsAre(5));
  EXPECT_THAT(talked.said, HasSubstr("Not understood. Allowed: a whole number from 0 to 5."));
  EXPECT_THAT(talked.said, HasSubstr("from 0 to 99"));
}

TEST(TalkOf, BackGoesToTheQuestionBeforeAndBranchesAnew) {
  const Talked talked = talk_of_numbers("2\n3\nback\nback\n1\n8\n");
  EXPECT_EQ(talked.end, TalkEnd::through);
  EXPECT_THAT(talked.numbers, testing::ElementsAre(8));
}

TEST(TalkOf, BackShowsWhatWasSaidBeforeAndEnterTakesIt) {
  const Talked talked = talk_of_numbers("2\n3\n4\n");
  const Talked again = talk_of_numbers("2\n3\nback\nback\n\n\n4\n");
  EXPECT_EQ(again.end, TalkEnd::through);
  EXPECT_EQ(again.numbers, talked.numbers);
  EXPECT_THAT(again.said, HasSubstr("How many? [2]"));
  EXPECT_THAT(again.said, HasSubstr("Which? [3]"));
}

TEST(TalkOf, BackAtTheFirstQuestionSaysSo) {
  const Talked talked = talk_of_numbers("back\n0\n");
  EXPECT_EQ(talked.end, TalkEnd::through);
  EXPECT_THAT(talked.said, HasSubstr("This is the first question"));
}

TEST(TalkOf, AQuestionMarkExplains) {
  EXPECT_THAT(talk_of_numbers("?\n0\n").said, HasSubstr("Of the numbers."));
}

TEST(TalkOf, QuitLeavesAndEndOfInputCutsOff) {
  EXPECT_EQ(talk_of_numbers("2\nquit\n").end, TalkEnd::left);
  EXPECT_EQ(talk_of_numbers("2\n3\n").end, TalkEnd::cut_off);
  EXPECT_EQ(talk_of_numbers("").end, TalkEnd::cut_off);
  EXPECT_EQ(talk_of_numbers("1\n4").end, TalkEnd::through) << "the last line may lack its end";
}

TEST(TalkOf, AFileIsEchoedSoThatItReadsLikeATalk) {
  const Talked talked = talk_of_numbers("# how many there are\n1\n4\n", true);
  EXPECT_EQ(talked.end, TalkEnd::through);
  EXPECT_THAT(talked.said, HasSubstr("How many?\n> 1\nNext.\nWhich? [7]\n> 4\n"));
  EXPECT_THAT(talked.said, Not(HasSubstr("how many there are")));
}

TEST(TalkOf, WhatWasSaidBetweenQuestionsIsSaidOnceEach) {
  const std::string said = talk_of_numbers("2\n3\nback\n3\n4\n").said;
  std::size_t times = 0;
  for (std::size_t at = said.find("Numbers"); at != std::string::npos; at = said.find("Numbers", at + 1))
    ++times;
  EXPECT_EQ(times, 1U);
}

TEST(TalkOf, ALineWithoutEndIsRefusedAndNotKept) {
  const Talked talked = talk_of_numbers(std::string(3000000, '1') + "\n0\n");
  EXPECT_EQ(talked.end, TalkEnd::through);
  EXPECT_THAT(talked.said, HasSubstr("at most 1000 characters"));
  EXPECT_LT(talked.said.size(), 5000U);
}

TEST(TalkOf, NonsenseWithoutEndIsGivenUp) {
  for (const char* line : {"x\n", "?\n", "back\n", "\n", "1\nback\n"}) {
    std::string input;
    while (input.size() < 60000)
      input += line;
    EXPECT_EQ(talk_of_numbers(input).end, TalkEnd::cut_off) << line;
  }
}

TEST(TalkOf, WhatTheScriptThrowsIsPassedOn) {
  std::istringstream in("1\n");
  std::ostringstream out;
  Talk talk(in, out, false);
  EXPECT_THROW((void)talk.run([] { throw std::runtime_error("x"); }), std::runtime_error);
}

RC_GTEST_PROP(TalkOfAnyBytes, EndsAndWritesText, (const std::string& input)) {
  const Talked talked = talk_of_numbers(input, true);
  RC_ASSERT(talked.end != TalkEnd::through || talked.numbers.size() <= 5);
  for (const char c : talked.said)
    RC_ASSERT(static_cast<unsigned char>(c) >= 32 || c == '\n');
}

TEST(ATalk, TakesRoughFiguresAndAgreement) {
  const Talked talked = talk_of_numbers("about 3\n40ish\nok\n12 or so\n");
  EXPECT_EQ(talked.numbers, (std::vector<int>{40, 7, 12})) << talked.said;
  EXPECT_THAT(talk_of_numbers("yes\n").said, HasSubstr("Not understood"))
      << "nothing stands in brackets there";
  EXPECT_EQ(talk_of_numbers("1\nnormal\n").numbers, std::vector<int>{7});
  EXPECT_THAT(talk_of_numbers("Help\nquit\n").said, HasSubstr("Of the numbers."));
  EXPECT_EQ(talk_of_numbers("1\nBack\n2\n1\n2\n").numbers, (std::vector<int>{1, 2}));
}

}  // namespace
}  // namespace weatherstruck::desk
