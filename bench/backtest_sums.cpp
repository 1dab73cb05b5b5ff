#include "backtest_sums.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "weatherstruck/base/random.h"

namespace weatherstruck::bench {
namespace {

using Some = std::vector<const TripSeen*>;

constexpr std::uint64_t months_stream = 227;

std::chrono::year_month_day date(const TripSeen& trip) {
  return std::chrono::year_month_day(trip.asked.leaves);
}
int year(const TripSeen& trip) {
  return static_cast<int>(date(trip).year());
}
unsigned season(const TripSeen& trip) {
  return static_cast<unsigned>(date(trip).month()) % 12 / 3;
}
double well(const TripSeen& trip) {
  return trip.went_well ? 1 : 0;
}
double square(double x) {
  return x * x;
}

}  // namespace

Interval by_months(const std::vector<TripSeen>& trips, const std::function<double(const Some&)>& value,
                   int draws, std::uint64_t seed) {
  std::map<std::pair<int, unsigned>, Some> months;
  Some all;
  for (const TripSeen& trip : trips) {
    months[{year(trip), static_cast<unsigned>(date(trip).month())}].push_back(&trip);
    all.push_back(&trip);
  }
  std::vector<const Some*> blocks;
  for (const auto& [month, block] : months)
    blocks.push_back(&block);
  Interval interval{value(all), std::numeric_limits<double>::quiet_NaN(),
                    std::numeric_limits<double>::quiet_NaN()};
  base::Random random(seed, months_stream);
  std::vector<double> values;
  Some drawn;
  for (int draw = 0; draw < draws && !blocks.empty(); ++draw) {
    drawn.clear();
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      const Some& block = *blocks[random.below(blocks.size())];
      drawn.insert(drawn.end(), block.begin(), block.end());
    }
    const double one = value(drawn);
    if (!std::isnan(one)) values.push_back(one);
  }
  if (values.empty()) return interval;
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
  };
  interval.low = at(0.025);
  interval.high = at(0.975);
  return interval;
}

double brier(const Some& trips) {
  double sum = 0;
  for (const TripSeen* trip : trips)
    sum += square(trip->told - well(*trip));
  return sum / static_cast<double>(trips.size());
}

std::vector<double> season_means(const std::vector<TripSeen>& trips, bool each_job) {
  using Kind = std::pair<std::size_t, unsigned>;
  struct Sum {
    double well = 0;
    int trips = 0;
  };
  std::map<Kind, Sum> all;
  std::map<std::pair<Kind, int>, Sum> of_year;
  const auto kind = [&](const TripSeen& trip) { return Kind(each_job ? trip.asked.job : 0, season(trip)); };
  for (const TripSeen& trip : trips) {
    for (Sum* sum : {&all[kind(trip)], &of_year[{kind(trip), year(trip)}]}) {
      sum->well += well(trip);
      ++sum->trips;
    }
  }
  std::vector<double> means;
  for (const TripSeen& trip : trips) {
    const Sum& of_all = all[kind(trip)];
    const Sum& own = of_year[{kind(trip), year(trip)}];
    const int others = of_all.trips - own.trips;
    means.push_back(others > 0 ? (of_all.well - own.well) / others : 0.5);
  }
  return means;
}

Interval skill(const std::vector<TripSeen>& trips, bool each_job) {
  const std::vector<double> means = season_means(trips, each_job);
  return by_months(trips, [&](const Some& some) {
    double told = 0;
    double season = 0;
    for (const TripSeen* trip : some) {
      told += square(trip->told - well(*trip));
      season += square(means[static_cast<std::size_t>(trip - trips.data())] - well(*trip));
    }
    return season > 0 ? 1 - told / season : std::numeric_limits<double>::quiet_NaN();
  });
}

std::vector<Band> bands(const std::vector<TripSeen>& trips) {
  std::vector<Band> list;
  for (int ten = 0; ten < 10; ++ten) {
    Band band;
    band.from = ten / 10.0;
    band.to = (ten + 1) / 10.0;
    const auto in = [&](const TripSeen& trip) {
      return std::min(9, static_cast<int>(trip.told * 10 + 1e-9)) == ten;
    };
    for (const TripSeen& trip : trips) {
      if (!in(trip)) continue;
      ++band.trips;
      band.told += trip.told;
    }
    if (band.trips == 0) continue;
    band.told /= static_cast<double>(band.trips);
    band.well = by_months(trips, [&](const Some& some) {
      double sum = 0;
      int count = 0;
      for (const TripSeen* trip : some) {
        if (!in(*trip)) continue;
        sum += well(*trip);
        ++count;
      }
      return count > 0 ? sum / count : std::numeric_limits<double>::quiet_NaN();
    });
    list.push_back(band);
  }
  return list;
}

std::vector<std::string> faults_of_sums() {
  std::vector<std::string> faults;
  const auto expect = [&](bool holds, const char* what) {
    if (!holds) faults.emplace_back(what);
  };
  const auto near = [](double a, double b) { return std::abs(a - b) < 1e-9; };
  std::vector<TripSeen> trips;
  const auto add = [&](int in_year, unsigned month, double told, bool went_well) {
    TripSeen trip;
    trip.asked.leaves = std::chrono::local_days(std::chrono::year(in_year) / std::chrono::month(month) / 3);
    trip.told = told;
    trip.went_well = went_well;
    trips.push_back(trip);
  };
  add(2012, 1, 0.8, true);
  add(2012, 1, 0.3, false);
  add(2013, 12, 0.6, false);
  add(2014, 2, 1.0, true);
  Some all;
  for (const TripSeen& trip : trips)
    all.push_back(&trip);
  // (0.04 + 0.09 + 0.36 + 0) / 4
  expect(near(brier(all), 0.1225), "Brier score of four trips is not 0.1225");
  const std::vector<double> means = season_means(trips, false);
  expect(near(means[0], 0.5) && near(means[2], 2.0 / 3) && near(means[3], 1.0 / 3),
         "season's mean does not leave the trip's own year out");
  // 0.25, 0.25, 4/9, 4/9: 1 - 0.49 / 1.3889
  expect(near(skill(trips, false).seen, 1 - 0.49 / (0.5 + 8.0 / 9)), "skill is not that worked out by hand");
  const std::vector<Band> of_four = bands(trips);
  expect(of_four.size() == 4 && of_four.back().trips == 1 && near(of_four.back().told, 1),
         "a chance of 1 is not in the last band");
  // Two months as whole blocks: mean of the first 1, of the second 0; a draw is 0, 1/2 or 1.
  trips.clear();
  for (int k = 0; k < 50; ++k) {
    add(2012, 5, 0.5, true);
    add(2012, 6, 0.5, false);
  }
  const Interval halves = by_months(trips, [](const Some& some) {
    double sum = 0;
    for (const TripSeen* trip : some)
      sum += well(*trip);
    return sum / static_cast<double>(some.size());
  });
  expect(near(halves.seen, 0.5) && near(halves.low, 0) && near(halves.high, 1), "months are not drawn whole");
  TripSeen sent;
  sent.asked = {7, 3, 1, std::chrono::local_days(std::chrono::year(2020) / 2 / 29)};
  sent.told = 0.4333;
  sent.rule = {true, 1, 2, 3, 4.5, 6};
  sent.again = Came{true, 0, 1, 2, 0.25, 1};
  sent.replans = 2;
  sent.moves = 5;
  const auto back = from_line(to_line(sent));
  expect(back && to_line(*back) == to_line(sent), "a line does not read back as written");
  expect(!from_line(to_line(sent).substr(0, 40)), "a line cut short is taken");
  return faults;
}

}  // namespace weatherstruck::bench
