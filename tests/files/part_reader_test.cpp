#include "weatherstruck/files/part_reader.h"

#include <gtest/gtest.h>

#include <string>
#include <variant>

#include "files/job_support.h"

namespace weatherstruck::files {
namespace {

works::Job empty_job() {
  const auto zone = base::Zone::fixed("UTC", std::chrono::seconds(0));
  return works::Job{
      .name = "x",
      .title = "x",
      .customer = {},
      .site = {.altitude = {}, .zone = zone, .routes = {}, .noisy = {}},
      .trip = {.leave_home = {},
               .home_by = {},
               .drive_out = {},
               .drive_back = {},
               .home_zone = zone,
               .working_day = {},
               .longest_day = {}},
      .crew = {},
      .kit = {},
      .limits = {},
      .practice = {},
      .parts = {},
      .importance = {},
      .tasks = {},
      .supplies = {},
      .fixed = {},
      .fallbacks = {},
  };
}

struct PartsRead {
  works::Job job = empty_job();
  Reading reading;
};

PartsRead parts_of(const std::string& list) {
  PartsRead out;
  const Json document = Json::parse("{\"parts\": " + list + "}");
  ObjectReader from(out.reading, document, "", "job_document");
  read_parts(from, out.job);
  return out;
}

TEST(PartReader, WhatIsNotSaidIsAsTheStructsHaveIt) {
  const auto out =
      parts_of(R"([ { "kind": "bed", "name": "bed", "length": 2, "width": 0.6, "courses": 5 } ])");
  ASSERT_EQ(all_texts(out.reading.faults()), "");
  const auto& bed = std::get<works::Bed>(out.job.parts.at(0));
  const works::Bed usual;
  EXPECT_EQ(bed.name, "bed");
  EXPECT_EQ(bed.length, base::Metres(2));
  EXPECT_EQ(bed.courses, 5);
  EXPECT_EQ(bed.sides, usual.sides);
  EXPECT_EQ(bed.footing_width, usual.footing_width);
  EXPECT_EQ(bed.joints, usual.joints);
  EXPECT_EQ(bed.filled, usual.filled);
  EXPECT_TRUE(out.job.importance.empty()) << "must is not listed";
}

TEST(PartReader, OnlyLesserImportanceIsListed) {
  const auto out = parts_of(R"([
    { "kind": "steps", "name": "a", "count": 3, "width": 1, "importance": "must" },
    { "kind": "steps", "name": "b", "count": 3, "width": 1, "importance": "may" } ])");
  ASSERT_EQ(all_texts(out.reading.faults()), "");
  ASSERT_EQ(out.job.importance.size(), 1U);
  EXPECT_EQ(out.job.importance[0].part, "b");
  EXPECT_EQ(out.job.importance[0].importance, works::Importance::may);
}

TEST(PartReader, OfAPartWithoutAKindOnlyTheKindIsAskedFor) {
  const auto out = parts_of(R"([ { "name": "a", "length": "x" }, { "kind": "tower" },
    { "kind": "box", "name": "b", "length": 1, "width": 1, "courses": 2 } ])");
  const std::string kinds = R"(one of "base", "footing", "wall", "bed", "path", "steps", "box")";
  EXPECT_EQ(all_texts(out.reading.faults()),
            "/parts/0/kind: found nothing; allowed: " + kinds + ". Put \"kind\" in.\n" +
                "/parts/1/kind: found \"tower\"; allowed: " + kinds + ". Write one of these words.\n");
  EXPECT_EQ(out.job.parts.size(), 1U);
}

TEST(PartReader, AKeyOfAnotherKindIsUnknownHere) {
  const auto out = parts_of(R"([ { "kind": "path", "name": "a", "length": 4, "width": 1, "courses": 3 } ])");
  ASSERT_EQ(out.reading.faults().size(), 1U);
  EXPECT_EQ(out.reading.faults()[0].code, "unknown-key");
  EXPECT_EQ(out.reading.faults()[0].place, "/parts/0/courses");
}

}  // namespace
}  // namespace weatherstruck::files
