// What `limits` takes its words for, and what its answer holds.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "app/machine.h"
#include "app/run_binary.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/trade/limits_list.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

class Limits : public testing::Test {
 protected:
  Ended say(const std::vector<std::string>& words) const { return machine_.say(words); }
  [[nodiscard]] files::Json json(std::vector<std::string> words) const {
    words.insert(words.begin(), {"--json", "limits"});
    return files::Json::parse(say(words).out);
  }
  const std::string file_ = in_source("tests/files/complete_job.json");

 private:
  Machine machine_;
};

TEST_F(Limits, AnswerHoldsEveryRowWithItsFiguresClassAndSource) {
  const files::Json answer = json({});
  EXPECT_EQ(answer["schema"], "weatherstruck/limits");
  EXPECT_TRUE(answer["job"].is_null());
  EXPECT_EQ(answer["rows"].size(), trade::listed_rows().size());
  const files::Json gust = json({"canopy-gust"})["rows"][0];
  EXPECT_EQ(gust["figures"][0]["value"], 11.0);
  EXPECT_EQ(gust["figures"][0]["unit"], "m/s");
  EXPECT_EQ(gust["class"], "safety");
  EXPECT_EQ(gust["standing"], "common practice, no source");
  EXPECT_EQ(gust["set_in"], "limits.overrides");
  EXPECT_TRUE(gust["set"].is_null());
  EXPECT_EQ(gust.count("set_by_job"), 0U);
}

TEST_F(Limits, AnswerForAJobSaysWhatTheJobSets) {
  const files::Json answer = json({file_});
  EXPECT_FALSE(answer["job"].is_null());
  EXPECT_FALSE(answer["set"].is_null());
  int own = 0;
  for (const auto& row : answer["rows"]) {
    ASSERT_TRUE(row["set_by_job"].is_boolean());
    EXPECT_EQ(row["set_by_job"].get<bool>(), row.count("job_value") == 1);
    if (row["set_by_job"].get<bool>() && row["table"] == "limit") ++own;
  }
  EXPECT_GT(own, 0) << "complete_job.json sets limits of its own";
}

TEST_F(Limits, AKeptJobIsMeantByItsNameAndElseAWordIsAWord) {
  EXPECT_EQ(say({"limits", "valley-shelter"}).code, ExitCode::usage);
  EXPECT_EQ(say({"job", "add", in_source("fixtures/demo/job.json")}).code, ExitCode::ok);
  EXPECT_THAT(say({"limits", "valley-shelter"}).out, HasSubstr("Limits of valley-shelter"));
  EXPECT_THAT(say({"limits", "valley-shelter", "canopy-gust"}).out, HasSubstr("limits.overrides"));
  EXPECT_THAT(say({"limits", "canopy-gust"}).out, HasSubstr("Gust before which a canopy is down"));
}

TEST_F(Limits, WhatIsWrongIsToldWithWhatWouldDo) {
  const Ended typed = say({"limits", "canopy-gsut"});
  EXPECT_EQ(typed.code, ExitCode::usage);
  EXPECT_THAT(typed.err, HasSubstr("Did you mean \"canopy-gust\"?"));
  EXPECT_THAT(typed.err, HasSubstr("no job of that name is kept"));
  EXPECT_THAT(say({"limits", "frost", "zebra"}).err, HasSubstr("lists them all"));
  EXPECT_THAT(say({"limits", "--set", "eu"}).err, HasSubstr("allowed: uk or us"));
  EXPECT_THAT(say({"limits", file_, "--set", "us"}).err, HasSubstr("leave one out"));
  EXPECT_EQ(say({"limits", "no-such.json"}).code, ExitCode::invalid);
}

TEST_F(Limits, PageIsThatOfDocs) {
  EXPECT_TRUE(say({"limits", "--page"}).out == text_of(in_source("docs/limits.md")))
      << "scripts/update-golden writes it again";
}

}  // namespace
}  // namespace weatherstruck::app
