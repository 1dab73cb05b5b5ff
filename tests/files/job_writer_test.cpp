#include "weatherstruck/files/job_writer.h"

#include <gtest/gtest.h>

#include <sstream>
#include <string>

#include "files/job_support.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

// The complete document names every key at a value that is not the usual one, so a member that is dropped,
// swapped or left at its default on the way through the job shows.
TEST(JobWriter, ADocumentWithEveryKeyComesBackAsItWas) {
  const auto first = read(complete_text());
  ASSERT_TRUE(first.job) << all_texts(first.faults);
  const auto again = as_json(write_job(*first.job));
  EXPECT_EQ(again, as_json(complete_text())) << Json::diff(as_json(complete_text()), again).dump(2);
}

TEST(JobWriter, TheDemoIsTheSameJobAfterWritingAndReading) {
  const auto first = read(demo_text());
  ASSERT_TRUE(first.job) << all_texts(first.faults);
  const auto text = write_job(*first.job);
  const auto second = read(text);
  ASSERT_TRUE(second.job) << all_texts(second.faults);
  EXPECT_EQ(write_job(*second.job), text);
  EXPECT_EQ(second.job->trip.leave_home, first.job->trip.leave_home);
  EXPECT_EQ(second.job->supplies.merchant->drive_each_way, base::Hours(25 / 60.0));
}

TEST(JobWriter, EveryMemberOfTheDemoSurvives) {
  // What the demo leaves out is written out with its usual value; what it says is there unchanged.
  const auto demo = as_json(demo_text()).flatten();
  const auto written = as_json(write_job(*read(demo_text()).job)).flatten();
  for (const auto& [pointer, value] : demo.items()) {
    if (value.is_null()) continue;
    ASSERT_TRUE(written.contains(pointer)) << pointer;
    EXPECT_EQ(written[pointer], value) << pointer;
  }
}

TEST(JobWriter, ATimeThatComesTwiceKeepsItsOffset) {
  for (const char* at : {"2026-10-25T02:30+02:00", "2026-10-25T02:30+01:00", "2026-10-25T03:30"}) {
    auto document = as_json(complete_text());
    document["supplies"]["deliveries"][0]["at"] = at;
    const auto job = read(document.dump());
    ASSERT_TRUE(job.job) << all_texts(job.faults);
    EXPECT_EQ(job_to_json(*job.job)["supplies"]["deliveries"][0]["at"], at);
  }
}

TEST(JobWriter, TheBlankDocumentReadsWithoutAFault) {
  const auto blank = read(blank_job());
  ASSERT_TRUE(blank.job) << all_texts(blank.faults);
  const auto second = read(write_job(*blank.job));
  ASSERT_TRUE(second.job) << all_texts(second.faults);
}

TEST(JobWriter, TheBlankDocumentFitsATerminal) {
  std::istringstream lines(blank_job());
  std::string line;
  int count = 0;
  while (std::getline(lines, line)) {
    EXPECT_LE(base::display_width(line), 80U) << line;
    EXPECT_TRUE(line.empty() || line.back() != ' ') << line;
    ++count;
  }
  EXPECT_LT(count, 110);
}

TEST(JobWriter, TheBlankDocumentIsTheOneTheSchemaIsHeldAgainst) {
  EXPECT_EQ(blank_job(), file_text("tests/files/blank_job.json"));
}

}  // namespace
}  // namespace weatherstruck::files
