// Fits the filter of heat_filter.h to the full model.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>
#include <vector>

#include "heat_trace.h"
#include "weatherstruck/matter/heat_filter.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Hours;

constexpr double seconds_an_hour = 3600;
constexpr double concrete_capacity = heat::concrete_density * heat::concrete_specific_heat;
constexpr double pi = 3.14159265358979323846;
constexpr std::size_t strip_nodes = 3;
constexpr std::size_t middle_node = 1;

// What is fitted, as logarithms: the way from the top layer into the top node, the five joints, the shares
// that top and middle have of the strip against the rest, the two capacities of ground below; the joint, way
// to the open and capacity of the ground beside.
constexpr std::size_t fitted = 13;
using Fit = std::array<double, fitted>;
using Square = std::array<Fit, fitted>;

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

// Ten days by the hour: three mild, four of hard frost, three of thaw, each with its daily wave; wind about a
// mean.
std::vector<Outside> lesson_weather(double wind) {
  std::vector<Outside> list;
  for (int hour = 0; hour < 240; ++hour) {
    const int day = hour / 24;
    const double mean = day < 3 ? 5 : day < 7 ? -7 : 4;
    const double wave =
        4 * std::cos(2 * pi * (hour % 24 - 4) / 24.0);  // the pour is at ten, the warmest at two
    Outside at{Celsius(mean + wave), base::MetresPerSecond(wind * (1 + 0.8 * std::sin(0.37 * hour))),
               base::Fraction(day % 3 == 2 ? 0.9 : 0.1)};
    list.push_back(at);
  }
  return list;
}

std::vector<Lesson> lessons_for(const StripCase& strip) {
  // Still air under the mat: there the way out is longest.
  constexpr double still = 0, ordinary = 3, windy = 4;
  std::vector<Outside> nightly = lesson_weather(windy);
  for (std::size_t i = 0; i < nightly.size(); ++i) {
    const std::size_t hour = (i + 10) % 24;
    if (hour >= 16 || hour < 8) nightly[i].cover = HeatCover::hessian_and_sheet;
  }
  std::vector<Lesson> lessons{
      {Celsius(18), lesson_weather(ordinary), {}},
      {Celsius(12), covered_from(lesson_weather(ordinary), HeatCover::mat, 5), {}},
      {Celsius(15), covered_from(lesson_weather(still), HeatCover::hessian_and_sheet, 5), {}},
      {Celsius(6), nightly, {}}};
  for (Lesson& lesson : lessons) {
    StripCase taught = strip;
    taught.placed = lesson.placed;
    lesson.course = top_course(taught, lesson.outside, Hours(1));
  }
  return lessons;
}

// How far the filter's top lies from the full model's, hour by hour, kelvin; and what it met, by lesson.
struct Met {
  std::vector<double> off;
  std::vector<FilterTrace> traces;
};

Met distances(const HeatFilter& filter, const std::vector<Lesson>& lessons) {
  Met met;
  met.traces.resize(lessons.size());
  for (std::size_t l = 0; l < lessons.size(); ++l) {
    const Lesson& lesson = lessons[l];
    FilterRun run(filter, lesson.placed);
    run.follow(&met.traces[l]);
    for (std::size_t i = 0; i < lesson.outside.size(); ++i)
      met.off.push_back((run.step(lesson.outside[i], Hours(1)).top - lesson.course[i].top).value());
  }
  return met;
}

// The best filter and one beside it for each number fitted, run at once through what the best one met. The
// heat of the cement and the wetness of the face are left as the best one had them: they hardly change with
// the filter, and all that is left is linear.
class Beside {
 public:
  static constexpr std::size_t lanes = fitted + 1;  // the last is the best itself
  using Row = std::array<double, lanes>;

