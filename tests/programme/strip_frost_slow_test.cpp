// Clocks against the full balance in real winters: what the clocks allow does not freeze.
//
// Hours of four stations of the KNMI, 2011 to 2025 (CC BY 4.0), where they lie beside the source. A strip is
// poured at eleven on days that allow it and that have a frost within two days. Then, hour by hour, covers
// are changed at random among those that its clocks allow, bare among them, and the full balance is followed
// with its heat, its evaporation and just these covers.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "programme/any_job.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/programme/clocks.h"
#include "weatherstruck/programme/strip_frost.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::hours;
using trade::CoverKind;

std::string history_file(const std::string& station) {
  const char* folder = std::getenv("WEATHERSTRUCK_SHARED");
  return (folder != nullptr ? std::string(folder) : std::string(WEATHERSTRUCK_SOURCE_DIR "/../shared")) +
         "/data/history/norm_" + station + "_hourly.csv.gz";
}

/// time_start_utc,temp_c,dewpoint_c,rh_pct,precip_mm,precip_hours,wind_ms,gust_ms,cloud_okta,...
std::vector<sky::Hour> history_of(const std::string& path) {
  std::vector<sky::Hour> list;
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(::popen(("gzip -dc " + path).c_str(), "r"),
                                                             ::pclose);
  std::array<char, 400> line{};
  while (pipe && std::fgets(line.data(), line.size(), pipe.get()) != nullptr) {
    int year = 0, month = 0, day = 0, hour = 0;
    double air = 0, dew = 0, damp = 0, rain = 0, wet = 0, wind = 0, gust = 0, cloud = 0;
    const int read = std::sscanf(line.data(), "%d-%d-%dT%d:00:00Z,%lf,%lf,%lf,%lf,%lf,%lf,%lf,%lf", &year,
                                 &month, &day, &hour, &air, &dew, &damp, &rain, &wet, &wind, &gust, &cloud);
    if (read < 11) continue;
    sky::Hour made;
    made.start = std::chrono::sys_days(std::chrono::year(year) / month / day) + hours(hour);
    made.temperature = {base::Celsius(air)};
    made.humidity = {base::Fraction(damp / 100)};
    made.rain = {base::Millimetres(rain)};
    made.wind = {base::MetresPerSecond(wind)};
    made.gust = {base::MetresPerSecond(gust)};
    if (read == 12) made.cloud = {base::Fraction(std::min(cloud, 8.0) / 8)};
    list.push_back(made);
  }
  return list;
}

std::size_t table_slot(const SlotTable& table, base::Instant t) {
  return static_cast<std::size_t>((t - table.begin_time()) / kSlot);
}

struct Seen {
  int spells = 0;
  int hours_allowed = 0;  ///< of some cover or bare
  int cover_hours[6] = {};
  double coldest = 100;
};

