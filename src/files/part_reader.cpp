#include "weatherstruck/files/part_reader.h"

#include <array>
#include <string>
#include <utility>

namespace weatherstruck::files {
namespace {

using base::Metres;

constexpr std::size_t most_parts = 100;

template <class E>
E word(ObjectReader& from, std::string_view key, E fallback) {
  return from.word<E>(key, words_of<E>(), fallback);
}

works::Footing read_footing(ObjectReader& from) {
  works::Footing part;
  part.length = from.metres("length", 0.3, 60);
  part.width = from.metres("width", 0.2, 1.5);
  part.thickness = from.metres("thickness", 0.1, 1);
  part.depth = from.metres("depth", 0.1, 2);
  part.drop = from.metres("drop", 0, 5, part.drop);
  return part;
}

works::Pier read_pier(ObjectReader from) {
  works::Pier pier;
  pier.width = from.metres("width", 0.1, 1, pier.width);
  pier.projection = from.metres("projection", 0.05, 1, pier.projection);
  from.finish();
  return pier;
}

works::Opening read_opening(ObjectReader from) {
  works::Opening opening;
  opening.width = from.metres("width", 0.1, 10);
  opening.from_course = from.whole("from_course", 0, 40, opening.from_course);
  from.finish();
  return opening;
}

works::Wall read_wall(ObjectReader& from) {
  works::Wall part;
  part.footing = from.name("footing");
  part.length = from.metres("length", 0.2, 60);
  part.courses = from.whole("courses", 1, 40);
  part.courses_below = from.whole("courses_below", 0, 40, part.courses_below);
  part.bond = word(from, "bond", part.bond);
  part.brick = word(from, "brick", part.brick);
  part.brick_below = word(from, "brick_below", part.brick_below);
  part.joints = word(from, "joints", part.joints);
  part.shared_corners = from.whole("shared_corners", 0, 2, part.shared_corners);
  const auto& piers = from.list("piers", 40);
  for (std::size_t i = 0; i < piers.size(); ++i) {
    part.piers.push_back(read_pier({from.reading(), piers[i], pointer_to(from.place("piers"), i), "pier"}));
  }
  const auto& openings = from.list("openings", 20);
  for (std::size_t i = 0; i < openings.size(); ++i) {
    part.openings.push_back(
        read_opening({from.reading(), openings[i], pointer_to(from.place("openings"), i), "opening"}));
  }
  part.plate = from.truth("plate", part.plate);
  part.coping = from.truth("coping", part.coping);
  return part;
}

works::Base read_base(ObjectReader& from) {
  works::Base part;
  part.length = from.metres("length", 0.8, 60);
  part.width = from.metres("width", 0.8, 60);
  part.drop_along_length = from.metres("drop_along_length", -5, 5, part.drop_along_length);
  part.drop_along_width = from.metres("drop_along_width", -5, 5, part.drop_along_width);
  part.courses = from.whole("courses", 1, 40);
  part.courses_below = from.whole("courses_below", 0, 40, part.courses_below);
  // No door is a word of its own, so that a document can say so.
  static constexpr std::array<Word<std::optional<works::Side>>, 5> doors = {{{"none", std::nullopt},
                                                                             {"north", works::Side::north},
                                                                             {"east", works::Side::east},
                                                                             {"south", works::Side::south},
                                                                             {"west", works::Side::west}}};
  part.door_side = from.word<std::optional<works::Side>>("door_side", doors, std::optional<works::Side>());
  part.door_width = from.metres("door_width", 0.4, 6, part.door_width);
  part.footing_width = from.metres("footing_width", 0.2, 1.5, part.footing_width);
  part.footing_thickness = from.metres("footing_thickness", 0.1, 1, part.footing_thickness);
  part.footing_depth = from.metres("footing_depth", 0.1, 2, part.footing_depth);
  part.bond = word(from, "bond", part.bond);
  part.brick = word(from, "brick", part.brick);
  part.brick_below = word(from, "brick_below", part.brick_below);
  part.joints = word(from, "joints", part.joints);
  part.plates = from.truth("plates", part.plates);
  return part;
}

works::Bed read_bed(ObjectReader& from) {
  works::Bed part;
  part.length = from.metres("length", 0.5, 60);
  part.width = from.metres("width", 0.4, 20);
  part.courses = from.whole("courses", 1, 20);
  part.sides = from.whole("sides", 1, 4, part.sides);
  part.footing_width = from.metres("footing_width", 0.2, 1.5, part.footing_width);
  part.footing_thickness = from.metres("footing_thickness", 0.1, 1, part.footing_thickness);
  part.footing_depth = from.metres("footing_depth", 0.1, 2, part.footing_depth);
  part.drop = from.metres("drop", 0, 5, part.drop);
  part.bond = word(from, "bond", part.bond);
  part.brick = word(from, "brick", part.brick);
  part.joints = word(from, "joints", part.joints);
  part.filled = from.truth("filled", part.filled);
  return part;
}

works::Path read_path(ObjectReader& from) {
  works::Path part;
  part.length = from.metres("length", 0.3, 200);
  part.width = from.metres("width", 0.3, 10);
  part.surface = word(from, "surface", part.surface);
  part.flag_length = from.metres("flag_length", 0.1, 1.5, part.flag_length);
  part.flag_width = from.metres("flag_width", 0.1, 1.5, part.flag_width);
  part.subbase = from.metres("subbase", 0.03, 0.5, part.subbase);
  return part;
}

works::Steps read_steps(ObjectReader& from) {
  works::Steps part;
  part.count = from.whole("count", 1, 20);
  part.width = from.metres("width", 0.3, 10);
  part.going = from.metres("going", 0.2, 2, part.going);
  part.riser = from.metres("riser", 0.075, 0.22, part.riser);
  return part;
}

works::Box read_box(ObjectReader& from) {
  works::Box part;
  part.length = from.metres("length", 0.5, 10);
  part.width = from.metres("width", 0.5, 10);
  part.courses = from.whole("courses", 1, 4);
  part.brick = word(from, "brick", part.brick);
  part.joints = word(from, "joints", part.joints);
  return part;
}

enum class Kind { base, footing, wall, bed, path, steps, box };
constexpr std::array<Word<Kind>, 7> kinds = {{{"base", Kind::base},
                                              {"footing", Kind::footing},
                                              {"wall", Kind::wall},
                                              {"bed", Kind::bed},
                                              {"path", Kind::path},
                                              {"steps", Kind::steps},
                                              {"box", Kind::box}}};

works::Part read_members(ObjectReader& from, Kind kind) {
  switch (kind) {
    case Kind::base:
      return read_base(from);
    case Kind::footing:
      return read_footing(from);
    case Kind::wall:
      return read_wall(from);
    case Kind::bed:
      return read_bed(from);
    case Kind::path:
      return read_path(from);
    case Kind::steps:
      return read_steps(from);
    case Kind::box:
      break;
  }
  return read_box(from);
}

std::string_view kind_word(Kind kind) {
  for (const auto& one : kinds) {
    if (one.value == kind) return one.text;
  }
  return {};
}

std::optional<Kind> kind_of(const Json& part) {
  if (!part.is_object()) return {};
  const auto at = part.find("kind");
  if (at == part.end() || !at->is_string()) return {};
  for (const auto& kind : kinds) {
    if (kind.text == at->get_ref<const std::string&>()) return kind.value;
  }
  return {};
}

}  // namespace

void read_parts(ObjectReader& document, works::Job& job) {
  const auto& list = document.list("parts", most_parts);
  for (std::size_t i = 0; i < list.size(); ++i) {
    const auto pointer = pointer_to(document.place("parts"), i);
    const auto kind = kind_of(list[i]);
    if (!kind) {
      // Which keys belong here cannot be told, so only the kind is asked for.
      ObjectReader from(document.reading(), list[i], pointer, "part");
      from.word<Kind>("kind", kinds);
      continue;
    }
    ObjectReader from(document.reading(), list[i], pointer, kind_word(*kind));
    from.word<Kind>("kind", kinds);
    const auto name = from.name("name");
    const auto importance = word(from, "importance", works::Importance::must);
    auto part = read_members(from, *kind);
    std::visit([&name](auto& any) { any.name = name; }, part);
    from.finish();
    if (importance != works::Importance::must) job.importance.push_back({name, importance});
    job.parts.push_back(std::move(part));
  }
}

}  // namespace weatherstruck::files
