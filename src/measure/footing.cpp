#include "weatherstruck/measure/footing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

#include "weatherstruck/base/text.h"

namespace weatherstruck::measure {

using base::CubicMetres;
using base::Fault;
using base::Metres;

namespace {

constexpr double slack = 1e-9;  // lengths that agree to a nanometre are equal
// The lowest stretch carries at least half a brick with its joint.
constexpr Metres shortest_stretch = base::to_metres(trade::brick_pitch) / 2.0;

std::string in_mm(Metres length) {
  return base::plain_number(length.value() * 1000, 1) + " mm";
}

/// Ground as a fall that never turns back, piecewise straight.
class Ground {
 public:
  Ground(std::span<const Level> readings, Metres length) {
    if (readings.size() < 2) throw std::invalid_argument("plan_footing: fewer than two levels");
    double deepest = readings.front().below.value();
    for (const Level& reading : readings) {
      if (!points_.empty() && reading.along.value() <= points_.back().at) {
        throw std::invalid_argument("plan_footing: levels do not run along the strip");
      }
      deepest = std::max(deepest, reading.below.value());
      points_.push_back({reading.along.value(), deepest});
    }
    // Levels are measured from the high end, whatever the staff read there.
    const double datum = fall_at(0);
    for (Point& point : points_)
      point.fall -= datum;
    length_ = length.value();
  }

  [[nodiscard]] double fall_at(double x) const {
    if (x <= points_.front().at) return points_.front().fall;
    for (std::size_t i = 1; i < points_.size(); ++i) {
      if (x > points_[i].at) continue;
      const Point& a = points_[i - 1];
      const Point& b = points_[i];
      return a.fall + (b.fall - a.fall) * (x - a.at) / (b.at - a.at);
    }
    return points_.back().fall;
  }

  /// First place where the ground has fallen by `fall`.
  [[nodiscard]] double place_of(double fall) const {
    for (std::size_t i = 1; i < points_.size(); ++i) {
      const Point& a = points_[i - 1];
      const Point& b = points_[i];
      if (b.fall + slack < fall) continue;
      if (b.fall - a.fall < slack) return a.at;
      return std::clamp(a.at + (b.at - a.at) * (fall - a.fall) / (b.fall - a.fall), 0.0, length_);
    }
    return length_;
  }

  /// Integral of the fall over [from, to].
  [[nodiscard]] double area(double from, double to) const {
    std::vector<double> cuts{from, to};
    for (const Point& point : points_) {
      if (point.at > from && point.at < to) cuts.push_back(point.at);
    }
    std::sort(cuts.begin(), cuts.end());
    double sum = 0;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
      sum += (cuts[i] - cuts[i - 1]) * (fall_at(cuts[i - 1]) + fall_at(cuts[i])) / 2;
    }
    return sum;
  }

 private:
  struct Point {
    double at;
    double fall;
  };
  std::vector<Point> points_;
  double length_ = 0;
};

int steps_in(Metres drop, Metres height) {
  return static_cast<int>(std::floor(drop / height + 0.5 + slack));
}

/// Steps of one height, or nothing where they have no room side by side.
std::optional<std::vector<Step>> try_steps(const Strip& strip, const Ground& ground, Metres height,
                                           Metres overlap) {
  const int count = steps_in(Metres(ground.fall_at(strip.length.value())), height);
  const double lap = overlap.value();
  const double last_end = strip.length.value() - shortest_stretch.value();
  if (count * lap > last_end + slack) return std::nullopt;
  std::vector<double> starts;
  double free_from = 0;
  for (int k = 1; k <= count; ++k) {
    starts.push_back(std::max(ground.place_of(height.value() * (k - 0.5)) - lap / 2, free_from));
    free_from = starts.back() + lap;
  }
  // Steps that crowd at the low end move up the slope: deeper than asked for, never shallower.
  double end = last_end;
  for (std::size_t i = starts.size(); i > 0; --i) {
    double& start = starts[i - 1];
    start = std::max(0.0, std::min(start, end - lap));
    end = start;
  }
  std::vector<Step> steps;
  for (int k = 1; k <= count; ++k) {
    const double start = starts[static_cast<std::size_t>(k - 1)];
    steps.push_back({k, Metres(start), Metres(start + lap), height});
  }
  return steps;
}

void lay_out(FootingPlan& plan, const Strip& strip, const Ground& ground) {
  const double length = strip.length.value();
  double top_from = 0;
  double bottom_from = 0;
  double dug = 0;  // cut through the long side, m2
  int courses = 0;
  const int courses_per_step = static_cast<int>(std::lround(plan.step / course_height));
  const auto cut = [&](double from, double to, double bottom) {
    dug += bottom * (to - from) - ground.area(from, to);
    plan.deepest = std::max(plan.deepest, Metres(bottom - ground.fall_at(from)));
  };
  double bottom = strip.depth.value();
  for (const Step& step : plan.steps) {
    plan.stretches.push_back({Metres(top_from), step.top_at, courses});
    top_from = step.top_at.value();
    courses += courses_per_step;
    cut(bottom_from, step.bottom_at.value(), bottom);
    bottom_from = step.bottom_at.value();
    bottom += plan.step.value();
  }
  plan.stretches.push_back({Metres(top_from), strip.length, courses});
  cut(bottom_from, length, bottom);
  plan.trench = CubicMetres(dug * strip.width.value());
  plan.concrete = stepped_concrete(strip, static_cast<int>(plan.steps.size()), plan.step, plan.overlap);
}

// Sets that say nothing of strips (only `uk` does) are held against the same rules.
Metres limit_in_metres(const trade::LimitValues& limits, std::string_view key) {
  if (limits.find(key) != nullptr) return base::to_metres(limits.depth(key));
  return base::to_metres(trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values.depth(key));
}

}  // namespace