  Beside(const std::array<HeatFilter, lanes>& filters, double hours) : deep_(filters[0].ground[2]) {
    const double dt = hours * seconds_an_hour;
    for (std::size_t k = 0; k < lanes; ++k) {
      const HeatFilter& filter = filters[k];
      side_held_[k] = filter.beside_capacity / dt;
      side_pull_[k] = 1 / filter.beside_open;
      side_[k] = 1 / filter.beside_joint;
      side_scale_[k] = 1 / (side_held_[k] + side_[k] + side_pull_[k]);
      face_resistance_[k] = filter.face;
      // As FilterRun::conduct, but for the top node: what leads up from it changes with the hour.
      double carried = 0;
      for (std::size_t n = heat_nodes; n-- > 0;) {
        held_[n][k] = filter.capacity[n] / dt;
        above_[n][k] = n > 0 ? 1 / filter.joint[n - 1] : 0;
        const double beside = n == middle_node ? side_[k] - side_[k] * side_[k] * side_scale_[k] : 0;
        const double sum = held_[n][k] + above_[n][k] + 1 / filter.joint[n] + beside - carried;
        scale_[n][k] = 1 / sum;
        lower_[n][k] = above_[n][k] * scale_[n][k];
        carried = above_[n][k] * lower_[n][k];
        if (n == 0) first_scale_[k] = sum;
        if (n == heat_nodes - 1) deep_pull_[k] = deep_ / filter.joint[n];
        t_[n][k] = n >= strip_nodes ? filter.ground[n - strip_nodes] : 0;
      }
      beside_[k] = filter.beside_ground;
    }
  }

  void place(Celsius placed) {
    for (std::size_t n = 0; n < strip_nodes; ++n)
      t_[n].fill(placed.value());
  }

  void step(const FilterTrace::Part& part) {
    for (std::size_t k = 0; k < lanes; ++k) {
      const double outer = 1 / (part.resistance + face_resistance_[k]);
      const double side_kept = (side_held_[k] * beside_[k] + side_pull_[k] * part.beside) * side_scale_[k];
      double sent = deep_pull_[k];
      for (std::size_t n = heat_nodes; n-- > 1;) {
        if (n == middle_node) sent += side_[k] * side_kept;
        const double rise = n < strip_nodes ? part.rise_below : 0;
        t_[n][k] = (held_[n][k] * (t_[n][k] + rise) + sent) * scale_[n][k];
        sent = above_[n][k] * t_[n][k];
      }
      t_[0][k] = (held_[0][k] * (t_[0][k] + part.rise_top) + sent + outer * part.towards) /
                 (first_scale_[k] + outer);
      for (std::size_t n = 1; n < heat_nodes; ++n)
        t_[n][k] += lower_[n][k] * t_[n - 1][k];
      beside_[k] = side_kept + side_[k] * side_scale_[k] * t_[middle_node][k];
      face_[k] = t_[0][k] - face_resistance_[k] * outer * (t_[0][k] - part.towards);
    }
  }
  [[nodiscard]] const Row& faces() const { return face_; }

 private:
  double deep_;
  Row deep_pull_{}, side_held_{}, side_pull_{}, side_{}, side_scale_{}, face_resistance_{}, first_scale_{};
  std::array<Row, heat_nodes> held_{}, above_{}, scale_{}, lower_{}, t_{};
  Row beside_{}, face_{};
};

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

double weight_of(double off) {
  return off * std::abs(off);
}

// Levenberg and Marquardt's least squares, on distance times its own size, so that the worst hours weigh
// most. A weak pull to the first guess keeps numbers that hardly matter from wandering.
class Fitter {
 public:
  Fitter(const HeatFilter& plain, double strip_capacity, const std::vector<Lesson>& lessons, const Fit& guess)
      : plain_(plain), strip_capacity_(strip_capacity), lessons_(lessons), guess_(guess), best_(guess) {
    met_ = distances(filter_of(best_), lessons_);
    weighed_ = weighed(best_, met_);
    size_ = product(weighed_, weighed_);
  }

