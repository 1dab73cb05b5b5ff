#include "weatherstruck/files/json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace weatherstruck::files {
namespace {

JsonLimits strict() {
  return {};
}

std::string only_fault(std::string_view text, const JsonLimits& limits = {}) {
  const auto parsed = parse_json(text, limits);
  EXPECT_FALSE(parsed.value.has_value()) << text;
  if (parsed.faults.size() != 1) return std::to_string(parsed.faults.size()) + " faults";
  return parsed.faults[0].code + " | " + base::to_text(parsed.faults[0]);
}

TEST(Json, EveryKindOfBrokenTextIsToldInFull) {
  struct Case {
    const char* text;
    const char* told;
  };
  // clang-format off
  const std::vector<Case> cases = {
    {"", "empty-input | line 1, column 1: found no text; allowed: one JSON value. Check that the file was written and is the right one."},
    {" \n ", "empty-input | line 2, column 2: found no text; allowed: one JSON value. Check that the file was written and is the right one."},
    {"{\"a\": 1} x", "bad-json | line 1, column 10: found `x`; allowed: the end of the text. Take out what follows the document."},
    {"{\"a\": 1,}", "bad-json | line 1, column 8: found a comma before `}`; allowed: no comma after the last one. Take the comma out."},
    {"[1,\n 2,\n]", "bad-json | line 2, column 3: found a comma before `]`; allowed: no comma after the last one. Take the comma out."},
    {"{\"a\": 1 \"b\": 2}", "bad-json | line 1, column 9: found `\"`; allowed: `,` or `}`. Put in the comma, or what is missing, before it."},
    {"{\"a\" 1}", "bad-json | line 1, column 6: found `1`; allowed: `:` after the key \"a\". Put the colon in."},
    {"{a: 1}", "bad-json | line 1, column 2: found `a`; allowed: a key in double quotes. Write the key as \"key\"."},
    {"{\"a\": 'x'}", "bad-json | line 1, column 7: found `'`; allowed: a value. Use double quotes."},
    {"{\"a\": True}", "bad-json | line 1, column 7: found `True`; allowed: a value. Put double quotes round a text; the bare words are true, false and null."},
    {"{\"a\": ,}", "bad-json | line 1, column 7: found `,`; allowed: a value. Put in the value."},
    {"{\n\"a\": [1, 2\n", "bad-json | line 3, column 1: found the end of the text; allowed: `,` or `]`. Close what line 2 opens with `]`."},
    {"{\"a\": \"x\n\"}", "bad-json | line 1, column 7: found a text without its closing quote; allowed: `\"` on the same line. Close the text with a double quote."},
    {"[\"a\tb\"]", "bad-json | line 1, column 4: found byte 0x09 in a text; allowed: no control characters. Write a space or \\t for the tab."},
    {"[\"\\q\"]", "bad-json | line 1, column 3: found `\\` and then `q`; allowed: one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t, or \\u with four hex digits. Write two backslashes for one."},
    {"[\"\\u12g4\"]", "bad-json | line 1, column 3: found `\\u` without four hexadecimal digits; allowed: for example \\u00e9. Write the character itself."},
    {"[\"\\ud800\"]", "bad-unicode-escape | line 1, column 3: found `\\uD800`, half of a pair; allowed: a character, or both halves of a pair. Write the character itself."},
    {"[012]", "bad-json | line 1, column 2: found `012`; allowed: a number such as 12, 0.5 or -3. Write a plain number, or put quotes round a text."},
    {"[1.]", "bad-json | line 1, column 2: found `1.`; allowed: a number such as 12, 0.5 or -3. Write a plain number, or put quotes round a text."},
    {"[.5]", "bad-json | line 1, column 2: found `.`; allowed: a value. Write a digit before the point."},
    {"[+5]", "bad-json | line 1, column 2: found `+`; allowed: a value. Take the plus sign out."},
    {"[2.5m]", "bad-json | line 1, column 2: found `2.5m`; allowed: a number such as 12, 0.5 or -3. Write a plain number, or put quotes round a text."},
    {"[NaN]", "not-a-number | line 1, column 2: found `NaN`; allowed: a finite number. Write the number, or leave the key out."},
    {"[-Infinity]", "not-a-number | line 1, column 2: found `-Infinity`; allowed: a finite number. Write the number, or leave the key out."},
    {"[1e400]", "huge-number | line 1, column 2: found `1e400`; allowed: numbers from about 1e-308 to 1e308. Check the number."},
    {"[-1e400]", "huge-number | line 1, column 2: found `-1e400`; allowed: numbers from about 1e-308 to 1e308. Check the number."},
    {"[9007199254740993]", "huge-number | line 1, column 2: found `9007199254740993`; allowed: whole numbers up to 9007199254740992. Check the number."},
    {"[123456789012345678901234567890]", "huge-number | line 1, column 2: found `123456789012345678901234567890`; allowed: whole numbers up to 9007199254740992. Check the number."},
    {"[1, // one\n 2]", "bad-json | line 1, column 5: found a comment; allowed: JSON without comments. Take the comment out."},
    {"{\"a\": 1,\n \"a\": 2}", "duplicate-key | /a: found the key on line 1 and again on line 2; allowed: each key once. Take one of the two out."},
    {"{\"x\": [0, {\"b/c\": 1, \"b/c\": 1}]}", "duplicate-key | /x/1/b~1c: found the key twice on line 1; allowed: each key once. Take one of the two out."},
    {"{\"a\":\n\"\xFF\"}", "bad-utf8 | line 2, column 2: found byte 0xFF at offset 7; allowed: text in UTF-8. Save the file as UTF-8."},
    {"[\"\xC0\x80\"]", "bad-utf8 | line 1, column 3: found byte 0xC0 at offset 2; allowed: text in UTF-8. Save the file as UTF-8."},
  };
  // clang-format on
  for (const auto& one : cases)
    EXPECT_EQ(only_fault(one.text, strict()), one.told) << one.text;
}

TEST(Json, FaultsThatLeaveTheGrammarWholeAreAllCollected) {
  const auto parsed =
      parse_json("{\"a\": NaN, \"b\": 1e999,\n \"a\": \"\\udc00\", \"c\": \"\xFE\"}", strict());
  std::vector<std::string> codes;
  for (const auto& fault : parsed.faults)
    codes.push_back(fault.code);
  EXPECT_THAT(codes, testing::UnorderedElementsAre("bad-utf8", "not-a-number", "huge-number",
                                                   "bad-unicode-escape", "duplicate-key"));
}

TEST(Json, ThreeEqualKeysAreTwoFaults) {
  EXPECT_EQ(parse_json("{\"a\":1,\"a\":2,\"a\":3}", strict()).faults.size(), 2U);
}

TEST(Json, ColumnsCountCharactersAndNotBytes) {
  EXPECT_THAT(only_fault("{\"ääh\": x}", strict()), testing::HasSubstr("line 1, column 9:"));
}

TEST(Json, CommentsAreReadWhereAllowedAndKeptOutOfTexts) {
  const auto parsed =
      parse_json("// top\n{ /* one\ntwo */ \"a\": \"// no comment\", // end\n\"b\": 2 }\n// last",
                 JsonLimits::job_document());
  ASSERT_TRUE(parsed.value) << base::to_text(parsed.faults.at(0));
  EXPECT_EQ(parsed.value->at("a"), "// no comment");
  EXPECT_EQ(parsed.lines.at("/a"), 3U);
  EXPECT_EQ(parsed.lines.at("/b"), 4U);
  EXPECT_EQ(only_fault("{} /* never closed", JsonLimits::job_document()),
            "bad-json | line 1, column 4: found a comment without an end; allowed: `*/` after it. Close the "
            "comment.");
}

TEST(Json, ANestingBombIsStoppedAtTheCapWithoutDeepRecursion) {
  const std::string bomb(500000, '[');
  EXPECT_EQ(
      only_fault(bomb, strict()),
      "too-deep | line 1, column 65: found 65 objects and lists within each other; allowed: at most 64. "
      "Check that this is the right file.");
  std::string keys;
  for (int i = 0; i < 100000; ++i)
    keys += "{\"a\":";
  EXPECT_THAT(only_fault(keys, strict()), testing::StartsWith("too-deep | "));
  EXPECT_TRUE(parse_json(std::string(64, '[') + std::string(64, ']'), strict()).value);
}

TEST(Json, ATextOverItsCapIsNotRead) {
  const std::string big(std::size_t{1} << 20, ' ');
  EXPECT_EQ(only_fault(big + "{", JsonLimits::job_document()),
            "too-big | line 1: found 1048577 bytes; allowed: at most 1048576 bytes. Check that this is the "
            "right file.");
  EXPECT_TRUE(parse_json(big.substr(2) + "{}", JsonLimits::job_document()).value);
}

TEST(Json, AFloodOfFaultsStopsAtAHundred) {
  std::string text = "[NaN";
  for (int i = 0; i < 5000; ++i)
    text += ",NaN";
  const auto parsed = parse_json(text + "]", strict());
  ASSERT_EQ(parsed.faults.size(), 101U);
  EXPECT_EQ(parsed.faults.back().code, "too-many-faults");
}

TEST(Json, ManyKeysInOneObjectCostNoMoreThanSorting) {
  std::string text = "{";
  for (int i = 0; i < 60000; ++i)
    text += "\"k" + std::to_string(i) + "\":0,";
  text += "\"last\":0}";
  // Looking through all keys for each key would be 1.8 thousand million comparisons and not end in a test.
  EXPECT_EQ(parse_json(text, strict()).value->size(), 60001U);
}

TEST(Json, ValuesAndTheOrderOfKeysComeThrough) {
  const auto parsed = parse_json(
      "\xEF\xBB\xBF{\"z\": [1, -2.5e-3, true, false, null], \"a\": \"\\u00e9\\ud83e\\uddf1\\n\\/\"}",
      strict());
  ASSERT_TRUE(parsed.value);
  EXPECT_EQ(parsed.value->dump(), "{\"z\":[1,-0.0025,true,false,null],\"a\":\"é🧱\\n/\"}");
  EXPECT_TRUE(parsed.value->at("z")[0].is_number_integer());
  EXPECT_TRUE(parsed.lines.empty());
}

TEST(Json, ShownValuesFitALine) {
  EXPECT_EQ(shown(Json::parse("[1,2,3]")), "a list of 3");
  EXPECT_EQ(shown(Json::parse("{\"a\":1}")), "an object");
  EXPECT_EQ(shown(Json::array()), "an empty list");
  EXPECT_EQ(shown(Json(12.5)), "12.5");
  EXPECT_EQ(shown(Json(std::string(100, 'x'))), "\"" + std::string(39, 'x') + "...");
  EXPECT_NO_THROW(static_cast<void>(shown(Json("\xFF"))));
}

TEST(Json, PointersEscapeAsRfc6901Says) {
  // RFC 6901 section 5: "a/b" is /a~1b, "m~n" is /m~0n.
  EXPECT_EQ(pointer_to("", "a/b"), "/a~1b");
  EXPECT_EQ(pointer_to("/x", "m~n"), "/x/m~0n");
  EXPECT_EQ(pointer_to("/x", std::size_t{3}), "/x/3");
}

// The library's parser as a second opinion: what it takes, this one takes with the same value, and what it
// refuses this one refuses, but for what is refused here on purpose (equal keys, huge whole numbers, halves
// of pairs the library refuses as well).
bool on_purpose(const base::Faults& faults) {
  for (const auto& fault : faults) {
    if (fault.code != "duplicate-key" && fault.code != "huge-number") return false;
  }
  return !faults.empty();
}

RC_GTEST_PROP(Json, AgreesWithTheLibraryOnMutatedTexts, ()) {
  static const std::string seed =
      "{\"a\": [1, -2.5e+3, 0.0, true, null], \"b\": {\"c\": \"x\\n\\u00e9\\\\ \", \"d\": {}}, \"e\": [[], "
      "\"é\"]}";
  static const std::string alphabet = "{}[]\",:\\/0123456789.eE+-tfnu \n\t\xC3\xA9\xFF";
  std::string text = seed;
  const int edits = *rc::gen::inRange(0, 5);
  for (int i = 0; i < edits; ++i) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    const char c = alphabet[*rc::gen::inRange<std::size_t>(0, alphabet.size())];
    switch (*rc::gen::inRange(0, 3)) {
      case 0:
        text[at] = c;
        break;
      case 1:
        text.insert(at, 1, c);
        break;
      default:
        text.erase(at, 1 + *rc::gen::inRange<std::size_t>(0, 4));
        break;
    }
    if (text.empty()) text = " ";
  }
  const auto mine = parse_json(text, {});
  RC_ASSERT(mine.value.has_value() == mine.faults.empty());
  const Json theirs = Json::parse(text, nullptr, false);
  if (theirs.is_discarded()) {
    RC_ASSERT(!mine.value.has_value());
  } else if (mine.value) {
    RC_ASSERT(mine.value->dump() == theirs.dump());
  } else {
    RC_ASSERT(on_purpose(mine.faults));
  }
}

