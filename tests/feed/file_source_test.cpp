#include "weatherstruck/feed/file_source.h"

#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"

namespace weatherstruck::feed {
namespace {

using ::testing::ElementsAre;

class FileSource : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ =
        std::filesystem::path(::testing::TempDir()) / (std::string("weatherstruck_feed_") + test->name());
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  static std::vector<std::string> refused(const std::filesystem::path& path) {
    try {
      (void)read_forecast_bytes(path);
    } catch (const base::InputError& error) {
      EXPECT_EQ(error.source(), path.string());
      return codes(error.faults());
    }
    return {};
  }

  std::filesystem::path folder_;
};

TEST_F(FileSource, ReadsAFile) {
  const auto series = read_forecast_file(fixture("met_norway_small.json"));
  EXPECT_EQ(series.hours.size(), 15U);
}

TEST_F(FileSource, AMissingFileIsTold) {
  EXPECT_THAT(refused(folder_ / "nothing.json"), ElementsAre("no-such-file"));
}

TEST_F(FileSource, AFolderIsTold) {
  EXPECT_THAT(refused(folder_), ElementsAre("not-a-file"));
}

TEST_F(FileSource, ADeviceIsTold) {
  EXPECT_THAT(refused("/dev/null"), ElementsAre("not-a-file"));
}

TEST_F(FileSource, AnEmptyFileIsTold) {
  std::ofstream(folder_ / "empty.json").flush();
  EXPECT_THAT(refused(folder_ / "empty.json"), ElementsAre("empty-input"));
}

TEST_F(FileSource, APathThroughAFileIsTold) {
  std::ofstream(folder_ / "file") << "x";
  EXPECT_FALSE(refused(folder_ / "file" / "under.json").empty());
}

TEST_F(FileSource, MoreThanSixteenMebibytesIsTold) {
  const auto path = folder_ / "big.json";
  std::ofstream(path) << "x";
  std::filesystem::resize_file(path, kMostForecastBytes);
  EXPECT_EQ(read_forecast_bytes(path).size(), kMostForecastBytes);
  std::filesystem::resize_file(path, kMostForecastBytes + 1);
  EXPECT_THAT(refused(path), ElementsAre("too-big"));
}

}  // namespace
}  // namespace weatherstruck::feed
