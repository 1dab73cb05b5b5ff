#include "weatherstruck/base/text.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdint>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

namespace weatherstruck::base {
namespace {

using Names = std::vector<std::string>;

// Well-formed and ill-formed sequences of RFC 3629, sections 3, 4 and 7.
TEST(Utf8, AcceptsTheExamplesOfTheStandard) {
  for (const char* text : {"", "plain", "A\xe2\x89\xa2\xce\x91.", "\xed\x95\x9c\xea\xb5\xad\xec\x96\xb4",
                           "\xe6\x97\xa5\xe6\x9c\xac\xe8\xaa\x9e", "\xef\xbb\xbf\xf0\xa3\x8e\xb4",
                           "\xed\x9f\xbf", "\xee\x80\x80", "\xf4\x8f\xbf\xbf", "\xc2\x80"}) {
    EXPECT_EQ(first_invalid_utf8(text), std::nullopt) << text;
  }
  EXPECT_EQ(first_invalid_utf8(std::string_view("a\0b", 3)), std::nullopt);
}

TEST(Utf8, RefusesOverlongForms) {
  for (const char* text : {"ab\xc0\x80", "ab\xc1\xbf", "ab\xe0\x80\x80", "ab\xe0\x9f\xbf",
                           "ab\xf0\x80\x80\x80", "ab\xf0\x8f\xbf\xbf"}) {
    EXPECT_EQ(first_invalid_utf8(text), 2U) << text;
  }
}

TEST(Utf8, RefusesSurrogatesAndWhatLiesBeyondTheLastCodePoint) {
  for (const char* text : {"a\xed\xa0\x80", "a\xed\xbf\xbf", "a\xed\xa1\x8c\xed\xbe\xb4", "a\xf4\x90\x80\x80",
                           "a\xf5\x80\x80\x80", "a\xf8\x88\x80\x80\x80", "a\xfe", "a\xff"}) {
    EXPECT_EQ(first_invalid_utf8(text), 1U) << text;
  }
}

TEST(Utf8, RefusesCutAndStraySequences) {
  for (const char* text :
       {"a\x80", "a\xbf", "a\xc3", "a\xe2\x89", "a\xe2\x89z", "a\xf0\x9f\x8c", "a\xc3\xc3"}) {
    EXPECT_EQ(first_invalid_utf8(text), 1U) << text;
  }
}

std::string encode(std::uint32_t code) {
  const auto tail = [](std::uint32_t bits) { return static_cast<char>(0x80U | (bits & 0x3fU)); };
  if (code < 0x80) return {static_cast<char>(code)};
  if (code < 0x800) return {static_cast<char>(0xc0U | (code >> 6)), tail(code)};
  if (code < 0x10000) return {static_cast<char>(0xe0U | (code >> 12)), tail(code >> 6), tail(code)};
  return {static_cast<char>(0xf0U | (code >> 18)), tail(code >> 12), tail(code >> 6), tail(code)};
}

TEST(Utf8, AcceptsEveryCodePointAndOnlyThose) {
  for (std::uint32_t code = 0; code < 0x120000; ++code) {
    const bool valid = code < 0xd800 || (code > 0xdfff && code <= 0x10ffff);
    ASSERT_EQ(first_invalid_utf8(encode(code)).has_value(), !valid) << code;
  }
}

TEST(DisplayWidth, CountsColumnsNotBytes) {
  EXPECT_EQ(display_width(""), 0U);
  EXPECT_EQ(display_width("mortar"), 6U);
  EXPECT_EQ(display_width("5 \xc2\xb0"
                          "C"),
            4U);
  EXPECT_EQ(display_width("m\xc2\xb3"), 2U);
  EXPECT_EQ(display_width("Ll\xc5\xb7n"), 4U);
  EXPECT_EQ(display_width("Lly\xcc\x82n"), 4U);              // the same word with a combining circumflex
  EXPECT_EQ(display_width("\xe6\x97\xa5\xe6\x9c\xac"), 4U);  // two ideographs, W in EastAsianWidth.txt
  EXPECT_EQ(display_width("\xef\xbc\xa1"), 2U);              // full-width A, F in the same table
  EXPECT_EQ(display_width("a\xff"), 2U);
}

TEST(Pad, FillsToTheWidthAndNeverCuts) {
  EXPECT_EQ(pad("m\xc2\xb3", 4), "m\xc2\xb3  ");
  EXPECT_EQ(pad("brick", 3), "brick");
  EXPECT_EQ(align_right("12", 4), "  12");
  EXPECT_EQ(align_right("\xc2\xb0"
                        "C",
                        4),
            "  \xc2\xb0"
            "C");
  EXPECT_EQ(align_right("brick", 3), "brick");
}

TEST(Wrap, BreaksAtSpacesOnly) {
  EXPECT_EQ(wrap("lay to course three", 10), (Names{"lay to", "course", "three"}));
  EXPECT_EQ(wrap("lay to course three", 13), (Names{"lay to course", "three"}));
  EXPECT_EQ(wrap("an extraordinarily long word", 8), (Names{"an", "extraordinarily", "long", "word"}));
  EXPECT_EQ(wrap("", 10), (Names{""}));
}

TEST(Wrap, KeepsNewlinesAndOpeningSpaces) {
  EXPECT_EQ(wrap("one\n\n  two  three ", 20), (Names{"one", "", "  two three"}));
  EXPECT_EQ(wrap("end\n", 20), (Names{"end", ""}));
  EXPECT_EQ(wrap("  one two", 5), (Names{"  one", "two"}));
}

RC_GTEST_PROP(WrapProperty, LosesNoWordAndKeepsTheWidth, ()) {
  const auto words = *rc::gen::container<Names>(
      rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange('a', 'z'))));
  const auto width = *rc::gen::inRange<std::size_t>(1, 30);
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : " ") + word;
  std::string joined;
  for (const std::string& line : wrap(text, width)) {
    RC_ASSERT(line.size() <= width || line.find(' ') == std::string::npos);
    joined += (joined.empty() ? "" : " ") + line;
  }
  RC_ASSERT(joined == text);
}

