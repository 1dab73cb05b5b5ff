#include "weatherstruck/app/command_line.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "weatherstruck/app/command_table.h"

namespace weatherstruck::app {
namespace {

using testing::ElementsAre;

Request read(std::vector<std::string> words) {
  return read_command_line(words);
}

std::string refused(std::vector<std::string> words) {
  try {
    static_cast<void>(read_command_line(words));
  } catch (const UsageError& error) {
    return error.what();
  }
  return "(accepted)";
}

TEST(CommandLine, GlobalOptionsStandBeforeOrAfterTheCommand) {
  for (const Request& request : {read({"--json", "--now", "2026-02-09T06:30", "light", "a.json"}),
                                 read({"light", "a.json", "--now=2026-02-09T06:30", "--json"}),
                                 read({"light", "--json", "a.json", "--now", "2026-02-09T06:30"})}) {
    EXPECT_EQ(request.kind, Request::Kind::run);
    EXPECT_EQ(request.command, find_command("light"));
    EXPECT_THAT(request.arguments.positionals, ElementsAre("a.json"));
    EXPECT_EQ(request.arguments.now, "2026-02-09T06:30");
    EXPECT_TRUE(request.arguments.json);
  }
}

TEST(CommandLine, ForecastsComeInTheirOrderAndTakeOneFileEach) {
  const Request request = read({"why", "--forecast", "1.json", "a.json", "--forecast", "2.json", "plan"});
  EXPECT_THAT(request.arguments.forecasts, ElementsAre("1.json", "2.json"));
  EXPECT_THAT(request.arguments.positionals, ElementsAre("a.json", "plan"));
}

TEST(CommandLine, CommandWordsAreNoCommandsOnceOneIsChosen) {
  EXPECT_THAT(read({"van", "light"}).arguments.positionals, ElementsAre("light"));
  EXPECT_THAT(read({"job", "check", "plan"}).arguments.positionals, ElementsAre("plan"));
}

TEST(CommandLine, HelpAndVersionNeedNothingElse) {
  EXPECT_EQ(read({}).kind, Request::Kind::help);
  EXPECT_EQ(read({"--help"}).kind, Request::Kind::help);
  EXPECT_EQ(read({"plan", "-h"}).command, find_command("plan"));
  EXPECT_EQ(read({"job", "check", "--help"}).command, find_command("job check"));
  EXPECT_EQ(read({"--version"}).kind, Request::Kind::version);
}

TEST(CommandLine, FaultsAreToldInOurOwnWords) {
  const std::string help = " See \"weatherstruck --help\".";
  EXPECT_EQ(refused({"plam", "x"}), "No command \"plam\". Did you mean \"plan\"?" + help);
  EXPECT_EQ(refused({"nonsense", "--help"}), "No command \"nonsense\"." + help);
  EXPECT_EQ(refused({"job"}),
            "\"job\" wants a second word: job ask, job blank, job check, job add, job list, job show, job "
            "turn and job copy." +
                help);
  EXPECT_EQ(refused({"job", "chek", "f"}), "No command \"job chek\". Did you mean \"check\"?" + help);
  EXPECT_EQ(refused({"forcast", "show", "f"}),
            "No command \"forcast\". Did you mean \"forecast show\"?" + help);
  EXPECT_EQ(refused({"--json"}), "Say what to do." + help);
  EXPECT_EQ(refused({"light"}),
            "\"light\" wants JOB: its name, or a file. See \"weatherstruck light --help\".");
  EXPECT_EQ(refused({"light", "a", "b"}),
            "\"light\": one word too many: b. See \"weatherstruck light --help\".");
  EXPECT_EQ(refused({"light", "a", "--forecast", "f"}),
            "\"light\" takes no --forecast. See \"weatherstruck light --help\".");
  EXPECT_EQ(refused({"light", "a", "--jsn"}),
            "No option --jsn. Did you mean \"--json\"? See \"weatherstruck light --help\".");
  EXPECT_EQ(refused({"plan", "a", "--forecast"}), "--forecast wants a file." + help);
  EXPECT_EQ(refused({"invoice", "a", "--show"}), "--show wants a value." + help);
  EXPECT_EQ(refused({"light", "a", "--now", "2026-02-09T05:00", "--now", "2026-02-09T05:00"}),
            "--now is given 2 times. Once is allowed.");
  EXPECT_EQ(refused({"light", "a", "--seed", "-3"}),
            "--seed: found \"-3\"; allowed: a whole number of at most 19 digits.");
  EXPECT_EQ(refused({"light", "a", "--now"}), "--now wants a value." + help);
  EXPECT_EQ(
      refused({"light", "a", "--now", "soon"}),
      "--now: found \"soon\"; allowed: a time such as 2026-02-09T06:30, in the site's time or with an offset "
      "(2026-02-09T06:30Z).");
}

TEST(CommandLine, OptionsOfACommandReachItAndWordsThatAreLeftAreAllTaken) {
  const Request log = read({"log", "shed", "3", "courses", "--yes", "--correct", "4"});
  EXPECT_EQ(log.arguments.positionals, (std::vector<std::string>{"shed", "3", "courses"}));
  EXPECT_TRUE(log.arguments.has("--yes"));
  EXPECT_EQ(log.arguments.value("--correct"), "4");
  EXPECT_FALSE(log.arguments.has("--strike"));
  EXPECT_EQ(read({"log", "shed"}).arguments.positionals.size(), 1U);
  EXPECT_EQ(read({"sheet", "shed"}).arguments.positionals.size(), 1U);
  const Request bill = read({"invoice", "shed", "--hours", "a=1", "--hours", "b=2"});
  EXPECT_EQ(bill.arguments.options.at("--hours"), (std::vector<std::string>{"a=1", "b=2"}));
  EXPECT_TRUE(read({"now", "shed", "--offline"}).arguments.offline);
  EXPECT_EQ(refused({"plan", "a", "--yes"}), "\"plan\" takes no --yes. See \"weatherstruck plan --help\".");
}

TEST(CommandLine, SeedsHoldNineteenDigits) {
  EXPECT_EQ(read({"light", "a", "--seed", "9999999999999999999"}).arguments.seed, 9999999999999999999ULL);
}

TEST(CommandLine, HelpIsAWordAsWell) {
  EXPECT_EQ(read({"help"}).kind, Request::Kind::help);
  EXPECT_EQ(read({"help", "plan"}).kind, Request::Kind::help);
  EXPECT_EQ(read({"help", "plan"}).command, read({"plan", "--help"}).command);
}

}  // namespace
}  // namespace weatherstruck::app
