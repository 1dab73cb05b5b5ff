#include "weatherstruck/programme/slots.h"

#include <algorithm>
#include <stdexcept>

#include <gtest/gtest.h>

#include "programme/site_by_hand.h"
#include "weatherstruck/sky/assemble.h"
#include "weatherstruck/sky/sun.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using std::chrono::hours;
using std::chrono::minutes;

Instant utc(unsigned month, unsigned day, int hour) {
  using namespace std::chrono;
  return sys_days(year_month_day(std::chrono::year(2026), std::chrono::month(month), std::chrono::day(day))) +
         std::chrono::hours(hour);
}

/// The zone of London in 2026: summer from 29 March to 25 October, 01:00 UTC each.
base::Zone london() {
  return base::Zone("Europe/London", std::chrono::seconds(0), "GMT",
                    {{utc(3, 29, 1), hours(1), "BST"}, {utc(10, 25, 1), std::chrono::seconds(0), "GMT"}});
}

sky::Series steady(Instant from, Instant to) {
  sky::Series series;
  for (Instant t = from; t < to; t += hours(1)) {
    sky::Hour hour;
    hour.start = t;
    hour.temperature = sky::Value<base::Celsius>{base::Celsius(8)};
    hour.humidity = sky::Value<base::Fraction>{base::Fraction(0.8)};
    hour.wind = sky::Value<base::MetresPerSecond>{base::MetresPerSecond(3)};
    hour.gust = sky::Value<base::MetresPerSecond>{base::MetresPerSecond(6)};
    hour.rain = sky::Value<base::Millimetres>{base::Millimetres(0)};
    series.hours.push_back(hour);
  }
  return series;
}

SlotTable slots_of(const SiteByHand& site, Instant from, Instant to) {
  return make_slots(site.job.site, site.job.kit, site.weather, from, to);
}

bool mentions(const SlotTable& table, const std::string& word) {
  return std::any_of(table.assumptions.begin(), table.assumptions.end(),
                     [&](const std::string& sentence) { return sentence.find(word) != std::string::npos; });
}

TEST(Slots, LightIsThatOfTheSunAtTheSite) {
  SiteByHand site = sound_site();
  const SlotTable table = slots_of(site, feb(9, 0), feb(10, 0));
  ASSERT_EQ(table.slots.size(), 96U);
  const sky::DayLight day = sky::day_light(52.06, -3.61, feb(9, 0), feb(10, 0));
  for (const Slot& slot : table.slots) {
    const Instant end = slot.start + kSlot;
    const bool sun = slot.start >= *day.sunrise() && end <= *day.sunset();
    const bool civil = slot.start >= *day.dawn() && end <= *day.dusk();
    EXPECT_EQ(slot.light, sun     ? trade::Light::day
                          : civil ? trade::Light::twilight
                                  : trade::Light::floodlit)
        << (slot.clock / minutes(1));
  }
  site.job.kit.floodlights = false;
  EXPECT_EQ(slots_of(site, feb(9, 0), feb(10, 0)).slots.front().light, trade::Light::dark);
}

// Common practice, no source: near 55 N in the middle of December the working daylight is gone by about a
// quarter past four.
TEST(Slots, InMidDecemberTheLightGoesAboutAQuarterPastFour) {
  SiteByHand site = sound_site();
  site.job.kit.floodlights = false;
  site.job.site.latitude = 55;
  site.job.site.longitude = -3.5;
  site.weather = steady(utc(12, 15, 0), utc(12, 16, 0));
  const SlotTable table = slots_of(site, utc(12, 15, 0), utc(12, 16, 0));
  const auto dark = std::find_if(table.slots.begin() + 48, table.slots.end(),
                                 [](const Slot& slot) { return slot.light == trade::Light::dark; });
  ASSERT_NE(dark, table.slots.end());
  EXPECT_GE(dark->clock, hours(16));
  EXPECT_LE(dark->clock, hours(16) + minutes(30));
}

TEST(Slots, DaysOfTwentyThreeAndTwentyFiveHoursKeepTheirClock) {
  SiteByHand site = sound_site();
  site.job.site.zone = london();
  site.weather = steady(utc(3, 28, 0), utc(3, 31, 0));
  const SlotTable spring = slots_of(site, utc(3, 28, 0), utc(3, 31, 0));
  const auto count = [](const SlotTable& table, int day) {
    return std::count_if(table.slots.begin(), table.slots.end(),
                         [&](const Slot& slot) { return slot.day == day; });
  };
  EXPECT_EQ(count(spring, 0), 96);
  EXPECT_EQ(count(spring, 1), 92) << "the 29th of March has 23 hours";
  EXPECT_EQ(spring.slots[96 + 4].clock, hours(2)) << "after 00:45 UTC comes two o'clock summer time";
  EXPECT_EQ(spring.slots[96 + 3].clock, minutes(45));
  EXPECT_EQ(spring.slots[96].weekday, std::chrono::Sunday);

  site.weather = steady(utc(10, 23, 23), utc(10, 27, 0));
  const SlotTable autumn = slots_of(site, utc(10, 23, 23), utc(10, 27, 0));
  EXPECT_EQ(count(autumn, 0), 96);
  EXPECT_EQ(count(autumn, 1), 100) << "the 25th of October has 25 hours";
  EXPECT_EQ(autumn.slots[96 + 4].clock, hours(1));
  EXPECT_EQ(autumn.slots[96 + 8].clock, hours(1)) << "one o'clock comes twice";
  EXPECT_EQ(autumn.slots[96 + 12].clock, hours(2));
}