TEST(JoinAnd, SpeaksAList) {
  EXPECT_EQ(join_and(Names{}), "");
  EXPECT_EQ(join_and(Names{"rain"}), "rain");
  EXPECT_EQ(join_and(Names{"rain", "frost"}), "rain and frost");
  EXPECT_EQ(join_and(Names{"rain", "frost", "dark"}), "rain, frost and dark");
}

TEST(NearestName, FindsOneSlipOfTheFinger) {
  const Names names{"height", "length", "weight", "bond"};
  EXPECT_EQ(nearest_name("heigth", names), "height");  // a swap
  EXPECT_EQ(nearest_name("lenth", names), "length");   // one left out
  EXPECT_EQ(nearest_name("bonds", names), "bond");     // one too many
  EXPECT_EQ(nearest_name("wright", names), "weight");  // one replaced
}

TEST(NearestName, TakesTheFirstOfEqualsAndNothingTooFar) {
  EXPECT_EQ(nearest_name("eight", Names{"weight", "height"}), "weight");
  EXPECT_EQ(nearest_name("eight", Names{"height", "weight"}), "height");
  EXPECT_EQ(nearest_name("colour", Names{"height", "bond"}), std::nullopt);
  EXPECT_EQ(nearest_name("height", Names{}), std::nullopt);
  // Three edits of nine letters are a third; four are not.
  EXPECT_EQ(nearest_name("abcdefghi", Names{"abcdefxyz"}), "abcdefxyz");
  EXPECT_EQ(nearest_name("abcdefghi", Names{"abcdewxyz"}), std::nullopt);
  EXPECT_EQ(nearest_name("caf\xc3\xa9", Names{"cafe"}), "cafe");  // one letter, though two bytes
}

RC_GTEST_PROP(NearestNameProperty, FindsTheNameItself, (const std::string& name)) {
  RC_ASSERT(nearest_name(name, Names{name}) == name);
}

