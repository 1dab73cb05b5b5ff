#include "weatherstruck/matter/curing.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <iostream>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>

#include "matter/reference_support.h"
#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Hours;

double days(Hours hours) {
  return hours.value() / 24;
}

TEST(DinCuring, MatchesTheWorkedCases) {
  // betontechnische-daten.de 10.7.3 (verified table).
  EXPECT_EQ(days(din_1045_curing(Celsius(8), 0.32)), 6);
  EXPECT_EQ(days(din_1045_curing(Celsius(18), 0.20)), 4);
  // Derived: 30 h at 3 degrees are added to the 6 days.
  EXPECT_EQ(days(din_1045_curing(Celsius(8), 0.32, Exposure::usual, Hours(30))), 7.25);
}

TEST(DinCuring, KnowsDryAndAbrasion) {
  EXPECT_EQ(din_1045_curing(Celsius(8), 0.32, Exposure::dry).value(), 12);
  EXPECT_EQ(days(din_1045_curing(Celsius(8), 0.32, Exposure::abrasion)), 12);
}

TEST(DinCuring, RefusesARatioOutsideItsRange) {
  EXPECT_THROW((void)din_1045_curing(Celsius(8), 1.2), std::invalid_argument);
  EXPECT_THROW((void)din_1045_curing(Celsius(8), 0.3, Exposure::usual, Hours(-1)), std::invalid_argument);
}

RC_GTEST_PROP(DinCuring, ColderOrSlowerIsNeverShorter, ()) {
  const Celsius cold(*rc::gen::inRange(-5, 40));
  const Celsius warm = cold + base::Kelvins(*rc::gen::inRange(0, 20));
  const double slow = *rc::gen::inRange(0, 100) / 100.0;
  const double quick = std::min(1.0, slow + *rc::gen::inRange(0, 50) / 100.0);
  RC_ASSERT(din_1045_curing(cold, slow) >= din_1045_curing(warm, slow));
  RC_ASSERT(din_1045_curing(cold, slow) >= din_1045_curing(cold, quick));
}

TEST(DinCuring, StrengthRatioOfTheClassesIsThatOfTheTwoDayStrength) {
  // Derived, reference rules 1.4, column of 2 days.
  EXPECT_NEAR(strength_ratio(s_rapid), 0.5779, 6e-5);
  EXPECT_NEAR(strength_ratio(s_normal), 0.5039, 6e-5);
  EXPECT_NEAR(strength_ratio(s_slow), 0.3528, 6e-5);
}

TEST(Protection, AcceleratedSetTakesADayOrTwoLess) {
  EXPECT_EQ(days(aci_306_protection(Service::part_loaded_exposed)),
            6);  // ACI 306R via doczz 726492 (verified)
  EXPECT_EQ(days(aci_306_protection(Service::part_loaded_exposed, true)), 4);  // from memory
}

TEST(EnCuring, GivesTheDaysOfEachClass) {
  // EN 13670:2009 annex F, from memory.
  EXPECT_EQ(days(*en_13670_curing(CuringTable::en_13670_class_2, Celsius(12), 0.35)), 4);
  EXPECT_EQ(days(*en_13670_curing(CuringTable::en_13670_class_3, Celsius(12), 0.35)), 7);
  EXPECT_EQ(days(*en_13670_curing(CuringTable::en_13670_class_4, Celsius(12), 0.35)), 13);
  EXPECT_EQ(days(*en_13670_curing(CuringTable::en_13670_class_3, Celsius(2), 0.55, Hours(12))), 4);
}

TEST(EnCuring, SaysNothingOfConcreteSlowerThanItsTables) {
  EXPECT_FALSE(en_13670_curing(CuringTable::en_13670_class_3, Celsius(12), 0.14));
  EXPECT_THROW((void)en_13670_curing(CuringTable::din_1045_3, Celsius(12), 0.35), std::invalid_argument);
  EXPECT_THROW((void)en_13670_curing(CuringTable::en_13670_class_3, Celsius(12), 1.2), std::invalid_argument);
}

RC_GTEST_PROP(EnCuring, ColderSlowerOrAHigherClassIsNeverShorter, ()) {
  constexpr CuringTable classes[] = {CuringTable::en_13670_class_2, CuringTable::en_13670_class_3,
                                     CuringTable::en_13670_class_4};
  const int cls = *rc::gen::inRange(0, 2);
  const Celsius cold(*rc::gen::inRange(-5, 40));
  const Celsius warm = cold + base::Kelvins(*rc::gen::inRange(0, 20));
  const double slow = *rc::gen::inRange(15, 100) / 100.0;
  const double quick = std::min(1.0, slow + *rc::gen::inRange(0, 50) / 100.0);
  RC_ASSERT(*en_13670_curing(classes[cls], cold, slow) >= *en_13670_curing(classes[cls], warm, quick));
  RC_ASSERT(*en_13670_curing(classes[cls + 1], cold, slow) >= *en_13670_curing(classes[cls], cold, slow));
}

