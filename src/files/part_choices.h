#pragma once
// What of a part may be changed, each member with what it may be and what it is: the form of part_members.h
// that lays the members open one by one.
#include <fmt/format.h>

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "part_members.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/words.h"

namespace weatherstruck::files {

struct Choice {
  enum class Kind { count, length, word, truth };
  std::string key;
  Kind kind = Kind::word;
  double low = 0;                                         ///< of a count or a length, metres
  double high = 0;                                        ///< likewise
  bool may_lack = false;                                  ///< a length that may be none
  std::vector<std::string> words;                         ///< of `word`
  std::optional<double> number;                           ///< what it is, of a count or a length
  std::string now;                                        ///< the same in words
  std::function<void(std::optional<double>)> put_number;  ///< of a count or a length
  std::function<void(std::size_t)> put_word;              ///< of a word; of a truth 0 is no and 1 yes

  /// "1 to 20", "0.5 to 60 m", "flags or gravel", "yes or no".
  [[nodiscard]] std::string allowed() const {
    if (kind == Kind::truth) return "yes or no";
    std::string text;
    if (kind == Kind::word) {
      for (std::size_t i = 0; i < words.size(); ++i)
        text += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + words[i];
      return text;
    }
    text = base::plain_number(low, 3) + " to " + base::plain_number(high, 3);
    if (kind == Kind::length) text += " m";
    return may_lack ? text + " or none" : text;
  }
};

/// The form; lists and names (piers, openings, footing of a wall) are not for a few words and left out.
class ChoiceForm {
 public:
  explicit ChoiceForm(std::vector<Choice>& out) : out_(out) {}

  void needed(std::string_view key, base::Metres& m, double low, double high) { length(key, m, low, high); }
  void needed(std::string_view key, int& m, int low, int high) { count(key, m, low, high); }
  void usual(std::string_view key, base::Metres& m, double low, double high) { length(key, m, low, high); }
  void usual(std::string_view key, int& m, int low, int high) { count(key, m, low, high); }
  void maybe(std::string_view key, std::optional<base::Metres>& m, double low, double high) {
    Choice& one = add(key, Choice::Kind::length, m ? metres(*m) : "none");
    one.low = low;
    one.high = high;
    one.may_lack = true;
    if (m) one.number = m->value();
    one.put_number = [&m](std::optional<double> value) {
      m = value ? std::optional(base::Metres(*value)) : std::nullopt;
    };
  }
  template <class E>
  void word(std::string_view key, E& m) {
    Choice& one = add(key, Choice::Kind::word, word_for(m));
    for (const auto& known : words_of<E>())
      one.words.emplace_back(known.text);
    one.put_word = [&m](std::size_t i) { m = words_of<E>()[i].value; };
  }
  void truth(std::string_view key, bool& m) {
    add(key, Choice::Kind::truth, m ? "yes" : "no").put_word = [&m](std::size_t i) { m = i == 1; };
  }
  void side(std::string_view key, std::optional<works::Side>& m) {
    Choice& one = add(key, Choice::Kind::word, m ? word_for(*m) : "none");
    for (const auto& known : words_of<works::Side>())
      one.words.emplace_back(known.text);
    one.words.emplace_back("none");
    one.put_word = [&m](std::size_t i) {
      const auto sides = words_of<works::Side>();
      m = i < sides.size() ? std::optional(sides[i].value) : std::nullopt;
    };
  }
  void name(std::string_view /*key*/, works::Name& /*m*/) {}
  template <class Item>
  void list(std::string_view /*key*/, std::vector<Item>& /*items*/, std::size_t /*most*/,
            std::string_view /*shape*/) {}

 private:
  static std::string metres(base::Metres m) { return base::plain_number(m.value(), 3) + " m"; }
  Choice& add(std::string_view key, Choice::Kind kind, std::string now) {
    Choice one;
    one.key = key;
    one.kind = kind;
    one.now = std::move(now);
    return out_.emplace_back(std::move(one));
  }
  void length(std::string_view key, base::Metres& m, double low, double high) {
    Choice& one = add(key, Choice::Kind::length, metres(m));
    one.low = low;
    one.high = high;
    one.number = m.value();
    one.put_number = [&m](std::optional<double> value) { m = base::Metres(value.value_or(0)); };
  }
  void count(std::string_view key, int& m, int low, int high) {
    Choice& one = add(key, Choice::Kind::count, std::to_string(m));
    one.low = low;
    one.high = high;
    one.number = m;
    one.put_number = [&m](std::optional<double> value) { m = static_cast<int>(value.value_or(0)); };
  }

  std::vector<Choice>& out_;
};

/// `part` must outlive them.
[[nodiscard]] inline std::vector<Choice> choices_of(works::Part& part) {
  std::vector<Choice> out;
  ChoiceForm form(out);
  std::visit([&](auto& any) { members_of(form, any); }, part);
  return out;
}

}  // namespace weatherstruck::files
