#include "part_writer.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "part_members.h"
#include "shared_sections.h"
#include "weatherstruck/files/words.h"

namespace weatherstruck::files {
namespace {

// The form of part_members.h that writes; what a member may be is the reader's affair.
class WritingForm {
 public:
  explicit WritingForm(Json& out) : out_(out) {}

  void needed(std::string_view key, base::Metres value, double /*low*/, double /*high*/) {
    put(key, number(value));
  }
  void needed(std::string_view key, int value, int /*low*/, int /*high*/) { put(key, value); }
  void usual(std::string_view key, base::Metres value, double /*low*/, double /*high*/) {
    put(key, number(value));
  }
  void usual(std::string_view key, int value, int /*low*/, int /*high*/) { put(key, value); }
  void maybe(std::string_view key, const std::optional<base::Metres>& value, double /*low*/,
             double /*high*/) {
    if (value) put(key, number(*value));
  }
  template <class E>
  void word(std::string_view key, E value) {
    put(key, word_for(value));
  }
  void truth(std::string_view key, bool value) { put(key, value); }
  void name(std::string_view key, const works::Name& value) { put(key, value); }
  void side(std::string_view key, std::optional<works::Side> value) {
    put(key, value ? word_for(*value) : "none");
  }
  template <class Item>
  void list(std::string_view key, std::vector<Item>& items, std::size_t /*most*/,
            std::string_view /*shape*/) {
    Json all = Json::array();
    for (Item& item : items) {
      Json one = Json::object();
      WritingForm form(one);
      members_of(form, item);
      all.push_back(std::move(one));
    }
    put(key, std::move(all));
  }

 private:
  void put(std::string_view key, Json value) { out_[std::string(key)] = std::move(value); }

  Json& out_;
};

constexpr const char* kind_of(const works::Footing&) {
  return "footing";
}
constexpr const char* kind_of(const works::Wall&) {
  return "wall";
}
constexpr const char* kind_of(const works::Base&) {
  return "base";
}
constexpr const char* kind_of(const works::Bed&) {
  return "bed";
}
constexpr const char* kind_of(const works::Path&) {
  return "path";
}
constexpr const char* kind_of(const works::Steps&) {
  return "steps";
}
constexpr const char* kind_of(const works::Box&) {
  return "box";
}

works::Importance importance_of(const works::Job& job, const works::Name& part) {
  for (const auto& one : job.importance) {
    if (one.part == part) return one.importance;
  }
  return works::Importance::must;
}

}  // namespace

Json parts_json(const works::Job& job) {
  Json out = Json::array();
  for (works::Part part : job.parts) {  // a copy: a form may also be one that fills the members in
    out.push_back(std::visit(
        [&job](auto& any) {
          Json one = {{"kind", kind_of(any)},
                      {"name", any.name},
                      {"importance", word_for(importance_of(job, any.name))}};
          WritingForm form(one);
          members_of(form, any);
          return one;
        },
        part));
  }
  return out;
}

}  // namespace weatherstruck::files
