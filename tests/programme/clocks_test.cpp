#include "weatherstruck/programme/clocks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "programme/site_by_hand.h"

namespace weatherstruck::programme {
namespace {

using base::Celsius;
using base::Instant;
using engine::ClockId;
using std::chrono::minutes;
using trade::CoverKind;
using trade::Operation;

constexpr std::array covers{CoverKind::hessian, CoverKind::sheet, CoverKind::hessian_and_sheet,
                            CoverKind::mat};

std::vector<trade::LimitSetting> settings_of(const works::Job& job) {
  std::vector<trade::LimitSetting> settings;
  for (const works::LimitOverride& o : job.limits.overrides)
    settings.push_back({o.key, o.value});
  return settings;
}

/// The clocks of the small job by hand: Monday the 9th to Saturday the 14th of February, 8 C and dry, light
/// from about half past seven to a quarter past five, working day 07:00 to 19:00, quiet outside 08:00 to
/// 18:00.
class Clocks {
 public:
  explicit Clocks(SiteByHand site)
      : site_(std::move(site)),
        limits_(trade::limits_for(trade::LimitSet::uk, site_.job.limits.cold_rule, settings_of(site_.job))
                    .values),
        table_(make_slots(site_.job.site, site_.job.kit, site_.weather, feb(9, 0), feb(14, 0))),
        maker_(site_.job, limits_, table_, net_) {}
  Clocks(const Clocks&) = delete;
  Clocks& operator=(const Clocks&) = delete;

  ClockMaker& make() { return maker_; }
  [[nodiscard]] const engine::Clock& clock(ClockId id) const {
    return net_.clocks[static_cast<std::size_t>(id)];
  }
  [[nodiscard]] int rate(ClockId id, Instant t) const { return clock(id).rate(table_.tick_down(t)); }
  [[nodiscard]] const Cause& cause(ClockId id, Instant t) const {
    return maker_.causes()[clock(id).cause(table_.tick_down(t))];
  }
  /// "code: text" where it stands, "" where it runs.
  [[nodiscard]] std::string stop(ClockId id, Instant t) const {
    if (rate(id, t) > 0) return "";
    return cause(id, t).code + ": " + cause(id, t).text;
  }
  /// Hours until `amount` has gone by from t; -1 where it never does.
  [[nodiscard]] double hours_for(ClockId id, Instant t, engine::Amount amount) const {
    const engine::Tick from = table_.tick_down(t);
    const engine::Tick to = clock(id).advance(from, amount);
    return to == engine::never ? -1 : (to - from) / 12.0;
  }
  [[nodiscard]] const SlotTable& table() const { return table_; }

 private:
  SiteByHand site_;
  trade::LimitValues limits_;
  SlotTable table_;
  engine::Network net_;
  ClockMaker maker_;
};

SiteByHand site_with(double rain_at_ten) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 10), feb(9, 11), rain_at_ten);
  return site;
}

// ------------------------------------------------------------------------------------------------- work

TEST(WorkClock, AQuickMateDoesNotQuickenTheLaying) {
  SiteByHand site = sound_site();
  site.job.crew = {{"mason", true, 0.8}, {"mate", false, 1.2}};
  Clocks c(std::move(site));
  EXPECT_EQ(c.rate(c.make().work(Operation::lay_facing, false, false), feb(9, 10)), 800);
  EXPECT_EQ(c.rate(c.make().work(Operation::dig, false, false), feb(9, 10)), 1000);
}

TEST(Clocks, CoversThatKeepOffAsMuchShareAClockAndOthersDoNot) {
  Clocks c(sound_site());
  ASSERT_EQ(trade::row_for(trade::CoverKind::hessian).lift, trade::row_for(trade::CoverKind::sheet).lift);
  EXPECT_EQ(c.make().strength(trade::CoverKind::hessian), c.make().strength(trade::CoverKind::sheet));
  EXPECT_NE(c.make().strength(trade::CoverKind::hessian), c.make().strength(trade::CoverKind::bare));
  EXPECT_NE(c.make().rain_through(trade::CoverKind::hessian, false),
            c.make().rain_through(trade::CoverKind::sheet, false));
  EXPECT_EQ(c.make().work(trade::Operation::dig, false, false),
            c.make().work(trade::Operation::backfill, false, false));
  EXPECT_NE(c.make().work(trade::Operation::dig, false, false),
            c.make().work(trade::Operation::lay_facing, false, false));
}

