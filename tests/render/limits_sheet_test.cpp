#include "weatherstruck/render/limits_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;
using trade::ListedRow;

LimitsFacts everything() {
  return limits_facts(std::nullopt, {});
}

works::Job job_with(std::vector<works::LimitOverride> overrides) {
  works::Job job = sample::trip().job;
  job.limits.set = trade::LimitSet::uk;
  job.limits.cold_rule = trade::ColdRule::nhbc;
  job.limits.overrides = std::move(overrides);
  return job;
}

TEST(LimitsList, HasEveryKeyWordAndSourceOnEightyColumns) {
  const LimitsFacts facts = everything();
  ASSERT_EQ(facts.rows.size(), trade::listed_rows().size());
  const std::string text = limits_list(facts, Ink::plain);
  EXPECT_LE(sample::widest(text), page_width);
  std::string flat;  // the wrapped lines of a sentence in one
  std::istringstream words(text);
  for (std::string word; words >> word;)
    flat += word + ' ';
  for (const ListedRow& row : facts.rows) {
    EXPECT_THAT(text, HasSubstr("  " + row.key)) << row.key;
    EXPECT_THAT(flat, HasSubstr(row.title)) << row.key;
    EXPECT_THAT(flat, HasSubstr(std::string(row.source.text))) << row.key;
  }
}

TEST(LimitsList, SaysUnitClassAndSetOfALimit) {
  const std::string text = limits_list(everything(), Ink::plain);
  EXPECT_THAT(text, HasSubstr("brick-cold-resume"));
  EXPECT_THAT(text, testing::ContainsRegex("  brick-cold-resume +1 °C +damage +uk nhbc +1\n"));
  EXPECT_THAT(text, testing::ContainsRegex("\n +4.4 °C \\(40 °F\\) +damage +us +[0-9]+\n"));
  EXPECT_THAT(text, testing::ContainsRegex("  canopy-gust +11 m/s \\(25 mph\\) +safety +both +[0-9]+\n"));
  EXPECT_THAT(text, HasSubstr("common practice, no source: 25 mph for a pop-up canopy"));
}

TEST(LimitsList, UnderASetShowsItsRowsAlone) {
  const LimitsFacts american = limits_facts(trade::LimitSet::us, {});
  for (const ListedRow& row : american.rows)
    EXPECT_NE(row.set, trade::LimitSet::uk) << row.key;
  const auto has = [](const LimitsFacts& facts, std::string_view key) {
    return std::any_of(facts.rows.begin(), facts.rows.end(),
                       [&](const ListedRow& row) { return row.key == key; });
  };
  EXPECT_TRUE(has(american, trade::limit::trench_support));
  EXPECT_FALSE(has(limits_facts(trade::LimitSet::uk, {}), trade::limit::trench_support));
}

TEST(LimitsList, MarksWhatTheJobSetsItself) {
  works::Job job = job_with({{"canopy-gust", 9}, {"mortar-life", 1.5}});
  job.practice.brick_waste = 0.08;
  job.crew.front().pace = 1.2;
  const LimitsFacts facts = limits_facts(job, {});
  const std::string text = limits_list(facts, Ink::plain);
  EXPECT_THAT(text, HasSubstr("The job sets 3 of these itself, marked *."));
  EXPECT_THAT(text, HasSubstr("Pace against the norm: " + job.crew.front().name + " 1.2."));
  EXPECT_THAT(text, HasSubstr("11 m/s (25 mph) *"));
  EXPECT_THAT(text, HasSubstr("* the job sets 9 m/s (20 mph)"));
  EXPECT_THAT(text, HasSubstr("* the job sets 1.5 h"));
  EXPECT_THAT(text, HasSubstr("* the job sets 0.08 fraction"));
  EXPECT_LE(sample::widest(text), page_width);
  // One row of each key: those of the job's set and cold rule.
  EXPECT_EQ(std::count_if(facts.rows.begin(), facts.rows.end(),
                          [](const ListedRow& row) { return row.key == trade::limit::brick_cold_stop; }),
            1);
  const std::string plain = limits_list(limits_facts(job_with({}), {}), Ink::plain);
  EXPECT_THAT(plain, HasSubstr("The job sets none of these itself."));
  EXPECT_THAT(plain, Not(HasSubstr("the job sets 9")));
}

TEST(LimitsDetails, TellRangeSourceAndWhereAJobSetsIt) {
  const std::string text = limits_details(limits_facts(std::nullopt, {"brick-cold-resume"}), Ink::plain);
  EXPECT_THAT(text, HasSubstr("Air temperature, rising, at which bricklaying may go on"));
  EXPECT_THAT(text, HasSubstr("  uk bda    3 °C; damage; may be -10 to 15 °C\n"
                              "            sourced: BDA via labcwarranty.co.uk"));
  EXPECT_THAT(text, HasSubstr("  us        4.4 °C (40 °F); damage"));
  EXPECT_THAT(text, HasSubstr("  job       sets it in limits.overrides"));
}

TEST(LimitsDetails, TellWhatTheJobSetsOrLeaves) {
  const works::Job job = job_with({{"canopy-gust", 9}});
  EXPECT_THAT(limits_details(limits_facts(job, {"canopy-gust"}), Ink::plain),
              HasSubstr("  job       the job sets 9 m/s (20 mph), in limits.overrides"));
  EXPECT_THAT(limits_details(limits_facts(job, {"canopy-overnight"}), Ink::plain),
              HasSubstr("  job       leaves it; to set it: limits.overrides"));
  const std::string pace = limits_details(limits_facts(job, {"lay-facing"}), Ink::plain);
  EXPECT_THAT(pace, testing::ContainsRegex("h/brick; seen 0\\.[0-9]+ to 0\\.[0-9]+ h/brick; may be 0"));
  EXPECT_THAT(pace, HasSubstr("crew.pace"));
}

TEST(LimitsDetails, OfEveryRowStayWithinEightyColumns) {
  EXPECT_LE(sample::widest(limits_details(everything(), Ink::plain)), page_width);
  EXPECT_LE(sample::widest(limits_details(limits_facts(job_with({{"canopy-gust", 9}}), {}), Ink::plain)),
            page_width);
}

TEST(LimitsPage, HasALineForEachRowAndEscapesWhatWouldEndACell) {
  LimitsFacts facts = everything();
  facts.rows.front().title = "rain | wind <b>";
  const std::string page = limits_page(facts);
  EXPECT_THAT(page, HasSubstr("rain \\| wind \\<b>"));
  std::size_t lines = 0;
  for (const std::string& line : sample::lines_of(page))
    lines += line.rfind("| `", 0) == 0 ? 1U : 0U;
  EXPECT_EQ(lines, facts.rows.size());
}

TEST(LimitsPage, InDocsIsWhatTheTablesGive) {
  std::ifstream in(WEATHERSTRUCK_SOURCE_DIR "/docs/limits.md", std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  EXPECT_TRUE(text.str() == limits_page(everything()))
      << "docs/limits.md is not what the tables give; scripts/update-golden writes it again";
}

}  // namespace
}  // namespace weatherstruck::render