std::vector<std::filesystem::path> forecast_files() {
  const char* named = std::getenv("WEATHERSTRUCK_SHARED");
  const auto root = named != nullptr ? std::filesystem::path(named)
                                     : std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / ".." / "shared";
  std::vector<std::filesystem::path> out;
  for (const char* folder : {"metno", "nws"}) {
    const auto path = root / "data" / "forecasts" / folder;
    if (!std::filesystem::is_directory(path)) continue;
    for (const auto& entry : std::filesystem::directory_iterator(path)) {
      if (entry.path().extension() == ".json") out.push_back(entry.path());
    }
  }
  return out;
}

TEST(Json, RealForecastsReadAsTheLibraryReadsThem) {
  const auto files = forecast_files();
  if (files.empty()) GTEST_SKIP() << "no forecast files: set WEATHERSTRUCK_SHARED to the shared data folder";
  for (const auto& path : files) {
    std::ifstream in(path, std::ios::binary);
    const std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    const auto parsed = parse_json(text, JsonLimits::forecast());
    ASSERT_TRUE(parsed.value) << path << ": " << base::to_text(parsed.faults.at(0));
    EXPECT_EQ(*parsed.value, Json::parse(text)) << path;
  }
}

}  // namespace
}  // namespace weatherstruck::files