TEST(WorkClock, RunsAtThePaceOfThePersonInTheDry) {
  SiteByHand site = sound_site();
  site.job.crew.front().pace = 1.25;
  Clocks c(std::move(site));
  const ClockId lay = c.make().work(Operation::lay_facing, false, false);
  EXPECT_EQ(c.rate(lay, feb(9, 10)), 1250);
  EXPECT_EQ(c.stop(lay, feb(9, 10)), "");
  EXPECT_EQ(c.make().work(Operation::lay_facing, false, false), lay) << "made once";
}

// Limits table: facing bricks stop at 1 mm/h, bricks below ground at 2, digging at 4.
TEST(WorkClock, RainStopsEachWorkAtItsOwnLimitAndSaysSo) {
  {
    Clocks c(site_with(0.9));
    const ClockId lay = c.make().work(Operation::lay_facing, false, false);
    EXPECT_EQ(c.rate(lay, feb(9, 10)), 850) << "the norm's pace in thin rain";
  }
  {
    Clocks c(site_with(1.0));
    const ClockId lay = c.make().work(Operation::lay_facing, false, false);
    EXPECT_EQ(c.stop(lay, feb(9, 10)), "rain: rain 1.0 mm/h, stops at 1");
    EXPECT_EQ(c.stop(lay, feb(9, 11)), "");
    EXPECT_EQ(c.stop(c.make().work(Operation::lay_below, false, false), feb(9, 10)), "");
    EXPECT_EQ(c.rate(c.make().work(Operation::lay_facing, false, true), feb(9, 10)), 1000)
        << "under the canopy";
  }
  {
    Clocks c(site_with(2.0));
    EXPECT_EQ(c.stop(c.make().work(Operation::lay_below, false, false), feb(9, 10)),
              "rain: rain 2.0 mm/h, stops at 2");
    EXPECT_EQ(c.stop(c.make().work(Operation::dig, false, false), feb(9, 10)), "");
  }
  {
    Clocks c(site_with(4.0));
    EXPECT_EQ(c.stop(c.make().work(Operation::dig, false, false), feb(9, 10)),
              "rain: rain 4.0 mm/h, stops at 4");
  }
}

TEST(WorkClock, ColdStopsMortarAndPours) {
  SiteByHand site = sound_site();
  site.temperature(feb(10, 9), feb(10, 12), -1);
  site.temperature(feb(10, 13), feb(10, 14), 1.9);
  Clocks c(std::move(site));
  const ClockId lay = c.make().work(Operation::lay_facing, false, false);
  EXPECT_EQ(c.stop(lay, feb(10, 10)), "cold: -1 \u00b0C, never at 0 or below");
  EXPECT_EQ(c.stop(c.make().work(Operation::dig, false, false), feb(10, 10)), "");
  EXPECT_EQ(c.stop(c.make().work(Operation::pour, true, false), feb(10, 13)),
            "cold: 2 \u00b0C, no pour below 2");
}

// Thomas and Yiakoumis 1987 (from memory): hours taken are 9.448 + 0.0518 F - 2.819 ln F of those expected.
double thomas(double celsius) {
  const double f = celsius * 1.8 + 32;
  return 1 / (9.448 + 0.0518 * f - 2.819 * std::log(f));
}

