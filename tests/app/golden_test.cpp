// Every case of golden/cases.txt: exit code, silence on stderr where all went well, and stdout to the byte.
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <vector>

#include "app/run_binary.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::app {
namespace {

struct Case {
  std::string name;
  int code = 0;
  std::string arguments;
};

// Else a failing case is listed as its bytes.
void PrintTo(const Case& one, std::ostream* out) {
  *out << one.arguments;
}

std::vector<Case> cases() {
  std::vector<Case> out;
  std::istringstream lines(text_of(in_source("tests/app/golden/cases.txt")));
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::istringstream words(line);
    Case one;
    words >> one.name >> one.code >> std::ws;
    std::getline(words, one.arguments);
    out.push_back(one);
  }
  return out;
}

class Golden : public testing::TestWithParam<Case> {};

TEST_P(Golden, OutputIsAsHeld) {
  const Case& one = GetParam();
  const Ran ran = run_binary(one.arguments);
  EXPECT_EQ(ran.code, one.code) << ran.err;
  EXPECT_EQ(ran.out, text_of(in_source("tests/app/golden/" + one.name + ".txt")))
      << "scripts/update-golden writes it again";
  EXPECT_EQ(ran.err.empty(), one.code == 0) << ran.err;
  for (const char* form : {"--json", "--svg", "--html"}) {
    if (one.arguments.find(form) != std::string::npos) return;  // not for the eye as it is
  }
  std::istringstream lines(ran.out + ran.err);
  for (std::string line; std::getline(lines, line);)
    EXPECT_LE(base::display_width(line), 80U) << line;
}

TEST_P(Golden, TheSameBytesTwice) {
  EXPECT_EQ(run_binary(GetParam().arguments).out, run_binary(GetParam().arguments).out);
}

std::string name_of(const testing::TestParamInfo<Case>& one) {
  std::string name = one.param.name;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

// A morning fits one page of A4 at 10 points, 60 lines: forty-five are the aim, a day of fifteen tasks, or
// one with much to say of the night and of what moved, takes more.
// A4 with margins of 15 mm holds 63 lines of 12 points.
TEST(Morning, IsOnePage) {
  int mornings = 0;
  for (const Case& one : cases()) {
    if (one.name.rfind("morning-", 0) != 0) continue;
    ++mornings;
    const std::string sheet = run_binary(one.arguments).out;
    EXPECT_LE(std::count(sheet.begin(), sheet.end(), '\n'), 60) << one.name;
  }
  EXPECT_EQ(mornings, 2);
}

INSTANTIATE_TEST_SUITE_P(Cases, Golden, testing::ValuesIn(cases()), name_of);

}  // namespace
}  // namespace weatherstruck::app