TEST(Slots, AMissingHourIsTheSameHourOfTheDayBeforeAndMarked) {
  SiteByHand site = sound_site();
  site.temperature(feb(9, 14), feb(9, 15), 9.5);
  site.hours(feb(10, 14), feb(10, 15), [](sky::Hour& hour) { hour.temperature.reset(); });
  site.hours(feb(11, 14), feb(11, 15), [](sky::Hour& hour) { hour.temperature.reset(); });
  const SlotTable table = slots_of(site, feb(9, 0), feb(12, 0));
  for (const int day : {1, 2}) {
    for (int quarter = 0; quarter < 4; ++quarter) {
      const Slot& slot = table.slots[static_cast<std::size_t>((24 * day + 14) * 4 + quarter)];
      EXPECT_EQ(slot.air, base::Celsius(9.5));
      EXPECT_FALSE(slot.given);
    }
  }
  EXPECT_TRUE(table.slots[14 * 4].given);
  EXPECT_TRUE(table.slots[38 * 4 + 4].given) << "the hour after the gap";
  EXPECT_EQ(table.forecast_until, feb(10, 14));
  EXPECT_TRUE(mentions(table, "the same hour of the day before"));
}

TEST(Slots, MissingRainIsNotDryness) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 14), feb(9, 15), 2.5);
  site.hours(feb(10, 0), feb(14, 0), [](sky::Hour& hour) { hour.rain.reset(); });
  const SlotTable table = slots_of(site, feb(9, 0), feb(11, 0));
  EXPECT_EQ(table.slots[38 * 4].rain, base::MillimetresPerHour(2.5));
  EXPECT_FALSE(table.slots[38 * 4].given);
  EXPECT_EQ(table.forecast_until, feb(10, 0)) << "rain ends before the rest";
}

TEST(Slots, HoursBeyondTheForecastAreMarkedAndThoseWithinAreNot) {
  SiteByHand site = sound_site();
  const SlotTable table = slots_of(site, feb(13, 0), feb(15, 0));
  EXPECT_EQ(table.forecast_until, feb(14, 0));
  for (const Slot& slot : table.slots)
    EXPECT_EQ(slot.given, slot.start < feb(14, 0));
  EXPECT_TRUE(mentions(table, "day before"));
  EXPECT_TRUE(slots_of(site, feb(9, 0), feb(14, 0)).assumptions.empty());
}

// Inland factor of the sky floor: 2.33, the 90th percentile measured at KNMI stations.
TEST(Slots, AMissingGustIsWorkedOutFromTheWindAndTold) {
  SiteByHand site = sound_site();
  site.hours(feb(9, 8), feb(9, 9), [](sky::Hour& hour) { hour.gust.reset(); });
  const SlotTable table = slots_of(site, feb(9, 0), feb(10, 0));
  EXPECT_NEAR(table.slots[32].gust.value(), 3 * 2.33, 1e-9);
  EXPECT_NEAR(table.slots[36].gust.value(), 6, 1e-9);
  EXPECT_TRUE(table.slots[32].given);
  EXPECT_TRUE(mentions(table, "Gusts"));
}

TEST(Slots, AStandInBringsTheGustOfItsOwnWind) {
  SiteByHand site = sound_site();
  site.hours(feb(9, 8), feb(9, 9), [](sky::Hour& hour) {
    hour.wind = sky::Value<base::MetresPerSecond>{base::MetresPerSecond(10)};
    hour.gust = sky::Value<base::MetresPerSecond>{base::MetresPerSecond(20)};
  });
  site.hours(feb(10, 8), feb(10, 9), [](sky::Hour& hour) {
    hour.wind.reset();
    hour.gust.reset();
  });
  const Slot slot = slots_of(site, feb(9, 0), feb(11, 0)).slots[32 * 4];
  EXPECT_FALSE(slot.given);
  EXPECT_GE(slot.gust.value(), 20) << "never calmer than the hour that stands in";
}

TEST(Slots, ASeriesWithoutALayerThatIsNeededIsRefused) {
  SiteByHand site = sound_site();
  site.hours(feb(9, 0), feb(14, 0), [](sky::Hour& hour) { hour.rain.reset(); });
  EXPECT_THROW((void)slots_of(site, feb(9, 0), feb(10, 0)), std::invalid_argument);
  site = sound_site();
  site.weather.hours.clear();
  EXPECT_THROW((void)slots_of(site, feb(9, 0), feb(10, 0)), std::invalid_argument);
}

TEST(Slots, HeavyRainMakesTheGroundSoddenAndItDrainsAgain) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 6), feb(9, 12), 5);  // 30 mm in a morning
  const SlotTable table = slots_of(site, feb(9, 0), feb(14, 0));
  EXPECT_FALSE(table.slots.front().sodden);
  EXPECT_TRUE(table.slots[12 * 4].sodden);
  EXPECT_FALSE(table.slots.back().sodden);
}

TEST(Slots, TicksRoundTheWayTheyAreAsked) {
  const SiteByHand site = sound_site();
  const SlotTable table = slots_of(site, feb(9, 6), feb(9, 12));
  EXPECT_EQ(table.tick_down(feb(9, 6, 7)), 1);
  EXPECT_EQ(table.tick_up(feb(9, 6, 7)), 2);
  EXPECT_EQ(table.tick_down(feb(9, 6, 10)), 2);
  EXPECT_EQ(table.tick_up(feb(9, 6, 10)), 2);
  EXPECT_EQ(table.tick_down(feb(9, 5, 58)), -1);
  EXPECT_EQ(table.tick_up(feb(9, 5, 58)), 0);
  EXPECT_EQ(table.at_tick(3), feb(9, 6, 15));
}

}  // namespace
}  // namespace weatherstruck::programme
