#include "weatherstruck/matter/heat.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "weatherstruck/matter/concrete.h"

namespace weatherstruck::matter {
namespace {

using base::Celsius;
using base::Hours;
using base::Metres;

constexpr double seconds_an_hour = 3600;
constexpr double year_seconds = 365.0 * 24 * seconds_an_hour;
constexpr double pi = 3.14159265358979323846;
constexpr double block_seconds = heat::largest_step * 60;
constexpr double growth = 1.35;  // of ground cells, from one to the next
constexpr double safety = 0.9;   // of the step at which a cell would pass its neighbours

void require(bool holds, const char* what) {
  if (!holds) throw std::invalid_argument(what);
}

double concrete_capacity() {
  return heat::concrete_density * heat::concrete_specific_heat;
}

// Thicknesses of ground cells, the first as given, down to the depth.
std::vector<double> ground_cells(double first) {
  std::vector<double> cells;
  double reached = 0;
  for (double size = first; reached < heat::ground_depth; size *= growth) {
    cells.push_back(size);
    reached += size;
  }
  return cells;
}

void check(const StripCase& strip, const HeatSteps& steps) {
  const StripShape& shape = strip.shape;
  require(shape.thickness.value() >= 0.05 && shape.thickness.value() <= 1,
          "strip heat: a thickness is 0.05 to 1 m");
  require(shape.width.value() >= 0.1, "strip heat: a width is 0.1 m or more");
  require(shape.trench_depth >= shape.thickness,
          "strip heat: a trench is as deep as its strip is thick, or more");
  require(strip.mix.cement.value() >= 0, "strip heat: cement is 0 or more");
  require(strip.mix.water_cement >= 0.3 && strip.mix.water_cement <= 1,
          "strip heat: water to cement is 0.3 to 1");
  require(strip.ground.conductivity > 0 && strip.ground.capacity > 0,
          "strip heat: ground conducts and holds heat");
  require(steps.cell.value() > 0 && steps.share > 0 && steps.share <= 1,
          "strip heat: cells have a size, and a share of the step is above 0, at most 1");
}

}  // namespace

double hydration_degree(Hours equivalent_age, double water_cement) {
  require(equivalent_age.value() >= 0, "hydration_degree: age is 0 or more");
  if (equivalent_age.value() == 0) return 0;
  const double ultimate =
      std::min(heat::ultimate_scale * water_cement / (heat::ultimate_shift + water_cement), 1.0);
  return ultimate *
         std::exp(-std::exp(heat::hydration_shape * std::log(heat::hydration_time / equivalent_age.value())));
}

Celsius ground_temperature(const GroundHeat& ground, Metres depth, double day_of_year) {
  const double damping = std::sqrt(year_seconds * ground.conductivity / ground.capacity / pi);
  const double z = depth.value() / damping;
  return ground.mean -
         ground.amplitude * (std::exp(-z) * std::cos(2 * pi * (day_of_year - ground.coldest_day) / 365 - z));
}

StripHeat::StripHeat(const StripCase& strip, const HeatSteps& steps) : strip_(strip), steps_(steps) {
  check(strip, steps);
  const StripShape& shape = strip.shape;
  const GroundHeat& ground = strip.ground;
  const double thickness = shape.thickness.value();
  const double width = shape.width.value();
  const double top_depth = (shape.trench_depth - shape.thickness).value();
  sky_ = sky_share(Metres(top_depth), shape.width);

  concrete_ = static_cast<std::size_t>(std::max(2L, std::lround(thickness / steps.cell.value())));
  const double cell = thickness / static_cast<double>(concrete_);
  half_cell_ = cell / 2 / heat::concrete_conductivity;
  std::vector<double> sizes(concrete_, cell);
  const std::vector<double> below = ground_cells(cell);
  sizes.insert(sizes.end(), below.begin(), below.end());

  double depth = 0;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const bool is_concrete = i < concrete_;
    const double half = sizes[i] / 2;
    middle_.push_back(depth + half);
    depth += sizes[i];
    temperature_.push_back(
        is_concrete
            ? strip.placed.value()
            : ground_temperature(ground, Metres(top_depth + middle_.back()), strip.day_of_year).value());
    inverse_capacity_.push_back(1 / (sizes[i] * (is_concrete ? concrete_capacity() : ground.capacity)));
    const double own = half / (is_concrete ? heat::concrete_conductivity : ground.conductivity);
    const bool last = i + 1 == sizes.size();
    const bool next_concrete = i + 1 < concrete_;
    const double next =
        last ? 0 : sizes[i + 1] / 2 / (next_concrete ? heat::concrete_conductivity : ground.conductivity);
    joint_.push_back(1 / (own + next));
  }
  far_ground_ = ground_temperature(ground, Metres(top_depth + depth), strip.day_of_year).value();
  flux_.assign(sizes.size() + 1, 0.0);
  age_.assign(concrete_, 0.0);
  given_off_.assign(concrete_, 0.0);