void follow(const works::Job& job, const trade::LimitValues& limits, const matter::StripShape& shape,
            const sky::Series& series, base::Instant pour, base::Random& random, Seen& seen) {
  SlotTable table = make_slots(job.site, job.kit, series, series.begin_time(), series.end_time());
  const std::size_t strip = strip_like(table, job, limits, shape);
  engine::Network network;
  ClockMaker clocks(job, limits, table, network);
  constexpr std::array<CoverKind, 5> kinds{CoverKind::bare, CoverKind::hessian, CoverKind::sheet,
                                           CoverKind::hessian_and_sheet, CoverKind::mat};
  std::array<engine::ClockId, kinds.size()> ids{};
  for (std::size_t k = 0; k < kinds.size(); ++k)
    ids[k] = clocks.strip_frost(strip, kinds[k]);

  double mean = 0;
  for (int h = 1; h <= 24; ++h)
    mean += series.at(pour - hours(h))->temperature->value.value() / 24;
  matter::StripHeat heat(strip_case(job, limits, shape, pour, base::Celsius(mean)));
  std::size_t on = 0;
  ++seen.spells;
  for (int h = 0; h < 48; ++h) {
    const base::Instant t = pour + hours(h);
    const int from = table.tick_up(t), to = table.tick_up(t + hours(1));
    std::vector<std::size_t> allowed;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
      const engine::Clock& clock = network.clocks[static_cast<std::size_t>(ids[k])];
      // In the months of covering nobody leaves it bare in the dark.
      if (k == 0 && table.slots[table_slot(table, t)].light != trade::Light::day) continue;
      if (clock.passed(to) == clock.passed(from)) allowed.push_back(k);
    }
    if (allowed.empty()) return;  // no plan has a strip there then
    const bool may_stay = std::find(allowed.begin(), allowed.end(), on) != allowed.end();
    if (!may_stay || random.below(6) == 0)
      on = allowed[random.below(static_cast<std::uint32_t>(allowed.size()))];
    const sky::Hour& hour = *series.at(t);
    matter::Outside outside{hour.temperature->value, hour.wind->value, std::nullopt, hour.humidity->value};
    if (hour.cloud) outside.cloud = hour.cloud->value;
    if (table.slots[table_slot(table, t)].light == trade::Light::day) outside.cloud = base::Fraction(1);
    const bool holds = hour.gust->value <= trade::row_for(kinds[on]).gust_limit;
    outside.cover = holds ? heat_cover(kinds[on]) : matter::HeatCover::bare;
    heat.advance(outside, base::Hours(1));
    ++seen.hours_allowed;
    ++seen.cover_hours[on];
    seen.coldest = std::min(seen.coldest, heat.top().value());
    EXPECT_GT(heat.top().value(), 0) << "poured " << pour.time_since_epoch().count() / 3600 << " h, after "
                                     << h << " h under " << trade::row_for(kinds[on]).key << ", shape "
                                     << shape.thickness.value() << " x " << shape.width.value();
  }
}

TEST(StripFrost, WhatTheClocksAllowDoesNotFreezeInRealWinters) {
  works::Job job = any_job(1).job;
  job.kit.hessian = job.kit.sheet = job.kit.mats = base::SquareMetres(20);
  job.site.soil = trade::Soil::firm_clay;
  job.practice = {};
  const auto limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
  const std::array<matter::StripShape, 3> shapes{
      matter::StripShape{base::Metres(0.15), base::Metres(0.45), base::Metres(0.35)},
      matter::StripShape{base::Metres(0.15), base::Metres(0.3), base::Metres(0.25)},
      matter::StripShape{base::Metres(0.15), base::Metres(0.9), base::Metres(0.15)}};
  base::Random random(11);
  Seen seen;
  for (const std::string station : {"235", "260", "310", "344"}) {
    const std::string path = history_file(station);
    if (!std::filesystem::exists(path))
      GTEST_SKIP() << "no " << path << "; set WEATHERSTRUCK_SHARED to the data folder";
    const std::vector<sky::Hour> list = history_of(path);
    ASSERT_GT(list.size(), 100'000U);
    // Every seventh frosty day, so that the test stays short.
    int frosty = 0;
    for (std::size_t i = 72; i + 96 < list.size(); i += 24) {
      const std::size_t pour = i + 11;
      const auto cold = [&](const sky::Hour& h) { return h.temperature->value.value() < 0; };
      const auto at = [&](std::size_t k) { return list.begin() + static_cast<std::ptrdiff_t>(k); };
      if (list[pour].temperature->value.value() < 2 || !std::any_of(at(pour), at(pour + 48), cold)) continue;
      if (++frosty % 7 != 0) continue;
      sky::Series series;
      series.hours.assign(at(i - 48), at(i + 72));
      follow(job, limits.values, shapes[static_cast<std::size_t>(frosty / 7) % shapes.size()], series,
             list[pour].start, random, seen);
    }
  }
  std::printf(
      "%d spells, %d hours allowed (bare %d, hessian %d, sheet %d, both %d, mat %d), coldest %.2f C\n",
      seen.spells, seen.hours_allowed, seen.cover_hours[0], seen.cover_hours[1], seen.cover_hours[2],
      seen.cover_hours[3], seen.cover_hours[4], seen.coldest);
  EXPECT_GT(seen.spells, 100);
  EXPECT_GT(seen.cover_hours[0], 500) << "the clocks allow bare hours";
  EXPECT_GT(seen.cover_hours[4], 500);
}

}  // namespace
}  // namespace weatherstruck::programme
