#include "weatherstruck/files/job_reader.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

#include "files/job_support.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/job_writer.h"
#include "works/demo_job.h"

namespace weatherstruck::files {
namespace {

// The complete document with one member put in, or taken out where `value` is empty.
std::string edited(const std::string& pointer, const std::string& value) {
  Json document = as_json(complete_text());
  const Json::json_pointer at(pointer);
  if (value.empty()) {
    document.at(at.parent_pointer()).erase(at.back());
  } else {
    document[at] = Json::parse(value);
  }
  return document.dump();
}

TEST(JobReader, TheDemoIsReadWithoutAFault) {
  const auto read_demo = read(demo_text());
  ASSERT_TRUE(read_demo.job) << all_texts(read_demo.faults);
  const auto& job = *read_demo.job;
  EXPECT_EQ(base::iso_utc(job.trip.leave_home), "2026-02-09T05:00:00Z");
  EXPECT_EQ(base::iso_utc(job.trip.home_by), "2026-02-12T21:00:00Z");
  EXPECT_EQ(job.kit.mixer, base::CubicMetres(0.09));
  EXPECT_EQ(job.site.zone.name(), "Europe/London");
  EXPECT_EQ(job.site.routes.at(0).narrowest, base::Metres(0.75));
  EXPECT_EQ(job.crew.size(), 1U);
  EXPECT_EQ(job.fallbacks.at(0).kind, works::Fallback::Kind::gravel_for_flags);
}

TEST(JobReader, TheDemoIsTheJobOfTheTestsToTheLastKey) {
  const auto read_demo = read(demo_text());
  ASSERT_TRUE(read_demo.job) << all_texts(read_demo.faults);
  const auto from_text = job_to_json(*read_demo.job);
  const auto from_code = job_to_json(works::demo_job());
  EXPECT_EQ(from_text.size(), from_code.size());
  for (const auto& [section, value] : from_text.items()) {
    ASSERT_TRUE(from_code.contains(section)) << section;
    EXPECT_EQ(value, from_code[section]) << section;
  }
}

TEST(JobReader, EveryKeyReachesItsMember) {
  const auto read_complete = read(complete_text());
  ASSERT_TRUE(read_complete.job) << all_texts(read_complete.faults);
  const auto& job = *read_complete.job;
  EXPECT_EQ(base::iso_utc(job.trip.leave_home), "2026-10-24T21:15:00Z")
      << "British Summer Time, the home's zone";
  EXPECT_EQ(base::iso_utc(job.supplies.deliveries.at(0).at), "2026-10-26T08:15:00Z")
      << "Berlin, the site's zone";
  EXPECT_EQ(base::iso_utc(job.supplies.deliveries.at(1).at), "2026-10-25T01:30:00Z")
      << "the second 02:30 of that night";
  EXPECT_EQ(job.trip.drive_back, base::Hours(280 / 60.0));
  EXPECT_EQ(job.importance.size(), 4U);
  EXPECT_EQ(job.fallbacks.at(0).price->text(), "95.50 GBP");
  EXPECT_EQ(std::get<works::Base>(job.parts.at(2)).door_side, works::Side::east);
  EXPECT_EQ(std::get<works::Wall>(job.parts.at(1)).piers.at(0).projection, base::Metres(0.215));
}

TEST(JobReader, EveryKindOfFaultIsToldInFull) {
  struct Case {
    const char* pointer;
    const char* value;  // empty: the member is taken out
    const char* told;
  };
  // clang-format off
  const std::vector<Case> cases = {
    // unknown keys
    {"/parts/1/lenght", "5", "/parts/1/lenght: found the key \"lenght\"; allowed: no further key here. Take it out, or move it where it belongs."},
    {"/fixed", "[]", "/fixed: found the key \"fixed\"; allowed: no further key here. Take it out, or move it where it belongs."},
    {"/trip/return", "\"2026-10-29T19:30\"", "/trip/return: found the key \"return\"; allowed: no further key here. Take it out, or move it where it belongs."},
    // needed keys
    {"/weatherstruck", "", "/weatherstruck: found nothing; allowed: 1. Put \"weatherstruck\" in."},
    {"/job", "", "/job/name: found nothing; allowed: a short name: small letters, digits, dashes, a letter first, at most 40. Put \"name\" in."},
    {"/job/name", "", "/job/name: found nothing; allowed: a short name: small letters, digits, dashes, a letter first, at most 40. Put \"name\" in."},
    {"/site/zone", "", "/site/zone: found nothing; allowed: the name of a time zone, such as \"Europe/London\". Put \"zone\" in."},
    {"/trip/home_by", "", "/trip/home_by: found nothing; allowed: a date and clock time such as \"2026-02-09T05:30\". Put \"home_by\" in."},
    {"/parts/3/courses", "", "/parts/3/courses: found nothing; allowed: a number, 1 to 20. Put \"courses\" in."},
    {"/parts/3/kind", "", "/parts/3/kind: found nothing; allowed: one of \"base\", \"footing\", \"wall\", \"bed\", \"path\", \"steps\", \"box\". Put \"kind\" in."},
    {"/fallbacks/0/kind", "", "/fallbacks/0/kind: found nothing; allowed: one of \"drop\", \"gravel-for-flags\", \"one-course-lower\". Put \"kind\" in."},
    // wrong type
    {"/site", "[]", "/site: found an empty list; allowed: an object. Write it as { \"key\": value, ... }."},
    {"/parts", "{}", "/parts: found an empty object; allowed: a list. Put it in square brackets, even one alone."},
    {"/parts/1/length", "\"5.5\"", "/parts/1/length: found \"5.5\"; allowed: a number, 0.2 to 60 m. Take the quotes off the number."},
    {"/parts/1/length", "\"5.5 m\"", "/parts/1/length: found \"5.5 m\"; allowed: a number, 0.2 to 60 m. Write a number without quotes or unit."},
    {"/parts/1/plate", "\"yes\"", "/parts/1/plate: found \"yes\"; allowed: true or false. Write true or false without quotes."},
    {"/customer/name", "7", "/customer/name: found 7; allowed: a text. Put it in double quotes."},
    {"/trip/leave_home", "1792876500", "/trip/leave_home: found 1792876500; allowed: a date and clock time such as \"2026-02-09T05:30\". Put it in double quotes."},
    {"/site/altitude", "null", "/site/altitude: found null; allowed: a number, -450 to 6000 m. Write the value, or leave the key out."},
    {"/crew/0", "\"me\"", "/crew/0: found \"me\"; allowed: an object. Write it as { \"key\": value, ... }."},
    {"/weatherstruck", "2", "/weatherstruck: found 2; allowed: 1, the version of the document that this program reads. Write 1, or use the program the document was made for."},
    // out of range
    {"/site/latitude", "91", "/site/latitude: found 91 degrees; allowed: -90 to 90 degrees. Check the number."},
    {"/parts/0/width", "450", "/parts/0/width: found 450 m; allowed: 0.2 to 1.5 m. Lengths are in metres: write 0.45 for 450 mm."},
    {"/trip/drive_out", "180", "/trip/drive_out: found 180 hours; allowed: 0 to 24 hours. Durations are in hours: write \"3:00\" for 180 minutes."},
    {"/trip/drive_out", "\"25:00\"", "/trip/drive_out: found \"25:00\" hours; allowed: 0 to 24 hours. Check the duration."},
    {"/parts/1/courses", "0", "/parts/1/courses: found 0; allowed: 1 to 40. Check the number."},
    {"/parts/1/courses", "8.5", "/parts/1/courses: found 8.5; allowed: a whole number, 1 to 40. Leave the decimals off."},
    {"/crew/1/pace", "1e300", "/crew/1/pace: found 1e+300; allowed: 0.2 to 3. Check the number."},
    {"/crew", "[]", "/crew: found an empty list; allowed: 1 to 6 of them. Put one in."},
    {"/site/routes", "[]", "/site/routes: found an empty list; allowed: 1 to 10 of them. Put one in."},
    {"/crew", "[{},{},{},{},{},{},{}]", "/crew: found a list of 7; allowed: 1 to 6 of them. Split the job, or take some out."},
    // words and names
    {"/parts/1/brick", "\"facings\"", "/parts/1/brick: found \"facings\"; allowed: one of \"facing\", \"engineering-a\", \"engineering-b\", \"common\". Write \"facing\", if that is meant."},
    {"/parts/1/joints", "\"Strike now\"", "/parts/1/joints: found \"Strike now\"; allowed: one of \"strike-now\", \"point-later\", \"either\", \"none\". Write \"strike-now\", if that is meant."},
    {"/parts/4/surface", "\"tarmacadam\"", "/parts/4/surface: found \"tarmacadam\"; allowed: one of \"flags\", \"gravel\". Write one of these words."},
    {"/parts/3/kind", "\"beds\"", "/parts/3/kind: found \"beds\"; allowed: one of \"base\", \"footing\", \"wall\", \"bed\", \"path\", \"steps\", \"box\". Write \"bed\", if that is meant."},
    {"/crew/0/name", "\"Big Dai\"", "/crew/0/name: found \"Big Dai\"; allowed: a short name: small letters, digits, dashes, a letter first, at most 40. Write \"big-dai\"."},
    {"/crew/0/name", "\"123\"", "/crew/0/name: found \"123\"; allowed: a short name: small letters, digits, dashes, a letter first, at most 40. Write a name such as \"long-bed\"."},
    {"/tasks/1/after/0", "\"Fence Panel\"", "/tasks/1/after/0: found \"Fence Panel\"; allowed: a name of this job. Write the name as it stands where it is given."},
    {"/supplies/on_site/0", "\"top soil\"", "/supplies/on_site/0: found \"top soil\"; allowed: a key of the materials table. Write a key such as \"cement\"."},
    {"/site/zone", "\"Europe/Berln\"", "/site/zone: found \"Europe/Berln\"; allowed: the name of a time zone, such as \"Europe/London\". Did you mean \"Europe/Berlin\"?"},
    // texts, money, times
    {"/job/title", "\"a\\u0007b\"", "/job/title: found \"a\\u0007b\"; allowed: one line without control characters. Write it on one line."},
    {"/fallbacks/0/price", "\"95 pounds\"", "/fallbacks/0/price: found \"95 pounds\"; allowed: an amount and a currency such as \"35.00 GBP\". Write the amount without thousands, a space, and the three letters of the currency."},
    {"/trip/working_day", "\"19:00-07:00\"", "/trip/working_day: found \"19:00-07:00\"; allowed: a stretch of the day, the earlier time first, such as \"08:00-18:00\". Write it as hh:mm-hh:mm; a day ends at 24:00."},
    {"/trip/drive_out", "\"three\"", "/trip/drive_out: found \"three\"; allowed: hours as a number or as \"h:mm\", 0 to 24 hours. Write 1.5 or \"1:30\" for an hour and a half."},
    {"/fixed_times/0/to", "\"2026-02-30T12:00\"", "/fixed_times/0/to: found \"2026-02-30T12:00\"; allowed: a date and clock time that exist, such as 2026-02-09T05:30. Write year, month, day, T, hour and minute."},
    {"/trip/leave_home", "\"2026-03-29T01:30\"", "/trip/leave_home: found 2026-03-29T01:30, which no clock in Europe/London shows: clocks go from 01:00 GMT to 02:00 BST; allowed: a clock time that comes once. Write 2026-03-29T00:30 or 2026-03-29T02:30, whichever is meant."},
    {"/supplies/deliveries/0/at", "\"2026-10-25T02:30\"", "/supplies/deliveries/0/at: found 2026-10-25T02:30, which comes twice in Europe/Berlin; allowed: a clock time that comes once, or one with its offset. Write 2026-10-25T02:30+02:00 (CEST) for the first, or 2026-10-25T02:30+01:00 (CET) for the second."},
    {"/trip/home_by", "\"2126-10-29T19:30\"", "/trip/home_by: found \"2126-10-29T19:30\"; allowed: the years 1970 to 2100. Check the year."},
  };
  // clang-format on
  for (const auto& one : cases) {
    const auto result = read(edited(one.pointer, one.value));
    EXPECT_FALSE(result.job) << one.pointer << " " << one.value;
    EXPECT_EQ(all_texts(result.faults), std::string(one.told) + "\n") << one.pointer << " " << one.value;
  }
}

TEST(JobReader, FaultsOfSenseAreToldAtThePlaceInTheDocument) {
  struct Case {
    const char* pointer;
    const char* value;
    const char* told;
  };
  // clang-format off
  const std::vector<Case> cases = {
    {"/tasks/0/after", "[\"tidy\"]", "/tasks/0/after: found fence-panel after tidy after fence-panel; allowed: links that never come round. Take one of these links out."},
    {"/tasks/1/after/1", "\"low-wal\"", "/tasks/1/after/1: found \"low-wal\"; allowed: task of this job: strip, low-wall, store, herb-bed, walk, flight, cold-frame, cross-wall, fence-panel and tidy. Write \"low-wall\", if that is meant."},
    {"/parts/1/footing", "\"stripe\"", "/parts/1/footing: found \"stripe\"; allowed: footing of this job: strip, store-north-footing, store-east-footing, store-south-footing, store-west-footing, herb-bed-north-footing, herb-bed-east-footing, herb-bed-south-footing, herb-bed-west-footing, cold-frame-north-footing, cold-frame-east-footing, cold-frame-south-footing and cold-frame-west-footing. Write \"strip\", if that is meant."},
    {"/trip/leave_home", "\"2026-10-29T20:15\"", "/trip/home_by: found 2026-10-29T19:30; allowed: after 2026-10-29T20:15, when he leaves home. Put the later time in home_by."},
    {"/trip/leave_home", "\"2026-08-20T20:15\"", "/trip/home_by: found 70.0104 days away; allowed: at most 31 days. Split the job into trips."},
    {"/fixed_times/0/to", "\"2026-10-27T10:30\"", "/fixed_times/0/to: found 2026-10-27T10:30; allowed: after 2026-10-27T11:00. Put the earlier time first."},
    {"/supplies/deliveries/0/at", "\"2026-11-26T09:15\"", "/supplies/deliveries/0/at: found 2026-11-26T09:15; allowed: before 2026-10-29T20:30, when he is home. Order it earlier."},
    {"/supplies/on_site/0", "\"top-soil\"", "/supplies/on_site/0: found \"top-soil\"; allowed: a key of the materials table. Write \"topsoil\", if that is meant."},
    {"/limits/overrides/0/value", "99999", "/limits/overrides/0/value: found 99999; allowed: 0.1 to 20 mm/h. Set rain-below-stop inside that range, or leave it out to keep 2 mm/h."},
    {"/fallbacks/0/kind", "\"gravel-for-flags\"", "/fallbacks/0/kind: found gravel for flags on \"cold-frame\"; allowed: a path with flags. Name a flagged path, or choose another fallback."},
    {"/crew/1/name", "\"first\"", "/crew/1/name: found \"first\"; allowed: a name that nothing else in the job has. Rename one of the two."},
  };
  // clang-format on
  for (const auto& one : cases) {
    const auto result = read(edited(one.pointer, one.value));
    EXPECT_FALSE(result.job) << one.pointer << " " << one.value;
    EXPECT_EQ(all_texts(result.faults), std::string(one.told) + "\n") << one.pointer << " " << one.value;
  }
}

TEST(JobReader, FaultsOfShapeAndOfSenseComeTogetherWithoutEchoes) {
  auto document = as_json(complete_text());
  document["parts"][0]["length"] = "long";           // a stand-in: whether the wall fits is not told
  document["trip"]["home_by"] = "2026-10-24T22:00";  // sense
  document["supplies"]["deliveries"] = Json::array();
  document["tasks"][0]["after"] = {"tidy"};  // sense
  EXPECT_EQ(all_texts(read(document.dump(2)).faults),
            "/trip/home_by: found 2026-10-24T22:00; allowed: after 2026-10-24T22:15, when he leaves home. "
            "Put the later "
            "time in home_by.\n"
            "/parts/0/length: found \"long\"; allowed: a number, 0.3 to 60 m. Write a number without quotes "
            "or unit.\n"
            "/tasks/0/after: found fence-panel after tidy after fence-panel; allowed: links that never come "
            "round. Take one "
            "of these links out.\n");
  document["trip"]["leave_home"] = "soon";
  document["parts"][2]["name"] = "Garden Store";
  EXPECT_EQ(all_texts(read(document.dump(2)).faults),
            "/trip/leave_home: found \"soon\"; allowed: a date and clock time that exist, such as "
            "2026-02-09T05:30. Write "
            "year, month, day, T, hour and minute.\n"
            "/parts/0/length: found \"long\"; allowed: a number, 0.3 to 60 m. Write a number without quotes "
            "or unit.\n"
            "/parts/2/name: found \"Garden Store\"; allowed: a short name: small letters, digits, dashes, a "
            "letter first, at "
            "most 40. Write \"garden-store\".\n")
      << "what rests on the missing time or name is told when they are there";
}

TEST(JobReader, AMisspeltKeyIsAnsweredByTheNearestThatIsFree) {
  auto document = as_json(complete_text());
  document["parts"][1].erase("courses_below");
  document["parts"][1]["course_below"] = 3;
  EXPECT_EQ(all_texts(read(document.dump()).faults),
            "/parts/1/course_below: found the key \"course_below\"; allowed: here also \"courses_below\". "
            "Did you mean "
            "\"courses_below\"?\n");
}

TEST(JobReader, FaultsOfTheTextStopBeforeTheShape) {
  EXPECT_THAT(all_texts(read("{\"weatherstruck\": 1, \"site\": NaN, \"trip\": 1e400}").faults),
              testing::StrEq("line 1, column 30: found `NaN`; allowed: a finite number. Write the number, or "
                             "leave the key out.\n"
                             "line 1, column 43: found `1e400`; allowed: numbers from about 1e-308 to 1e308. "
                             "Check the number.\n"));
  EXPECT_EQ(read(std::string(200000, '[')).faults.at(0).code, "too-deep");
  EXPECT_EQ(read(std::string((std::size_t{1} << 20) + 1, ' ')).faults.at(0).code, "too-big");
  EXPECT_EQ(read("").faults.at(0).code, "empty-input");
  EXPECT_EQ(read("{\"job\": {}, \"job\": {}}").faults.at(0).code, "duplicate-key");
  EXPECT_EQ(read("{\"job\": \"\xED\xA0\x80\"}").faults.at(0).code, "bad-utf8");
}

TEST(JobReader, FaultsComeAllAtOnceInTheOrderOfTheText) {
  const auto result = read(R"({
  "parts": [
    { "kind": "bed", "name": "bed", "length": -1, "width": 0.6, "courses": 5 }
  ],
  "trip": {
    "leave_home": "2026-02-09T05:30", "home_by": "2026-02-12T21:00",
    "drive_out": "soon"
  },
  "site": { "zone": "Europe/London", "latitude": 52, "longitude": 200,
    "routes": [ { "name": "a", "length": 10 } ] },
  "job": { "name": "x" },
  "weatherstruck": 1
})");
  std::vector<std::string> places;
  std::vector<std::size_t> lines;
  for (const auto& fault : result.faults) {
    places.push_back(fault.place);
    lines.push_back(line_of(result.lines, fault.place).value());
  }
  EXPECT_THAT(places, testing::ElementsAre("/parts/0/length", "/trip/drive_out", "/site/longitude"));
  EXPECT_THAT(lines, testing::ElementsAre(3, 7, 9));
}

TEST(JobReader, ALineIsThatOfTheNearestObjectAround) {
  const JsonLines lines = {{"", 1}, {"/parts", 4}, {"/parts/0", 5}};
  EXPECT_EQ(line_of(lines, "/parts/0/length"), 5U);
  EXPECT_EQ(line_of(lines, "/site/zone"), 1U);
  EXPECT_EQ(line_of(lines, "line 3, column 4"), std::nullopt);
  EXPECT_EQ(line_of({}, "/a"), std::nullopt);
}

// Whatever is done to the demo's text, the reader comes back with a job or with faults, never both, never
// neither, and never throws.
RC_GTEST_PROP(JobReader, MutatedDocumentsGiveAJobOrFaults, ()) {
  static const std::string demo = demo_text();
  static const std::vector<std::string> pieces = {
      "{",    "}",    "[",     "]",   "\"", ",",  ":",       "0",    "9",    "-",    "e",     ".",
      "null", "true", "1e308", "NaN", "//", "/*", "\\u0000", "\xFF", "kind", "name", "steps", "2026"};
  std::string text = demo;
  const int edits = *rc::gen::inRange(1, 6);
  for (int i = 0; i < edits; ++i) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    const auto length = *rc::gen::inRange<std::size_t>(0, 30);
    switch (*rc::gen::inRange(0, 4)) {
      case 0:
        text.erase(at, length);
        break;
      case 1:
        text.insert(at, *rc::gen::elementOf(pieces));
        break;
      case 2:
        text.insert(at, text.substr(*rc::gen::inRange<std::size_t>(0, text.size()), length));
        break;
      default:
        text[at] = (*rc::gen::elementOf(pieces))[0];
        break;
    }
    if (text.empty()) text = "{}";
  }
  const auto result = read(text);
  RC_ASSERT(result.job.has_value() == result.faults.empty());
  for (const auto& fault : result.faults) {
    RC_ASSERT(!fault.code.empty());
    RC_ASSERT(!base::to_text(fault).empty());
  }
}

