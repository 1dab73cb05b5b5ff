// What is to be built, part by part.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "job_ask.h"
#include "weatherstruck/measure/brickwork.h"
#include "weatherstruck/measure/footing.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/answer_parts.h"
#include "weatherstruck/works/check.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::desk {

using base::Metres;
using works::Answer;
using works::LengthRange;
using works::Measure;
using works::Refused;

namespace {

std::string numbered(const std::string& kind, int n) {
  return n == 1 ? kind : kind + "-" + std::to_string(n);
}

struct StepsSaid {
  int count;
  std::optional<Metres> width;
};

/// "3", "3, 900 mm wide", "three steps 3 ft wide", "900 wide" where a number is known.
Answer<StepsSaid> steps_answer(std::string_view text, const std::optional<int>& usual, Measure measure) {
  const Refused refused{std::string("how many, 1 to 20, and how wide, such as 3, ") +
                        (measure == Measure::feet ? "3 ft" : "900 mm") + " wide"};
  std::string said;
  for (const std::string& piece : works::pieces_of(text))
    said += (said.empty() ? "" : ", ") + piece;
  for (const std::string_view word : {" steps", " step"}) {
    if (const std::size_t at = said.find(word); at != std::string::npos) said.replace(at, word.size(), ",");
  }
  StepsSaid out{usual.value_or(0), {}};
  bool counted = false;
  for (std::string piece : works::pieces_of(said)) {
    const std::size_t wide = piece.find(" wide");
    const auto count = works::count_answer(piece, 1, 20, "step");
    if (const int* number = std::get_if<int>(&count); number != nullptr && !counted) {
      counted = true;
      out.count = *number;
      continue;
    }
    if (wide != std::string::npos) piece.resize(wide);
    const auto width = works::length_answer(piece, {0.3, 10}, measure);
    if (out.width || std::holds_alternative<Refused>(width)) return refused;
    out.width = std::get<Metres>(width);
  }
  if (out.count == 0) return refused;
  return out;
}

/// What paths are laid in, by the words they go by.
std::optional<trade::Surface> surface_called(std::string_view text) {
  works::Name word = works::name_from(text);
  if (word.rfind("in-", 0) == 0) word = word.substr(3);
  constexpr std::array<std::string_view, 9> flags{"flags",  "flag",   "flagstones",   "slabs",        "slab",
                                                  "paving", "pavers", "paving-slabs", "paving-stones"};
  constexpr std::array<std::string_view, 4> gravel{"gravel", "shingle", "chippings", "pea-gravel"};
  if (std::find(flags.begin(), flags.end(), word) != flags.end()) return trade::Surface::flags;
  if (std::find(gravel.begin(), gravel.end(), word) != gravel.end()) return trade::Surface::gravel;
  return {};
}

struct PathSaid {
  works::Size size;
  std::optional<trade::Surface> surface;
};

Answer<PathSaid> path_answer(std::string_view text, Measure measure) {
  std::string said(text);
  std::optional<trade::Surface> surface;
  // "paving slabs" is two of them.
  for (int words = 0; words < 2; ++words) {
    const std::size_t behind = said.find_last_of(" ,");
    const auto called = behind == std::string::npos ? std::nullopt : surface_called(said.substr(behind + 1));
    if (!called) break;
    if (!surface) surface = called;
    said.resize(behind);
    const std::size_t end = said.find_last_not_of(" ,");
    said.resize(end == std::string::npos ? 0 : end + 1);
    if (said.size() > 3 && said.substr(said.size() - 3) == " in") said.resize(said.size() - 3);
  }
  const auto size = works::size_answer(said, {0.3, 200}, {0.3, 10}, measure);
  if (const auto* refused = std::get_if<Refused>(&size))
    return Refused{refused->allowed + "; in flags or in gravel behind it"};
  return PathSaid{std::get<works::Size>(size), surface};
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

std::optional<Refused> JobAsk::wrong_with(const std::vector<works::Part>& parts) const {
  works::Job probe = job_;
  probe.parts.insert(probe.parts.end(), parts.begin(), parts.end());
  for (const auto& fault : works::check(probe).faults) {
    const bool of_these = [&] {
      for (std::size_t i = job_.parts.size(); i < probe.parts.size(); ++i) {
        if (fault.place.rfind("/parts/" + std::to_string(i) + "/", 0) == 0) return true;
      }
      return false;
    }();
    if (!of_these) continue;
    return Refused{fault.expected, "It cannot be built like that: " + fault.found + ". " + fault.remedy +
                                       " \"back\" goes back to it."};
  }
  return {};
}

void JobAsk::add(const std::string& key, works::Part part) {
  part_keys_[works::name_of(part)] = key;
  job_.parts.push_back(std::move(part));
}

int JobAsk::count(const std::string& key, const std::string& words, int low, int high, std::string_view of,
                  std::optional<int> usual, const std::string& help) {
  const std::string shown = !usual ? "" : *usual == 0 ? "none" : std::to_string(*usual);
  return talk_.ask<int>(
      {key, words, shown, help}, [&](auto said) { return works::count_answer(said, low, high, of); }, usual);
}

works::Size JobAsk::size(const std::string& key, const std::string& words, LengthRange length,
                         LengthRange width, const std::string& help) {
  const auto said = talk_.ask<works::Size>(
      {key, words, "", help}, [&](auto text) { return works::size_answer(text, length, width, measure_); });
  talk_.say(size_in_both(said, measure_) + ".");
  return said;
}

void JobAsk::parts() {
  talk_.heading("What is to be built");
  const works::PartsWanted wanted = talk_.ask<works::PartsWanted>(
      {"parts", "What is to be built: base, wall, bed, box, steps, path?", "",
       "All of it in one line, such as a base, 2 beds, 3 steps and a path. A base is "
       "footings, low walls and plates "
       "for a shed or the like; a wall stands by itself, low, on its strip; a bed is of brick, filled with "
       "soil; a box is a "
       "planter of up to four courses; steps "
       "are of brick; a path is of flags or gravel."},
      works::parts_answer);
  const auto each = [&](int many, const std::string& kind, void (JobAsk::*ask)(const std::string&)) {
    for (int n = 1; n <= many; ++n)
      (this->*ask)(numbered(kind, n));
  };
  each(wanted.bases, "base", &JobAsk::base);
  each(wanted.walls, "wall", &JobAsk::wall);
  each(wanted.beds, "bed", &JobAsk::bed);
  each(wanted.boxes, "box", &JobAsk::box);
  if (wanted.steps) steps("steps", wanted.risers);
  each(wanted.paths, "path", &JobAsk::path);
}

void JobAsk::wall(const std::string& key) {
  const auto values = works::limits_of(job_).values;
  const Metres half_brick_to = base::to_metres(values.depth(trade::limit::free_wall_half_brick));
  const works::Name name = free_name("wall");
  const auto fit = [&](const works::WallSaid& said) {
    works::Wall wall;
    wall.name = name;
    wall.length = said.length;
    wall.bond = said.bond.value_or((measure::course_height * static_cast<double>(said.courses)).value() >
                                           half_brick_to.value() + 1e-9
                                       ? trade::Bond::one_english
                                       : trade::Bond::half_stretcher);
    wall.coping = said.coping;
    const works::StripSize strip = usual_strip(job_, measure_, wall.bond);
    works::Footing footing;
    footing.name = name + "-footing";
    wall.footing = footing.name;
    footing.width = strip.width;
    footing.thickness = strip.thickness;
    footing.depth = strip.depth;
    footing.drop = said.fall;
    footing.length = strip_length(said.length, strip, measure_, wall.bond);
    wall.courses_below = courses_out_of_sight(strip);
    wall.courses = said.courses + wall.courses_below;
    return std::pair(footing, wall);
  };
  const auto said = talk_.ask<works::WallSaid>(
      {key + ":size", "The wall: length, courses showing", "",
       fmt::format(
           "Such as {}, 4 courses. If the ground falls along it: falls {}. Up to {} it is half a brick "
           "thick, above that one brick, unless you say which; coping, if it has one.",
           measure_ == Measure::feet ? "20 ft" : "6 m", measure_ == Measure::feet ? "6 in" : "150 mm",
           length_text(half_brick_to, measure_))},
      [this](auto text) { return works::wall_answer(text, measure_); }, {},
      [&](const works::WallSaid& shape) {
        const auto [footing, wall] = fit(shape);
        return wrong_with({footing, wall});
      });
  auto [footing, wall] = fit(said);
  talk_.say(fmt::format("{} long, {} {} showing, {} thick{}.", length_in_both(said.length, measure_),
                        said.courses, said.courses == 1 ? "course" : "courses",
                        wall.bond == trade::Bond::half_stretcher ? "half a brick" : "one brick",
                        wall.coping ? ", with a coping" : ""));
  job_.parts.emplace_back(std::move(footing));
  add(key, std::move(wall));
}

void JobAsk::bed(const std::string& key) {
  const works::Size outside = size(key + ":size", "The raised bed: outside length by width", {0.5, 60},
                                   {0.4, 20}, "Of brick, filled with soil.");
  works::Bed bed;
  bed.name = free_name("bed");
  bed.length = outside.length;
  bed.width = outside.width;
  if (measure_ == Measure::feet) {
    bed.footing_width = Metres(12 * works::inch);
    bed.footing_thickness = Metres(6 * works::inch);
    bed.footing_depth = Metres(10 * works::inch);
  }
  const auto fit = [&](const works::BedShape& shape) {
    works::Bed fitted = bed;
    fitted.sides = shape.sides;
    fitted.courses = shape.courses;
    fitted.drop = shape.fall;
    return fitted;
  };
  works::BedShape usual;
  if (const auto before = talk_.said_before(key + ":shape")) {
    const auto read = works::bed_shape_answer(*before, usual, measure_);
    if (const auto* said = std::get_if<works::BedShape>(&read)) usual = *said;
  }
  const auto shape = talk_.ask<works::BedShape>(
      {key + ":shape", "Courses from the concrete up, sides built, fall along it",
       bed_shape_text(usual, measure_),
       "Courses at its high end, all of them; the lowest stands in the trench. Fewer sides where a wall is "
       "there "
       "already: 3 are the front and both ends, along a fence; 2 the front and one end, in a corner. Such as "
       "4 "
       "courses, 3 sides, falls 150 mm."},
      [&](auto said) { return works::bed_shape_answer(said, usual, measure_); }, usual,
      [&](const works::BedShape& said) { return wrong_with({fit(said)}); },
      [&](const works::BedShape& said) { return works::bed_shape_text(said, measure_); });
  add(key, fit(shape));
}

void JobAsk::box(const std::string& key) {
  const works::Size outside =
      size(key + ":size", "The brick box or planter: outside length by width", {0.5, 10}, {0.5, 10},
           "Up to four courses on a stiff mix in a shallow trench.");
  works::Box box;
  box.name = free_name("box");
  box.length = outside.length;
  box.width = outside.width;
  box.courses = count(key + ":courses", "How many courses?", 1, 4, "course", 3, "Up to four.");
  add(key, std::move(box));
}

void JobAsk::steps(const std::string& key, const std::optional<int>& risers) {
  const Metres usual = usual_clear_width(measure_);
  const auto words = [&](int many, Metres width) {
    return fmt::format("{} {}, {} wide", many, many == 1 ? "step" : "steps", length_text(width, measure_));
  };
  const auto said = talk_.ask<StepsSaid>(
      {key + ":size", "How many steps, and how wide?", risers ? words(*risers, usual) : "",
       "In brick on a concrete base, each 150 mm high and 300 mm deep. Such as 3, 900 mm wide."},
      [&](auto text) { return steps_answer(text, risers, measure_); },
      risers ? std::optional(StepsSaid{*risers, {}}) : std::nullopt);
  works::Steps steps;
  steps.name = free_name("steps");
  steps.count = said.count;
  steps.width = said.width.value_or(usual);
  talk_.say(words(steps.count, steps.width) + " (" + length_text(steps.width, other_than(measure_)) + ").");
  add(key, std::move(steps));
}

void JobAsk::path(const std::string& key) {
  const auto said = talk_.ask<PathSaid>(
      {key + ":size", "The path: length by width", "",
       "On a sub-base; in flags or in gravel may stand behind it, such as 6 x 0.75 m in gravel."},
      [this](auto text) { return path_answer(text, measure_); });
  talk_.say(size_in_both(said.size, measure_) + ".");
  works::Path path;
  path.name = free_name("path");
  path.length = said.size.length;
  path.width = said.size.width;
  path.surface = said.surface ? *said.surface
                              : talk_.ask<trade::Surface>(
                                    {key + ":surface", "In flags or in gravel?", "flags",
                                     "Flags of 450 x 450 mm on mortar, or gravel."},
                                    [](auto text) -> Answer<trade::Surface> {
                                      if (const auto surface = surface_called(text)) return *surface;
                                      return Refused{"flags or gravel"};
                                    },
                                    trade::Surface::flags);
  add(key, std::move(path));
}

}  // namespace weatherstruck::desk
