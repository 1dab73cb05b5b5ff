// The report of a backtest in words and as a picture.
#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "backtest_sums.h"

namespace weatherstruck::bench {
namespace {

using Some = std::vector<const TripSeen*>;

template <class Of>
double mean(const Some& some, Of&& of) {
  double sum = 0;
  for (const TripSeen* trip : some)
    sum += of(*trip);
  return sum / static_cast<double>(some.size());
}
template <class Of>
Interval mean_of(const std::vector<TripSeen>& trips, Of&& of) {
  return by_months(trips, [&](const Some& some) {
    return some.empty() ? std::numeric_limits<double>::quiet_NaN() : mean(some, of);
  });
}

std::string percent(const Interval& of) {
  return fmt::format("{:.1f} % ({:.1f} to {:.1f})", 100 * of.seen, 100 * of.low, 100 * of.high);
}

bool cold_half(const TripSeen& trip) {
  const auto month = static_cast<unsigned>(std::chrono::year_month_day(trip.asked.leaves).month());
  return month >= 10 || month <= 3;
}

std::string told_and_seen(const std::string& name, const std::vector<TripSeen>& trips) {
  if (trips.empty()) return {};
  const auto told = [](const TripSeen& trip) { return trip.told; };
  const auto bias = [](const TripSeen& trip) { return (trip.went_well ? 1 : 0) - trip.told; };
  const auto well = [](const TripSeen& trip) { return trip.went_well ? 1 : 0; };
  const Interval off = mean_of(trips, bias);
  return fmt::format("| {} | {} | {:.1f} % | {:.1f} % | {:+.1f} ({:+.1f} to {:+.1f}) |\n", name, trips.size(),
                     100 * mean_of(trips, told).seen, 100 * mean_of(trips, well).seen, 100 * off.seen,
                     100 * off.low, 100 * off.high);
}

std::string as_made(const std::vector<TripSeen>& trips, const std::vector<std::string>& jobs) {
  std::string text =
      "| trips | number | told | went well | seen less told, points |\n|---|---|---|---|---|\n";
  text += told_and_seen("all", trips);
  const auto those = [&](auto&& in) {
    std::vector<TripSeen> some;
    std::copy_if(trips.begin(), trips.end(), std::back_inserter(some), in);
    return some;
  };
  text += told_and_seen("October to March", those(cold_half));
  text += told_and_seen("April to September", those([](const TripSeen& trip) { return !cold_half(trip); }));
  for (std::size_t pair = 0; pair < station_pairs.size(); ++pair) {
    text += told_and_seen(
        fmt::format("weather of {}, forecast {}", station_pairs[pair].truth, station_pairs[pair].neighbour),
        those([&](const TripSeen& trip) { return trip.asked.pair == pair; }));
  }
  for (std::size_t job = 0; job < jobs.size(); ++job)
    text += told_and_seen(jobs[job], those([&](const TripSeen& trip) { return trip.asked.job == job; }));
  text += "\n| told | trips | on average | went well (95 %) | |\n|---|---|---|---|---|\n";
  for (const Band& band : bands(trips)) {
    const bool inside = band.well.low <= band.told && band.told <= band.well.high;
    text += fmt::format("| {:.0f} to {:.0f} % | {} | {:.1f} % | {} | {} |\n", 100 * band.from, 100 * band.to,
                        band.trips, 100 * band.told, percent(band.well), inside ? "inside" : "outside");
  }
  Some all;
  for (const TripSeen& trip : trips)
    all.push_back(&trip);
  const auto skill_text = [](const Interval& of) {
    return fmt::format("{:.3f} ({:.3f} to {:.3f})", of.seen, of.low, of.high);
  };
  text += fmt::format(
      "\nBrier score {:.4f}. Skill against the season's mean {}; against the season's mean of "
      "the same job and promise {}.\n",
      brier(all), skill_text(skill(trips, false)), skill_text(skill(trips, true)));
  return text;
}

/// Less than this told is no promise.
constexpr double hopeless = 0.1;

Interval fewer_failures(const std::vector<TripSeen>& trips) {
  return by_months(trips, [](const Some& some) {
    const double tool = mean(some, [](const TripSeen& trip) { return trip.again->failed() ? 1 : 0; });
    const double rule = mean(some, [](const TripSeen& trip) { return trip.rule.failed() ? 1 : 0; });
    return rule > 0 ? 1 - tool / rule : std::numeric_limits<double>::quiet_NaN();
  });
}

std::string beside_the_rule(const std::vector<TripSeen>& trips) {
  std::vector<TripSeen> both;
  std::copy_if(trips.begin(), trips.end(), std::back_inserter(both),
               [](const TripSeen& trip) { return trip.again.has_value(); });
  if (both.empty()) return {};
  std::string text = fmt::format(
      "\n{} trips, {} of them from October to March:\n\n| | planned again each morning | rule of "
      "thumb |\n|---|---|---|\n",
      both.size(), std::count_if(both.begin(), both.end(), cold_half));
  const auto line = [&](const char* name, auto&& of, bool share) {
    const auto tool = [&](const TripSeen& trip) { return static_cast<double>(of(*trip.again)); };
    const auto rule = [&](const TripSeen& trip) { return static_cast<double>(of(trip.rule)); };
    const Interval a = mean_of(both, tool);
    const Interval b = mean_of(both, rule);
    text += share ? fmt::format("| {} | {} | {} |\n", name, percent(a), percent(b))
                  : fmt::format("| {} | {:.2f} | {:.2f} |\n", name, a.seen, b.seen);
  };
  line(
      "home in time and sound", [](const Came& came) { return came.failed() ? 0 : 1; }, true);
  line(
      "home in time, sound, every wait kept",
      [](const Came& came) { return came.failed() || came.hurried > 0 ? 0 : 1; }, true);
  line(
      "home in time", [](const Came& came) { return came.home ? 1 : 0; }, true);
  line(
      "something to make good", [](const Came& came) { return came.make_good > 0 ? 1 : 0; }, true);
  line(
      "pieces to make good, a trip", [](const Came& came) { return came.make_good; }, false);
  line(
      "pieces to look at, a trip", [](const Came& came) { return came.inspect; }, false);
  line(
      "dates away", [](const Came& came) { return came.days; }, false);
  line(
      "waits cut short, a trip", [](const Came& came) { return came.hurried; }, false);
  line(
      "hours under lights", [](const Came& came) { return came.lit_hours; }, false);
  const Interval fewer = fewer_failures(both);
  std::vector<TripSeen> hoped;
  std::copy_if(both.begin(), both.end(), std::back_inserter(hoped),
               [](const TripSeen& trip) { return trip.told >= hopeless; });
  double replans = 0;
  double moves = 0;
  for (const TripSeen& trip : both) {
    replans += trip.replans;
    moves += trip.moves;
  }
  text += fmt::format(
      "\nFewer failures than the rule of thumb: {}; of the {} trips told {:.0f} % or more, {}. {:.2f} "
      "re-plans a trip, {:.2f} moves each.\n",
      percent(fewer), hoped.size(), 100 * hopeless, percent(fewer_failures(hoped)),
      replans / static_cast<double>(both.size()), replans > 0 ? moves / replans : 0);
  return text;
}

}  // namespace

std::string report(const std::vector<TripSeen>& trips, const std::vector<std::string>& jobs) {
  if (trips.empty()) return "No trips.\n";
  return "## The plan followed as it was made\n\n" + as_made(trips, jobs) +
         "\n## Planned again each morning\n" + beside_the_rule(trips);
}

std::string picture(const std::vector<TripSeen>& trips) {
  constexpr double side = 400;
  constexpr double left = 70;
  constexpr double top = 50;
  const auto x = [&](double chance) { return left + side * chance; };
  const auto y = [&](double chance) { return top + side * (1 - chance); };
  std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 560 540\" width=\"560\" height=\"540\" "
      "font-family=\"sans-serif\" font-size=\"13\">\n<title>Told chance against how often it went "
      "well</title>\n<rect width=\"560\" height=\"540\" fill=\"white\"/>\n";
  svg += fmt::format(
      "<text x=\"{}\" y=\"28\" font-size=\"15\">Told chance and how often it went well, {} "
      "trips</text>\n",
      left, trips.size());
  for (int ten = 0; ten <= 10; ten += 2) {
    const double at = ten / 10.0;
    svg += fmt::format(
        "<path d=\"M{:.1f} {:.1f}V{:.1f}M{:.1f} {:.1f}H{:.1f}\" stroke=\"#bbb\" "
        "fill=\"none\"/>\n",
        x(at), y(0), y(1), x(0), y(at), x(1));
    svg += fmt::format(
        "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\">{}</text>"
        "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"end\">{}</text>\n",
        x(at), y(0) + 18, ten * 10, x(0) - 8, y(at) + 4, ten * 10);
  }
  svg += fmt::format(
      "<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\" stroke=\"black\" stroke-dasharray=\"6 4\"/>\n"
      "<text x=\"{:.1f}\" y=\"{:.1f}\" transform=\"rotate(-45 {:.1f} {:.1f})\">as "
      "told</text>\n",
      x(0), y(0), x(1), y(1), x(0.86), y(0.86) - 6, x(0.86), y(0.86) - 6);
  svg += fmt::format(
      "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\">told, per cent</text>\n"
      "<text x=\"20\" y=\"{:.1f}\" text-anchor=\"middle\" transform=\"rotate(-90 20 "
      "{:.1f})\">home in time and sound, per cent</text>\n",
      x(0.5), y(0) + 42, y(0.5), y(0.5));
  for (const Band& band : bands(trips)) {
    // The area of the dot goes by the trips.
    const double radius = std::max(2.0, std::sqrt(static_cast<double>(band.trips)) / 4);
    svg += fmt::format(
        "<path d=\"M{0:.1f} {1:.1f}V{2:.1f}M{3:.1f} {1:.1f}H{4:.1f}M{3:.1f} {2:.1f}H{4:.1f}\" "
        "stroke=\"black\" stroke-width=\"1.5\"/>\n",
        x(band.told), y(band.well.low), y(band.well.high), x(band.told) - 5, x(band.told) + 5);
    svg += fmt::format(
        "<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" fill=\"none\" "
        "stroke=\"black\" stroke-width=\"1.5\"/>\n"
        "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"11\">{}</text>\n",
        x(band.told), y(band.well.seen), radius, x(band.told) + radius + 5, y(band.well.seen) + 12,
        band.trips);
  }
  svg += fmt::format(
      "<text x=\"{}\" y=\"526\" font-size=\"11\">Bars: 95 % by resampling months. Numbers: "
      "trips.</text>\n</svg>\n",
      left);
  return svg;
}

}  // namespace weatherstruck::bench
