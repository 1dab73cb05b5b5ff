#include "weatherstruck/matter/heat_filter.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <stdexcept>
#include <utility>
#include <vector>

#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Hours;

constexpr double seconds_an_hour = 3600;
constexpr double substep_hours = 0.25;
constexpr double concrete_capacity = heat::concrete_density * heat::concrete_specific_heat;
constexpr double pi = 3.14159265358979323846;

constexpr std::size_t strip_nodes = 3;

// What is fitted, as logarithms: the way from the top layer into the top node, the five joints, the shares
// that top and middle have of the strip against the rest, the two capacities of ground below; the joint, way
// to the open and capacity of the ground beside.
using Fit = std::array<double, 13>;
using Square = std::array<Fit, 13>;

HeatFilter filter_from(const Fit& fit, HeatFilter filter, double strip_capacity) {
  filter.face = filter.layer + std::exp(fit[0]);
  for (std::size_t n = 0; n < heat_nodes; ++n)
    filter.joint[n] = std::exp(fit[1 + n]);
  const double top = std::exp(fit[6]), middle = std::exp(fit[7]);
  filter.capacity[0] = strip_capacity * top / (1 + top + middle);
  filter.capacity[1] = strip_capacity * middle / (1 + top + middle);
  filter.capacity[2] = strip_capacity / (1 + top + middle);
  filter.capacity[3] = std::exp(fit[8]);
  filter.capacity[4] = std::exp(fit[9]);
  filter.beside_joint = std::exp(fit[10]);
  filter.beside_open = std::exp(fit[11]);
  filter.beside_capacity = std::exp(fit[12]);
  return filter;
}

// Where the search begins: layers of a fifth, three tenths and a half of the strip; 0.15 and 0.5 m of ground
// below with 1 m behind; 0.15 m beside.
Fit first_guess(const StripCase& strip) {
  const double t = strip.shape.thickness.value();
  const double k = heat::concrete_conductivity;
  const double g = strip.ground.conductivity;
  const double c = strip.ground.capacity;
  const double sides = 2 * t / strip.shape.width.value();
  Fit guess{
      0.08 * t / k, 0.25 * t / k, 0.4 * t / k, 0.25 * t / k + 0.07 / g, 0.3 / g,         0.8 / g,        0.4,
      0.6,          0.15 * c,     0.5 * c,     0.1 / g / sides,         0.3 / g / sides, 0.2 * c * sides};
  for (double& one : guess)
    one = std::log(one);
  return guess;
}

struct Lesson {
  Celsius placed;
  std::vector<Outside> outside;
  std::vector<TopState> course;
};

// Ten days by the hour: three mild, four of hard frost, three of thaw, each with its daily wave.
std::vector<Outside> lesson_weather() {
  std::vector<Outside> list;
  for (int hour = 0; hour < 240; ++hour) {
    const int day = hour / 24;
    const double mean = day < 3 ? 5 : day < 7 ? -7 : 4;
    const double wave =
        4 * std::cos(2 * pi * (hour % 24 - 4) / 24.0);  // the pour is at ten, the warmest at two
    Outside at{Celsius(mean + wave), base::MetresPerSecond(3 + 2.5 * std::sin(0.37 * hour)),
               base::Fraction(day % 3 == 2 ? 0.9 : 0.1)};
    list.push_back(at);
  }
  return list;
}

std::vector<Lesson> lessons_for(const StripCase& strip) {
  const std::vector<Outside> bare = lesson_weather();
  std::vector<Outside> nightly = bare;
  for (std::size_t i = 0; i < nightly.size(); ++i) {
    const std::size_t hour = (i + 10) % 24;
    if (hour >= 16 || hour < 8) nightly[i].cover = HeatCover::hessian_and_sheet;
  }
  std::vector<Lesson> lessons{{Celsius(18), bare, {}},
                              {Celsius(12), covered_from(bare, HeatCover::mat, 5), {}},
                              {Celsius(6), nightly, {}}};
  for (Lesson& lesson : lessons) {
    StripCase taught = strip;
    taught.placed = lesson.placed;
    lesson.course = top_course(taught, lesson.outside, Hours(1));
  }
  return lessons;
}

// How far the filter's top lies from the full model's, hour by hour, kelvin.
std::vector<double> distances(const HeatFilter& filter, const std::vector<Lesson>& lessons) {
  std::vector<double> off;
  for (const Lesson& lesson : lessons) {
    FilterRun run(filter, lesson.placed);
    for (std::size_t i = 0; i < lesson.outside.size(); ++i)
      off.push_back((run.step(lesson.outside[i], Hours(1)).top - lesson.course[i].top).value());
  }
  return off;
}

