// Trips through years of observed weather: whether the stated chance is kept, and whether planning beats a
// rule of thumb. docs/backtest.md says how it is done and what came of it.
//
//   bench_backtest run FOLDER SEEN.csv [--from N] [--trips N] [--again N] [--schedules N] [--minutes M]
//                [--moved]
//   bench_backtest report SEEN.csv [PICTURE.svg]
//   bench_backtest rain FOLDER
//   bench_backtest --self-check
//
// FOLDER holds norm_<station>_hourly.csv.gz. Trips go in an order drawn once, so that the first of them are a
// fair sample: a run may be cut short, and goes on where SEEN.csv ends. --from and --trips: the first of them
// and the one after the last; --again: those before it are planned again each morning too; --moved: the
// neighbour's hours are moved to the place by what both differed by in other years.
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "backtest_rain.h"
#include "backtest_sums.h"
#include "backtest_trip.h"
#include "weatherstruck/base/random.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/zone_source.h"

namespace {

using namespace weatherstruck;
using namespace weatherstruck::bench;

constexpr int first_departure = 2012;
constexpr int last_departure = 2024;
constexpr int weeks_between = 4;  // two departures of one job at one place

/// A job of bench/trips, promised for so many hours sooner or later than its document says.
struct Promise {
  const char* file;
  int hours;
  const char* title;
};
constexpr std::array<Promise, 8> promises{{{"strip", -2, "strip, home on the second day by 16:00"},
                                           {"strip", 0, "strip, home on the second day by 18:00"},
                                           {"path", -2, "path, home on the third day by 16:00"},
                                           {"path", 0, "path, home on the third day by 18:00"},
                                           {"wall", -24, "wall, home on the second day by 20:00"},
                                           {"wall", -4, "wall, home on the third day by 16:00"},
                                           {"two-walls", -26, "two walls, home on the third day by 16:00"},
                                           {"two-walls", -4, "two walls, home on the fourth day by 14:00"}}};

std::vector<std::string> titles() {
  std::vector<std::string> list;
  for (const Promise& promise : promises)
    list.emplace_back(promise.title);
  return list;
}

std::string text_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error(file + ": cannot be opened");
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<works::Job> read_jobs() {
  std::vector<works::Job> jobs;
  for (const Promise& promise : promises) {
    const std::string file = fmt::format("{}/bench/trips/{}.json", WEATHERSTRUCK_SOURCE_DIR, promise.file);
    files::JobRead read = files::read_job(text_of(file), files::SystemZones());
    if (!read.job) throw std::runtime_error(file + ": " + read.faults.front().code);
    read.job->trip.home_by += std::chrono::hours(promise.hours);
    jobs.push_back(std::move(*read.job));
  }
  return jobs;
}

/// Every fourth week of thirteen years, on the Monday, Tuesday or Wednesday, a week further on for each job
/// and place.
std::vector<TripAsked> all_trips() {
  std::vector<TripAsked> trips;
  const std::chrono::local_days first =
      std::chrono::local_days(std::chrono::year(first_departure) / 1 / std::chrono::Monday[1]);
  const std::chrono::local_days end(std::chrono::year(last_departure) / 12 / 20);
  int number = 0;
  for (std::size_t job = 0; job < promises.size(); ++job) {
    for (std::size_t pair = 0; pair < station_pairs.size(); ++pair) {
      const auto offset = static_cast<int>((job / 2 + pair) % weeks_between);
      base::Random day(1, 229 + job * station_pairs.size() + pair);
      for (auto week = first + std::chrono::days(7 * offset); week < end;
           week += std::chrono::days(7 * weeks_between))
        trips.push_back({number++, job, pair, week + std::chrono::days(day.between(0, 2))});
    }
  }
  base::Random(1, 233).shuffle(std::span<TripAsked>(trips));
  return trips;
}

std::vector<TripSeen> read_seen(const std::string& file) {
  std::vector<TripSeen> seen;
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);) {
    if (auto trip = from_line(line)) seen.push_back(std::move(*trip));
  }
  return seen;
}

