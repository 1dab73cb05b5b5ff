// Every row of the table of check values that lies beside the source: what it names is worked out by the
// program's own floors and held to the value that the row's source prints. A row that nothing here answers is
// a failure, and so is an answer without its row.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <iostream>
#include <map>
#include <string>
#include <utility>

#include "matter/reference_support.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/curing.h"
#include "weatherstruck/matter/evaporation.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/sky/sun.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck {
namespace {

using base::Celsius;
using base::Hours;
using base::Megapascals;
using base::Metres;
using reference::number;
using reference::Row;
namespace limit = trade::limit;

Hours days(double count) {
  return Hours(24 * count);
}

double celsius(double fahrenheit) {
  return (fahrenheit - 32) / 1.8;
}

matter::SurfaceAir surface(double concrete, double air, double humidity, double kmh) {
  return {Celsius(concrete), Celsius(air), base::Fraction(humidity), base::MetresPerSecond(kmh / 3.6)};
}

trade::LimitValues limits(trade::LimitSet set, trade::ColdRule rule) {
  return trade::limits_for(set, rule).values;
}

double degree_hours(double celsius_of_air, double hours, double datum) {
  return matter::nurse_saul(Celsius(celsius_of_air), Hours(hours), Celsius(datum)).value();
}

std::variant<Metres, base::Fault> overlap(double step_mm, double thickness_mm) {
  return measure::step_overlap(Metres(step_mm / 1000), Metres(thickness_mm / 1000),
                               measure::FootingRules::uk());
}

// "0.8261668305" within the row's own tolerance, or one of ours where the row says "exact" or "15 %".
void near(const Row& row, double value, double tolerance) {
  EXPECT_NEAR(value, number(row[2]), tolerance);
}

void near_by_row(const Row& row, double value) {
  near(row, value, number(row[3]));
}

// Rise and set of "08:05/15:55 UTC" on a UT day, to the minute that the table prints and one of the model.
void rises_and_sets(const std::string& words, const sky::LightBand& band, const std::string& date) {
  const auto at = [&](std::size_t from) {
    return *base::parse_iso_instant(date + "T" + words.substr(from, 5) + ":00Z");
  };
  ASSERT_TRUE(band.rise && band.set);
  EXPECT_LE(std::abs((*band.rise - at(0)).count()), 60) << words;
  EXPECT_LE(std::abs((*band.set - at(6)).count()), 60) << words;
}

sky::DayLight ut_day(double latitude, double longitude, const std::string& date) {
  const base::Instant start = *base::parse_iso_instant(date + "T00:00:00Z");
  return sky::day_light(latitude, longitude, start, start + std::chrono::hours(24));
}

// The first of some falling or rising temperatures at which something happens.
template <class Happens>
double first_of(std::initializer_list<double> temperatures, Happens happens) {
  for (const double t : temperatures) {
    if (happens(t)) return t;
  }
  return std::nan("");
}

using Check = std::function<void(const Row&)>;

std::map<std::pair<std::string, std::string>, Check> concrete_checks() {
  return {
      {{"maturity Nurse-Saul", "12h@20C+12h@25C, T0=0"},
       [](const Row& row) { near(row, degree_hours(20, 12, 0) + degree_hours(25, 12, 0), 0); }},
      {{"maturity Nurse-Saul", "24h@20+24h@10+24h@5, T0=-10"},
       [](const Row& row) {
         near(row, degree_hours(20, 24, -10) + degree_hours(10, 24, -10) + degree_hours(5, 24, -10), 0);
       }},
      {{"beta_cc", "s=0.25 t=9 d"}, [](const Row& row) { near_by_row(row, matter::beta_cc(days(9), 0.25)); }},
      {{"beta_cc", "s=0.25 t=365 d"},
       [](const Row& row) { near_by_row(row, matter::beta_cc(days(365), 0.25)); }},
      {{"fck(7) C40", "fcm28=48 s=0.25"},
       // The characteristic strength is 8 N/mm2 below the mean, EN 1992-1-1 table 3.1.
       [](const Row& row) { near_by_row(row, 48 * matter::beta_cc(days(7), 0.25) - 8); }},
      {{"EN1992 B.10 factor", "T=5 C"},
       [](const Row& row) { near_by_row(row, matter::eurocode_rate(Celsius(5))); }},
      {{"EN1992 B.10 factor", "T=20 C"},
       [](const Row& row) { near_by_row(row, matter::eurocode_rate(Celsius(20))); }},
      {{"B.10 age", "24h@20+24h@10+24h@5"},
       [](const Row& row) {
         double age = 0;
         for (const double t : {20.0, 10.0, 5.0})
           age += 24 * matter::eurocode_rate(Celsius(t));
         near_by_row(row, age);
       }},
      {{"hours to 5 N/mm2 cube at 5 C", "C16/20 CEM I"},
       [](const Row& row) {
         const matter::StrengthLaw law = matter::early_age_law(Megapascals(20));
         const double age = matter::equivalent_hours_to(law, Megapascals(5)).value().value();
         near(row, age / matter::rate(law.law, Celsius(5)), 72 * 0.15);  // the row allows 15 %
       }},
      {{"DIN 1045-3 curing", "8 C surface, r=0.32, not XM"},
       [](const Row& row) { near(row, matter::din_1045_curing(Celsius(8), 0.32).value() / 24, 0); }},
      {{"Uno US", "Tc 87F Ta 80F rh .5 12 mph"},
       [](const Row& row) {
         const auto dries = matter::evaporation(surface(celsius(87), celsius(80), 0.5, 12 * 1.609344));
         near_by_row(row, matter::pounds_per_square_foot_hour(dries));
       }},
      {{"Uno metric rounded", "Tc 30 Ta 25 rh .5 V 20 km/h"},
       [](const Row& row) {
         near_by_row(row, matter::evaporation_rounded(surface(30, 25, 0.5, 20)).value());
       }},
      {{"Uno metric rounded", "Tc 20 Ta 10 rh .6 V 15 km/h"},
       [](const Row& row) {
         near_by_row(row, matter::evaporation_rounded(surface(20, 10, 0.6, 15)).value());
       }},
  };
}

std::map<std::pair<std::string, std::string>, Check> other_checks() {
  return {
      {{"NHBC cold rule", "temps 4.0,3.2,2.9 falling hourly"},
       [](const Row& row) {
         const auto v = limits(trade::LimitSet::uk, trade::ColdRule::nhbc);
         const double stop =
             first_of({4.0, 3.2, 2.9}, [&](double t) { return t < v.at(limit::brick_cold_stop); });
         EXPECT_EQ("stop at " + base::plain_number(stop, 1), row[2]);
       }},
      {{"NHBC resume", "0.5,1.2,2.0 rising, forecast max 6"},
       [](const Row& row) {
         const auto resumes = [](trade::ColdRule rule) {
           const auto v = limits(trade::LimitSet::uk, rule);
           return first_of({0.5, 1.2, 2.0}, [&](double t) {
             return t >= v.at(limit::brick_cold_resume) && 6.0 > v.at(limit::brick_cold_expected);
           });
         };
         EXPECT_EQ("resume at " + base::plain_number(resumes(trade::ColdRule::nhbc), 1), row[2]);
         EXPECT_TRUE(std::isnan(resumes(trade::ColdRule::bda))) << "BDA: not until 3 degrees rising";
       }},
      {{"TMS mean daily", "low 22F high 40F"},
       [](const Row& row) {
         const double mean = (22.0 + 40.0) / 2;
         near(row, mean, 0);
         const auto v = limits(trade::LimitSet::us, trade::ColdRule::nbs);
         EXPECT_LT(celsius(mean), v.at(limit::cover_mean_day));
       }},
      {{"step overlap", "S=225 T=225"},
       [](const Row& row) { near(row, std::get<Metres>(overlap(225, 225)).value() * 1000, 1e-9); }},
      {{"step overlap", "S=75 T=150"},
       [](const Row& row) { near(row, std::get<Metres>(overlap(75, 150)).value() * 1000, 1e-9); }},
      {{"step check", "S=225 T=200"},
       [](const Row& row) {
         EXPECT_EQ(row[2], "rejected (S>T)");
         const auto refused = overlap(225, 200);
         ASSERT_TRUE(std::holds_alternative<base::Fault>(refused));
         EXPECT_EQ(std::get<base::Fault>(refused).code, "step-deeper-than-footing");
       }},
      {{"stepped strip volume", "W.5 T.225 L6 n3 S.225 O.45"},
       [](const Row& row) {
         const measure::Strip strip{Metres(6), Metres(0.5), Metres(0.225), Metres(0.45)};
         near_by_row(row, measure::stepped_concrete(strip, 3, Metres(0.225), Metres(0.45)).value());
       }},
      {{"half-brick bricks", "4.0x0.6 m"},
       [](const Row& row) {
         const trade::BondRow& bond = trade::row_for(trade::Bond::half_stretcher);
         near(row, bond.bricks_per_m2 * 4.0 * 0.6, 1e-9);
         const std::size_t exact = row[2].find(';') + 1;
         EXPECT_NEAR(bond.bricks_per_m2_exact * 4.0 * 0.6, number(row[2].substr(exact)), 0.005);
       }},
      {{"mortar 1:3 cement", "1 m3"},
       [](const Row& row) {
         near(row, trade::row_for(trade::MortarClass::m12).cement_per_m3.value(), 1e-9);
         EXPECT_EQ(trade::row_for(trade::MortarClass::m12).sand_per_m3.value(),
                   number(row[2].substr(row[2].find('+') + 1)));
       }},
      {{"NREL SPA", "reference inputs"},
       [](const Row& row) {
         // The worked example of NREL TP-560-34302.
         const auto sun = sky::sun_position(39.742476, -105.1786, 1830.14, 820, 11, 67,
                                            *base::parse_iso_instant("2003-10-17T19:30:30Z"));
         EXPECT_NEAR(sun.zenith, number(row[2].substr(row[2].find("zenith ") + 7)), number(row[3]));
         EXPECT_NEAR(sun.azimuth, number(row[2].substr(row[2].find("az ") + 3)), number(row[3]));
       }},
      {{"sunrise/sunset London", "2015-12-25 51.5 N 0.12 W"},
       [](const Row& row) {
         const sky::DayLight light = ut_day(51.5, -0.12, "2015-12-25");
         rises_and_sets(row[2], light.sun, "2015-12-25");
         rises_and_sets(row[2].substr(row[2].find("civil ") + 6), light.civil, "2015-12-25");
       }},
      {{"USNO high latitude", "Longyearbyen 78.2167N 15.6333E 2020-02-25"},
       [](const Row& row) {
         rises_and_sets(row[2], ut_day(78.2167, 15.6333, "2020-02-25").sun, "2020-02-25");
       }},
  };
}

TEST(Oracles, EveryRowAgreesWithItsSource) {
  WS_REFERENCE_ROWS(rows, "oracles.csv");
  auto checks = concrete_checks();
  checks.merge(other_checks());
  for (const auto& row : rows) {
    ASSERT_GE(row.size(), 6U);
    SCOPED_TRACE(row[0] + ", " + row[1] + "; source: " + row[4] + " (" + row[5] + ")");
    const auto check = checks.find({row[0], row[1]});
    if (check == checks.end()) {
      ADD_FAILURE() << "a row that nothing answers";
      continue;
    }
    check->second(row);
    checks.erase(check);
    std::cout << row[0] << ", " << row[1] << ": " << row[2] << "; " << row[4] << " (" << row[5] << ")\n";
  }
  for (const auto& left : checks)
    ADD_FAILURE() << "no row \"" << left.first.first << "\", \"" << left.first.second << "\" any more";
}

}  // namespace
}  // namespace weatherstruck
