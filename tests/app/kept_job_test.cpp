// Commands on jobs that are kept, as their user gives them: the ways that go wrong, and the whole week.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "app/machine.h"
#include "app/run_binary.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

std::string demo(const std::string& name) {
  return in_source("fixtures/demo/" + name);
}

class KeptJob : public testing::Test {
 protected:
  void SetUp() override { EXPECT_EQ(home_.say({"job", "add", demo("job.json")}).code, ExitCode::ok); }
  Machine home_;
  const std::string job_ = "valley-shelter";
};

TEST_F(KeptJob, AServiceIsNotAskedBeforeItCanBeToldWhoAsks) {
  const Ended plan = home_.say({"plan", job_});
  EXPECT_EQ(plan.code, ExitCode::invalid);
  EXPECT_THAT(plan.err, HasSubstr("\"weatherstruck me\""));
}

TEST_F(KeptJob, OfflineWithoutAnyForecastSaysWhatToDo) {
  const Ended plan = home_.say({"plan", job_, "--offline"});
  EXPECT_EQ(plan.code, ExitCode::invalid);
  EXPECT_THAT(plan.err, HasSubstr("--forecast FILE"));
}

TEST_F(KeptJob, NamesThatAreNotKeptAndFilesWithoutABookAreRefused) {
  EXPECT_EQ(home_.say({"job", "add", demo("job.json")}).code, ExitCode::invalid);
  EXPECT_EQ(home_.say({"job", "add", demo("job.json"), "--replace"}).code, ExitCode::ok);
  EXPECT_THAT(home_.say({"quantities", "valley-sheltr"}).err, HasSubstr("perhaps\n  \"valley-shelter\""));
  EXPECT_THAT(home_.say({"log", demo("job.json"), "note: x"}).err, HasSubstr("Keep the job first"));
  EXPECT_EQ(home_.say({"invoice", demo("job.json")}).code, ExitCode::usage);
  EXPECT_EQ(home_.say({"sheet", job_, "poster"}).code, ExitCode::usage);
}

TEST_F(KeptJob, NothingIsLoggedThatNobodyAgreedTo) {
  const std::string words = "did set-out by 8:30";
  const std::vector<std::string> log{"log", job_, words, "--now", "2026-02-09T18:00"};
  EXPECT_THAT(home_.say(log).err, HasSubstr("--yes"));
  EXPECT_EQ(home_.say(log, "no\n", true).code, ExitCode::failed);
  EXPECT_EQ(home_.say(log, "", true).code, ExitCode::failed);
  EXPECT_THAT(home_.say({"log", job_}).out, HasSubstr("Nothing is in it yet"));
  EXPECT_THAT(home_.say(log, "perhaps\nyes\n", true).out, HasSubstr("Kept: 1 entry"));
  const Ended doubt = home_.say(
      {"log", job_, "did set-out by 8:30; frobbed the widget", "--yes", "--now", "2026-02-09T18:00"});
  EXPECT_EQ(doubt.code, ExitCode::invalid);
  EXPECT_THAT(doubt.err, HasSubstr("Nothing is kept"));
}

TEST_F(KeptJob, WhatIsUnderstoodStandsAndOnlyTheRestIsAsked) {
  const std::string words =
      "did three courses on the left, rained at two, stood down till four, covered it, bought 2 bags 9.80";
  const std::vector<std::string> log{"log", job_, words, "--now", "2026-02-10T18:00"};
  // Without anybody to ask nothing is kept, and each thing that is open is named with what would do.
  std::vector<std::string> sure = log;
  sure.emplace_back("--yes");
  const Ended alone = home_.say(sure);
  EXPECT_EQ(alone.code, ExitCode::invalid);
  EXPECT_THAT(alone.err, HasSubstr("Understood\n  Stood down 14:00 to 16:00: rain."));
  EXPECT_THAT(alone.err, HasSubstr("To be asked\n\"did three courses on the left\": \"left\" is no name"));
  EXPECT_THAT(alone.err, HasSubstr("\"covered it\": What was covered?\n    1  shelter"));
  EXPECT_THAT(alone.err, HasSubstr("Nothing is kept"));
  EXPECT_THAT(home_.say({"log", job_}).out, HasSubstr("Nothing is in it yet"));
  // The first answer settles what "it" is; the cover is still his to name.
  const Ended asked = home_.say(log, "1\n3\nyes\n", true);
  EXPECT_EQ(asked.code, ExitCode::ok) << asked.out << asked.err;
  EXPECT_THAT(asked.out, HasSubstr("1  bed-lay: Lay courses 1 to 5 of the bed"));
  EXPECT_THAT(asked.out, HasSubstr("Bed: covered with hessian under sheet at 18:00."));
  EXPECT_THAT(asked.out, HasSubstr("Kept: 4 entries."));
}