int number_after(const std::vector<std::string>& words, const std::string& name, int otherwise) {
  for (std::size_t k = 0; k + 1 < words.size(); ++k) {
    if (words[k] == name) return std::atoi(words[k + 1].c_str());
  }
  return otherwise;
}

History station_in(const std::string& folder, int station) {
  return History::read(fmt::format("{}/norm_{}_hourly.csv.gz", folder, station));
}

int rain(const std::string& folder) {
  std::cout << "| the first day | told dry, came wet | told wet, came wet | wet hours off | told dry, two "
               "hours wet |\n"
               "|---|---|---|---|---|\n";
  for (const StationPair& pair : station_pairs) {
    const History neighbour = station_in(folder, pair.neighbour);
    std::cout << rain_row(fmt::format("{} by {}, as seen", pair.truth, pair.neighbour),
                          errors_of_neighbour(station_in(folder, pair.truth), neighbour))
              << rain_row(fmt::format("the outlook around {}", pair.neighbour), errors_of_outlook(neighbour));
  }
  return 0;
}

int run(const std::vector<std::string>& words) {
  const std::string& folder = words.at(1);
  const std::string& file = words.at(2);
  const std::vector<works::Job> jobs = read_jobs();
  std::map<int, History> histories;
  std::vector<std::vector<const History*>> stations;
  for (const StationPair& pair : station_pairs) {
    stations.emplace_back();
    for (const int station : {pair.truth, pair.neighbour}) {
      if (histories.find(station) == histories.end()) histories.emplace(station, station_in(folder, station));
      stations.back().push_back(&histories.at(station));
    }
  }
  TripWorld world{jobs, stations};
  if (std::find(words.begin(), words.end(), "--moved") != words.end()) {
    for (const auto& pair : stations) {
      world.places.emplace_back();
      for (int year = first_departure; year <= last_departure; ++year)
        world.places.back().emplace(year, PlaceDifference::between(*pair[0], *pair[1], year));
    }
  }
  const std::vector<TripAsked> trips = all_trips();
  const auto most = static_cast<std::size_t>(number_after(words, "--trips", static_cast<int>(trips.size())));
  const auto again = static_cast<std::size_t>(number_after(words, "--again", static_cast<int>(trips.size())));
  const auto from = static_cast<std::size_t>(number_after(words, "--from", 0));
  const int minutes = number_after(words, "--minutes", 0);
  const std::vector<TripSeen> before = read_seen(file);
  // What was cut short is written anew.
  std::ofstream out(file, std::ios::trunc);
  out << trip_header() << '\n';
  for (const TripSeen& seen : before)
    out << to_line(seen) << '\n';
  const std::time_t began = std::time(nullptr);
  for (std::size_t k = from + before.size(); k < std::min(most, trips.size()); ++k) {
    TripSettings settings;
    settings.again = k < again;
    settings.schedules = number_after(words, "--schedules", settings.schedules);
    out << to_line(send(world, trips[k], settings)) << std::endl;
    const auto spent = static_cast<int>(std::time(nullptr) - began);
    if ((k + 1) % 50 == 0) std::cerr << fmt::format("{} of {} trips, {} s\n", k + 1, trips.size(), spent);
    if (minutes > 0 && spent > 60 * minutes) break;
  }
  return 0;
}

int report_on(const std::vector<std::string>& words) {
  const std::vector<TripSeen> seen = read_seen(words.at(1));
  std::cout << report(seen, titles());
  if (words.size() > 2) std::ofstream(words[2]) << picture(seen);
  return 0;
}

