// The commands that ask, from an empty folder to a job that can be planned.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "app/run_binary.h"
#include "record/scratch.h"
#include "weatherstruck/app/program.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

base::Instant saturday_evening() {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / 7) + std::chrono::hours(18);
}

struct Ended {
  ExitCode code;
  std::string out;
  std::string err;
};

class Asking : public testing::Test {
 protected:
  Ended run(const std::vector<std::string>& words, const std::string& answers = "") {
    std::ostringstream out;
    std::ostringstream err;
    std::istringstream in(answers);
    const ExitCode code = run_program(words, {out, err, false, false, saturday_evening, "9.9", in, false,
                                              [this] { return scratch_.file(); }});
    return {code, out.str(), err.str()};
  }
  static std::string answers(const std::string& which) {
    return text_of(in_source("fixtures/demo/" + which + "-answers.txt"));
  }
  void be_known() { ASSERT_EQ(run({"me", "--all"}, answers("me")).code, ExitCode::ok); }
  void have_the_job() {
    be_known();
    const Ended asked = run({"job", "ask", "--all"}, answers("ask"));
    ASSERT_EQ(asked.code, ExitCode::ok) << asked.out << asked.err;
  }
  files::Json kept_job() {
    return *files::parse_json(run({"job", "show", "valley-shelter", "--json"}).out,
                              files::JsonLimits::job_document())
                .value;
  }

 private:
  record::Scratch scratch_;
};

TEST_F(Asking, AJobBeforeHeIsKnownSendsHimToSayWhoHeIs) {
  const Ended asked = run({"job", "ask", "--all"}, answers("ask"));
  EXPECT_EQ(asked.code, ExitCode::invalid);
  EXPECT_THAT(asked.err, HasSubstr("Say first who you are: run \"weatherstruck me\" once."));
  EXPECT_THAT(asked.err, testing::Not(HasSubstr("found")));
  EXPECT_EQ(run({"me", "--json"}).code, ExitCode::invalid);
}

TEST_F(Asking, WhoHeIsIsKeptShownAndPrinted) {
  be_known();
  const Ended again = run({"me"});
  EXPECT_EQ(again.code, ExitCode::ok);
  EXPECT_THAT(again.out, HasSubstr("Tegwen Brickfield"));
  EXPECT_THAT(again.out, HasSubstr("Change any of it? [no]"));
  EXPECT_THAT(again.out, HasSubstr("As it was."));
  EXPECT_THAT(run({"me", "--json"}).out, HasSubstr("\"contact\": \"post@brickfield.example\""));
}

TEST_F(Asking, WhatIsNamedIsChangedAlone) {
  be_known();
  const Ended changed = run({"me"}, "the van\n900 kg\n");
  EXPECT_EQ(changed.code, ExitCode::ok) << changed.out;
  const std::string now = run({"me", "--json"}).out;
  EXPECT_THAT(now, HasSubstr("\"van_payload\": 900"));
  EXPECT_THAT(now, HasSubstr("\"name\": \"Tegwen Brickfield\""));
}

TEST_F(Asking, AMailAddressIsAskedForInPlainWordsAndKeptAlone) {
  EXPECT_EQ(run({"me", "--contact", "post@brickfield.example"}).code, ExitCode::invalid);
  ASSERT_EQ(run({"me", "--all"}, "Tegwen\n\n\n" + std::string(20, '\n')).code, ExitCode::ok);
  ASSERT_EQ(run({"job", "ask", "--all"}, answers("ask")).code, ExitCode::ok);
  const Ended plan = run({"plan", "valley-shelter"});
  EXPECT_EQ(plan.code, ExitCode::invalid);
  EXPECT_THAT(plan.err, HasSubstr("The weather services want a mail address of whoever asks."));
  EXPECT_THAT(plan.err, HasSubstr("weatherstruck me --contact"));
  EXPECT_THAT(plan.err, testing::Not(HasSubstr("found")));
  EXPECT_EQ(run({"me", "--contact", "nowhere"}).code, ExitCode::usage);
  EXPECT_EQ(run({"me", "--contact", "post@brickfield.example"}).code, ExitCode::ok);
  EXPECT_THAT(run({"me", "--json"}).out, HasSubstr("post@brickfield.example"));
}

TEST_F(Asking, AChangeIsKeptAndTheRestStays) {
  be_known();
  const Ended changed = run({"me"}, "yes\nTegwen B.\n" + std::string(30, '\n'));
  EXPECT_EQ(changed.code, ExitCode::ok) << changed.out;
  const std::string now = run({"me", "--json"}).out;
  EXPECT_THAT(now, HasSubstr("\"name\": \"Tegwen B.\""));
  EXPECT_THAT(now, HasSubstr("post@brickfield.example"));
  EXPECT_THAT(now, HasSubstr("38.00 GBP"));
  EXPECT_EQ(run({"me"}, "yes\nSomebody else\nquit\n").code, ExitCode::failed);
  EXPECT_EQ(run({"me", "--json"}).out, now);
}