TEST(WorkClock, ColdHandsAreSlowerAndMoreSoTowardsFreezing) {
  SiteByHand site = sound_site();
  site.temperature(feb(10, 9), feb(10, 10), 5);
  site.temperature(feb(10, 10), feb(10, 11), 4.9);
  site.temperature(feb(10, 11), feb(10, 12), 0.1);
  Clocks c(std::move(site));
  const ClockId lay = c.make().work(Operation::strap_plate, false, false);
  EXPECT_EQ(c.rate(lay, feb(10, 9)), 1000);
  EXPECT_EQ(c.rate(lay, feb(10, 10)), 897);  // 0.9 (1 - 0.02 x 0.17)
  EXPECT_EQ(c.rate(lay, feb(10, 11)), 750);  // 0.9 (1 - 0.98 x 0.17)
  EXPECT_EQ(c.rate(c.make().work(Operation::dig, false, false), feb(10, 11)), 1000) << "spade and gloves";
  EXPECT_NEAR(c.rate(lay, feb(10, 10)) / 1000.0, thomas(4.9), 0.02);
  EXPECT_NEAR(c.rate(lay, feb(10, 11)) / 1000.0, thomas(0.1), 0.02);
}

TEST(WorkClock, HeatSlowsAllButTheDriverAndDampHeatMore) {
  SiteByHand site = sound_site();
  const auto weather = [&](int hour, double celsius, double humidity) {
    site.hours(feb(10, hour), feb(10, hour + 1), [&](sky::Hour& h) {
      h.temperature = sky::Value<Celsius>{Celsius(celsius)};
      h.humidity = sky::Value<base::Fraction>{base::Fraction(humidity)};
    });
  };
  weather(9, 25, 1.0);
  weather(10, 30, 0.6);
  weather(11, 35, 0.6);
  weather(12, 35, 1.0);
  Clocks c(std::move(site));
  const ClockId dig = c.make().work(Operation::dig, false, false);
  EXPECT_EQ(c.rate(dig, feb(10, 9)), 1000);
  EXPECT_EQ(c.rate(dig, feb(10, 10)), 890);
  EXPECT_EQ(c.rate(dig, feb(10, 11)), 780);
  EXPECT_EQ(c.rate(dig, feb(10, 12)), 702);  // 0.78 x 0.9
  EXPECT_EQ(c.rate(c.make().work(Operation::drive, false, false), feb(10, 12)), 1000);
  // Against the pace at the beginning of the heat, as the source's curve has it (from memory).
  EXPECT_NEAR(c.rate(dig, feb(10, 11)) / 1000.0, thomas(35) / thomas(25), 0.01);
}

TEST(WorkClock, EachFactorOfPaceCanBeSetByTheJob) {
  SiteByHand site = sound_site();
  site.job.limits.overrides = {{"pace-cold", 1.2},       {"pace-freezing", 0.5},
                               {"pace-thin-rain", 0.5},  {"pace-wet-ground", 0.5},
                               {"pace-half-light", 0.5}, {"pointing-lights-pace", 0.4},
                               {"pace-long-day", 0.9}};
  site.temperature(feb(10, 9), feb(10, 10), 2.5);
  site.rain(feb(10, 11), feb(10, 12), 0.3);
  Clocks c(std::move(site));
  const ClockId strap = c.make().work(Operation::strap_plate, false, false);
  EXPECT_EQ(c.rate(strap, feb(10, 9)), 750);   // cold: 0.9 x 1.2, at most 1; half way to 0.5
  EXPECT_EQ(c.rate(strap, feb(10, 11)), 450);  // thin rain: 0.9 x 0.5
  // Ten hours after 07:00, dark under lights: 0.9 of the table, 0.9 of the long day.
  EXPECT_EQ(c.rate(strap, feb(10, 18)), 810);
  EXPECT_EQ(c.rate(c.make().work(Operation::point, false, false), feb(10, 18)), 360);  // 0.4 x 0.9
  for (const Slot& slot : c.table().slots) {
    if (slot.light != trade::Light::twilight || slot.clock < minutes(7 * 60)) continue;
    EXPECT_EQ(c.rate(strap, slot.start), slot.clock >= minutes(17 * 60) ? 405 : 450);  // 0.9 x 0.5
  }
}