  HeatFilter run() {
    constexpr int rounds = 10;
    constexpr double hardly = 0.97;  // of what was left: another round is not worth its time
    double damping = 0.1;
    for (int round = 0; round < rounds; ++round) {
      const std::array<std::vector<double>, fitted> slope = slopes();
      Square square{};
      Fit side{};
      for (std::size_t k = 0; k < fitted; ++k) {
        side[k] = -product(slope[k], weighed_);
        for (std::size_t l = 0; l <= k; ++l)
          square[l][k] = square[k][l] = product(slope[k], slope[l]);
      }
      const double before = size_;
      bool better = false;
      for (int tries = 0; tries < 4 && !better; ++tries) {
        Square damped = square;
        for (std::size_t k = 0; k < fitted; ++k)
          damped[k][k] += damping * (square[k][k] + 0.01);
        const Fit stride = solved(damped, side);
        Fit moved = best_;
        for (std::size_t k = 0; k < fitted; ++k)
          moved[k] += std::clamp(stride[k], -0.7, 0.7);
        Met met = distances(filter_of(moved), lessons_);
        std::vector<double> found = weighed(moved, met);
        const double size = product(found, found);
        better = size < size_;
        damping = better ? damping / 5 : damping * 6;
        if (!better) continue;
        best_ = moved;
        met_ = std::move(met);
        weighed_ = std::move(found);
        size_ = size;
      }
      if (!better || size_ > hardly * before) break;
    }
    HeatFilter filter = filter_of(best_);
    double worst = 0;
    for (const double one : met_.off)
      worst = std::max(worst, std::abs(one));
    filter.worst_fitted = base::Kelvins(worst);
    return filter;
  }

 private:
  [[nodiscard]] HeatFilter filter_of(const Fit& fit) const {
    return filter_from(fit, plain_, strip_capacity_);
  }

  static double product(const std::vector<double>& a, const std::vector<double>& b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
  }

  [[nodiscard]] std::vector<double> weighed(const Fit& fit, const Met& met) const {
    std::vector<double> list;
    list.reserve(met.off.size() + fitted);
    for (const double one : met.off)
      list.push_back(weight_of(one));
    for (std::size_t k = 0; k < fitted; ++k)
      list.push_back(pull * (fit[k] - guess_[k]));
    return list;
  }

  // How each weighed distance changes with each number.
  [[nodiscard]] std::array<std::vector<double>, fitted> slopes() const {
    constexpr double little = 0.02;
    std::array<HeatFilter, Beside::lanes> filters;
    for (std::size_t k = 0; k < fitted; ++k) {
      Fit moved = best_;
      moved[k] += little;
      filters[k] = filter_of(moved);
    }
    filters[fitted] = filter_of(best_);
    std::array<std::vector<double>, fitted> slope;
    for (std::vector<double>& one : slope)
      one.reserve(weighed_.size());
    for (std::size_t l = 0; l < lessons_.size(); ++l) {
      const std::vector<FilterTrace::Part>& parts = met_.traces[l].parts;
      const std::vector<TopState>& course = lessons_[l].course;
      const std::size_t an_hour = parts.size() / course.size();
      Beside run(filters, 1.0 / static_cast<double>(an_hour));
      run.place(lessons_[l].placed);
      for (std::size_t i = 0; i < parts.size(); ++i) {
        run.step(parts[i]);
        if ((i + 1) % an_hour != 0) continue;
        const double full = course[i / an_hour].top.value();
        const double best = weight_of(run.faces()[fitted] - full);
        for (std::size_t k = 0; k < fitted; ++k)
          slope[k].push_back((weight_of(run.faces()[k] - full) - best) / little);
      }
    }
    for (std::size_t k = 0; k < fitted; ++k) {
      for (std::size_t l = 0; l < fitted; ++l)
        slope[k].push_back(k == l ? pull : 0);
    }
    return slope;
  }

  static constexpr double pull = 0.1;
  const HeatFilter& plain_;
  double strip_capacity_;
  const std::vector<Lesson>& lessons_;
  Fit guess_, best_;
  Met met_;
  std::vector<double> weighed_;
  double size_ = 0;  // of the list of weighed distances
};

}  // namespace

HeatFilter fit_heat_filter(const StripCase& strip) {
  const HeatFilter plain = unfitted_heat_filter(strip);
  const std::vector<Lesson> lessons = lessons_for(strip);
  const double capacity = strip.shape.thickness.value() * concrete_capacity;
  return Fitter(plain, capacity, lessons, first_guess(strip)).run();
}

}  // namespace weatherstruck::matter
