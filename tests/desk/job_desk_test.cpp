#include "weatherstruck/desk/job_desk.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>

#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::desk {
namespace {

class JobDesk : public testing::Test {
 protected:
  std::string write(const std::string& text) {
    std::ofstream(path_, std::ios::binary) << text;
    return path_;
  }
  ~JobDesk() override { std::remove(path_.c_str()); }
  // A file of its own for each test: several run at once.
  std::string path_ = testing::TempDir() + "weatherstruck-job-desk-" +
                      testing::UnitTest::GetInstance()->current_test_info()->name() + ".json";
  files::SystemZones zones_;
};

TEST_F(JobDesk, OpensABlankJobWithItsLimits) {
  const OpenJob open = open_job(write(files::blank_job()), zones_);
  EXPECT_EQ(open.job.name, "my-job");
  EXPECT_EQ(open.source, path_);
  EXPECT_GT(open.limits.at(trade::limit::rain_facework_stop), 0);
}

TEST_F(JobDesk, HandsOnEveryFaultWithItsLine) {
  write("{\n \"weatherstruck\": 1,\n \"job\": {\"nmae\": \"a\"}\n}\n");
  try {
    static_cast<void>(open_job(path_, zones_));
    FAIL() << "accepted";
  } catch (const JobRefused& refused) {
    EXPECT_GT(refused.faults().size(), 1U);
    EXPECT_EQ(files::line_of(refused.lines(), "/job"), 3U);
  }
}

TEST_F(JobDesk, RefusesWhatIsNoFileOrTooBig) {
  const auto code = [&](const std::string& path) {
    try {
      static_cast<void>(open_job(path, zones_));
    } catch (const base::InputError& error) {
      return error.faults().front().code;
    }
    return std::string("accepted");
  };
  EXPECT_EQ(code("/no/such/file"), "no-such-file");
  EXPECT_EQ(code("/tmp"), "not-a-file");
  EXPECT_EQ(code(write(std::string(files::JsonLimits::job_document().most_bytes + 5, ' '))), "too-big");
  EXPECT_EQ(code(write("")), "empty-input");
}

}  // namespace
}  // namespace weatherstruck::desk