RC_GTEST_PROP(ClockProperty, ColderAirNeverHardensSooner, ()) {
  SiteByHand site = sound_site();
  const int a = *rc::gen::inRange(-120, 150);
  const int b = *rc::gen::inRange(-120, 150);
  site.temperature(feb(10, 9), feb(10, 10), std::min(a, b) / 10.0);
  site.temperature(feb(10, 10), feb(10, 11), std::max(a, b) / 10.0);
  Clocks c(std::move(site));
  for (const CoverKind cover : covers) {
    for (const ClockId id : {c.make().stiffening(cover), c.make().mortar_frost_safety(cover),
                             c.make().setting(cover), c.make().strength(cover)}) {
      RC_ASSERT(c.rate(id, feb(10, 9)) <= c.rate(id, feb(10, 10)));
    }
  }
}

TEST(WorkClock, DarkStopsWhereThereAreNoFloodlights) {
  SiteByHand site = sound_site();
  Clocks lit(site);
  const ClockId by_lamp = lit.make().work(Operation::lay_facing, false, false);
  EXPECT_GT(lit.rate(by_lamp, feb(9, 18, 30)), 0);
  EXPECT_LT(lit.rate(by_lamp, feb(9, 18, 30)), 1000);
  site.job.kit.floodlights = false;
  Clocks c(std::move(site));
  EXPECT_EQ(c.stop(c.make().work(Operation::lay_facing, false, false), feb(9, 18, 30)), "dark: dark");
}

TEST(WorkClock, NoisyWorkKeepsTheQuietHours) {
  Clocks c(sound_site());
  const ClockId pour = c.make().work(Operation::pour, true, false);
  const std::string quiet = "quiet-hours: quiet hours: the mixer and the cutter are still";
  EXPECT_EQ(c.stop(pour, feb(9, 7, 45)), quiet);
  EXPECT_EQ(c.stop(pour, feb(9, 8)), "");
  EXPECT_EQ(c.stop(pour, feb(9, 17, 45)), "");
  EXPECT_EQ(c.stop(pour, feb(9, 18)), quiet);
  EXPECT_EQ(c.stop(c.make().work(Operation::dig, false, false), feb(9, 7, 45)), "");
}

TEST(WorkClock, SaturdaysAndSundaysHaveQuietHoursOfTheirOwn) {
  SiteByHand site = sound_site();
  for (sky::Hour& hour : site.weather.hours)
    hour.start -= std::chrono::hours(48);  // Saturday the 7th to Thursday
  const trade::LimitValues limits = trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values;
  SlotTable table = make_slots(site.job.site, site.job.kit, site.weather, feb(7, 0), feb(9, 0));
  engine::Network net;
  ClockMaker maker(site.job, limits, table, net);
  const engine::Clock pour = net.clocks[static_cast<std::size_t>(maker.work(Operation::pour, true, false))];
  EXPECT_GT(pour.rate(table.tick_down(feb(7, 12, 45))), 0);
  EXPECT_EQ(pour.rate(table.tick_down(feb(7, 13))), 0) << "Saturday at one";
  EXPECT_EQ(pour.passed(table.tick_down(feb(8, 0)), table.tick_down(feb(9, 0))), 0) << "all Sunday";
}

TEST(WorkClock, WorkKeepsToHisHoursAndAppointments) {
  SiteByHand site = sound_site();
  site.job.fixed = {{"the dentist in town", feb(9, 10, 20), feb(9, 11, 5)}};
  Clocks c(std::move(site));
  const ClockId dig = c.make().work(Operation::dig, false, false);
  EXPECT_EQ(c.stop(dig, feb(9, 6, 45)), "off-hours: outside his working hours");
  EXPECT_EQ(c.stop(dig, feb(9, 7)), "");
  EXPECT_EQ(c.stop(dig, feb(9, 18, 45)), "");
  EXPECT_EQ(c.stop(dig, feb(9, 19)), "off-hours: outside his working hours");
  EXPECT_EQ(c.stop(dig, feb(9, 10, 10)), "") << "the quarter before";
  for (const int minute : {15, 30, 45, 60})
    EXPECT_EQ(c.stop(dig, feb(9, 10) + minutes(minute)), "fixed-time: the dentist in town") << minute;
  EXPECT_EQ(c.stop(dig, feb(9, 11, 15)), "");
}

