// What is to be built, part by part.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "job_ask.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/render/job_recap.h"
#include "weatherstruck/works/check.h"

namespace weatherstruck::desk {

using base::Metres;
using works::Answer;
using works::LengthRange;
using works::Refused;

namespace {

constexpr int most_beds = 12;
/// Brickwork that a door leaves beside itself: half a brick and a bit on each hand (works::check).
constexpr double beside_door = 0.45;

std::string usual_length(Metres length, works::Measure measure) {
  if (length.value() == 0) return "level";
  if (measure == works::Measure::metric) return render::length_words(length);
  return fmt::format("{} in", base::plain_number(length.value() / 0.0254, 1));
}

}  // namespace

works::Name JobAsk::free_name(const works::Name& wanted) const {
  const auto taken = [&](const works::Name& name) {
    return std::any_of(job_.parts.begin(), job_.parts.end(),
                       [&](const works::Part& part) { return works::name_of(part) == name; });
  };
  works::Name name = wanted;
  for (int n = 2; taken(name); ++n)
    name = wanted + "-" + std::to_string(n);
  return name;
}

std::optional<Refused> JobAsk::wrong_with(const works::Part& part) const {
  works::Job probe = job_;
  probe.parts.push_back(part);
  const std::string place = "/parts/" + std::to_string(probe.parts.size() - 1);
  for (const auto& fault : works::check(probe).faults) {
    if (fault.place.rfind(place, 0) != 0) continue;
    return Refused{fault.expected, "It cannot be built like that: " + fault.found + ". " + fault.remedy +
                                       " \"back\" goes back to it."};
  }
  return {};
}

Metres JobAsk::length(const std::string& key, const std::string& words, LengthRange range,
                      std::optional<Metres> usual, const std::string& help) {
  return talk_.ask<Metres>(
      {key, words, usual ? usual_length(*usual, measure_) : "", help},
      [&](auto said) { return works::length_answer(said, range, measure_); }, usual);
}

int JobAsk::count(const std::string& key, const std::string& words, int low, int high, std::string_view of,
                  std::optional<int> usual, const std::string& help) {
  const std::string shown = !usual ? "" : *usual == 0 ? "none" : std::to_string(*usual);
  return talk_.ask<int>(
      {key, words, shown, help}, [&](auto said) { return works::count_answer(said, low, high, of); }, usual);
}

std::optional<works::Size> JobAsk::size(const std::string& key, const std::string& words, LengthRange length,
                                        LengthRange width, const std::string& help) {
  using Maybe = std::optional<works::Size>;
  return talk_.ask<Maybe>(
      {key, words, "none", help + " Such as 3 x 1.8 m or 10 ft by 6 ft."},
      [&](auto said) { return works::optional_size_answer(said, length, width, measure_); },
      std::optional<Maybe>(Maybe()));
}

void JobAsk::base() {
  talk_.heading("What is to be built (Enter where there is none)");
  const auto outside =
      size("base", "A base for a shed or the like: outside length by width", {0.8, 60}, {0.8, 60},
           "Footings, low walls and plates all round. Length goes from left to right as you stand in front "
           "of it.");
  if (!outside) return;
  works::Base base;
  base.length = outside->length;
  base.width = outside->width;
  const std::string on_it = talk_.ask<std::string>(
      {"base-for", "What will stand on it?", "shed",
       "In a word: it is called by that. nothing: no plates are bedded."},
      [](auto said) { return works::optional_text_answer(said, 30); }, std::string("shed"));
  base.plates = !on_it.empty();
  base.name = on_it.empty() ? "base" : works::name_from(on_it);
  base.door_side = talk_.ask<std::optional<works::Side>>(
      {"base-door", "Which side has the door: front, back, left or right?", "none",
       "The wall is left open there, above the ground."},
      works::side_answer, std::optional<std::optional<works::Side>>(std::optional<works::Side>()));
  if (base.door_side) {
    const bool lengthwise = *base.door_side == works::Side::north || *base.door_side == works::Side::south;
    const double widest = (lengthwise ? base.length : base.width).value() - beside_door;
    const Metres usual(std::min(0.9, std::floor(widest * 100) / 100));
    if (widest < 0.4) {
      talk_.say("That side is too short for a door; it is left out.");
      base.door_side.reset();
    } else {
      base.door_width = length("base-door-width", "How wide is the door?", {0.4, std::min(widest, 6.0)},
                               usual, "The clear opening in the brickwork.");
    }
  }
  const std::string how = "By eye will do; levels read when it is dug put it right. Such as 150 mm.";
  base.drop_along_length = talk_.ask<Metres>(
      {"base-fall-length", "How far does the ground fall from left to right?", "level",
       how + " 150 mm to the left where it falls the other way."},
      [this](auto said) { return works::fall_answer(said, 5, "right", "left", measure_); }, Metres(0));
  base.drop_along_width = talk_.ask<Metres>(
      {"base-fall-width", "How far does it fall from back to front?", "level",
       how + " 150 mm to the back where it falls the other way."},
      [this](auto said) { return works::fall_answer(said, 5, "front", "back", measure_); }, Metres(0));
  const int showing = count("base-courses", "Courses showing at the high end", 1, 30, "course", 4,
                            "Those above the ground; low down the slope more of them show.");
  base.footing_depth =
      length("base-footing-depth", "Footing: from the ground to its underside, at the high end",
             {base.footing_thickness.value(), 2}, base.footing_depth,
             "The concrete is taken to be 150 mm thick, and bricks to fill the rest up to the ground.");
  // The courses out of sight fill what is left between concrete and ground.
  base.courses_below = static_cast<int>(
      std::floor((base.footing_depth - base.footing_thickness) / measure::course_height + 1e-6));
  base.courses = showing + base.courses_below;
  base.footing_width = talk_.ask<Metres>(
      {"base-footing-width", "How wide is the footing?", usual_length(base.footing_width, measure_),
       "Of the trench and the concrete in it."},
      [this](auto said) {
        return works::length_answer(said, {0.2, 1.5}, measure_);
      },
      std::optional(base.footing_width),
      [&](const Metres& width) {
        works::Base probe = base;
        probe.footing_width = width;
        return wrong_with(probe);
      });
  job_.parts.emplace_back(std::move(base));
}

void JobAsk::beds() {
  for (int n = 1; n <= most_beds; ++n) {
    const std::string key = "bed-" + std::to_string(n);
    const auto outside =
        size(key, n == 1 ? "A raised bed: outside length by width" : "Another bed: outside length by width",
             {0.5, 60}, {0.4, 20}, "Of brick, filled with soil; as many as you like.");
    if (!outside) return;
    works::Bed bed;
    bed.name = free_name("bed");
    bed.length = outside->length;
    bed.width = outside->width;
    bed.sides = count(key + "-sides", "How many of its four sides are built?", 1, 4, "side", 4,
                      "Fewer where a wall is there already; the long ones are counted first.");
    bed.drop = length(key + "-fall", "How far does the ground fall along it?", {0, 5}, Metres(0),
                      "From end to end, such as 150 mm. Enter where it is level.");
    bed.courses = talk_.ask<int>(
        {key + "-courses", "Courses at its high end, from the concrete up", "3",
         "All of them; the lowest stands in the trench."},
        [](auto said) { return works::count_answer(said, 1, 20, "course"); }, std::optional(3),
        [&](const int& courses) {
          works::Bed probe = bed;
          probe.courses = courses;
          return wrong_with(probe);
        });
    job_.parts.emplace_back(std::move(bed));
  }
}

void JobAsk::rest_of_parts() {
  if (const auto outside = size("box", "A small brick box or planter: outside length by width", {0.5, 10},
                                {0.5, 10}, "Up to four courses on a stiff mix in a shallow trench.")) {
    works::Box box;
    box.name = free_name("box");
    box.length = outside->length;
    box.width = outside->width;
    box.courses = count("box-courses", "How many courses?", 1, 4, "course", 3, "Up to four.");
    job_.parts.emplace_back(std::move(box));
  }
  const int risers = count("steps", "Garden steps to build: how many?", 0, 20, "step", 0,
                           "In brick on a concrete base, each 150 mm high and 300 mm deep.");
  if (risers > 0) {
    works::Steps steps;
    steps.name = free_name("steps");
    steps.count = risers;
    steps.width = length("steps-width", "How wide are they?", {0.3, 10}, Metres(0.9), "From side to side.");
    job_.parts.emplace_back(std::move(steps));
  }
  using Maybe = std::optional<works::Size>;
  const bool nothing = job_.parts.empty();
  const Maybe outside = talk_.ask<Maybe>(
      {"path", "A path: length by width", nothing ? "" : "none", "On a sub-base. Such as 6 x 0.75 m."},
      [&](auto said) -> Answer<Maybe> {
        if (nothing && works::says_none(said))
          return Refused{"a length by a width; or back, to name something else",
                         "Nothing is to be built yet."};
        return works::optional_size_answer(said, {0.3, 200}, {0.3, 10}, measure_);
      },
      nothing ? std::nullopt : std::optional<Maybe>(Maybe()));
  if (!outside) return;
  works::Path path;
  path.name = free_name("path");
  path.length = outside->length;
  path.width = outside->width;
  path.surface = talk_.ask<trade::Surface>(
      {"path-surface", "In flags or in gravel?", "flags", "Flags of 450 x 450 mm on mortar, or gravel."},
      [](auto said) -> Answer<trade::Surface> {
        const works::Name word = works::name_from(said);
        if (word == "flags" || word == "flag") return trade::Surface::flags;
        if (word == "gravel") return trade::Surface::gravel;
        return Refused{"flags or gravel"};
      },
      trade::Surface::flags);
  job_.parts.emplace_back(std::move(path));
}

}  // namespace weatherstruck::desk
