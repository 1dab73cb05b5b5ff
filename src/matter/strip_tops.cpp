#include "weatherstruck/matter/strip_tops.h"

#include <algorithm>

namespace weatherstruck::matter {
namespace {

constexpr double seconds = 3600;
constexpr double concrete_capacity = heat::concrete_density * heat::concrete_specific_heat;
constexpr std::size_t strip_nodes = 3;
constexpr std::size_t middle = 1;  // the node that the ground beside is joined to

}  // namespace

StripTops::StripTops(const HeatFilter& filter, base::Celsius start, const Row& heat)
    : sky_(filter.sky),
      face_resistance_(filter.face),
      joint_(1 / filter.joint[heat_nodes - 1]),
      deep_(filter.ground[2]),
      side_held_(filter.beside_capacity / seconds),
      side_pull_(1 / filter.beside_open),
      side_(1 / filter.beside_joint) {
  side_scale_ = 1 / (side_held_ + side_ + side_pull_);
  // As FilterRun::conduct, from the deep ground up, but for the top node.
  double carried = 0;
  for (std::size_t n = heat_nodes; n-- > 0;) {
    const double below = 1 / filter.joint[n];
    held_[n] = filter.capacity[n] / seconds;
    for (std::size_t k = 0; k < most && n < strip_nodes; ++k)
      heat_[n][k] = heat[k] * filter.capacity[n] / concrete_capacity;
    above_[n] = n > 0 ? 1 / filter.joint[n - 1] : 0;
    const double beside = n == middle ? side_ - side_ * side_ * side_scale_ : 0;
    const double sum = held_[n] + above_[n] + below + beside - carried;
    scale_[n] = 1 / sum;
    lower_[n] = above_[n] * scale_[n];
    carried = above_[n] * lower_[n];
    first_scale_ = sum;
  }
  for (std::size_t n = 0; n < heat_nodes; ++n)
    t_[n].fill(n < strip_nodes ? start.value() : filter.ground[n - strip_nodes]);
  beside_.fill(filter.beside_ground);
  face_.fill(start.value());
}

void StripTops::step(const OpenAir& air, const Row& covers) {
  const double towards = air.air - sky_ * air.sky;
  for (std::size_t k = 0; k < most; ++k) {
    const double outer = 1 / (air.resistance + covers[k] + face_resistance_);
    const double side_kept = (side_held_ * beside_[k] + side_pull_ * towards) * side_scale_;
    double sent = joint_ * deep_;
    for (std::size_t n = heat_nodes; n-- > 1;) {
      if (n == middle) sent += side_ * side_kept;
      t_[n][k] = (held_[n] * t_[n][k] + heat_[n][k] + sent) * scale_[n];
      sent = above_[n] * t_[n][k];
    }
    t_[0][k] = (held_[0] * t_[0][k] + heat_[0][k] + sent + outer * towards) / (first_scale_ + outer);
    for (std::size_t n = 1; n < heat_nodes; ++n)
      t_[n][k] += lower_[n] * t_[n - 1][k];
    beside_[k] = side_kept + side_ * side_scale_ * t_[middle][k];
    face_[k] = t_[0][k] - face_resistance_ * outer * (t_[0][k] - towards);
  }
}

base::Celsius coldest_start(const HeatFilter& filter, base::Celsius start) {
  return base::Celsius(
      std::min({start.value(), filter.ground[0], filter.ground[1], filter.ground[2], filter.beside_ground}));
}

}  // namespace weatherstruck::matter