// Limits table: brickwork wants hot-weather care above 30 C (NHBC 6.1.20, read on the page).
TEST(WorkClock, HeatStopsBrickworkAndFlags) {
  SiteByHand site = sound_site();
  site.temperature(feb(9, 10), feb(9, 11), 30);
  site.temperature(feb(9, 11), feb(9, 12), 31);
  Clocks c(std::move(site));
  const ClockId lay = c.make().work(Operation::lay_facing, false, false);
  EXPECT_EQ(c.stop(lay, feb(9, 10)), "");
  EXPECT_EQ(c.stop(lay, feb(9, 11)), "heat: 31 \u00b0C, stops above 30");
  EXPECT_EQ(c.stop(c.make().work(Operation::lay_flags, false, false), feb(9, 10)),
            "heat: 30 \u00b0C, stops above 25");
  EXPECT_EQ(c.stop(c.make().work(Operation::dig, false, false), feb(9, 11)), "");
}

TEST(WorkClock, SoddenGroundSlowsTheDigging) {
  SiteByHand site = sound_site();
  site.rain(feb(9, 0), feb(9, 6), 5);
  Clocks c(std::move(site));
  EXPECT_EQ(c.rate(c.make().work(Operation::dig, false, false), feb(9, 9)), 700);
}

TEST(WorkClock, TheMerchantServesInHisHours) {
  SiteByHand site = sound_site();
  {
    Clocks none(site);
    EXPECT_EQ(none.stop(none.make().merchant(), feb(9, 10)), "merchant: no merchant is named");
  }
  site.job.supplies.merchant =
      works::Merchant{base::Hours(0.4), {{minutes(450), minutes(1020)}}, {{minutes(480), minutes(720)}}};
  Clocks c(std::move(site));
  const ClockId merchant = c.make().merchant();
  EXPECT_EQ(c.stop(merchant, feb(9, 7, 15)), "merchant: the merchant is shut");
  EXPECT_EQ(c.stop(merchant, feb(9, 7, 30)), "");
  EXPECT_EQ(c.stop(merchant, feb(9, 17)), "merchant: the merchant is shut");
}

// Limits table: seven hours off before the drive home. His day ends at seven: nobody drives before two.
TEST(WorkClock, NobodyDrivesHomeBeforeHeHasRested) {
  Clocks c(sound_site());
  const ClockId drive = c.make().drive_home();
  EXPECT_EQ(c.stop(drive, feb(10, 1, 45)), "rest: rest before a long drive");
  EXPECT_EQ(c.stop(drive, feb(10, 2)), "");
  EXPECT_EQ(c.stop(drive, feb(10, 23, 45)), "");
}

// ------------------------------------------------------------------------------------------------ waits

double strip_hours(double celsius) {
  SiteByHand site = sound_site();
  site.temperature(feb(9, 0), feb(14, 0), celsius);
  Clocks c(std::move(site));
  return c.hours_for(c.make().strip_wait(), feb(9, 12), ClockMaker::kWaitWhole);
}

// Common practice, no source: low walls 8 h after the pour at 5 C or more, 12 h at 3 C; below 2 C no time
// counts.
TEST(WaitClock, AStripWaitsEightHoursInTheMildAndTwelveInTheCold) {
  EXPECT_DOUBLE_EQ(strip_hours(8), 8);
  EXPECT_DOUBLE_EQ(strip_hours(5), 8);
  EXPECT_DOUBLE_EQ(strip_hours(4.9), 12);
  EXPECT_DOUBLE_EQ(strip_hours(3), 12);
  EXPECT_DOUBLE_EQ(strip_hours(2), 12);
  EXPECT_EQ(strip_hours(1.9), -1);
}

