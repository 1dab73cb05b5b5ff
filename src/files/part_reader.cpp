#include "weatherstruck/files/part_reader.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "part_members.h"
#include "shared_sections.h"

namespace weatherstruck::files {
namespace {

constexpr std::size_t most_parts = 100;

// No side is a word of its own, so that a document can say so.
constexpr std::array<Word<std::optional<works::Side>>, 5> sides = {{{"none", std::nullopt},
                                                                    {"north", works::Side::north},
                                                                    {"east", works::Side::east},
                                                                    {"south", works::Side::south},
                                                                    {"west", works::Side::west}}};

// The form of part_members.h that reads: what a fresh part holds is what stands where nothing is said.
class ReadingForm {
 public:
  explicit ReadingForm(ObjectReader& from) : from_(from) {}

  void needed(std::string_view key, base::Metres& member, double low, double high) {
    member = from_.metres(key, low, high);
  }
  void needed(std::string_view key, int& member, int low, int high) { member = from_.whole(key, low, high); }
  void usual(std::string_view key, base::Metres& member, double low, double high) {
    member = from_.metres(key, low, high, member);
  }
  void usual(std::string_view key, int& member, int low, int high) {
    member = from_.whole(key, low, high, member);
  }
  void maybe(std::string_view key, std::optional<base::Metres>& member, double low, double high) {
    if (from_.member(key) != nullptr) member = from_.metres(key, low, high, base::Metres(low));
  }
  template <class E>
  void word(std::string_view key, E& member) {
    member = files::word(from_, key, member);
  }
  void truth(std::string_view key, bool& member) { member = from_.truth(key, member); }
  void name(std::string_view key, works::Name& member) { member = from_.name(key); }
  void side(std::string_view key, std::optional<works::Side>& member) {
    member = from_.word<std::optional<works::Side>>(key, sides, member);
  }
  template <class Item>
  void list(std::string_view key, std::vector<Item>& items, std::size_t most, std::string_view shape) {
    const auto& values = from_.list(key, most);
    for (std::size_t i = 0; i < values.size(); ++i) {
      ObjectReader from(from_.reading(), values[i], pointer_to(from_.place(key), i), shape);
      Item item;
      ReadingForm form(from);
      members_of(form, item);
      from.finish();
      items.push_back(std::move(item));
    }
  }

 private:
  ObjectReader& from_;
};

template <class Part>
works::Part read_part(ObjectReader& from) {
  Part part;
  ReadingForm form(from);
  members_of(form, part);
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
      return read_part<works::Base>(from);
    case Kind::footing:
      return read_part<works::Footing>(from);
    case Kind::wall:
      return read_part<works::Wall>(from);
    case Kind::bed:
      return read_part<works::Bed>(from);
    case Kind::path:
      return read_part<works::Path>(from);
    case Kind::steps:
      return read_part<works::Steps>(from);
    case Kind::box:
      break;
  }
  return read_part<works::Box>(from);
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
