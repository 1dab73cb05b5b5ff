#include "job_change.h"

#include <algorithm>
#include <array>
#include <utility>

#include "weatherstruck/works/answer_pieces.h"

namespace weatherstruck::desk {

using works::Refused;

namespace {

/// What he may call a matter, and the keys of its questions: whole, or before or behind the colon.
struct Topic {
  std::string_view word;
  std::vector<std::string_view> keys;
};

const std::vector<Topic>& topics() {
  static const std::vector<Topic> table{{"title", {"title"}},
                                        {"job", {"title"}},
                                        {"name", {"name"}},
                                        {"customer", {"customer"}},
                                        {"place", {"place", "site-clock"}},
                                        {"site", {"place", "site-clock"}},
                                        {"where", {"place", "site-clock"}},
                                        {"clock", {"site-clock"}},
                                        {"drive", {"drive"}},
                                        {"dates", {"leave", "home-by"}},
                                        {"date", {"leave", "home-by"}},
                                        {"days", {"leave", "home-by"}},
                                        {"times", {"leave", "home-by"}},
                                        {"trip", {"leave", "home-by"}},
                                        {"leave", {"leave"}},
                                        {"leaving", {"leave"}},
                                        {"home", {"home-by"}},
                                        {"promise", {"home-by"}},
                                        {"parts", {"parts"}},
                                        {"part", {"parts"}},
                                        {"base", {"base:"}},
                                        {"bed", {"bed:"}},
                                        {"beds", {"bed"}},
                                        {"box", {"box:"}},
                                        {"planter", {"box:"}},
                                        {"steps", {"steps:"}},
                                        {"step", {"steps:"}},
                                        {"path", {"path:"}},
                                        {"plates", {":for"}},
                                        {"plate", {":for"}},
                                        {"size", {":size"}},
                                        {"sizes", {":size"}},
                                        {"door", {":opening"}},
                                        {"opening", {":opening"}},
                                        {"fall", {":fall", ":shape"}},
                                        {"ground", {":fall", ":shape"}},
                                        {"slope", {":fall", ":shape"}},
                                        {"courses", {":courses", ":shape"}},
                                        {"footing", {":footing"}},
                                        {"footings", {":footing"}},
                                        {"concrete", {":footing"}},
                                        {"extras", {"else-"}},
                                        {"extra", {"else-"}},
                                        {"else", {"else-"}},
                                        {"way in", {"way"}},
                                        {"way", {"way"}},
                                        {"access", {"way"}},
                                        {"noise", {"quiet"}},
                                        {"quiet", {"quiet"}},
                                        {"hours", {"quiet"}},
                                        {"mixer", {"quiet"}},
                                        {"merchant", {"merchant"}},
                                        {"delivery", {"delivered"}},
                                        {"deliveries", {"delivered"}},
                                        {"delivered", {"delivered"}},
                                        {"gravel", {"gravel"}},
                                        {"waiting", {"may-wait", "gravel"}},
                                        {"may wait", {"may-wait", "gravel"}},
                                        {"price", {"price"}}};
  return table;
}

bool starts(std::string_view text, std::string_view with) {
  return text.substr(0, with.size()) == with;
}

bool matches(std::string_view key, std::string_view wanted) {
  if (wanted.front() == ':')
    return key.size() > wanted.size() && key.substr(key.size() - wanted.size()) == wanted;
  return starts(key, wanted);
}

std::string without(std::string text) {
  for (const std::string_view opening : {"change ", "the ", "my ", "a "}) {
    if (starts(text, opening)) text = text.substr(opening.size());
  }
  return text;
}

}  // namespace

std::optional<works::Name> part_called(std::string_view words, const std::vector<works::Name>& names) {
  std::string wanted = without(std::string(words));
  std::replace(wanted.begin(), wanted.end(), ' ', '-');
  const auto same = [](std::string_view a, std::string_view b) {
    return a == b || (a.size() == b.size() + 1 && a.substr(0, b.size()) == b && a.back() == 's');
  };
  for (const works::Name& name : names) {
    if (name == wanted) return name;
  }
  for (const works::Name& name : names) {
    if (same(name, wanted) || same(wanted, name)) return name;
  }
  return {};
}

std::string topic_of(std::string_view key) {
  for (const Topic& topic : topics()) {
    for (const std::string_view wanted : topic.keys) {
      const bool whole_part = wanted.back() == ':';
      if (!whole_part && matches(key, wanted)) return std::string(topic.word);
    }
  }
  return std::string(key);
}

bool in_short_form(std::string_view key) {
  constexpr std::array<std::string_view, 8> later{"name",  ":footing", "customer", "quiet",
                                                  "price", "merchant", "gravel",   "way-shut:"};
  return std::none_of(later.begin(), later.end(), [&](std::string_view wanted) {
    if (wanted.front() == ':' || wanted.back() == ':') return matches(key, wanted);
    return key == wanted;
  });
}

works::Answer<std::vector<std::string>> keys_to_change(std::string_view words,
                                                       const std::vector<std::string>& asked,
                                                       const std::map<works::Name, std::string>& part_keys) {
  std::vector<works::Name> names;
  for (const auto& [name, key] : part_keys)
    names.push_back(name);
  std::vector<std::string> keys;
  const auto add = [&](std::string_view wanted) {
    bool any = false;
    for (const std::string& key : asked) {
      if (!matches(key, wanted)) continue;
      any = true;
      if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
    }
    return any;
  };
  bool understood = true;
  for (const std::string& piece : works::pieces_of(words)) {
    const std::string said = without(without(piece));
    bool any = false;
    if (const auto part = part_called(said, names)) {
      any = add(part_keys.at(*part) + ":");
    } else {
      for (const Topic& topic : topics()) {
        if (topic.word != said) continue;
        for (const std::string_view wanted : topic.keys)
          any = add(wanted) || any;
      }
    }
    understood = understood && any;
  }
  if (understood && !keys.empty()) return keys;
  std::string all;
  const auto list = [&](std::string_view word) { all += (all.empty() ? "" : ", ") + std::string(word); };
  for (const Topic& topic : topics()) {
    constexpr std::array<std::string_view, 15> shown{
        "title",   "name",   "customer", "place",  "drive", "dates",    "parts",     "door",
        "footing", "plates", "extras",   "way in", "noise", "merchant", "deliveries"};
    const bool was_asked = std::any_of(asked.begin(), asked.end(), [&](const std::string& key) {
      return std::any_of(topic.keys.begin(), topic.keys.end(),
                         [&](std::string_view wanted) { return matches(key, wanted); });
    });
    if (was_asked && std::find(shown.begin(), shown.end(), topic.word) != shown.end()) list(topic.word);
  }
  for (const works::Name& name : names)
    list(name);
  return Refused{"yes, no, or change and one of " + all};
}

}  // namespace weatherstruck::desk