// The same on the tree: any value of any kind put in any place.
RC_GTEST_PROP(JobReader, AnyValueInAnyPlaceGivesAJobOrFaults, ()) {
  static const Json complete = as_json(complete_text());
  static const Json flat = complete.flatten();
  static const std::vector<std::string> values = {"null",
                                                  "true",
                                                  "0",
                                                  "-1",
                                                  "7",
                                                  "1e300",
                                                  "-0.5",
                                                  "\"\"",
                                                  "\"x\"",
                                                  "\"08:00-18:00\"",
                                                  "\"2026-03-29T01:30\"",
                                                  "[]",
                                                  "[[]]",
                                                  "{}",
                                                  "{\"kind\": \"wall\"}",
                                                  "[1, \"a\"]"};
  Json document = complete;
  const int edits = *rc::gen::inRange(1, 4);
  for (int i = 0; i < edits; ++i) {
    auto at = flat.begin();
    std::advance(at, *rc::gen::inRange<int>(0, static_cast<int>(flat.size())));
    Json::json_pointer pointer(at.key());
    for (int up = *rc::gen::inRange(0, 3); up > 0 && !pointer.parent_pointer().empty(); --up)
      pointer = pointer.parent_pointer();
    if (!document.contains(pointer)) continue;
    document[pointer] = Json::parse(*rc::gen::elementOf(values));
  }
  const auto result = read(document.dump());
  RC_ASSERT(result.job.has_value() == result.faults.empty());
}

}  // namespace
}  // namespace weatherstruck::files
