#include "weatherstruck/trade/source.h"

#include <gtest/gtest.h>

namespace weatherstruck::trade {
namespace {

TEST(Standing, IsSpokenInPlainWords) {
  EXPECT_EQ(words_for(Standing::sourced), "sourced");
  EXPECT_EQ(words_for(Standing::derived), "derived");
  EXPECT_EQ(words_for(Standing::common_practice), "common practice, no source");
  EXPECT_EQ(words_for(Standing::from_memory), "from memory");
  EXPECT_EQ(words_for(Standing::assumption), "assumption");
}

}  // namespace
}  // namespace weatherstruck::trade
