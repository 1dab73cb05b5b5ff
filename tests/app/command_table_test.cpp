#include "weatherstruck/app/command_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iomanip>
#include <set>
#include <sstream>

#include "weatherstruck/app/command_line.h"

namespace weatherstruck::app {
namespace {

TEST(CommandTable, NamesAreUniqueAndRowsComplete) {
  std::set<std::string> names;
  for (const Command& command : commands()) {
    const CommandRow& row = command.row;
    EXPECT_TRUE(names.insert(row.name).second) << row.name;
    EXPECT_FALSE(row.help.empty()) << row.name;
    EXPECT_NE(row.help.back(), '.') << row.name;
    EXPECT_EQ(row.about.back(), '.') << row.name;
    EXPECT_FALSE(row.examples.empty()) << row.name;
    EXPECT_NE(command.setup, nullptr) << row.name;
  }
  EXPECT_EQ(find_command("plan")->row.name, "plan");
  EXPECT_EQ(find_command("pla"), nullptr);
}

// An example that the program itself would refuse teaches nothing.
TEST(CommandTable, ExamplesAreAcceptedAsTheyStand) {
  for (const Command& command : commands()) {
    for (const Example& example : command.row.examples) {
      std::vector<std::string> words;
      std::istringstream line(
          example.line.substr(0, std::min(example.line.find(" >"), example.line.find(" <"))));
      for (std::string word; line >> std::quoted(word);)
        words.push_back(word);
      Request request;
      EXPECT_NO_THROW(request = read_command_line(words)) << example.line;
      EXPECT_EQ(request.command, &command) << example.line;
    }
  }
}

TEST(CommandTable, SettingUpACommandTouchesNothing) {
  for (const Command& command : commands()) {
    Arguments arguments;
    for (const Positional& positional : command.row.positionals) {
      if (positional.kind == Positional::Kind::needed) arguments.positionals.emplace_back("/no/such/file");
    }
    if (command.row.forecast) arguments.forecasts = {"/no/such/forecast"};
    EXPECT_NO_THROW(static_cast<void>(command.setup(arguments))) << command.row.name;
  }
}

}  // namespace
}  // namespace weatherstruck::app