// Solves a x = b, a symmetric and positive; Gauss without pivoting is safe there.
Fit solved(Square a, Fit b) {
  const std::size_t n = b.size();
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t i = k + 1; i < n; ++i) {
      const double factor = a[i][k] / a[k][k];
      for (std::size_t j = k; j < n; ++j)
        a[i][j] -= factor * a[k][j];
      b[i] -= factor * b[k];
    }
  }
  for (std::size_t k = n; k-- > 0;) {
    for (std::size_t j = k + 1; j < n; ++j)
      b[k] -= a[k][j] * b[j];
    b[k] /= a[k][k];
  }
  return b;
}

// Levenberg and Marquardt's least squares, on distance times its own size, so that the worst hours weigh
// most. A weak pull to the first guess keeps numbers that hardly matter from wandering.
class Fitter {
 public:
  Fitter(const HeatFilter& plain, double strip_capacity, const std::vector<Lesson>& lessons, const Fit& guess)
      : plain_(plain), strip_capacity_(strip_capacity), lessons_(lessons), guess_(guess), best_(guess) {
    weighed_ = weighed(guess);
  }

  HeatFilter run() {
    constexpr int rounds = 10;
    constexpr double little = 0.02;
    double damping = 0.1;
    for (int round = 0; round < rounds; ++round) {
      std::array<std::vector<double>, 13> slope;
      for (std::size_t k = 0; k < best_.size(); ++k) {
        Fit moved = best_;
        moved[k] += little;
        slope[k] = weighed(moved);
        for (std::size_t i = 0; i < weighed_.size(); ++i)
          slope[k][i] = (slope[k][i] - weighed_[i]) / little;
      }
      Square square{};
      Fit side{};
      for (std::size_t k = 0; k < best_.size(); ++k) {
        side[k] = -std::inner_product(slope[k].begin(), slope[k].end(), weighed_.begin(), 0.0);
        for (std::size_t l = 0; l < best_.size(); ++l)
          square[k][l] = std::inner_product(slope[k].begin(), slope[k].end(), slope[l].begin(), 0.0);
      }
      bool better = false;
      for (int tries = 0; tries < 4 && !better; ++tries) {
        Square damped = square;
        for (std::size_t k = 0; k < best_.size(); ++k)
          damped[k][k] += damping * (square[k][k] + 0.01);
        const Fit stride = solved(damped, side);
        Fit moved = best_;
        for (std::size_t k = 0; k < best_.size(); ++k)
          moved[k] += std::clamp(stride[k], -0.7, 0.7);
        std::vector<double> found = weighed(moved);
        better = size_of(found) < size_of(weighed_);
        damping = better ? damping / 5 : damping * 6;
        if (!better) continue;
        best_ = moved;
        weighed_ = std::move(found);
      }
      if (!better) break;
    }
    HeatFilter filter = filter_from(best_, plain_, strip_capacity_);
    const std::vector<double> off = distances(filter, lessons_);
    double worst = 0;
    for (const double one : off)
      worst = std::max(worst, std::abs(one));
    filter.worst_fitted = base::Kelvins(worst);
    return filter;
  }

 private:
  std::vector<double> weighed(const Fit& fit) const {
    std::vector<double> off = distances(filter_from(fit, plain_, strip_capacity_), lessons_);
    for (double& one : off)
      one *= std::abs(one);
    for (std::size_t k = 0; k < fit.size(); ++k)
      off.push_back(0.1 * (fit[k] - guess_[k]));
    return off;
  }
  static double size_of(const std::vector<double>& list) {
    return std::inner_product(list.begin(), list.end(), list.begin(), 0.0);
  }

  const HeatFilter& plain_;
  double strip_capacity_;
  const std::vector<Lesson>& lessons_;
  Fit guess_, best_;
  std::vector<double> weighed_;
};

}  // namespace

HeatFilter unfitted_heat_filter(const StripCase& strip) {
  const StripHeat checked(strip);  // throws where the case makes no sense
  const double thickness = strip.shape.thickness.value();
  const base::Metres top_depth = strip.shape.trench_depth - strip.shape.thickness;
  const auto below = [&](double metres) {
    return ground_temperature(strip.ground, top_depth + base::Metres(thickness + metres), strip.day_of_year)
        .value();
  };
  HeatFilter plain;
  plain.mix = strip.mix;
  plain.sky = sky_share(top_depth, strip.shape.width);
  plain.layer = checked.layer_resistance();
  plain.ground[0] = below(0.075);
  plain.ground[1] = below(0.4);
  plain.ground[2] = below(1.5);
  plain.beside_ground = below(-thickness / 2);
  return plain;
}

HeatFilter fit_heat_filter(const StripCase& strip) {
  const HeatFilter plain = unfitted_heat_filter(strip);
  const std::vector<Lesson> lessons = lessons_for(strip);
  const double capacity = strip.shape.thickness.value() * concrete_capacity;
  return Fitter(plain, capacity, lessons, first_guess(strip)).run();
}