TEST_F(KeptJob, WhatIsLeftOutIsNamedAndOtherWordsTakeThePlaceOfAPiece) {
  const std::vector<std::string> log{"log", job_, "frobbed the widget, did set-out by 8:30; frobbed it again",
                                     "--now", "2026-02-09T18:00"};
  const Ended ended = home_.say(log, "did unload by 7:30\n\nyes\n", true);
  EXPECT_EQ(ended.code, ExitCode::invalid) << "something said is not in the book";
  EXPECT_THAT(ended.out, HasSubstr("Left out: \"frobbed it again\"."));
  EXPECT_THAT(ended.out, HasSubstr("Kept: 2 entries."));
  EXPECT_EQ(home_.say(log, "\n", true).code, ExitCode::invalid) << "cut off in the middle";
  EXPECT_THAT(home_.say({"log", job_, "frobbed", "--now", "2026-02-09T18:00"}, "\n", true).err,
              HasSubstr("Nothing is kept."));
}

TEST_F(KeptJob, NearNamesStandUnderAHeadingOfTheirOwn) {
  const Ended doubt = home_.say({"log", job_, "dug the barn path", "--yes", "--now", "2026-02-09T18:00"});
  EXPECT_THAT(doubt.err, HasSubstr("    Near to it: path-dig"));
  EXPECT_THAT(home_
                  .say({"log", job_,
                        "began the north trench of the shelter at 7:40, dug it by 9, 3 courses of "
                        "the bed at 16:10, stood down 2 to 3:30 rain, gauge 4 mm since 6, 200 facing "
                        "bricks left",
                        "--yes", "--now", "2026-02-09T18:00"})
                  .out,
              HasSubstr("Kept: 6 entries."))
      << "the example of the help";
}

TEST_F(KeptJob, ALineIsCorrectedOrStruckByItsNumber) {
  const auto at = [&](std::vector<std::string> words) {
    words.insert(words.end(), {"--yes", "--now", "2026-02-09T18:00"});
    return home_.say(words);
  };
  at({"log", job_, "did set-out by 8:30"});
  EXPECT_EQ(at({"log", job_, "--strike", "7"}).code, ExitCode::usage);
  EXPECT_EQ(at({"log", job_, "did set-out by 9:00", "--correct", "1"}).code, ExitCode::ok);
  EXPECT_EQ(at({"log", job_, "--strike", "2"}).code, ExitCode::ok);
  const std::string book = home_.say({"log", job_, "--now", "2026-02-09T18:00"}).out;
  EXPECT_THAT(book, HasSubstr("corrected since"));
  EXPECT_THAT(book, HasSubstr("struck out"));
}

TEST_F(KeptJob, WhatNeedsAKeptJobSaysSo) {
  const Ended plan = home_.say(
      {"calendar", demo("job.json"), "--forecast", demo("forecast-day1.json"), "--now", "2026-02-09T05:00"});
  EXPECT_EQ(plan.code, ExitCode::usage);
  EXPECT_THAT(plan.err, HasSubstr("Keep the job first"));
  EXPECT_EQ(home_.say({"credit", demo("job.json"), "1"}).code, ExitCode::usage);
  EXPECT_EQ(home_.say({"export", demo("job.json")}).code, ExitCode::usage);
  EXPECT_THAT(home_.say({"credit", job_, "1", "--reason", "x"}).err, HasSubstr("an invoice issued"));
  EXPECT_EQ(home_.say({"credit", job_, "none"}).code, ExitCode::usage);
  EXPECT_EQ(home_.say({"credit", job_, "1", "--line", "2=x"}).code, ExitCode::usage);
  EXPECT_THAT(home_.say({"export", job_, "--csv", "/dev/null/none"}).err, HasSubstr("could not be made"));
}

TEST_F(KeptJob, ABillNeedsRatesAndAPageAFolder) {
  EXPECT_THAT(home_.say({"invoice", job_}).err, HasSubstr("\"weatherstruck me\""));
  const Ended page = home_.say({"sheet", job_, "--forecast", demo("forecast-day1.json"), "--html",
                                (home_.folder() / "none" / "x.html").string(), "--now", "2026-02-09T05:00"});
  EXPECT_EQ(page.code, ExitCode::invalid);
  EXPECT_THAT(page.err, HasSubstr("could not be written"));
}

