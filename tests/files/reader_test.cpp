#include "weatherstruck/files/reader.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace weatherstruck::files {
namespace {

std::vector<std::string> texts(const base::Faults& faults) {
  std::vector<std::string> out;
  for (const auto& fault : faults)
    out.push_back(base::to_text(fault));
  return out;
}

TEST(Reader, ReadsMembersWithTheirKindAndRange) {
  const auto json = Json::parse(
      R"({"length": 2.5, "count": 3.0, "lit": true, "hours": "1:30", "title": "A bed", "name": "bed-1"})");
  Reading reading;
  ObjectReader from(reading, json, "/x", "thing");
  EXPECT_EQ(from.metres("length", 0, 10), base::Metres(2.5));
  EXPECT_EQ(from.whole("count", 1, 5), 3);
  EXPECT_TRUE(from.truth("lit", false));
  EXPECT_EQ(from.hours("hours", 0, 24), base::Hours(1.5));
  EXPECT_EQ(from.text("title", 20), "A bed");
  EXPECT_EQ(from.name("name"), "bed-1");
  EXPECT_EQ(from.number("waste", {0, 1, ""}, 0.25), 0.25);
  from.finish();
  EXPECT_THAT(texts(reading.faults()), testing::IsEmpty());
  EXPECT_THAT(reading.shapes().at("thing"),
              testing::ElementsAre("count", "hours", "length", "lit", "name", "title", "waste"));
}

TEST(Reader, ReadsOnAfterAFaultAndToldEachOnce) {
  const auto json = Json::parse(
      R"({"length": "2.5", "count": 3.5, "lit": 1, "hours": null, "name": "Bed One", "widht": 2})");
  Reading reading;
  ObjectReader from(reading, json, "/parts/0", "thing");
  EXPECT_EQ(from.metres("length", 0.5, 10), base::Metres(0.5)) << "the stand-in is in range";
  from.whole("count", 1, 5);
  from.truth("lit", false);
  from.hours("hours", 0, 24);
  from.name("name");
  from.metres("width", 1, 4);
  from.finish();
  EXPECT_THAT(
      texts(reading.faults()),
      testing::ElementsAre(
          "/parts/0/length: found \"2.5\"; allowed: a number, 0.5 to 10 m. Take the quotes off the number.",
          "/parts/0/count: found 3.5; allowed: a whole number, 1 to 5. Leave the decimals off.",
          "/parts/0/lit: found 1; allowed: true or false. Write true or false without quotes.",
          "/parts/0/hours: found null; allowed: a number, 0 to 24 hours. Write the value, or leave the key "
          "out.",
          "/parts/0/name: found \"Bed One\"; allowed: a short name: small letters, digits, dashes, a letter "
          "first, at "
          "most 40. Write \"bed-one\".",
          "/parts/0/width: found nothing; allowed: a number, 1 to 4 m. Put \"width\" in.",
          "/parts/0/widht: found the key \"widht\"; allowed: here also \"width\". Did you mean \"width\"?"));
}

TEST(Reader, WhatIsNoObjectIsOneFaultAndNotAFaultForEachKey) {
  const auto json = Json::parse("[1, 2]");
  Reading reading;
  ObjectReader from(reading, json, "/site", "thing");
  from.metres("length", 0, 10);
  from.name("name");
  from.finish();
  EXPECT_THAT(texts(reading.faults()),
              testing::ElementsAre(
                  "/site: found a list of 2; allowed: an object. Write it as { \"key\": value, ... }."));
}

TEST(Reader, MillimetresAndMinutesAreRecognised) {
  const auto json = Json::parse(R"({"width": 450, "drive": 90, "depth": 3})");
  Reading reading;
  ObjectReader from(reading, json, "", "thing");
  from.metres("width", 0.2, 1.5);
  from.hours("drive", 0, 24);
  from.metres("depth", 0.1, 2);
  EXPECT_THAT(texts(reading.faults()),
              testing::ElementsAre(
                  "/width: found 450 m; allowed: 0.2 to 1.5 m. Lengths are in metres: write 0.45 for 450 mm.",
                  "/drive: found 90 hours; allowed: 0 to 24 hours. Durations are in hours: write \"1:30\" "
                  "for 90 minutes.",
                  "/depth: found 3 m; allowed: 0.1 to 2 m. Check the number."));
}

TEST(Reader, TextsAreOneLineOfMeasuredLength) {
  const auto json = Json::parse(R"({"a": "x\ny", "b": "äöüä", "c": ""})");
  Reading reading;
  ObjectReader from(reading, json, "", "thing");
  from.text("a", 10);
  EXPECT_EQ(from.text("b", 4), "äöüä");
  from.text("b", 3);
  from.text("c", 10);
  EXPECT_EQ(from.text("c", 10, ""), "");
  EXPECT_THAT(texts(reading.faults()),
              testing::ElementsAre(
                  "/a: found \"x\\ny\"; allowed: one line without control characters. Write it on one line.",
                  "/b: found 4 characters; allowed: 1 to 3 characters. Shorten it.",
                  "/c: found an empty text; allowed: 1 to 10 characters. Write something."));
}

TEST(Reader, AFloodOfFaultsEndsAtAHundred) {
  Json json = Json::object();
  for (int i = 0; i < 1000; ++i)
    json["key" + std::to_string(i)] = 1;
  Reading reading;
  ObjectReader from(reading, json, "", "thing");
  from.finish();
  ASSERT_EQ(reading.faults().size(), 101U);
  EXPECT_EQ(reading.faults().back().code, "too-many-faults");
}

TEST(Reader, SpansMustBeInOrderAndApart) {
  const auto json =
      Json::parse(R"({"a": ["08:00-12:00", "11:00-13:00"], "b": "08:00-12:00", "c": ["8-12"], "d": []})");
  Reading reading;
  ObjectReader from(reading, json, "", "thing");
  from.spans("a", {});
  from.spans("b", {});
  from.spans("c", {});
  EXPECT_TRUE(from.spans("d", {{}}).empty()) << "an empty list is a choice, not an absence";
  EXPECT_THAT(texts(reading.faults()),
              testing::ElementsAre(
                  "/a/1: found \"11:00-13:00\"; allowed: a stretch that begins at or after the end of "
                  "08:00-12:00. Put the "
                  "stretches in order and apart.",
                  "/b: found \"08:00-12:00\"; allowed: a list. Put it in square brackets, even one alone.",
                  "/c/0: found \"8-12\"; allowed: a stretch of the day, the earlier time first, such as "
                  "\"08:00-18:00\". Write it "
                  "as hh:mm-hh:mm; a day ends at 24:00."));
}

}  // namespace
}  // namespace weatherstruck::files