TEST(ParseNumber, ReadsDecimals) {
  EXPECT_EQ(parse_number("0"), 0.0);
  EXPECT_EQ(parse_number("-12"), -12.0);
  EXPECT_EQ(parse_number("3.50"), 3.5);
  EXPECT_EQ(parse_number("1e3"), 1000.0);
  EXPECT_EQ(parse_number("1.5E-2"), 0.015);
  EXPECT_EQ(parse_number("2e+2"), 200.0);
  EXPECT_EQ(parse_number("007"), 7.0);
}

TEST(ParseNumber, RefusesEverythingElse) {
  for (const char* text :
       {"",    "-",    "+1",   ".5",    "5.",     "1,5",   " 1",    "1 ",  "1e",    "1e+",     "nan",
        "inf", "-inf", "0x10", "1e999", "-1e999", "1_000", "1.2.3", "--1", "1e1.5", "\xc2\xbd"}) {
    EXPECT_EQ(parse_number(text), std::nullopt) << text;
  }
  EXPECT_EQ(parse_number(std::string_view("1\0", 2)), std::nullopt);
}

// Hard cases for a reader that rounds: the double just below and at the half-way point of 2^53 + 1, and the
// smallest normal number's neighbour that once hung PHP and Java (2.2250738585072011e-308).
TEST(ParseNumber, RoundsCorrectly) {
  EXPECT_EQ(parse_number("9007199254740993"), 9007199254740992.0);
  EXPECT_EQ(parse_number("9007199254740993.0000000000000000001"), 9007199254740994.0);
  EXPECT_EQ(parse_number("2.2250738585072011e-308"), 0x0.fffffffffffffp-1022);
  EXPECT_EQ(parse_number("1.7976931348623157e308"), 0x1.fffffffffffffp1023);
}

TEST(ParseNumber, HugeExponentsAreNoTrap) {
  EXPECT_EQ(parse_number("0e999999999999999999999999"), 0.0);
  EXPECT_EQ(parse_number("1e-999999999999999999999999"), 0.0);
  EXPECT_EQ(parse_number("1e999999999999999999999999"), std::nullopt);
  EXPECT_EQ(parse_number("0." + std::string(400, '0') + "1e401"), 1.0);
  EXPECT_EQ(parse_number("1" + std::string(400, '0') + "e-400"), 1.0);
}

TEST(PlainNumber, DropsTrailingZerosAndMinusZero) {
  EXPECT_EQ(plain_number(3.5, 2), "3.5");
  EXPECT_EQ(plain_number(3.0, 2), "3");
  EXPECT_EQ(plain_number(1200.0, 0), "1200");
  EXPECT_EQ(plain_number(1200.0, 2), "1200");
  EXPECT_EQ(plain_number(0.125, 2), "0.12");  // exactly half: to even
  EXPECT_EQ(plain_number(-0.001, 2), "0");
  EXPECT_EQ(plain_number(-0.0, 0), "0");
  EXPECT_EQ(plain_number(-2.25, 1), "-2.2");
  EXPECT_EQ(plain_number(1e21, 0), "1000000000000000000000");
}

TEST(PlainNumber, RefusesWhatCannotBeWritten) {
  EXPECT_THROW((void)plain_number(std::numeric_limits<double>::quiet_NaN(), 1), std::invalid_argument);
  EXPECT_THROW((void)plain_number(std::numeric_limits<double>::infinity(), 1), std::invalid_argument);
  EXPECT_THROW((void)plain_number(1, -1), std::invalid_argument);
  EXPECT_THROW((void)plain_number(1, 18), std::invalid_argument);
}

RC_GTEST_PROP(PlainNumberProperty, ReadsBackAsWritten, (std::int32_t thousandths)) {
  const double value = thousandths / 1000.0;
  RC_ASSERT(parse_number(plain_number(value, 3)) == value);
}

}  // namespace
}  // namespace weatherstruck::base