/// The forecasts on numbers worked out by hand.
std::vector<std::string> faults_of_forecasts() {
  using std::chrono::hours;
  std::vector<std::string> faults;
  const auto expect = [&](bool holds, const char* what) {
    if (!holds) faults.emplace_back(what);
  };
  // Rain of an hour of the truth is 1, of the neighbour 2 in 2016 and 3 in 2020; temperatures 10, 20, 30.
  const base::Instant first = std::chrono::sys_days(std::chrono::year(2016) / 1 / 1);
  std::vector<ObservedHour> truth;
  std::vector<ObservedHour> neighbour;
  const base::Instant turn = std::chrono::sys_days(std::chrono::year(2018) / 1 / 1);
  const base::Instant end = std::chrono::sys_days(std::chrono::year(2021) / 1 / 1);
  for (base::Instant hour = first; hour < end; hour += hours(1)) {
    const bool later = hour >= turn;
    truth.push_back({10, 0, 0.5, 1, 1, 2, 1});
    neighbour.push_back({later ? 30.0 : 20.0, 0, 0.5, later ? 3.0 : 2.0, 1, 2, 1});
  }
  const History a(first, truth);
  const History b(first, neighbour);
  const base::Instant made = first + hours(24 * 100);
  const Stretch stretch{made - hours(6), made + hours(24 * 6)};
  const PlaceDifference same = PlaceDifference::none();
  const sky::Series series = forecast_of({a, b, same, made, 2020 - 2016, 5}, stretch);
  const auto temperature = [&](int ahead) {
    return series.at(made + hours(ahead))->temperature->value.value();
  };
  const auto rain = [&](base::Instant hour) { return series.at(hour)->rain->value.value(); };
  expect(temperature(-1) == 10 && temperature(0) == 20 && temperature(24) == 20,
         "what was, and the first day, are not those of truth and neighbour");
  expect(std::abs(temperature(60) - 25) < 1e-9 && temperature(96) == 30 && temperature(120) == 30,
         "temperature does not fade evenly from 24 to 96 hours");
  bool whole = true;
  int far = 0;
  for (base::Instant block = made + hours(24); block < made + hours(96); block += hours(6)) {
    for (int h = 1; h < 6; ++h)
      whole = whole && rain(block + hours(h)) == rain(block);
    far += rain(block) == 3 ? 1 : 0;
  }
  expect(whole, "rain of six hours is of both years");
  expect(far > 0 && far < 12, "rain does not come from both years between");
  expect(rain(made + hours(97)) == 3 && rain(made + hours(23)) == 2, "rain at the ends is of the wrong year");
  expect(in_year(std::chrono::sys_days(std::chrono::year(2020) / 2 / 29) + hours(5), 2019) ==
             std::chrono::sys_days(std::chrono::year(2019) / 2 / 28) + hours(5),
         "29 February is not the 28th in another year");
  // Years but 2019 to 2021 teach: in 2016 and 2017 the place was 10 degrees colder, in 2018 20.
  const PlaceDifference moved = PlaceDifference::between(a, b, 2020);
  const ObservedHour put = moved.put({20, 5, 0.5, 1, 3, 4, 1}, first + hours(24 * 40));
  expect(std::abs(put.temperature - (20 - 40.0 / 3)) < 0.05 && put.dew_point <= put.temperature &&
             put.wind == 3 && put.gust == 4 && put.rain == 1,
         "a neighbour's hour is moved by other than the mean difference of the other years");
  for (std::uint64_t seed = 0; seed < 200; ++seed)
    expect(std::abs(another_year(2015, 2011, 2024, seed) - 2015) > 1,
           "a neighbour of the tested year is used");
  return faults;
}

int self_check() {
  std::vector<std::string> faults = faults_of_sums();
  for (const std::string& fault : faults_of_forecasts())
    faults.push_back(fault);
  for (const std::string& fault : faults)
    std::cerr << fault << '\n';
  std::cout << (faults.empty() ? "The sums and forecasts of the backtest are right.\n" : "");
  return faults.empty() ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  try {
    if (words.size() >= 3 && words[0] == "run") return run(words);
    if (words.size() >= 2 && words[0] == "report") return report_on(words);
    if (words.size() == 2 && words[0] == "rain") return rain(words[1]);
    if (words.size() == 1 && words[0] == "--self-check") return self_check();
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 1;
  }
  std::cerr << "Use: bench_backtest run FOLDER SEEN.csv [--from N] [--trips N] [--again N]\n"
               "       [--schedules N] [--minutes M] [--moved]\n"
               "     bench_backtest report SEEN.csv [PICTURE.svg]\n"
               "     bench_backtest rain FOLDER\n"
               "     bench_backtest --self-check\n";
  return 2;
}
