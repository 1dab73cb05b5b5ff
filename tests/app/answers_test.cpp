#include "weatherstruck/app/answers.h"

#include <gtest/gtest.h>

#include "app/run_binary.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/files/zone_source.h"

namespace weatherstruck::app {
namespace {

desk::OpenJob demo() {
  return desk::open_job(in_source("fixtures/demo/job.json"), files::SystemZones());
}

TEST(Answers, BeginWithSchemaAndVersion) {
  const desk::OpenJob open = demo();
  const files::Json answer = quantities_answer(open.job, works::bill_of(open.job));
  EXPECT_EQ(answer.begin().key(), "schema");
  EXPECT_EQ(answer["schema"], "weatherstruck/quantities");
  EXPECT_EQ(answer["version"], 1);
}

TEST(Answers, QuantitiesAddUp) {
  const desk::OpenJob open = demo();
  const files::Json answer = quantities_answer(open.job, works::bill_of(open.job));
  double mass = 0;
  ASSERT_FALSE(answer["totals"].empty());
  for (const auto& line : answer["totals"]) {
    EXPECT_NEAR(line["net"].get<double>() + line["waste"].get<double>(), line["total"].get<double>(), 1e-9);
    if (!line["on_site"].get<bool>()) {
      EXPECT_GE(line["bought"].get<double>(), line["total"].get<double>() - 1e-9);
      mass += line["mass_kg"].get<double>();
    }
  }
  EXPECT_NEAR(mass, answer["mass_kg"].get<double>(), 1e-6);
}

TEST(Answers, AMissingValueIsNullAndItsOriginTold) {
  sky::Series series;
  sky::Hour hour;
  hour.start = std::chrono::sys_days(std::chrono::year(2026) / 2 / 9);
  hour.gust = {base::MetresPerSecond(9.3), sky::Origin::derived};
  series.hours.push_back(hour);
  const files::Json answer = forecast_answer(series);
  EXPECT_TRUE(answer["hours"][0]["rain_mm"].is_null());
  EXPECT_EQ(answer["hours"][0]["gust_ms"], 9.3);
  EXPECT_EQ(answer["hours"][0]["origin"]["gust_ms"], "derived");
  EXPECT_EQ(answer["hours"][0]["start"], "2026-02-09T00:00:00Z");
  EXPECT_TRUE(answer["issued"].is_null());
}

TEST(Answers, FaultsCarryCodePlaceAndRemedy) {
  const files::Json answer =
      faults_answer(desk::JobRefused("a.json", {{"bad-word", "/job/name", "x", "y", "z"}}, {{"/job", 3}}));
  EXPECT_EQ(answer["errors"][0]["code"], "bad-word");
  EXPECT_EQ(answer["errors"][0]["line"], 3);
  EXPECT_EQ(answer["source"], "a.json");
}

TEST(Answers, LightIsInUtc) {
  const desk::OpenJob open = demo();
  const files::Json answer = light_answer(open.job, render::light_days(open.job));
  ASSERT_EQ(answer["days"].size(), 4U);
  EXPECT_EQ(answer["days"][0]["day"], "2026-02-09");
  EXPECT_EQ(answer["days"][0]["sunrise"].get<std::string>().back(), 'Z');
}

}  // namespace
}  // namespace weatherstruck::app