TEST(CuringRows, AreWholeAndNamedOnce) {
  std::set<std::string_view> keys;
  for (const CuringRow& row : curing_rows()) {
    EXPECT_TRUE(keys.insert(row.key).second) << row.key;
    EXPECT_FALSE(row.title.empty() || row.source.empty()) << row.key;
    EXPECT_EQ(row.columns, curing_columns(row.table).size()) << row.key;
    for (std::size_t i = 0; i < row.days.size(); ++i)
      EXPECT_EQ(row.days[i] > 0, i < row.columns) << row.key;
  }
}

// The row of ours that answers a row of the reference.
const CuringRow* ours(const reference::Row& row) {
  const std::string& table = row[0];
  const auto is = [&](const char* begin) { return table.rfind(begin, 0) == 0; };
  const CuringTable wanted = is("DIN1045-3")                  ? CuringTable::din_1045_3
                             : is("EN13670 F.1 class2")       ? CuringTable::en_13670_class_2
                             : is("EN13670 F.2 class3")       ? CuringTable::en_13670_class_3
                             : is("EN13670 F.3 class4")       ? CuringTable::en_13670_class_4
                             : is("ACI 306R protection")      ? CuringTable::aci_306_normal
                             : is("ACI 306R accelerated set") ? CuringTable::aci_306_accelerated
                                                              : CuringTable::nhbc_before_load;
  if (wanted == CuringTable::nhbc_before_load && !is("NHBC 3.1.15")) return nullptr;
  const double from = row[1].empty() ? 0 : row[1] == ">=25" ? 25 : reference::number(row[1]);
  for (const CuringRow& one : curing_rows()) {
    if (one.table == wanted && one.from_celsius == from) return &one;
  }
  return nullptr;
}

TEST(Reference, EveryRowOfTheCuringTablesAgreesAndMemoryIsMarkedSo) {
  WS_REFERENCE_ROWS(rows, "curing_tables.csv");
  std::set<std::string_view> answered;
  for (const auto& row : rows) {
    const std::string said = row[0] + " " + row[1] + ": " + row[7] + " (" + row[6] + ")";
    SCOPED_TRACE(said);
    std::cout << said << "\n";
    const CuringRow* one = ours(row);
    ASSERT_NE(one, nullptr);
    for (std::size_t i = 0; i < 4; ++i)
      EXPECT_EQ(one->days[i], row[2 + i].empty() ? 0 : reference::number(row[2 + i]));
    EXPECT_EQ(one->standing, row[6] == "VERIFIED" ? "sourced" : "from memory");
    answered.insert(one->key);
  }
  EXPECT_EQ(answered.size(), curing_rows().size());
}

// The functions read the rows: each of the reference's numbers through the function that a caller asks.
TEST(Reference, VerifiedCuringRowsAreWhatTheFunctionsAnswer) {
  WS_REFERENCE_ROWS(rows, "curing_tables.csv");
  int checked = 0;
  for (const auto& row : rows) {
    using reference::number;
    if (row[6] != "VERIFIED") continue;
    SCOPED_TRACE(row[0] + " " + row[1] + ": " + row[7]);
    if (row[0].rfind("DIN1045-3", 0) == 0) {
      const double from = row[1] == ">=25" ? 25 : number(row[1]);
      const double ratios[] = {0.50, 0.30, 0.15, 0.149};
      for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_EQ(days(din_1045_curing(Celsius(from), ratios[i])), number(row[2 + i]));
      }
    } else if (row[0].rfind("ACI 306R protection", 0) == 0) {
      EXPECT_EQ(days(aci_306_protection(Service::unloaded_sheltered)), number(row[2]));
      EXPECT_EQ(days(aci_306_protection(Service::unloaded_exposed)), number(row[3]));
      EXPECT_EQ(days(aci_306_protection(Service::part_loaded_exposed)), number(row[4]));
    } else {
      ASSERT_EQ(row[0].rfind("NHBC 3.1.15", 0), 0U) << "a verified row that no function answers";
      EXPECT_EQ(days(nhbc_days_before_load(false)), number(row[2]));
      EXPECT_EQ(days(nhbc_days_before_load(true)), number(row[3]));
    }
    ++checked;
  }
  EXPECT_EQ(checked, 6);
}

}  // namespace
}  // namespace weatherstruck::matter