TEST_F(Asking, AJobIsKeptAndPassesItsCheck) {
  have_the_job();
  EXPECT_EQ(run({"job", "check", "valley-shelter"}).code, ExitCode::ok);
  EXPECT_EQ(run({"quantities", "valley-shelter"}).code, ExitCode::ok);
  EXPECT_EQ(kept_job()["price"]["fixed"], "4850.00 GBP");
}

TEST_F(Asking, AnswersThatEndHalfWayLeaveNoJob) {
  be_known();
  const std::string all = answers("ask");
  for (std::size_t end = all.find('\n'); end + 1 < all.size(); end = all.find('\n', end + 1)) {
    const Ended asked = run({"job", "ask"}, all.substr(0, end + 1));
    EXPECT_EQ(asked.code, ExitCode::failed);
    EXPECT_THAT(asked.err, HasSubstr("Nothing is kept."));
  }
  EXPECT_EQ(run({"job", "ask"}, "Shed\nquit\n").code, ExitCode::failed);
  EXPECT_EQ(run({"job", "show", "valley-shelter"}).code, ExitCode::invalid);
  EXPECT_EQ(run({"job", "ask"}, all).code, ExitCode::ok) << "and nothing stands in the way afterwards";
}

TEST_F(Asking, APartIsTurnedAndTurnedBack) {
  have_the_job();
  const files::Json before = kept_job();
  const Ended turned = run({"job", "turn", "valley-shelter", "shelter", "left"});
  EXPECT_EQ(turned.code, ExitCode::ok) << turned.err;
  EXPECT_THAT(turned.out, HasSubstr("before  after"));
  EXPECT_EQ(kept_job()["parts"][0]["door_side"], "east");
  const Ended json = run({"job", "turn", "valley-shelter", "shelter", "--json"});
  EXPECT_THAT(json.out, HasSubstr("\"schema\": \"weatherstruck/job-turn\""));
  EXPECT_EQ(kept_job(), before);
  EXPECT_EQ(run({"job", "turn", "valley-shelter", "path"}).code, ExitCode::invalid);
  EXPECT_EQ(run({"job", "turn", "valley-shelter", "sheltr"}).code, ExitCode::invalid);
  EXPECT_EQ(run({"job", "turn", "valley-shelter", "shelter", "up"}).code, ExitCode::usage);
  EXPECT_EQ(kept_job(), before);
}

TEST_F(Asking, ACopyHasItsOwnNameAndTrip) {
  have_the_job();
  const Ended copied =
      run({"job", "copy", "valley-shelter", "next-door"}, "Mon 16 Feb 5:00\nThu 21:00\nyes\n");
  EXPECT_EQ(copied.code, ExitCode::ok) << copied.out << copied.err;
  EXPECT_THAT(run({"job", "show", "next-door", "--json"}).out, HasSubstr("2026-02-16T05:00"));
  EXPECT_EQ(run({"job", "copy", "valley-shelter", "next-door"}, "").code, ExitCode::invalid) << "taken";
  EXPECT_EQ(run({"job", "copy", "valley-shelter", "third"}, "Mon 16 Feb 5:00\n").code, ExitCode::failed);
  EXPECT_EQ(run({"job", "show", "third"}).code, ExitCode::invalid);
  const Ended spaced =
      run({"job", "copy", "valley-shelter", "Log store two"}, "Mon 16 Feb 5:00\nThu 21:00\nyes\n");
  EXPECT_EQ(spaced.code, ExitCode::ok) << spaced.err;
  EXPECT_THAT(spaced.out, HasSubstr("It is called log-store-two."));
  EXPECT_THAT(run({"job", "show", "log-store-two", "--json"}).out, HasSubstr("\"name\": \"log-store-two\""));
}

TEST_F(Asking, CommandsThatAskHaveNoJson) {
  EXPECT_EQ(run({"job", "ask", "--json"}).code, ExitCode::usage);
  EXPECT_EQ(run({"job", "copy", "a", "b", "--json"}).code, ExitCode::usage);
}

TEST_F(Asking, TheSameAnswersGiveTheSameBytes) {
  be_known();
  const std::string first = run({"job", "ask", "--all"}, answers("ask")).out;
  std::string other = answers("ask");
  other.replace(other.find("valley-shelter"), 14, "valley-shelteq");
  std::string second = run({"job", "ask", "--all"}, other).out;
  for (std::size_t at = second.find("valley-shelteq"); at != std::string::npos;
       at = second.find("valley-shelteq"))
    second.replace(at, 14, "valley-shelter");
  EXPECT_EQ(second, first);
}

}  // namespace
}  // namespace weatherstruck::app
