// The published schema and the reader know the same keys, words and ranges. Both are walked: the reader's own
// record of what it asked for, and the schema's properties.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>
#include <vector>

#include "files/job_support.h"
#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::files {
namespace {

const Json& schema() {
  static const Json parsed =
      parse_json(file_text("docs/job.schema.json"), JsonLimits::forecast()).value.value();
  return parsed;
}

// "#/$defs/bed" -> the definition; anything else as it is.
const Json& resolved(const Json& part) {
  if (!part.contains("$ref")) return part;
  const auto name = part["$ref"].get<std::string>();
  return schema()["$defs"][name.substr(std::string("#/$defs/").size())];
}

std::set<std::string> keys_of(const Json& object) {
  std::set<std::string> out;
  for (const auto& [key, value] : object.items())
    out.insert(key);
  return out;
}

TEST(JobSchema, HasTheKeysTheReaderAsksForAndNoOthers) {
  std::map<std::string, std::set<std::string>, std::less<>> known;
  for (const auto& [name, definition] : schema()["$defs"].items()) {
    if (!definition.contains("properties")) continue;
    known[name] = keys_of(definition["properties"]);
    EXPECT_EQ(definition["additionalProperties"], false) << name;
  }
  known["job_document"] = keys_of(schema()["properties"]);
  auto asked = read(complete_text()).shapes;
  EXPECT_EQ(asked, known);
}

// One place of the complete document beside the part of the schema that speaks of it.
struct Spot {
  std::string pointer;
  const Json* rule;
};

void collect(const Json& value, const Json& rule_or_ref, const std::string& pointer, std::vector<Spot>& out) {
  const Json* rule = &resolved(rule_or_ref);
  if (rule->contains("oneOf") && value.is_object()) {
    for (const auto& choice : (*rule)["oneOf"]) {
      if (resolved(choice)["properties"]["kind"]["const"] == value["kind"]) rule = &resolved(choice);
    }
  }
  out.push_back({pointer, rule});
  if (value.is_object() && rule->contains("properties")) {
    for (const auto& [key, member] : value.items()) {
      collect(member, (*rule)["properties"][key], pointer_to(pointer, key), out);
    }
  }
  if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i)
      collect(value[i], (*rule)["items"], pointer_to(pointer, i), out);
  }
}

std::vector<Spot> spots() {
  std::vector<Spot> out;
  collect(as_json(complete_text()), schema(), "", out);
  return out;
}

// The codes the reader gives for that place when this value stands there.
std::set<std::string> codes_for(const std::string& pointer, const Json& value) {
  static const Json complete = as_json(complete_text());
  Json document = complete;
  document[Json::json_pointer(pointer)] = value;
  std::set<std::string> out;
  for (const auto& fault : read(document.dump()).faults) {
    if (fault.place == pointer) out.insert(fault.code);
  }
  return out;
}

TEST(JobSchema, HasTheRangesTheReaderKeeps) {
  int checked = 0;
  for (const auto& spot : spots()) {
    const Json& rule = spot.rule->contains("oneOf") ? (*spot.rule)["oneOf"][0] : *spot.rule;
    if (!rule.contains("minimum")) continue;
    ++checked;
    const double low = rule["minimum"];
    const double high = rule["maximum"];
    const double beyond = rule["type"] == "integer" ? 1 : 1e-6;
    // A standard rate of nought is another category.
    const bool rate_of_tax = spot.pointer.ends_with("/tax/percent");
    EXPECT_EQ(codes_for(spot.pointer, low).contains("out-of-range"), rate_of_tax) << spot.pointer;
    // These three must also fit the part they stand in, which the checks of the works see to.
    const auto key = spot.pointer.substr(spot.pointer.rfind('/') + 1);
    const bool bound_by_part = key == "courses_below" || key == "from_course" || key == "door_width";
    EXPECT_TRUE(bound_by_part || !codes_for(spot.pointer, high).contains("out-of-range")) << spot.pointer;
    EXPECT_TRUE(codes_for(spot.pointer, low - beyond).contains("out-of-range")) << spot.pointer;
    EXPECT_TRUE(codes_for(spot.pointer, high + beyond * 10).contains("out-of-range")) << spot.pointer;
    const bool whole = rule["type"] == "integer";
    const double between = low + (whole ? 0.5 : (high - low) / 7);
    // A seventh of the way to the widest door is wider than this part.
    if (key != "door_width") {
      EXPECT_EQ(codes_for(spot.pointer, between).contains("out-of-range"), whole) << spot.pointer;
    }
  }
  EXPECT_GT(checked, 50);
}

TEST(JobSchema, HasTheWordsTheReaderTakes) {
  int checked = 0;
  for (const auto& spot : spots()) {
    if (!spot.rule->contains("enum")) continue;
    ++checked;
    for (const auto& word : (*spot.rule)["enum"]) {
      EXPECT_FALSE(codes_for(spot.pointer, word).contains("bad-word")) << spot.pointer << " " << word;
    }
    Json document = as_json(complete_text());
    document[Json::json_pointer(spot.pointer)] = "no such word";
    for (const auto& fault : read(document.dump()).faults) {
      if (fault.place != spot.pointer) continue;
      // The words told are the words of the schema, in the same order.
      std::string told = "one of ";
      for (const auto& word : (*spot.rule)["enum"])
        told += (told.size() > 7 ? ", " : "") + word.dump();
      EXPECT_EQ(fault.expected, told) << spot.pointer;
    }
  }
  EXPECT_GT(checked, 20);
}

TEST(JobSchema, NeedsWhatTheReaderNeeds) {
  static const Json complete = as_json(complete_text());
  for (const auto& spot : spots()) {
    if (!spot.rule->contains("properties")) continue;
    const auto required = spot.rule->contains("required")
                              ? (*spot.rule)["required"].get<std::vector<std::string>>()
                              : std::vector<std::string>();
    const std::set<std::string> needed(required.begin(), required.end());
    for (const auto& key : keys_of((*spot.rule)["properties"])) {
      const auto place = pointer_to(spot.pointer, key);
      if (!complete.contains(Json::json_pointer(place))) continue;
      Json document = complete;
      document[Json::json_pointer(spot.pointer)].erase(key);
      // A section that is needed is missed through its members.
      bool missed = false;
      for (const auto& fault : read(document.dump()).faults) {
        missed = missed || (fault.code == "missing-key" &&
                            (fault.place == place || fault.place.rfind(place + "/", 0) == 0));
      }
      EXPECT_EQ(missed, needed.contains(key)) << place;
    }
  }
}

TEST(JobSchema, GivesTheUsualValuesTheReaderTakes) {
  // Reading without a key is the same as reading with the schema's default in its place.
  static const Json complete = as_json(complete_text());
  int checked = 0;
  for (const auto& spot : spots()) {
    if (!spot.rule->contains("properties")) continue;
    for (const auto& [key, rule] : (*spot.rule)["properties"].items()) {
      const auto place = pointer_to(spot.pointer, key);
      if (!rule.contains("default") || !complete.contains(Json::json_pointer(place))) continue;
      Json without = complete;
      without[Json::json_pointer(spot.pointer)].erase(key);
      Json with = complete;
      with[Json::json_pointer(place)] = rule["default"];
      const auto job_without = read(without.dump());
      const auto job_with = read(with.dump());
      if (!job_without.job || !job_with.job) continue;
      ++checked;
      EXPECT_EQ(job_to_json(*job_with.job), job_to_json(*job_without.job)) << place;
    }
  }
  EXPECT_GT(checked, 40);
}

}  // namespace
}  // namespace weatherstruck::files