  // Both sides, for each m2 of top: an area of 2 t / w. From the mean of a cell to its sides lies a
  // resistance of w / (6 k), as for a plate that gives off heat evenly.
  const double beside =
      ground_temperature(ground, Metres(top_depth + thickness / 2), strip.day_of_year).value();
  const double area = 2 * thickness / width;
  far_side_ = beside;
  const std::vector<double> aside = ground_cells(cell);
  double reached = 0;
  for (std::size_t j = 0; j < aside.size(); ++j) {
    // From the middle of the strip's height up to its top, then by an arc to the trench's wall or straight up
    // to the surface, whichever is nearer. A share of the ground on that way goes with the cell.
    const double way = thickness / 2 + std::min(top_depth, heat::open_arc * (reached + aside[j] / 2));
    reached += aside[j];
    open_area_.push_back(2 * aside[j] / width);
    open_resistance_.push_back(way / ground.conductivity);
    side_temperature_.push_back(beside);
    side_inverse_capacity_.push_back(
        1 / (open_area_.back() * (thickness + way * heat::open_ground_share) * ground.capacity));
    const double next = j + 1 < aside.size() ? aside[j + 1] / 2 : 0;
    side_joint_.push_back(area * ground.conductivity / (aside[j] / 2 + next));
  }
  open_joint_.assign(aside.size(), 0.0);
  side_flux_.assign(aside.size() + 1, 0.0);
  side_link_.assign(
      concrete_,
      2 * cell / width / (width / 6 / heat::concrete_conductivity + aside.front() / 2 / ground.conductivity));
  start_ = temperature_;
  side_start_ = side_temperature_;
  face_ = strip.placed.value();

  inner_limit_ = std::numeric_limits<double>::infinity();
  for (std::size_t i = 1; i < sizes.size(); ++i) {
    const double link = i < concrete_ ? side_link_[i] : 0;
    inner_limit_ = std::min(inner_limit_, 1 / ((joint_[i - 1] + joint_[i] + link) * inverse_capacity_[i]));
  }
  const double links = std::accumulate(side_link_.begin(), side_link_.end(), 0.0);
  for (std::size_t j = 0; j < aside.size(); ++j) {
    const double before = j == 0 ? links : side_joint_[j - 1];
    const double open = open_area_[j] / open_resistance_[j];
    inner_limit_ = std::min(inner_limit_, 1 / ((before + side_joint_[j] + open) * side_inverse_capacity_[j]));
  }
  top_joints_ = joint_.front() + side_link_.front();
}

