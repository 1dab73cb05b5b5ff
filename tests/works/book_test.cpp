#include "weatherstruck/works/book.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "works/book_support.h"

namespace weatherstruck::works {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::vector<EntryKey> keys_of(const std::vector<Entry>& entries) {
  std::vector<EntryKey> keys;
  for (const Entry& written : entries)
    keys.push_back(written.key);
  return keys;
}

std::vector<std::string> codes_of(const base::Faults& faults) {
  std::vector<std::string> codes;
  for (const base::Fault& fault : faults)
    codes.push_back(fault.code);
  return codes;
}

TEST(Book, KeepsEntriesInTheOrderTheyCame) {
  const Book book = book_of({entry("b", feb(10, 9), Note{"second"}), entry("a", feb(10, 8), Note{"first"})});
  EXPECT_THAT(keys_of(book.entries()), ElementsAre("b", "a"));
  EXPECT_EQ(book.find("a")->at, feb(10, 8));
  EXPECT_EQ(book.find("c"), nullptr);
}

TEST(Book, AnEntrySentAgainIsOneEntry) {
  Book book;
  const Entry sent = entry("a", feb(10, 8), Begin{"bed-dig"});
  EXPECT_EQ(book.append(sent), Book::Appended::added);
  EXPECT_EQ(book.append(sent), Book::Appended::repeated);
  EXPECT_EQ(book.size(), 1U);
}

TEST(Book, AnotherEntryUnderTheSameKeyIsRefused) {
  Book book = book_of({entry("a", feb(10, 8), Begin{"bed-dig"})});
  EXPECT_EQ(book.append(entry("a", feb(10, 9), Begin{"bed-dig"})), Book::Appended::clash);
  EXPECT_EQ(book.find("a")->at, feb(10, 8));
}

TEST(Effective, OrdersByTheMomentNotByArrival) {
  const Book book =
      book_of({entry("b", feb(10, 9), Note{"x"}), late(entry("a", feb(10, 8), Note{"y"}), feb(10, 20))});
  EXPECT_THAT(keys_of(effective(book).entries), ElementsAre("a", "b"));
}

TEST(Effective, ACorrectionStandsInForWhatItNames) {
  const Book book =
      book_of({entry("a", feb(10, 8), Note{"wrong"}), entry("b", feb(10, 9), Note{"right"}, "a")});
  const Effective counted = effective(book);
  EXPECT_THAT(keys_of(counted.entries), ElementsAre("b"));
  EXPECT_THAT(counted.faults, IsEmpty());
}

TEST(Effective, ACorrectionMayBeCorrected) {
  const Book book =
      book_of({entry("c", feb(10, 10), Note{"right"}, "b"), entry("a", feb(10, 8), Note{"wrong"}),
               entry("b", feb(10, 9), Note{"wrong again"}, "a")});
  EXPECT_THAT(keys_of(effective(book).entries), ElementsAre("c"));
}

TEST(Effective, OfTwoCorrectionsTheOneNotedLastCounts) {
  const Entry first = late(entry("b", feb(10, 8), Note{"x"}, "a"), feb(10, 12));
  const Entry second = late(entry("c", feb(10, 8), Note{"y"}, "a"), feb(10, 11));
  EXPECT_THAT(keys_of(effective(book_of({entry("a", feb(10, 8), Note{"z"}), first, second})).entries),
              ElementsAre("b"));
}

TEST(Effective, WhatIsStruckOutNeverHappened) {
  const Book book =
      book_of({entry("a", feb(10, 8), Begin{"bed-dig"}), entry("b", feb(10, 9), Struck{}, "a")});
  EXPECT_THAT(effective(book).entries, IsEmpty());
}

TEST(Effective, ACorrectionOfAnUnknownEntryIsAFaultAndDoesNotCount) {
  const Effective counted = effective(book_of({entry("b", feb(10, 9), Note{"x"}, "a")}));
  EXPECT_THAT(counted.entries, IsEmpty());
  ASSERT_EQ(counted.faults.size(), 1U);
  EXPECT_EQ(counted.faults[0].code, "corrects-unknown");
  EXPECT_EQ(counted.faults[0].place, "entry b");
  EXPECT_EQ(counted.faults[0].found, "a");
}

TEST(Effective, CorrectionsInACircleAreFaults) {
  const Effective counted =
      effective(book_of({entry("a", feb(10, 8), Note{"x"}, "b"), entry("b", feb(10, 9), Note{"y"}, "a")}));
  EXPECT_THAT(counted.entries, IsEmpty());
  EXPECT_THAT(codes_of(counted.faults), ElementsAre("corrects-in-circle", "corrects-in-circle"));
}

TEST(EntryFaults, AGoodEntryOfEachKindHasNone) {
  const base::Money sum(3450, sterling());
  const std::vector<What> good{Begin{"bed-dig"},
                               Done{"bed-lay", Courses{3}},
                               Done{"bed-dig", Measured{0.4, "m3"}},
                               StoodDown{"rain", feb(10, 14), feb(10, 15)},
                               LevelRead{"bed-north-footing", base::Metres(1.2), base::Metres(-0.15)},
                               StockCount{"facing-brick", 60},
                               Arrived{"cement", 100},
                               Note{"gate locked"},
                               Expense{"sand", sum, "12"},
                               Extra{"step at the gate", "her", std::nullopt},
                               CoverOn{"shelter", trade::CoverKind::hessian},
                               CoverOff{"shelter", std::nullopt},
                               CanopyUp{"bed"},
                               CanopyDown{},
                               Thermometer{base::Celsius(-2)},
                               Gauge{base::Millimetres(4), feb(10, 6)}};
  for (const What& what : good)
    EXPECT_THAT(faults_of(entry("k", feb(10, 14), what)), IsEmpty()) << what.index();
}

struct Bad {
  What what;
  std::string code;
};
TEST(EntryFaults, EachThingWrongHasItsCode) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const base::Money nothing(0, sterling());
  const std::vector<Bad> bad{{Begin{""}, "no-name"},
                             {Done{"bed-lay", Courses{0}}, "out-of-range"},
                             {Done{"bed-lay", Courses{41}}, "out-of-range"},
                             {Done{"bed-dig", Measured{0, "m3"}}, "out-of-range"},
                             {Done{"bed-dig", Measured{nan, "m3"}}, "out-of-range"},
                             {Done{"bed-dig", Share{base::Fraction(1.1)}}, "out-of-range"},
                             {StoodDown{"rain", feb(10, 14), feb(10, 14)}, "span-backwards"},
                             {StoodDown{"rain", feb(10, 13), feb(10, 15)}, "span-elsewhere"},
                             {LevelRead{"x", base::Metres(-1), base::Metres(0)}, "out-of-range"},
                             {LevelRead{"x", base::Metres(1), base::Metres(nan)}, "out-of-range"},
                             {StockCount{"gold", 1}, "unknown-material"},
                             {StockCount{"cement", -1}, "out-of-range"},
                             {Arrived{"cement", 0}, "out-of-range"},
                             {Note{""}, "no-text"},
                             {Note{"\xff"}, "bad-text"},
                             {Expense{"sand", nothing, std::nullopt}, "out-of-range"},
                             {Extra{"", "her", std::nullopt}, "no-text"},
                             {CoverOn{"bed", trade::CoverKind::canopy}, "no-cover"},
                             {Thermometer{base::Celsius(200)}, "out-of-range"},
                             {Gauge{base::Millimetres(4), feb(10, 14)}, "span-backwards"},
                             {Struck{}, "strikes-nothing"}};
  for (const Bad& one : bad)
    EXPECT_THAT(codes_of(faults_of(entry("k", feb(10, 14), one.what))), ElementsAre(one.code))
        << one.what.index();
}

