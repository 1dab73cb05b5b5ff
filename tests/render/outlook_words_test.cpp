#include "weatherstruck/render/outlook_words.h"

#include <gtest/gtest.h>

namespace weatherstruck::render {
namespace {

TEST(OutlookWords, AChanceIsToldInTensWithAWordForIt) {
  EXPECT_EQ(likely_words(0.02), "very unlikely, under 10 %");
  EXPECT_EQ(likely_words(0.29), "unlikely, about 30 %");
  EXPECT_EQ(likely_words(0.5), "as likely as not, about 50 %");
  EXPECT_EQ(likely_words(0.81), "likely, about 80 %");
  EXPECT_EQ(likely_words(0.9), "very likely, about 90 %");
  EXPECT_EQ(likely_words(0.99), "nearly sure, over 90 %");
}

}  // namespace
}  // namespace weatherstruck::render