TEST(WaitClock, MildAndColdHoursCountByTheirShare) {
  // Four hours at 8 C are half of it, two at 1 C nothing, the rest at 3 C six hours.
  SiteByHand site = sound_site();
  site.temperature(feb(9, 16), feb(9, 18), 1);
  site.temperature(feb(9, 18), feb(10, 12), 3);
  Clocks c(std::move(site));
  const ClockId strip = c.make().strip_wait();
  EXPECT_DOUBLE_EQ(c.hours_for(strip, feb(9, 12), ClockMaker::kWaitWhole), 12);
  EXPECT_EQ(c.stop(strip, feb(9, 17)), "cold: 1 \u00b0C: it hardens only above 2");
}

// Limits table: a box 5 h; high walls 24 h at 10 C and 48 h below; soil 24 h to half height and twice that
// below 5 C (assumptions and common practice, no source).
TEST(WaitClock, TheOtherWaitsRunByTheirLimits) {
  SiteByHand site = sound_site();
  Clocks c(site);
  const auto hours = [](Clocks& clocks, ClockId id) {
    return clocks.hours_for(id, feb(9, 12), ClockMaker::kWaitWhole);
  };
  EXPECT_DOUBLE_EQ(hours(c, c.make().box_wait()), 5);
  EXPECT_DOUBLE_EQ(hours(c, c.make().high_wall_wait()), 48);
  EXPECT_DOUBLE_EQ(hours(c, c.make().fill_half_wait()), 24);
  EXPECT_DOUBLE_EQ(hours(c, c.make().fill_wait()), 48);
  site.temperature(feb(9, 0), feb(14, 0), 10);
  Clocks warm(site);
  EXPECT_DOUBLE_EQ(hours(warm, warm.make().high_wall_wait()), 24);
  site.temperature(feb(9, 0), feb(14, 0), 4.9);
  Clocks cold(site);
  EXPECT_DOUBLE_EQ(hours(cold, cold.make().fill_half_wait()), 48);
  EXPECT_DOUBLE_EQ(hours(cold, cold.make().box_wait()), 7.5) << "slower as any strip: 12 h for 8";
  site.temperature(feb(9, 0), feb(14, 0), 1.9);
  Clocks frost(site);
  EXPECT_EQ(hours(frost, frost.make().box_wait()), -1);
  EXPECT_EQ(hours(frost, frost.make().high_wall_wait()), -1) << "below 2 degrees no time counts";
}

// ---------------------------------------------------------------------------------- exposure and covers

TEST(ExposureClock, AFlagBedWhoseCoverIsBlownOffIsAsBare) {
  SiteByHand site = sound_site();
  site.temperature(feb(9, 0), feb(14, 0), 1);
  site.gust(feb(10, 0), feb(10, 12), 20);  // a mat holds to 17 m/s
  Clocks c(site);
  const ClockId mat = c.make().below(base::Celsius(0), trade::CoverKind::mat, base::Celsius(2));
  EXPECT_EQ(c.rate(mat, feb(9, 12)), 0);
  EXPECT_GT(c.rate(mat, feb(10, 6)), 0);
}

TEST(WorkClock, ColdLayingThatNeedsACoverIsForTheMonthsOfCovering) {
  SiteByHand site = sound_site();
  site.job.limits.overrides = {{std::string(trade::limit::brick_cold_protected), 1}};
  for (const bool summer : {false, true}) {
    if (summer) site.job.limits.overrides.push_back({std::string(trade::limit::night_cover_last_month), 1});
    site.temperature(feb(10, 9), feb(14, 0), 2.5);
    Clocks c(site);
    EXPECT_EQ(c.stop(c.make().work(Operation::lay_facing, false, false), feb(10, 10)).empty(), !summer);
  }
}

