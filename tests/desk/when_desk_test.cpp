#include "weatherstruck/desk/when_desk.h"

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "record/scratch.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/past_bytes.h"

namespace weatherstruck::desk {
namespace {

using std::chrono::days;
using std::chrono::hours;

const std::string document_path =
    std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/ten/05-wet-afternoon/job.json";
const base::Instant now = std::chrono::sys_days(std::chrono::year(2026) / 11 / 30) + hours(12);
const PlanMark mark{1, "test", "zones"};

class WhenDesk : public testing::Test {
 protected:
  record::Scratch scratch;
  Shelf shelf{[this] { return scratch.file(); }};
  files::SystemZones zones;

  OpenJob kept() {
    std::ifstream in(document_path);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    return shelf.add(text, document_path, zones, now);
  }
  // Dry, mild, calm years near the site (50.7 N, 3.9 W), or as far north as is said.
  void keep_years(int from, int to, std::int64_t north = 50700000) {
    sky::Series series;
    const base::Instant begin = std::chrono::sys_days(std::chrono::year(from) / 1 / 1);
    const base::Instant end = std::chrono::sys_days(std::chrono::year(to) / 1 / 1);
    for (base::Instant t = begin; t < end; t += hours(1)) {
      sky::Hour hour;
      hour.start = t;
      hour.temperature = {base::Celsius(11)};
      hour.humidity = {base::Fraction(0.8)};
      hour.wind = {base::MetresPerSecond(3)};
      hour.gust = {base::MetresPerSecond(5)};
      hour.rain = {base::Millimetres(0)};
      series.hours.push_back(hour);
    }
    shelf.store().put_past({"hill " + std::to_string(north), north, -3900000, "measured by hand", begin, end,
                            files::pack_past(series), now});
  }
  static std::string code_of(const base::InputError& error) { return error.faults().front().code; }
};

TEST_F(WhenDesk, RanksTheDaysAskedAndLooksUpWhatItReckonedOnce) {
  const OpenJob open = kept();
  keep_years(2018, 2024);
  WhenAsk ask;
  ask.from = base::LocalDay(std::chrono::year(2027) / 3 / 2);
  ask.to = base::LocalDay(std::chrono::year(2027) / 4 / 2);
  const When first = when_to_go(shelf, open, ask, now, mark);
  ASSERT_EQ(first.departures.size(), 3U);
  EXPECT_EQ(first.departures.front().years, 6);
  EXPECT_EQ(first.past.first_year, 2018);
  EXPECT_EQ(first.past.last_year, 2023);
  EXPECT_EQ(first.past.attribution, "measured by hand");
  EXPECT_NEAR(first.past.kilometres, 0, 0.1);
  EXPECT_TRUE(std::is_sorted(first.departures.begin(), first.departures.end(),
                             [](const auto& a, const auto& b) { return a.chance() > b.chance(); }));
  const When second = when_to_go(shelf, open, ask, now + hours(1), mark);
  EXPECT_EQ(second.departures, first.departures);
  // Other years are another question.
  keep_years(2012, 2018);
  EXPECT_EQ(when_to_go(shelf, open, ask, now, mark).departures.front().years, 12);
}

TEST_F(WhenDesk, WithoutDaysAskedGoesThroughAYearOnTheJobsOwnWeekday) {
  const OpenJob open = kept();  // leaves on a Tuesday
  keep_years(2019, 2024);
  WhenAsk ask;
  ask.every = 28;
  const When when = when_to_go(shelf, open, ask, now, mark);
  EXPECT_EQ(when.departures.size(), 13U);
  for (const programme::Departure& one : when.departures) {
    EXPECT_EQ(std::chrono::weekday(one.day), std::chrono::Tuesday);
    EXPECT_GT(one.day, base::LocalDay(std::chrono::year(2026) / 11 / 30));
  }
}

TEST_F(WhenDesk, SaysWhatIsMissing) {
  const OpenJob open = kept();
  const auto refused = [&](const WhenAsk& ask) {
    try {
      (void)when_to_go(shelf, open, ask, now, mark);
    } catch (const base::InputError& error) {
      return code_of(error);
    }
    return std::string();
  };
  EXPECT_EQ(refused({}), "no-past-years");
  keep_years(2015, 2024, 53000000);
  EXPECT_EQ(refused({}), "no-past-years") << "255 km away";
  keep_years(2023, 2025);
  EXPECT_EQ(refused({}), "few-years");
  WhenAsk daily;
  daily.every = 1;
  EXPECT_EQ(refused(daily), "too-many-departures");
}

}  // namespace
}  // namespace weatherstruck::desk