void StripHeat::hydrate(double hours) {
  const double per_degree = strip_.mix.cement.value() * heat::cement_heat / concrete_capacity();  // K
  for (std::size_t i = 0; i < concrete_; ++i) {
    const double rate = fhp_rate(Celsius(temperature_[i]));
    if (i == 0) set_ += hours * setting_rate(Celsius(temperature_[i]));
    if (rate <= 0) continue;
    age_[i] += hours * rate;
    if (per_degree <= 0) continue;
    const double degree = hydration_degree(Hours(age_[i]), strip_.mix.water_cement);
    const double rise = per_degree * (degree - given_off_[i]);
    given_off_[i] = degree;
    temperature_[i] += rise;
    sum_.hydration += rise / inverse_capacity_[i];
  }
}

void StripHeat::advance_block(const Exchange& dry, const Exchange& beside_it, const Evaporating& wet,
                              double seconds) {
  const double wet_from = face_;
  const Exchange exchange = with_evaporation(dry, wet, Celsius(wet_from));
  const double outer = 1 / (exchange.resistance + half_cell_);
  const double towards = exchange.towards.value();
  const double top_limit = 1 / ((top_joints_ + outer) * inverse_capacity_.front());
  const double longest = safety * steps_.share * std::min(inner_limit_, top_limit);
  const double count = std::max(1.0, std::ceil(seconds / longest));
  const double dt = seconds / count;
  const std::size_t cells = temperature_.size();
  const std::size_t beside = side_temperature_.size();
  double* const t = temperature_.data();
  const double* const joint = joint_.data();
  const double* const rise = inverse_capacity_.data();
  const double* const side_joint = side_joint_.data();
  const double* const side_rise = side_inverse_capacity_.data();
  double* const s = side_temperature_.data();
  double* const flux = flux_.data();
  double* const side_flux = side_flux_.data();
  for (std::size_t j = 0; j < beside; ++j)
    open_joint_[j] = open_area_[j] / (beside_it.resistance + open_resistance_[j]);
  const double* const open = open_joint_.data();
  const double open_towards = beside_it.towards.value();
  double top_in = 0, far_in = 0, open_in = 0;
  for (auto left = static_cast<long>(count); left > 0; --left) {
    flux[0] = outer * (towards - t[0]);
    for (std::size_t i = 0; i + 1 < cells; ++i)
      flux[i + 1] = joint[i] * (t[i + 1] - t[i]);
    flux[cells] = joint[cells - 1] * (far_ground_ - t[cells - 1]);
    double to_strip = 0;
    const double nearest = s[0];
    for (std::size_t i = 0; i < concrete_; ++i) {
      const double sideways = side_link_[i] * (nearest - t[i]);
      to_strip += sideways;
      // The joints' own share follows below, from fluxes taken before this.
      t[i] += dt * rise[i] * sideways;
    }
    // flux[0] enters the top cell, flux[i + 1] passes up from cell i + 1 to cell i.
    t[0] += dt * rise[0] * (flux[0] + flux[1]);
    for (std::size_t i = 1; i < cells; ++i)
      t[i] += dt * rise[i] * (flux[i + 1] - flux[i]);
    side_flux[0] = to_strip;
    for (std::size_t j = 0; j + 1 < beside; ++j)
      side_flux[j + 1] = side_joint[j] * (s[j + 1] - s[j]);
    side_flux[beside] = side_joint[beside - 1] * (far_side_ - s[beside - 1]);
    for (std::size_t j = 0; j < beside; ++j) {
      const double opened = open[j] * (open_towards - s[j]);
      open_in += opened;
      s[j] += dt * side_rise[j] * (side_flux[j + 1] - side_flux[j] + opened);
    }
    top_in += flux[0];
    far_in += flux[cells] + side_flux[beside];
  }
  // What enters is a line in the face's temperature, so its mean tells what of it was evaporation.
  const double entered = top_in / count;
  const double mean_face = towards - entered / outer + half_cell_ * entered;
  const double evaporated = wet.flux + wet.slope * (mean_face - wet_from);
  sum_.through_top += seconds * (entered + evaporated);
  sum_.evaporated -= seconds * evaporated;
  sum_.through_ground += dt * open_in;
  sum_.from_far_ground += dt * far_in;
  face_ = t[0] + half_cell_ * outer * (towards - t[0]);
}

