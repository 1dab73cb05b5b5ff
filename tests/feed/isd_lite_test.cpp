#include "weatherstruck/feed/isd_lite.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed_support.h"
#include "packing.h"

namespace weatherstruck::feed {
namespace {

using ::testing::ElementsAre;

// The widths of the format's description: 4, 3, 3, 3, then 6 each. Invented station.
const std::string rows =
    "2026 02 09 10    45    30 10132   250    50     8     2 -9999\n"
    "2026 02 09 11    50 -9999 10130   250    60     9    -1 -9999\n"
    "2026 02 09 12 -9999    30 10128   250    52     4 -9999 -9999\n";

sky::Series read(const std::string& text, const ReadOptions& options = {}) {
  return read_forecast("station", text, options);
}

TEST(IsdLite, TenthsHoursBeforeTheStampAndMarksOfMissing) {
  const sky::Series series = read(rows);
  EXPECT_EQ(recognise(rows), ForecastKind::isd_lite);
  EXPECT_EQ(series.begin_time(), instant("2026-02-09T09:00:00Z"));
  EXPECT_THAT(rain_of(series), ElementsAre(0.2, 0.0, -1, -1));  // -1 is a trace
  const sky::Hour& ten = *series.at(instant("2026-02-09T10:00:00Z"));
  EXPECT_DOUBLE_EQ(ten.temperature->value.value(), 4.5);
  EXPECT_DOUBLE_EQ(ten.wind->value.value(), 5.0);
  EXPECT_DOUBLE_EQ(ten.cloud->value.value(), 1.0);
  EXPECT_EQ(ten.temperature->origin, sky::Origin::measured);
  EXPECT_EQ(ten.rain->origin, sky::Origin::measured);
  EXPECT_EQ(ten.gust->origin, sky::Origin::derived);  // the format has none
  EXPECT_EQ(ten.humidity->origin, sky::Origin::derived);
  // Missing, and 9: not to be seen. Carried between the hours beside it.
  EXPECT_EQ(series.at(instant("2026-02-09T11:00:00Z"))->dew_point->origin, sky::Origin::held);
  EXPECT_DOUBLE_EQ(series.at(instant("2026-02-09T11:00:00Z"))->cloud->value.value(), 0.75);
  EXPECT_FALSE(series.at(instant("2026-02-09T12:00:00Z"))->temperature);
}

TEST(IsdLite, ASixHourTotalIsSplitWhereItsHoursHaveNoneOfTheirOwn) {
  const sky::Series series = read(
      "2026 02 09 06    45    30 10132   250    50     8 -9999    13\n"
      "2026 02 09 12    45    30 10132   250    50     8     4    20\n"
      "2026 02 09 13    45    30 10132   250    50     8     1 -9999\n");
  EXPECT_EQ(tenths(series), 13 + 4 + 1);
  EXPECT_EQ(series.hours[0].rain->origin, sky::Origin::split);
}

TEST(IsdLite, IsReadPackedToo) {
  EXPECT_EQ(recognise(gzip_of(rows)), ForecastKind::isd_lite);
  EXPECT_EQ(read(gzip_of(rows)).hours.size(), read(rows).hours.size());
}

TEST(IsdLite, FaultsAreToldWithTheirLines) {
  const auto faults = faults_of(rows +
                                "2026 02 09 11    50 -9999 10130   250    60     9    -1 -9999\n"
                                "2026 02 30 11    50 -9999 10130   250    60     9    -1 -9999\n"
                                "2026 02 09 14   850 -9999 10130   250    60     9   -20 -9999\n"
                                "2026 02 09 15   85\n");
  EXPECT_THAT(codes(faults), ElementsAre("time-backwards", "bad-time", "impossible-value", "impossible-value",
                                         "wrong-field-count"));
  EXPECT_EQ(faults[0].place, "line 4");
}

TEST(IsdLite, YearsAreTakenOnlyWhereTheyAreAskedFor) {
  const std::string years = rows + "2031 02 09 12    45    30 10132   250    50     8     4    20\n";
  EXPECT_THAT(codes(faults_of(years)), ElementsAre("too-long"));
  ReadOptions options;
  options.longest = std::chrono::days(366 * 20);
  EXPECT_EQ(read(years, options).end_time(), instant("2031-02-09T13:00:00Z"));
}

}  // namespace
}  // namespace weatherstruck::feed
