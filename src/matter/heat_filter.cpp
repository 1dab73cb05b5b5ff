#include "weatherstruck/matter/heat_filter.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>

#include "heat_trace.h"
#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Hours;

constexpr double seconds_an_hour = 3600;
constexpr double substep_hours = 0.25;
constexpr double concrete_capacity = heat::concrete_density * heat::concrete_specific_heat;

constexpr std::size_t strip_nodes = 3;

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
  // What lies open beside the strip is drawn to the same, whatever covers the strip.
  const Celsius beside = exchange.towards;
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
  const double rise_top = rise_ * (degree - given_off_);
  temperature_[0] += rise_top;
  given_off_ = degree;
  age_below_ += time.value() * fhp_rate(Celsius((temperature_[1] + temperature_[2]) / 2));
  const double below = hydration_degree(Hours(age_below_), filter_.mix.water_cement);
  const double rise_below = rise_ * (below - given_off_below_);
  for (std::size_t n = 1; n < strip_nodes; ++n)
    temperature_[n] += rise_below;
  if (trace_ != nullptr) trace_->next = {0, 0, 0, rise_top, rise_below};
  given_off_below_ = below;
}

void FilterRun::conduct(const Exchange& exchange, Celsius open, Hours part, int count) {
  std::array<double, heat_nodes>& t = temperature_;
  const double outer = 1 / (exchange.resistance + filter_.face);
  const double towards = exchange.towards.value();
  const double dt = part.value() * seconds_an_hour;
  // Implicit: the ground beside is eliminated first, then the chain from the deep ground up. The multipliers
  // are the same for every part.
  constexpr std::size_t middle = 1;
  const double side = 1 / filter_.beside_joint;
  const double side_held = filter_.beside_capacity / dt;
  const double side_pull = open.value() / filter_.beside_open;
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
    if (trace_ != nullptr) trace_->add(exchange, open);
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
