#include "weatherstruck/trade/limits_list.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <stdexcept>
#include <string>
#include <tuple>
#include <vector>

#include "weatherstruck/matter/constants.h"
#include "weatherstruck/matter/curing.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/mortar_behaviour.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::trade {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

std::vector<ListedRow> with(ListedTable table) {
  std::vector<ListedRow> rows = listed_rows();
  rows.erase(
      std::remove_if(rows.begin(), rows.end(), [&](const ListedRow& row) { return row.table != table; }),
      rows.end());
  return rows;
}

std::vector<ListedRow> with(const std::vector<std::string>& words) {
  std::vector<ListedRow> rows = listed_rows();
  rows.erase(
      std::remove_if(rows.begin(), rows.end(), [&](const ListedRow& row) { return !matches(row, words); }),
      rows.end());
  return rows;
}

TEST(ListedRows, HoldEveryRowOfEveryTable) {
  EXPECT_THAT(with(ListedTable::limits), SizeIs(limit_table().size()));
  EXPECT_THAT(with(ListedTable::paces), SizeIs(operations().size()));
  EXPECT_THAT(with(ListedTable::norms), SizeIs(norms().size()));
  EXPECT_THAT(with(ListedTable::soils), SizeIs(soils().size()));
  EXPECT_THAT(with(ListedTable::covers), SizeIs(4 * 7 + 3))
      << "four covers of seven figures, a canopy of three";
  EXPECT_THAT(with(ListedTable::constants),
              SizeIs(matter::concrete_constants().size() + 1 + matter::mortar_constants().size() +
                     matter::ground_constants().size()));
  // Beside the two tables: the size of a brick and the densities of fresh concrete and mortar.
  EXPECT_THAT(with(ListedTable::materials), SizeIs(materials().size() + bricks().size() + 3));
  // How a mortar stiffens and how it withstands frost are a row each: their sources differ.
  EXPECT_THAT(with(ListedTable::mixes), SizeIs(bonds().size() + mortars().size() + concretes().size() +
                                               2 * mortar_behaviours().size()));
  EXPECT_THAT(with(ListedTable::curing), SizeIs(matter::curing_rows().size()));
  EXPECT_THAT(with(ListedTable::heat), SizeIs(matter::heat_constants().size()));
}

// "Every number in the tool stands in a table with a source, or the words 'common practice, no source' or
// 'from memory'."
TEST(ListedRows, SayOfEachNumberWhereItComesFrom) {
  std::set<std::tuple<ListedTable, std::string, std::string>> seen;
  for (const ListedRow& row : listed_rows()) {
    SCOPED_TRACE(row.key);
    EXPECT_TRUE(seen.insert({row.table, row.key, set_words(row.set, row.rule)}).second);
    EXPECT_FALSE(row.title.empty());
    EXPECT_FALSE(row.source.text.empty());
    ASSERT_FALSE(row.figures.empty());
    for (std::size_t i = 0; i < row.figures.size(); ++i) {
      EXPECT_TRUE(std::isfinite(row.figures[i].value));
      EXPECT_TRUE(i == 0 || !row.figures[i].what.empty()) << "a second number without a name";
    }
    EXPECT_EQ(row.cls.has_value(), row.table == ListedTable::limits);
    EXPECT_EQ(row.limit != nullptr, row.table == ListedTable::limits);
  }
}

TEST(ListedRows, AreSortedByKindOfWork) {
  const std::vector<ListedRow> rows = listed_rows();
  EXPECT_TRUE(std::is_sorted(rows.begin(), rows.end(),
                             [](const ListedRow& a, const ListedRow& b) { return a.group < b.group; }));
  EXPECT_EQ(group_of(limit::rain_pour_stop), WorkGroup::concrete);
  EXPECT_EQ(group_of(limit::rain_flags_stop), WorkGroup::flags);
  EXPECT_EQ(group_of(norm_key::bucket_load), WorkGroup::carrying);
}

// Who adds a limit or a norm names the work it is about; nothing slips into the wrong place unseen.
TEST(ListedRows, KnowTheWorkOfEveryLimitAndNormAndOfNothingElse) {
  for (const Limit& row : limit_table())
    EXPECT_NO_THROW((void)group_of(row.key)) << row.key;
  for (const Norm& row : norms())
    EXPECT_NO_THROW((void)group_of(row.key)) << row.key;
  EXPECT_THROW((void)group_of("weather-vane"), std::logic_error);
  EXPECT_THROW((void)group_of("brick"), std::logic_error);
}

TEST(ListedRows, AreNarrowedByAllTheWordsWhateverTheirCapitals) {
  EXPECT_THAT(with(std::vector<std::string>{}), SizeIs(listed_rows().size()));
  const std::vector<ListedRow> frost = with(std::vector<std::string>{"FROST"});
  ASSERT_FALSE(frost.empty());
  EXPECT_LT(frost.size(), listed_rows().size() / 4);
  const auto has = [&](std::string_view key) {
    return std::any_of(frost.begin(), frost.end(), [&](const ListedRow& row) { return row.key == key; });
  };
  EXPECT_TRUE(has(limit::footing_frost_depth));  // in its key
  EXPECT_TRUE(has(limit::flags_keep_hours));     // in its words
  EXPECT_FALSE(has(limit::noise_weekday_from));
  EXPECT_THAT(with({"nhbc", "concrete", "retaining"}), IsEmpty());
  for (const ListedRow& row : with({"aci", "protection"}))
    EXPECT_THAT(std::string(row.source.text), HasSubstr("ACI"));
  // A class and a standing are words too.
  const std::vector<ListedRow> practice = with({"safety", "common practice"});
  for (const Limit& row : limit_table()) {
    if (row.cls != LimitClass::safety || row.source.standing != Standing::common_practice) continue;
    EXPECT_TRUE(std::any_of(practice.begin(), practice.end(), [&](const ListedRow& one) {
      return one.limit == &row;
    })) << row.key;
  }
  EXPECT_LT(practice.size(), listed_rows().size() / 4);
}

TEST(ListedRows, HoldUnderTheSetsAsTheLimitsDo) {
  constexpr std::array<ColdRule, 3> rules{ColdRule::nhbc, ColdRule::bda, ColdRule::nbs};
  for (const LimitSet set : {LimitSet::uk, LimitSet::us}) {
    for (const ColdRule rule : rules) {
      const LimitValues values = limits_for(set, rule).values;
      std::set<const Limit*> expected, listed;
      for (const LimitValues::Entry& entry : values.all())
        expected.insert(entry.row);
      for (const ListedRow& row : listed_rows()) {
        if (row.limit == nullptr) {
          EXPECT_TRUE(in_force(row, set, rule)) << row.key;
        } else if (in_force(row, set, rule)) {
          listed.insert(row.limit);
        }
      }
      EXPECT_EQ(listed, expected);
    }
  }
}

}  // namespace
}  // namespace weatherstruck::trade