FootingRules FootingRules::from(const trade::LimitValues& limits) {
  return {limit_in_metres(limits, trade::limit::footing_thickness),
          limit_in_metres(limits, trade::limit::footing_overlap),
          limit_in_metres(limits, trade::limit::footing_frost_depth)};
}

FootingRules FootingRules::uk() {
  return from(trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values);
}

std::variant<Metres, Fault> step_overlap(Metres step, Metres thickness, const FootingRules& rules) {
  if (step.value() > thickness.value() + slack) {
    return Fault{"step-deeper-than-footing", "/thickness",
                 "a step of " + in_mm(step) + " in concrete " + in_mm(thickness) + " thick",
                 "a step no deeper than the concrete is thick",
                 "Make the concrete thicker or the steps shallower."};
  }
  return std::max({step * 2.0, thickness, rules.least_overlap});
}

Metres least_thickness(Metres width, Metres wall_thickness, const FootingRules& rules) {
  return std::max(rules.least_thickness, (width - wall_thickness) / 2.0);
}

bool bottom_may_slope(Metres drop, Metres length) {
  return drop.value() * 10 <= length.value() + slack;
}

CubicMetres stepped_concrete(const Strip& strip, int steps, Metres step, Metres overlap) {
  return strip.width * strip.thickness * strip.length +
         strip.width * overlap * step * static_cast<double>(steps);
}

FootingPlan plan_footing(const Strip& strip, Metres drop, const FootingRules& rules) {
  const std::array<Level, 2> ends{{{Metres(0), Metres(0)}, {strip.length, drop}}};
  return plan_footing(strip, ends, rules);
}

FootingPlan plan_footing(const Strip& strip, std::span<const Level> levels, const FootingRules& rules) {
  FootingPlan plan;
  const Ground ground(levels, strip.length);
  const Metres drop(ground.fall_at(strip.length.value()));
  if (strip.depth.value() < rules.frost_depth.value() - slack) {
    plan.advice.push_back(
        {"footing-shallow-for-frost", "/depth", in_mm(strip.depth),
         in_mm(rules.frost_depth) + " where frost can lift the ground (NHBC 4.3.3, written for houses)",
         "Dig deeper in clay or silt, or keep the strip covered until it is walled."});
  }
  if (strip.thickness.value() < rules.least_thickness.value() - slack) {
    plan.advice.push_back(
        {"footing-thin", "/thickness", in_mm(strip.thickness),
         in_mm(rules.least_thickness) + " or more (Approved Document A 2E2, written for houses)",
         "Make the concrete thicker unless the wall is very low."});
  }
  const int fewest = steps_in(drop, course_height);
  // A stub too short for the lap of a single step is dug level.
  const bool stub = fewest == 1 && strip.length < rules.least_overlap + shortest_stretch;
  if (fewest == 0 || stub) {
    lay_out(plan, strip, ground);
    return plan;
  }
  for (int courses = 1;; ++courses) {
    const Metres height = course_height * static_cast<double>(courses);
    const auto overlap = step_overlap(height, strip.thickness, rules);
    if (const Fault* fault = std::get_if<Fault>(&overlap)) {
      if (courses == 1) {
        plan.faults.push_back(*fault);
      } else {
        plan.faults.push_back({"ground-too-steep", "/drop",
                               in_mm(drop) + " over " + base::plain_number(strip.length.value(), 2) + " m",
                               "room for steps no deeper than the concrete (" + in_mm(strip.thickness) +
                                   ") with their overlaps",
                               "Make the concrete thicker, or split the strip at a level change."});
      }
      lay_out(plan, strip, ground);
      return plan;
    }
    const Metres lap = std::get<Metres>(overlap);
    if (auto steps = try_steps(strip, ground, height, lap)) {
      plan.step = steps->empty() ? Metres(0) : height;
      plan.overlap = steps->empty() ? Metres(0) : lap;
      plan.steps = std::move(*steps);
      lay_out(plan, strip, ground);
      return plan;
    }
  }
}

}  // namespace weatherstruck::measure
