// The questions about a base: footings, low walls and plates in a rectangle.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "job_ask.h"
#include "weatherstruck/measure/brickwork.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::desk {

using base::Metres;
using works::Measure;

namespace {

/// Brickwork that a door leaves beside itself, half a brick and a bit on each hand: common practice, no
/// source.
constexpr double beside_door = 0.45;

/// "Log store, no plates": cuts that off.
bool take_no_plates(std::string& text) {
  for (const std::string_view ending : {"no plates", "without plates", "no plate"}) {
    if (text.size() < ending.size() || text.substr(text.size() - ending.size()) != ending) continue;
    text.resize(text.size() - ending.size());
    text.resize(text.find_last_not_of(" ,(") + 1);
    return true;
  }
  return false;
}

/// Sizes he would use: 25 mm or an inch apart, never less than the rule.
Metres rounded_up(Metres least, Measure measure) {
  const double step = measure == Measure::feet ? works::inch : 0.025;
  return Metres(std::ceil(least.value() / step - 1e-6) * step);
}

}  // namespace

works::StripSize usual_strip(const works::Job& job, Measure measure, trade::Bond bond) {
  const auto rules = measure::FootingRules::from(works::limits_of(job).values);
  works::StripSize strip{Metres(measure == Measure::feet ? 18 * works::inch : 0.45), Metres(0), Metres(0)};
  strip.thickness =
      rounded_up(measure::least_thickness(strip.width, measure::thickness_of(bond), rules), measure);
  strip.depth = std::max(strip.thickness, rounded_up(rules.frost_depth, measure));
  return strip;
}

Metres strip_length(Metres wall, const works::StripSize& strip, Measure measure, trade::Bond bond) {
  return rounded_up(wall + strip.width - measure::thickness_of(bond), measure);
}

int courses_out_of_sight(const works::StripSize& strip) {
  return static_cast<int>(std::floor((strip.depth - strip.thickness) / measure::course_height + 1e-6));
}

void JobAsk::base(const std::string& key) {
  const works::Size outside =
      size(key + ":size", "The base: outside length by width", {0.8, 60}, {0.8, 60},
           "Length goes from left to right as you stand in front of it. Such as " +
               std::string(measure_ == Measure::feet ? "10 ft by 6 ft." : "3 x 1.8 m."));
  works::Base base;
  base.length = outside.length;
  base.width = outside.width;
  std::string on_it = talk_.ask<std::string>(
      {key + ":for", "What will stand on it?", "shed",
       "In a word: it is called by that. Timber plates are bedded for it and strapped; behind a comma, no "
       "plates leaves them out, and so does nothing."},
      [](auto said) { return works::optional_text_answer(said, 40); }, std::string("shed"));
  base.plates = !take_no_plates(on_it) && !on_it.empty();
  base.name = free_name(on_it.empty() ? "base" : works::name_from(on_it));
  base_opening(key, base);
  const auto fall = talk_.ask<works::GroundFall>(
      {key + ":fall", "How does the ground fall there, seen from the front?", "level",
       "By eye will do; levels read when it is dug put it right. Such as 150 mm to the right, 100 mm to the "
       "back."},
      [this](auto said) { return works::ground_fall_answer(said, measure_); }, works::GroundFall{});
  base.drop_along_length = fall.to_right;
  base.drop_along_width = fall.to_front;
  const int showing = count(key + ":courses", "Courses showing at the high end", 1, 30, "course", 4,
                            "Those above the ground; low down the slope more of them show.");
  base_footing(key, base, showing);
  add(key, std::move(base));
}

void JobAsk::base_opening(const std::string& key, works::Base& base) {
  const Metres widest_length(base.length.value() - beside_door);
  const Metres widest_width(base.width.value() - beside_door);
  using Maybe = std::optional<works::SideOpening>;
  const Maybe opening = talk_.ask<Maybe>(
      {key + ":opening", "A door in its walls, or a side left open?", "none",
       "The side and the width, such as front, 900 mm: the wall is left open there, above the ground. open "
       "front: "
       "no wall on that side at all; the strip and the bricks below the ground run through under it."},
      [&](auto said) { return works::opening_answer(said, widest_length, widest_width, measure_); },
      std::optional<Maybe>(Maybe()));
  if (!opening) return;
  const bool lengthwise = opening->side == works::Side::north || opening->side == works::Side::south;
  base.door_side = opening->side;
  const std::string_view side = works::seen_from_front(opening->side);
  if (opening->open) {
    base.door_width = works::open_width(base, opening->side);
    talk_.say(
        fmt::format("Walls on three sides, open at the {}; the strip and the bricks below the ground run "
                    "through there.",
                    side));
    return;
  }
  const double widest = std::min((lengthwise ? widest_length : widest_width).value(), 6.0);
  base.door_width = opening->width.value_or(Metres(std::min(usual_clear_width(measure_).value(), widest)));
  if (base.door_width.value() < 0.4) {
    talk_.say("That side is too short for a door; it is left out.");
    base.door_side.reset();
    return;
  }
  talk_.say(fmt::format("A door of {} at the {}.", length_in_both(base.door_width, measure_), side));
}

void JobAsk::base_footing(const std::string& key, works::Base& base, int showing) {
  const works::StripSize usual = usual_strip(job_, measure_, base.bond);
  const auto fit = [&](const works::StripSize& strip) {
    works::Base fitted = base;
    fitted.footing_width = strip.width;
    fitted.footing_thickness = strip.thickness;
    fitted.footing_depth = strip.depth;
    fitted.courses_below = courses_out_of_sight(strip);
    fitted.courses = showing + fitted.courses_below;
    return fitted;
  };
  const auto strip = talk_.ask<works::StripSize>(
      {key + ":footing", "Its footing", strip_text(usual, measure_),
       "Width of the trench and the concrete in it, thickness of the concrete, depth from the ground to its "
       "underside "
       "at the high end. Bricks fill the rest up to the ground. Say those that differ, such as 350 deep."},
      [&](auto said) { return works::strip_answer(said, usual, measure_); }, usual,
      [&](const works::StripSize& said) { return wrong_with({fit(said)}); });
  base = fit(strip);
}

}  // namespace weatherstruck::desk
