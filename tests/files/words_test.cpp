#include "weatherstruck/files/words.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "weatherstruck/trade/materials.h"

namespace weatherstruck::files {
namespace {

template <class E>
void each_value_has_one_word() {
  std::set<std::string> words;
  std::set<E> values;
  for (const auto& word : words_of<E>()) {
    EXPECT_TRUE(words.emplace(word.text).second) << word.text;
    EXPECT_TRUE(values.insert(word.value).second) << word.text;
    EXPECT_EQ(word_for(word.value), word.text);
  }
}

TEST(Words, EveryValueHasOneWordAndEveryWordOneValue) {
  each_value_has_one_word<trade::Operation>();
  each_value_has_one_word<trade::BrickKind>();
  each_value_has_one_word<trade::Bond>();
  each_value_has_one_word<trade::JointFinish>();
  each_value_has_one_word<trade::MortarClass>();
  each_value_has_one_word<trade::Binder>();
  each_value_has_one_word<trade::ConcreteMix>();
  each_value_has_one_word<trade::CementSpeed>();
  each_value_has_one_word<trade::Wetness>();
  each_value_has_one_word<trade::Soil>();
  each_value_has_one_word<trade::CoverKind>();
  each_value_has_one_word<trade::LimitSet>();
  each_value_has_one_word<trade::ColdRule>();
  each_value_has_one_word<trade::LimitClass>();
  each_value_has_one_word<trade::Surface>();
  each_value_has_one_word<trade::Frog>();
  each_value_has_one_word<trade::MixerPlace>();
  each_value_has_one_word<works::WallEnd>();
  each_value_has_one_word<works::Side>();
  each_value_has_one_word<works::Importance>();
  each_value_has_one_word<works::Fallback::Kind>();
}

TEST(Words, NoOperationIsForgotten) {
  // The list in trade/kinds.h ends with `other`.
  for (int i = 0; i <= static_cast<int>(trade::Operation::other); ++i) {
    EXPECT_NO_THROW(static_cast<void>(word_for(static_cast<trade::Operation>(i)))) << i;
  }
}

TEST(Words, AreThoseOfTheTradeTables) {
  for (const auto& row : trade::bonds())
    EXPECT_EQ(word_for(row.bond), row.key);
  for (const auto& row : trade::mortars())
    EXPECT_EQ(word_for(row.mortar), row.key);
  for (const auto& row : trade::concretes())
    EXPECT_EQ(word_for(row.mix), row.key);
  EXPECT_EQ(words_of<trade::Bond>().size(), trade::bonds().size());
  EXPECT_EQ(words_of<trade::MortarClass>().size(), trade::mortars().size());
  EXPECT_EQ(words_of<trade::ConcreteMix>().size(), trade::concretes().size());
}

TEST(Words, AValueOutsideTheListIsAMistakeOfOurs) {
  EXPECT_THROW(static_cast<void>(word_for(static_cast<trade::Surface>(99))), std::logic_error);
}

}  // namespace
}  // namespace weatherstruck::files