FilterRun::FilterRun(const HeatFilter& filter, Celsius placed, bool heats)
    : filter_(filter),
      heats_(heats && filter.mix.cement.value() > 0),
      rise_(filter.mix.cement.value() * heat::cement_heat / concrete_capacity),
      beside_(filter.beside_ground),
      layer_(placed.value()),
      layer_before_(placed.value()),
      face_(placed.value()) {
  temperature_.fill(placed.value());
  temperature_[3] = filter.ground[0];
  temperature_[4] = filter.ground[1];
}

TopState FilterRun::step(const Outside& outside, Hours time) {
  if (!(time.value() > 0 && time.value() <= 1))
    throw std::invalid_argument("filter run: a step is longer than 0, at most 1 h");
  const Exchange exchange = surface_exchange(outside, filter_.sky);
  const Exchange beside = open_exchange(outside, filter_.sky);
  const double count = std::ceil(time.value() / substep_hours);
  const Hours part = time / count;
  // The step's middle, if the last change goes on.
  const Celsius layer(layer_ + (layer_ - layer_before_) / 2);
  layer_before_ = layer_;
  age_ += time.value() * fhp_rate(layer);
  if (heats_) hydrate(time);
  const double share = heats_ ? wet_share(Hours(set_)) : 0;
  if (share > 0) {
    // A wet face loses heat so unevenly that each part of the step asks anew.
    for (auto left = static_cast<long>(count); left > 0; --left) {
      const Celsius face(face_);
      conduct(with_evaporation(exchange, evaporating(outside, face, share), face), beside, part, 1);
    }
    set_ += time.value() * setting_rate(layer);
  } else {
    conduct(exchange, beside, part, static_cast<int>(count));
  }
  return {Celsius(face_), Hours(age_)};
}

void FilterRun::hydrate(Hours time) {
  // Two ages: the top layer's own, and one for what lies below it.
  const double degree = hydration_degree(Hours(age_), filter_.mix.water_cement);
  temperature_[0] += rise_ * (degree - given_off_);
  given_off_ = degree;
  age_below_ += time.value() * fhp_rate(Celsius((temperature_[1] + temperature_[2]) / 2));
  const double below = hydration_degree(Hours(age_below_), filter_.mix.water_cement);
  for (std::size_t n = 1; n < strip_nodes; ++n)
    temperature_[n] += rise_ * (below - given_off_below_);
  given_off_below_ = below;
}

void FilterRun::conduct(const Exchange& exchange, const Exchange& open, Hours part, int count) {
  std::array<double, heat_nodes>& t = temperature_;
  const double outer = 1 / (exchange.resistance + filter_.face);
  const double towards = exchange.towards.value();
  const double dt = part.value() * seconds_an_hour;
  // Implicit: the ground beside is eliminated first, then the chain from the deep ground up. The multipliers
  // are the same for every part.
  constexpr std::size_t middle = 1;
  const double side = 1 / filter_.beside_joint;
  const double side_held = filter_.beside_capacity / dt;
  const double side_pull = open.towards.value() / filter_.beside_open;
  const double side_scale = 1 / (side_held + side + 1 / filter_.beside_open);
  std::array<double, heat_nodes> joint, held, above, lower, scale;
  double carried = 0;
  for (std::size_t n = heat_nodes; n-- > 0;) {
    joint[n] = 1 / filter_.joint[n];
    held[n] = filter_.capacity[n] / dt;
    above[n] = n > 0 ? 1 / filter_.joint[n - 1] : outer;
    const double beside = n == middle ? side - side * side * side_scale : 0;
    scale[n] = 1 / (held[n] + above[n] + joint[n] + beside - carried);
    lower[n] = above[n] * scale[n];
    carried = above[n] * lower[n];
  }
  for (int left = count; left > 0; --left) {
    const double side_kept = (side_held * beside_ + side_pull) * side_scale;
    double sent = joint[heat_nodes - 1] * filter_.ground[2];
    for (std::size_t n = heat_nodes; n-- > 0;) {
      if (n == middle) sent += side * side_kept;
      t[n] = (held[n] * t[n] + sent) * scale[n];
      sent = above[n] * t[n];
    }
    t[0] += outer * towards * scale[0];
    for (std::size_t n = 1; n < heat_nodes; ++n)
      t[n] += lower[n] * t[n - 1];
    beside_ = side_kept + side * side_scale * t[middle];
  }
  const double out = outer * (t[0] - towards);
  face_ = t[0] - filter_.face * out;
  layer_ = face_ + filter_.layer * out;
}

}  // namespace weatherstruck::matter