TEST(ExposureClock, RainIsCountedInMicrometresAndHessianLetsAPartThrough) {
  SiteByHand site = site_with(1.2);
  Clocks c(std::move(site));
  const auto fallen = [&](ClockId id) {
    return c.clock(id).passed(c.table().tick_down(feb(9, 10)), c.table().tick_down(feb(9, 11)));
  };
  EXPECT_EQ(fallen(c.make().rain_through(CoverKind::bare, false)), 1200);
  EXPECT_EQ(fallen(c.make().rain_through(CoverKind::hessian, false)), 360);
  EXPECT_EQ(fallen(c.make().rain_through(CoverKind::sheet, false)), 0);
  EXPECT_EQ(c.rate(c.make().rain_through(CoverKind::sheet, false), feb(9, 10)), 0);
}

TEST(ExposureClock, RainInWhichNoPourIsBegunSpoilsUnsetConcrete) {
  for (const double rain : {1.9, 2.0}) {
    Clocks c(site_with(rain));
    const ClockId on_concrete = c.make().rain_through(CoverKind::bare, true);
    EXPECT_EQ(c.rate(on_concrete, feb(9, 10)) >= ClockMaker::kSpoilt, rain >= 2.0) << rain;
  }
}

TEST(ExposureClock, ACoverDoesNotCountInAGustThatTakesIt) {
  SiteByHand site = site_with(3);
  site.gust(feb(9, 10), feb(9, 11), 17.1);  // sheets hold to 17 m/s by the covers table
  site.temperature(feb(9, 10), feb(9, 11), -2);
  Clocks c(std::move(site));
  const ClockId rain = c.make().rain_through(CoverKind::sheet, false);
  const ClockId frost = c.make().below(Celsius(0), CoverKind::hessian_and_sheet);
  EXPECT_EQ(c.rate(rain, feb(9, 10)), c.rate(c.make().rain_through(CoverKind::bare, false), feb(9, 10)));
  EXPECT_EQ(c.rate(frost, feb(9, 10)), c.rate(c.make().below(Celsius(0), CoverKind::bare), feb(9, 10)));
}

TEST(ExposureClock, NightsCountInTheCoverMonthsOnly) {
  Clocks c(sound_site());
  const ClockId night = c.make().uncovered_night();
  EXPECT_EQ(c.rate(night, feb(9, 22)), 1);
  EXPECT_EQ(c.rate(night, feb(9, 12)), 0);
  SiteByHand site = sound_site();
  for (sky::Hour& hour : site.weather.hours)
    hour.start += std::chrono::hours(24 * 150);  // July
  const trade::LimitValues limits = trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values;
  const Instant july = feb(9, 0) + std::chrono::hours(24 * 150);
  SlotTable table =
      make_slots(site.job.site, site.job.kit, site.weather, july, july + std::chrono::hours(24));
  engine::Network net;
  ClockMaker maker(site.job, limits, table, net);
  const engine::Clock summer = net.clocks[static_cast<std::size_t>(maker.uncovered_night())];
  EXPECT_EQ(summer.passed(summer.horizon()), 0);
}

TEST(ExposureClock, ASheetKeepsTheWindFromDrying) {
  Clocks c(sound_site());
  EXPECT_LT(c.rate(c.make().stiffening(CoverKind::sheet), feb(9, 12)),
            c.rate(c.make().stiffening(CoverKind::bare), feb(9, 12)));
}

// ------------------------------------------------------------------------------------------- properties

SiteByHand any_weather() {
  SiteByHand site = sound_site();
  const auto air =
      *rc::gen::container<std::vector<int>>(site.weather.hours.size(), rc::gen::inRange(-60, 200));
  const auto rain = *rc::gen::container<std::vector<int>>(site.weather.hours.size(), rc::gen::inRange(0, 60));
  const auto wind =
      *rc::gen::container<std::vector<int>>(site.weather.hours.size(), rc::gen::inRange(0, 100));
  for (std::size_t i = 0; i < site.weather.hours.size(); ++i) {
    sky::Hour& hour = site.weather.hours[i];
    hour.temperature->value = Celsius(air[i] / 10.0);
    hour.rain->value = base::Millimetres(std::max(0, rain[i] - 20) / 10.0);
    hour.wind->value = base::MetresPerSecond(wind[i] / 10.0);
    hour.gust->value = base::MetresPerSecond(wind[i] / 5.0);
  }
  return site;
}