TEST(EntryFaults, TheBookHoldsNoPlansAndNeedsKeys) {
  Entry planned = entry("k", feb(10, 14), CanopyDown{});
  planned.noted_at = feb(10, 13);
  EXPECT_THAT(codes_of(faults_of(planned)), ElementsAre("not-yet"));
  EXPECT_THAT(codes_of(faults_of(entry("two words", feb(10, 14), CanopyDown{}))), ElementsAre("bad-key"));
  EXPECT_THAT(codes_of(faults_of(entry("k", feb(10, 14), CanopyDown{}, "k"))),
              ElementsAre("corrects-itself"));
}

RC_GTEST_PROP(EffectiveProperties, OrderOfArrivalAndRepeatsDoNotMatter, ()) {
  const auto count = *rc::gen::inRange(1, 12);
  std::vector<Entry> entries;
  for (int i = 0; i < count; ++i) {
    Entry written = entry("k" + std::to_string(i), feb(10, *rc::gen::inRange(0, 4)), Note{std::to_string(i)});
    written.noted_at = feb(11, *rc::gen::inRange(0, 4));
    const int names = *rc::gen::inRange(-8, 14);
    if (names >= 0) written.corrects = "k" + std::to_string(names);
    entries.push_back(written);
  }
  const Effective once = effective(book_of(entries));
  std::vector<Entry> shuffled = entries;
  for (std::size_t i = shuffled.size(); i > 1; --i) {
    const auto other = *rc::gen::inRange<std::size_t>(0, i);
    std::swap(shuffled[i - 1], shuffled[other]);
  }
  shuffled.push_back(entries[*rc::gen::inRange<std::size_t>(0, entries.size())]);
  const Effective again = effective(book_of(shuffled));
  RC_ASSERT(once.entries == again.entries);
  RC_ASSERT(once.faults == again.faults);
}

}  // namespace
}  // namespace weatherstruck::works
