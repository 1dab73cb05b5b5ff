#include "weatherstruck/files/me_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <map>
#include <set>

#include "files/job_support.h"
#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::files {
namespace {

std::string complete_me() {
  return file_text("tests/files/complete_me.json");
}
MeRead read_it(std::string_view text) {
  return read_me(text, SystemZones());
}
MeRead read_json(const Json& document) {
  return read_it(document.dump());
}

std::set<std::string> places_and_codes(const base::Faults& faults) {
  std::set<std::string> out;
  for (const base::Fault& fault : faults)
    out.insert(fault.place + " " + fault.code);
  return out;
}

TEST(MeDocument, CompleteReadsWithEveryMember) {
  const MeRead read = read_it(complete_me());
  ASSERT_TRUE(read.document) << all_texts(read.faults);
  const works::Me& me = read.document->me;
  EXPECT_EQ(me.contact, "post@brickfield.example");
  EXPECT_EQ(me.crew.size(), 2U);
  EXPECT_EQ(me.crew[0].pace, 1.3);
  EXPECT_EQ(me.kit.canopy->pitch, std::chrono::minutes(12));
  EXPECT_EQ(me.merchant_monday_to_friday.size(), 2U);
  EXPECT_TRUE(me.merchant_saturday.empty());
  ASSERT_TRUE(read.document->rates);
  const account::Rates& rates = *read.document->rates;
  EXPECT_EQ(rates.day_work->text(), "38.00 GBP");
  EXPECT_EQ(rates.on_materials, 1000);
  EXPECT_EQ(rates.tax.rate, 1750);
  EXPECT_EQ(rates.usual_deposit, 2500);
  EXPECT_EQ(std::get<account::TravelByDistance>(rates.travel).unit, account::Unit::mile);
}

TEST(MeDocument, IsWrittenAsItReads) {
  const MeRead once = read_it(complete_me());
  ASSERT_TRUE(once.document);
  EXPECT_EQ(me_to_json(*once.document), as_json(complete_me()));
  const MeRead twice = read_it(write_me(*once.document));
  ASSERT_TRUE(twice.document);
  EXPECT_EQ(twice.document->rates, once.document->rates);
  EXPECT_EQ(write_me(*twice.document), write_me(*once.document));
}

TEST(MeDocument, NeedsHisNameAndClockOnly) {
  const MeRead read = read_it(R"({"weatherstruck": 1, "me": {"name": "T", "home_zone": "Europe/London"}})");
  ASSERT_TRUE(read.document) << all_texts(read.faults);
  EXPECT_FALSE(read.document->rates);
  EXPECT_EQ(read.document->me.crew.size(), 1U);
  EXPECT_EQ(read.document->me.working_day.from, std::chrono::hours(7));
  EXPECT_THAT(places_and_codes(read_it("{}").faults),
              testing::UnorderedElementsAre("/weatherstruck missing-key", "/me/name missing-key",
                                            "/me/home_zone missing-key"));
}

TEST(MeDocument, TellsEveryFaultAtOnce) {
  Json document = as_json(complete_me());
  document["weatherstruck"] = 2;
  document["me"]["home_zone"] = "Europe/Lundon";
  document["me"]["colour"] = "red";
  document["crew"][0]["pace"] = 9;
  document["hours"]["longest_day"] = 20;
  document["limits"]["overrides"][0]["key"] = "rain-facework-stp";
  document["rates"]["day_work"] = "38.00 EUR";
  document["rates"]["travel"]["by"] = "hour";
  document["rates"]["tax"]["percent"] = 0;
  document["rates"]["payment_days"] = 200;
  const MeRead read = read_json(document);
  EXPECT_FALSE(read.document);
  EXPECT_THAT(places_and_codes(read.faults),
              testing::IsSupersetOf({"/weatherstruck unknown-version", "/me/home_zone unknown-zone",
                                     "/me/colour unknown-key", "/crew/0/pace out-of-range",
                                     "/hours/longest_day out-of-range", "/rates/day_work wrong-currency",
                                     "/rates/travel/by bad-word", "/rates/tax/percent out-of-range",
                                     "/rates/payment_days out-of-range"}));
  EXPECT_THAT(all_texts(read.faults), testing::HasSubstr("rain-facework-stp"));
}

TEST(MeDocument, SharesItsSectionsWithTheJob) {
  const Json me = as_json(complete_me());
  Json job = as_json(complete_text());
  for (const char* key : {"crew", "kit", "limits", "practice"})
    job[key] = me[key];
  const JobRead read = files::read(job.dump());
  ASSERT_TRUE(read.job) << all_texts(read.faults);
  const Json written = job_to_json(*read.job);
  for (const char* key : {"crew", "kit", "limits", "practice"})
    EXPECT_EQ(written[key], me[key]) << key;
}

TEST(MeDocument, OfAnyBytesIsFaultsOrADocument) {
  for (const char* text : {"", "[]", "null", "{\"me\": 3}", "\xFF", "{\"rates\": {\"currency\": 7}}",
                           "{\"rates\": {\"currency\": \"XYZ\", \"travel\": []}}"}) {
    const MeRead read = read_it(text);
    EXPECT_FALSE(read.document) << text;
    EXPECT_FALSE(read.faults.empty()) << text;
  }
}

// The published schema beside the reader: the same keys, the same words and ranges.
const Json& schema() {
  static const Json parsed =
      parse_json(file_text("docs/me.schema.json"), JsonLimits::forecast()).value.value();
  return parsed;
}
const Json& job_schema() {
  static const Json parsed =
      parse_json(file_text("docs/job.schema.json"), JsonLimits::forecast()).value.value();
  return parsed;
}
const Json& resolved(const Json& rule) {
  if (!rule.contains("$ref")) return rule;
  const std::string ref = rule["$ref"].get<std::string>();
  const std::string name = ref.substr(ref.rfind('/') + 1);
  // Within the sections of the job a reference means the job's schema.
  const Json& own = schema()["$defs"];
  return ref.front() == '#' && own.contains(name) ? own[name] : job_schema()["$defs"][name];
}

TEST(MeSchema, HasTheKeysTheReaderAsksForAndNoOthers) {
  const auto keys_of = [](const Json& object) {
    std::set<std::string> out;
    for (const auto& [key, value] : object.items())
      out.insert(key);
    return out;
  };
  std::map<std::string, std::set<std::string>, std::less<>> known;
  known["me_document"] = keys_of(schema()["properties"]);
  for (const auto& [name, definition] : schema()["$defs"].items())
    known[name] = keys_of(definition["properties"]);
  for (const char* shared : {"person", "kit", "canopy", "limits", "override", "practice"})
    known[shared] = keys_of(job_schema()["$defs"][shared]["properties"]);
  EXPECT_EQ(read_it(complete_me()).shapes, known);
}

/// Every place of his own sections, with what the schema says of it.
void each_place(const Json& value, const Json& rule_or_ref, const std::string& pointer,
                const std::function<void(const std::string&, const Json&, const Json&)>& visit) {
  const Json& rule = resolved(rule_or_ref);
  visit(pointer, rule, rule_or_ref);
  if (!value.is_object() || !rule.contains("properties")) return;
  for (const auto& [key, member] : value.items())
    each_place(member, rule["properties"][key], pointer_to(pointer, key), visit);
}

TEST(MeSchema, HasTheRangesAndWordsTheReaderKeeps) {
  const Json complete = as_json(complete_me());
  const auto codes = [&](const std::string& pointer, const Json& value) {
    Json document = complete;
    document[Json::json_pointer(pointer)] = value;
    std::set<std::string> out;
    for (const auto& fault : read_json(document).faults) {
      if (fault.place == pointer) out.insert(fault.code);
    }
    return out;
  };
  int ranges = 0;
  int words = 0;
  each_place(complete, schema(), "", [&](const std::string& pointer, const Json& rule, const Json&) {
    const Json& number = rule.contains("oneOf") ? rule["oneOf"][0] : rule;
    if (number.contains("minimum")) {
      ++ranges;
      const double beyond = number["type"] == "integer" ? 1 : 0.01;
      const double low = number["minimum"];
      const double high = number["maximum"];
      EXPECT_TRUE(codes(pointer, low - beyond).contains("out-of-range")) << pointer;
      EXPECT_TRUE(codes(pointer, high + beyond).contains("out-of-range")) << pointer;
      EXPECT_FALSE(codes(pointer, high).contains("out-of-range")) << pointer;
      // A standard rate of nought is another category.
      EXPECT_EQ(codes(pointer, low).contains("out-of-range"),
                pointer == "/rates/tax/percent" || pointer == "/rates/materials_tax/percent")
          << pointer;
    }
    if (rule.contains("enum")) {
      ++words;
      EXPECT_TRUE(codes(pointer, "no such word").contains("bad-word")) << pointer;
      for (const auto& word : rule["enum"])
        EXPECT_FALSE(codes(pointer, word).contains("bad-word")) << pointer << word;
    }
  });
  EXPECT_GT(ranges, 15);
  EXPECT_GT(words, 5);
}

TEST(MeSchema, NeedsWhatTheReaderNeedsAndGivesItsUsualValues) {
  const Json complete = as_json(complete_me());
  int checked = 0;
  each_place(complete, schema(), "", [&](const std::string& pointer, const Json& rule, const Json&) {
    if (!rule.contains("properties")) return;
    std::set<std::string> needed;
    if (rule.contains("required")) {
      for (const auto& key : rule["required"])
        needed.insert(key.get<std::string>());
    }
    for (const auto& [key, member] : rule["properties"].items()) {
      const std::string place = pointer_to(pointer, key);
      if (!complete.contains(Json::json_pointer(place))) continue;
      Json without = complete;
      without[Json::json_pointer(pointer)].erase(key);
      const MeRead read = read_json(without);
      bool missed = false;
      for (const auto& fault : read.faults)
        missed = missed || (fault.code == "missing-key" && fault.place.rfind(place, 0) == 0);
      EXPECT_EQ(missed, needed.contains(key)) << place;
      if (!member.contains("default") || !read.document) continue;
      ++checked;
      Json with = complete;
      with[Json::json_pointer(place)] = member["default"];
      const MeRead usual = read_json(with);
      ASSERT_TRUE(usual.document) << place;
      EXPECT_EQ(me_to_json(*usual.document), me_to_json(*read.document)) << place;
    }
  });
  EXPECT_GT(checked, 8);
}

}  // namespace
}  // namespace weatherstruck::files