RC_GTEST_PROP(ClockProperty, NoCoverLetsInMoreRainOrFrostThanNone, ()) {
  Clocks c(any_weather());
  const engine::Clock bare_rain = c.clock(c.make().rain_through(CoverKind::bare, false));
  const engine::Clock bare_wash = c.clock(c.make().rain_through(CoverKind::bare, true));
  const engine::Clock bare_frost = c.clock(c.make().below(Celsius(0), CoverKind::bare));
  for (const CoverKind cover : covers) {
    const engine::Clock rain = c.clock(c.make().rain_through(cover, false));
    const engine::Clock wash = c.clock(c.make().rain_through(cover, true));
    const engine::Clock frost = c.clock(c.make().below(Celsius(0), cover));
    for (engine::Tick t = 0; t < rain.horizon(); t += kTicksPerSlot) {
      RC_ASSERT(rain.rate(t) <= bare_rain.rate(t));
      RC_ASSERT(wash.rate(t) <= bare_wash.rate(t));
      RC_ASSERT(frost.rate(t) <= bare_frost.rate(t));
    }
  }
}

RC_GTEST_PROP(ClockProperty, ColderIsNeverFaster, ()) {
  SiteByHand site = any_weather();
  site.job.limits.cold_rule =
      *rc::gen::element(trade::ColdRule::nhbc, trade::ColdRule::bda, trade::ColdRule::nbs);
  SiteByHand colder = site;
  const double by = *rc::gen::inRange(1, 80) / 10.0;
  for (sky::Hour& hour : colder.weather.hours)
    hour.temperature->value = hour.temperature->value + base::Kelvins(-by);
  Clocks warm(std::move(site));
  Clocks cold(std::move(colder));
  const auto all_of = [](ClockMaker& make) {
    std::vector<ClockId> ids{make.strip_wait(),
                             make.box_wait(),
                             make.high_wall_wait(),
                             make.fill_half_wait(),
                             make.fill_wait(),
                             make.stiffening(CoverKind::bare),
                             make.setting(CoverKind::bare),
                             make.strength(CoverKind::bare),
                             make.mortar_frost_safety(CoverKind::bare)};
    for (const Operation operation : {Operation::dig, Operation::pour, Operation::lay_below,
                                      Operation::lay_facing, Operation::point, Operation::lay_flags}) {
      ids.push_back(make.work(operation, trade::row_for(operation).noisy(), false));
    }
    return ids;
  };
  const auto warm_ids = all_of(warm.make());
  const auto cold_ids = all_of(cold.make());
  for (std::size_t i = 0; i < warm_ids.size(); ++i) {
    const engine::Clock& a = warm.clock(warm_ids[i]);
    const engine::Clock& b = cold.clock(cold_ids[i]);
    for (engine::Tick t = 0; t < a.horizon(); t += kTicksPerSlot) {
      if (b.rate(t) > a.rate(t)) RC_FAIL(a.name());
    }
  }
}

RC_GTEST_PROP(ClockProperty, EveryStandingWorkClockSaysWhy, ()) {
  Clocks c(any_weather());
  for (const Operation operation :
       {Operation::dig, Operation::pour, Operation::lay_facing, Operation::point}) {
    const ClockId id = c.make().work(operation, trade::row_for(operation).noisy(), false);
    for (const Slot& slot : c.table().slots) {
      const Cause& cause = c.cause(id, slot.start);
      RC_ASSERT((c.rate(id, slot.start) == 0) == !cause.code.empty());
      RC_ASSERT(cause.code.empty() == cause.text.empty());
    }
  }
}

}  // namespace
}  // namespace weatherstruck::programme
