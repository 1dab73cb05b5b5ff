#include "weatherstruck/app/manual.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/run_binary.h"
#include "weatherstruck/app/command_table.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

std::string plain(std::string roff) {
  for (std::size_t at = roff.find("\\-"); at != std::string::npos; at = roff.find("\\-", at))
    roff.erase(at, 1);
  return roff;
}

TEST(Manual, CommittedManPageAndCompletionAreWhatTheTableGives) {
  EXPECT_EQ(text_of(in_source("docs/weatherstruck.1")), man_page())
      << "scripts/update-golden writes it again";
  EXPECT_EQ(text_of(in_source("docs/completion.bash")), bash_completion())
      << "scripts/update-golden writes it again";
}

TEST(Manual, EveryCommandAndOptionIsInHelpManPageAndCompletion) {
  const std::string help = overview(render::Ink::plain);
  const std::string man = plain(man_page());
  const std::string completion = bash_completion();
  for (const Command& command : commands()) {
    EXPECT_THAT(help, HasSubstr("  " + command.row.name + " "));
    EXPECT_THAT(man, HasSubstr(".SS " + command.row.name));
    const std::string& name = command.row.name;
    EXPECT_THAT(completion, HasSubstr(name.substr(0, name.find(' '))));
    EXPECT_THAT(completion, HasSubstr(name.substr(name.find(' ') + 1)));
  }
  for (const Option& option : global_options()) {
    EXPECT_THAT(help, HasSubstr(option.name));
    EXPECT_THAT(man, HasSubstr(option.name));
    EXPECT_THAT(completion, HasSubstr(option.name));
  }
}

TEST(Manual, HelpOfACommandShowsItsUseOptionsAndAnExample) {
  const std::string help = help_for(find_command("why")->row, render::Ink::plain);
  EXPECT_THAT(help, HasSubstr("weatherstruck why JOB TASK [options]"));
  EXPECT_THAT(help, HasSubstr("--forecast FILE"));
  EXPECT_THAT(help, HasSubstr("For example"));
}

}  // namespace
}  // namespace weatherstruck::app