// The week of scripts/demo, from the first question to the invoice.
std::string week() {
  const Machine home;
  std::string all;
  const auto say = [&](const std::vector<std::string>& words, const std::string& input = "") {
    const Ended ended = home.say(words, input);
    EXPECT_TRUE(ended.code == ExitCode::ok || ended.code == ExitCode::no_plan)
        << testing::PrintToString(words) << ended.err;
    EXPECT_EQ(ended.out.find("FAILS ITS OWN CHECK"), std::string::npos) << testing::PrintToString(words);
    all += ended.out + ended.err;
  };
  const std::string job = "valley-shelter";
  say({"me", "--all", "--now", "2026-02-08T19:00"}, text_of(demo("me-answers.txt")));
  say({"job", "ask", "--all", "--now", "2026-02-08T19:30"}, text_of(demo("ask-answers.txt")));
  say({"morning", job, "--forecast", demo("forecast-day1.json"), "--now", "2026-02-09T04:30"});
  say({"sheet", job, "--offline", "--html", "-", "--now", "2026-02-09T04:40"});
  say({"calendar", job, "--offline", "--now", "2026-02-09T04:45"});
  const std::vector<std::string> dusk{"2026-02-09T18:30", "2026-02-10T20:15", "2026-02-11T20:15",
                                      "2026-02-12T17:25"};
  const std::vector<std::string> dawn{"2026-02-10T06:10", "2026-02-11T06:35", "2026-02-12T06:15"};
  for (std::size_t day = 0; day < dusk.size(); ++day) {
    say({"log", job, "--text", demo("log-day" + std::to_string(day + 1) + ".txt"), "--yes", "--now",
         dusk[day]});
    if (day < dawn.size())
      say({"morning", job, "--forecast", demo("forecast-day2.json"), "--now", dawn[day]});
  }
  for (const char* sheet : {"customer", "as-built"})
    say({"sheet", job, sheet, "--offline", "--html", "-", "--now", "2026-02-12T17:30"});
  say({"invoice", job, "--issue", "--yes", "--leave-open", "--now", "2026-02-12T17:45"});
  EXPECT_EQ(home.say({"invoice", job, "--issue", "--yes", "--leave-open", "--now", "2026-02-12T18:00"}).code,
            ExitCode::invalid)
      << "the same work is not billed twice";
  say({"invoice", job, "--show", "1", "--json", "--now", "2026-02-12T18:00"});
  say({"invoice", job, "--show", "1", "--ubl", (home.folder() / "bill.xml").string(), "--csv",
       (home.folder() / "bill.csv").string(), "--with", "seller/country=GB", "--with", "buyer/country=GB",
       "--with", "seller/registration=00000000", "--now", "2026-02-12T18:05"});
  all += text_of((home.folder() / "bill.xml").string()) + text_of((home.folder() / "bill.csv").string());
  say({"credit", job, "1", "--line", "1", "--reason", "a mistake", "--issue", "--yes", "--now",
       "2026-02-12T18:10"});
  say({"export", job, "--now", "2026-02-12T18:20"});
  say({"export", job, "--csv", (home.folder() / "tables").string(), "--now", "2026-02-12T18:20"});
  for (const char* table : {"book", "work", "materials", "plan", "covers", "invoices"})
    all += text_of((home.folder() / "tables" / (std::string(table) + ".csv")).string());
  return all;
}

TEST(Week, GivesTheSameBytesOnEveryRun) {
  const std::string once = week();
  EXPECT_EQ(week(), once);
  EXPECT_THAT(once, HasSubstr("Issued as 2026-1"));
  EXPECT_THAT(once, HasSubstr("Issued as 2026-2"));
  EXPECT_THAT(once, HasSubstr("BEGIN:VALARM"));
  EXPECT_THAT(once, HasSubstr("<cbc:PayableAmount currencyID=\"GBP\">"));
  EXPECT_THAT(once, HasSubstr("\"schema\": \"weatherstruck/job-export\""));
  // With hours in hand the plan of one morning must not drop what that of the day before had room for.
  EXPECT_EQ(once.find("Build the steps left out"), std::string::npos);
}

}  // namespace
}  // namespace weatherstruck::app
