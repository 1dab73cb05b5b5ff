#include "weatherstruck/app/program.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "app/run_binary.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

base::Instant fixed_clock() {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / 9) + std::chrono::hours(5);
}

base::Instant no_clock() {
  throw std::logic_error("the clock was read");
}

std::filesystem::path no_record() {
  throw std::logic_error("the record was opened");
}

struct Ended {
  ExitCode code;
  std::string out;
  std::string err;
};

Ended run(const std::vector<std::string>& words, bool terminal = false, bool plain = false,
          base::Instant (*now)() = fixed_clock) {
  std::ostringstream out;
  std::ostringstream err;
  std::istringstream in;
  const ExitCode code = run_program(words, {out, err, terminal, plain, now, "9.9", in, false, no_record});
  return {code, out.str(), err.str()};
}

TEST(Program, HelpVersionAndRefusalsReadNoClock) {
  EXPECT_EQ(run({"--help"}, false, false, no_clock).code, ExitCode::ok);
  const Ended version = run({"--version"}, false, false, no_clock);
  EXPECT_EQ(version.code, ExitCode::ok);
  EXPECT_THAT(version.out, StartsWith("weatherstruck 9.9, time zones 20"));
  EXPECT_EQ(run({"nonsense"}, false, false, no_clock).code, ExitCode::usage);
}

TEST(Program, BoldIsForTerminalsThatAreNotPlainAndWantIt) {
  EXPECT_THAT(run({"--help"}, true).out, HasSubstr("\x1b[1m"));
  EXPECT_THAT(run({"--help"}, true, true).out, testing::Not(HasSubstr("\x1b")));
  EXPECT_THAT(run({"--help", "--no-color"}, true).out, testing::Not(HasSubstr("\x1b")));
  EXPECT_THAT(run({"--help"}).out, testing::Not(HasSubstr("\x1b")));
}

TEST(Program, FaultyFilesEndWithThreeAndGiveTheSameFaultsTwice) {
  const std::string path = in_source("tests/app/golden/faulty.json");
  const Ended text = run({"job", "check", path});
  EXPECT_EQ(text.code, ExitCode::invalid);
  EXPECT_EQ(text.out, "");
  EXPECT_THAT(text.err, HasSubstr("titel"));
  EXPECT_THAT(text.err, HasSubstr("faults, nothing done.\n"));
  const Ended json = run({"job", "check", path, "--json"});
  EXPECT_EQ(json.code, ExitCode::invalid);
  EXPECT_THAT(json.out, HasSubstr("\"schema\": \"weatherstruck/faults\""));
  EXPECT_EQ(json.err, text.err);
}

TEST(Program, AMissingFileIsAFaultOfTheInput) {
  EXPECT_EQ(run({"light", "/no/such/job.json"}).code, ExitCode::invalid);
  EXPECT_EQ(run({"plan", in_source("fixtures/demo/job.json"), "--forecast", "/no/such.json"}).code,
            ExitCode::invalid);
}

TEST(Program, AClockTimeThatNobodySawIsAFaultOfUse) {
  const Ended ended = run({"plan", in_source("fixtures/demo/job.json"), "--forecast",
                           in_source("fixtures/demo/forecast-day1.json"), "--now", "2026-03-29T01:30"});
  EXPECT_EQ(ended.code, ExitCode::usage);
  EXPECT_THAT(ended.err, HasSubstr("--now: found 2026-03-29T01:30"));
}

TEST(Program, AForecastThatIsOverEndsWithFive) {
  const std::string path = testing::TempDir() + "over.csv";
  std::ofstream(path)
      << "time,temperature (degC),rain (mm),wind (m/s)\n2026-02-08T10:00Z,4,0,3\n2026-02-08T11:00Z,4,0,3\n";
  const Ended ended =
      run({"morning", in_source("fixtures/demo/job.json"), "--forecast", path, "--now", "2026-02-09T06:00"});
  EXPECT_EQ(ended.code, ExitCode::stale) << ended.err;
  EXPECT_EQ(ended.err, "The forecast ended Sun 8 Feb 12:00, before Mon 9 Feb 06:00. Fetch a newer one.\n");
  std::remove(path.c_str());
}

TEST(Program, AForecastForAnotherPlaceIsSaidOnTheSheetAndBesideIt) {
  std::string job = text_of(in_source("fixtures/demo/job.json"));
  const std::string here = "\"latitude\": 52.06";
  const auto at = job.find(here);
  ASSERT_NE(at, std::string::npos);
  const std::string path = testing::TempDir() + "weatherstruck-elsewhere.json";
  std::ofstream(path) << job.replace(at, here.size(), "\"latitude\": 55.06");
  const Ended ended = run({"plan", path, "--forecast", in_source("fixtures/demo/forecast-day1.json"), "--now",
                           "2026-02-09T04:50"});
  // Where the lines break depends on how long the file's path is.
  const auto unwrapped = [](const std::string& text) {
    std::istringstream words(text);
    std::string joined;
    for (std::string word; words >> word;)
      joined += word + " ";
    return joined;
  };
  EXPECT_THAT(unwrapped(ended.err),
              HasSubstr("is for a place 334 km from the site. Check that it is the right file."));
  EXPECT_THAT(unwrapped(ended.out), HasSubstr("is for a place 334 km from the site."));
  std::remove(path.c_str());
}

TEST(Program, OutputThatCannotBeWrittenIsAFailure) {
  std::ostringstream out;
  out.setstate(std::ios::badbit);
  std::ostringstream err;
  std::istringstream in;
  EXPECT_EQ(run_program({"--help"}, {out, err, false, false, fixed_clock, "9.9", in, false, no_record}),
            ExitCode::failed);
  EXPECT_THAT(err.str(), HasSubstr("could not be written"));
}

}  // namespace
}  // namespace weatherstruck::app
