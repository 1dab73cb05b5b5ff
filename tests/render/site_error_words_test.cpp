#include "weatherstruck/render/site_error_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace weatherstruck::render {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(SiteErrorWords, TellTheSideTheMissAndWhatFollowsOfIt) {
  sky::SiteError site;
  site.temperature = {48, 4, -1.2, 1.4, 1.2};
  EXPECT_THAT(
      site_error_lines(site, Units::uk),
      ElementsAre("By 48 readings here the air was 1.2 °C colder than forecast, and the forecasts missed by "
                  "1.4 times the usual: the weathers that the chance is drawn from miss by 1.2 times it."));
  site.temperature.bias = 0.1;
  site.wind = {48, 4, std::log(1.5), 0.8, 0.9};
  site.told_dry = 40;
  site.told_wet = 8;
  site.told_dry_came_wet = 3;
  EXPECT_THAT(
      site_error_lines(site, Units::us),
      ElementsAre(
          "By 48 readings here the air was as forecast on average, and the forecasts missed by 1.4 "
          "times the usual: the weathers that the chance is drawn from miss by 1.2 times it.",
          "The wind was 1.5 times that forecast, and the forecasts missed by 0.8 times the usual: the "
          "weathers that the chance is drawn from miss by 0.9 times it. Of 40 hours told dry 3 came "
          "wet, of 8 told wet 0 came dry."));
}

TEST(SiteErrorWords, SayNothingOfTooFewReadings) {
  sky::SiteError site;
  site.temperature = {11, 4, -3, 2, 1};
  site.wind = {40, 3, 1, 2, 1};
  site.told_dry = 11;
  EXPECT_THAT(site_error_lines(site, Units::uk), IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::render