void StripHeat::advance(const Outside& outside, Hours time) {
  const Exchange beside = open_exchange(outside, sky_);
  advance_in_blocks(surface_exchange(outside, sky_), beside, &outside, time);
}

void StripHeat::advance(const Exchange& top, const Exchange& beside, Hours time) {
  require(top.resistance >= 0 && beside.resistance >= 0, "strip heat: a resistance is 0 or more");
  advance_in_blocks(top, beside, nullptr, time);
}

void StripHeat::advance_in_blocks(const Exchange& top, const Exchange& beside, const Outside* wetted_by,
                                  Hours time) {
  require(time.value() >= 0, "strip heat: time runs forward, give hours from 0 up");
  if (time.value() == 0) return;
  const double blocks = std::ceil(time.value() * seconds_an_hour / (block_seconds * steps_.share));
  const double seconds = time.value() * seconds_an_hour / blocks;
  for (auto left = static_cast<long>(blocks); left > 0; --left) {
    hydrate(seconds / seconds_an_hour);
    const double wet = wetted_by != nullptr && strip_.mix.cement.value() > 0 ? wet_share(Hours(set_)) : 0;
    const Evaporating lost = wet > 0 ? evaporating(*wetted_by, Celsius(face_), wet) : Evaporating{};
    advance_block(top, beside, lost, seconds);
  }
}

Celsius StripHeat::at_depth(Metres depth) const {
  const double z = depth.value();
  double above_z = 0, above_t = face_;
  for (std::size_t i = 0; i < middle_.size(); ++i) {
    if (z <= middle_[i]) {
      const double share = (z - above_z) / (middle_[i] - above_z);
      return Celsius(above_t + share * (temperature_[i] - above_t));
    }
    above_z = middle_[i];
    above_t = temperature_[i];
  }
  return Celsius(above_t);
}

HeatSum StripHeat::sum() const {
  HeatSum sum = sum_;
  sum.stored = 0;
  for (std::size_t i = 0; i < temperature_.size(); ++i)
    sum.stored += (temperature_[i] - start_[i]) / inverse_capacity_[i];
  for (std::size_t j = 0; j < side_temperature_.size(); ++j)
    sum.stored += (side_temperature_[j] - side_start_[j]) / side_inverse_capacity_[j];
  return sum;
}

std::vector<TopState> top_course(const StripCase& strip, std::span<const Outside> outside, Hours step,
                                 const HeatSteps& steps) {
  StripHeat state(strip, steps);
  std::vector<TopState> course;
  course.reserve(outside.size());
  for (const Outside& at : outside) {
    state.advance(at, step);
    course.push_back({state.top(), state.equivalent_age()});
  }
  return course;
}

std::vector<Outside> covered_from(std::span<const Outside> outside, HeatCover cover, std::size_t first_step) {
  std::vector<Outside> list(outside.begin(), outside.end());
  for (std::size_t i = 0; i < list.size(); ++i)
    list[i].cover = i < first_step ? HeatCover::bare : cover;
  return list;
}

FrostAnswer top_frost(std::span<const TopState> course, Hours step) {
  require(!course.empty() && step.value() > 0, "top_frost: give a course of at least one step");
  const auto end_of = [&](std::size_t i) { return step * static_cast<double>(i + 1); };
  std::size_t coldest = 0;
  std::optional<Hours> froze;
  for (std::size_t i = 0; i < course.size(); ++i) {
    if (course[i].top < course[coldest].top) coldest = i;
    const double now = course[i].top.value();
    if (froze || now >= 0) continue;
    const double before = i > 0 ? course[i - 1].top.value() : 0;
    froze = end_of(i) - step * (now / (now - before));
  }
  return {course[coldest].top, end_of(coldest), course[coldest].top - Celsius(0),
          course[coldest].equivalent_age, froze};
}

}  // namespace weatherstruck::matter
