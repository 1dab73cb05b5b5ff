#include "member_change.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "part_choices.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::files {
namespace {

using base::Fault;

constexpr double whole_millimetres = 1000;

/// A word that says which way and may stand for the member: "higher" is more courses.
struct Way {
  std::string_view word;
  int sign;
  std::array<std::string_view, 2> keys;  ///< the first that the part has; empty: the member is named
};
constexpr std::array<Way, 14> ways{{{"more", 1, {}},
                                    {"less", -1, {}},
                                    {"fewer", -1, {}},
                                    {"higher", 1, {"courses"}},
                                    {"taller", 1, {"courses"}},
                                    {"lower", -1, {"courses"}},
                                    {"longer", 1, {"length"}},
                                    {"shorter", -1, {"length"}},
                                    {"wider", 1, {"width"}},
                                    {"narrower", -1, {"width"}},
                                    {"deeper", 1, {"footing_depth", "depth"}},
                                    {"shallower", -1, {"footing_depth", "depth"}},
                                    {"thicker", 1, {"footing_thickness", "thickness"}},
                                    {"thinner", -1, {"footing_thickness", "thickness"}}}};

/// What people call a member beside its key.
struct Alias {
  std::string_view word;
  std::string_view key;
};
constexpr std::array<Alias, 4> aliases{
    {{"door", "door_side"}, {"steps", "count"}, {"step", "count"}, {"flag", "surface"}}};

class MemberChange {
 public:
  MemberChange(works::Job& job, Words rest, const std::string& text)
      : job_(job), rest_(std::move(rest)), text_(text) {}

  std::variant<Alteration, Fault> make(const works::Name& name) {
    const auto at = std::find_if(job_.parts.begin(), job_.parts.end(),
                                 [&](const works::Part& part) { return works::name_of(part) == name; });
    const std::vector<Choice> choices = choices_of(*at);
    const Words said = rest_;
    const Choice* choice = take_key(choices);
    int sign = take_way(choices, choice);
    bool exactly = false;
    if (!rest_.empty() && rest_[0] == "to") {
      exactly = true;
      rest_.erase(rest_.begin());
    }
    if (choice == nullptr) {
      std::vector<const Choice*> fit;
      for (const Choice& one : choices) {
        if (one.kind == Choice::Kind::word && word_of(one, rest_)) fit.push_back(&one);
      }
      if (fit.size() > 1) {
        std::string text;
        for (const Choice* one : fit)
          text += (text.empty() ? "" : " or ") + spaced(one->key);
        return fault("unclear-change", joined(rest_), text + " before it",
                     fmt::format("Say \"{} {} {}\".", name, spaced(fit.front()->key), joined(rest_, '-')));
      }
      if (fit.size() == 1) choice = fit.front();
    }
    // "steps 4": of a flight nothing else is counted, and its name says what.
    if (choice == nullptr && choices.front().key == "count" && rest_.size() == 1) choice = &choices.front();
    if (choice == nullptr || rest_.empty())
      return fault("unclear-change",
                   said.empty() ? "nothing said of the " + name : "\"" + joined(said) + "\"",
                   all_of(choices, *at), change_example());
    if (choice->kind == Choice::Kind::word || choice->kind == Choice::Kind::truth)
      return put_word(name, *choice);
    std::string value = joined(rest_);
    if (!exactly && sign == 0 && (value[0] == '+' || value[0] == '-')) {
      sign = value[0] == '+' ? 1 : -1;
      value.erase(0, 1);
    }
    return put_number(name, *choice, sign, value);
  }

 private:
  Fault fault(std::string code, std::string found, std::string allowed, std::string remedy) const {
    return {std::move(code), "\"" + text_ + "\"", std::move(found), std::move(allowed), std::move(remedy)};
  }

  /// What may be changed on the part, and to what.
  static std::string all_of(const std::vector<Choice>& choices, const works::Part& part) {
    std::string text;
    for (const Choice& choice : choices)
      text += fmt::format("{}{} {} (is {})", text.empty() ? "" : "; ", spaced(choice.key), choice.allowed(),
                          choice.now);
    text += "; must, should or may";
    if (std::holds_alternative<works::Base>(part) || std::holds_alternative<works::Bed>(part))
      text += "; turn";
    return text;
  }

  /// Takes the words that name a member out of the rest.
  const Choice* take_key(const std::vector<Choice>& choices) {
    const Choice* best = nullptr;
    std::size_t from = 0;
    std::size_t length = 0;
    const auto consider = [&](const Choice& choice, const std::string& phrase) {
      const Words wanted = words_in(phrase);
      for (std::size_t i = 0; i + wanted.size() <= rest_.size(); ++i) {
        if (wanted.size() <= length) return;
        if (!std::equal(wanted.begin(), wanted.end(), rest_.begin() + static_cast<std::ptrdiff_t>(i)))
          continue;
        best = &choice;
        from = i;
        length = wanted.size();
      }
    };
    for (const Choice& choice : choices) {
      consider(choice, choice.key);
      consider(choice, spaced(choice.key));
      if (choice.key.back() == 's') consider(choice, choice.key.substr(0, choice.key.size() - 1));
    }
    for (const Alias& alias : aliases) {
      for (const Choice& choice : choices) {
        if (choice.key == alias.key) consider(choice, std::string(alias.word));
      }
    }
    if (best != nullptr) {
      const auto begin = rest_.begin() + static_cast<std::ptrdiff_t>(from);
      rest_.erase(begin, begin + static_cast<std::ptrdiff_t>(length));
    }
    return best;
  }

  /// Takes the word that says which way; 0 where there is none.
  int take_way(const std::vector<Choice>& choices, const Choice*& choice) {
    for (const Way& way : ways) {
      const auto found = std::find(rest_.begin(), rest_.end(), way.word);
      if (found == rest_.end()) continue;
      for (std::size_t k = 0; choice == nullptr && k < way.keys.size(); ++k) {
        for (const Choice& one : choices) {
          if (one.key == way.keys[k]) choice = &one;
        }
      }
      rest_.erase(found);
      return way.sign;
    }
    return 0;
  }

  /// A word of a closed list, "engineering b" too; as its place in the list.
  static std::optional<std::size_t> word_of(const Choice& choice, const Words& rest) {
    const std::string dashed = joined(rest, '-');
    const auto found = std::find(choice.words.begin(), choice.words.end(), dashed);
    if (found == choice.words.end()) return {};
    return static_cast<std::size_t>(found - choice.words.begin());
  }

  std::variant<Alteration, Fault> put_word(const works::Name& name, const Choice& choice) const {
    std::optional<std::size_t> place;
    const std::string value = joined(rest_);
    if (choice.kind == Choice::Kind::truth) {
      const auto yes = works::yes_no_answer(value);
      if (const bool* is = std::get_if<bool>(&yes)) place = *is ? 1 : 0;
    } else {
      place = word_of(choice, rest_);
    }
    if (!place)
      return fault("bad-word", "\"" + value + "\"",
                   fmt::format("{} of the {}: {}", spaced(choice.key), name, choice.allowed()),
                   "Say one of them.");
    const std::string becomes =
        choice.kind == Choice::Kind::truth ? (*place == 1 ? "yes" : "no") : choice.words[*place];
    if (becomes == choice.now) return no_change(text_, name, choice.key, choice.now);
    choice.put_word(*place);
    return Alteration{name, choice.key,
                      fmt::format("{}: {} {} instead of {}", name, spaced(choice.key), becomes, choice.now)};
  }

  /// A bare amount, more than there is (sign 1), less (-1), or that much (0).
  std::optional<double> amount_of(const Choice& choice, int sign, const std::string& value) const {
    const double low = sign == 0 ? choice.low : choice.kind == Choice::Kind::count ? 1 : 0.001;
    const double high = sign == 0 ? choice.high : std::max(choice.high - choice.low, low);
    if (choice.kind == Choice::Kind::count) {
      const auto count = works::count_answer(value, static_cast<int>(low), static_cast<int>(high), "");
      if (const int* number = std::get_if<int>(&count)) return *number;
      return {};
    }
    // A fall may be the other way; a length as people say it has no sign.
    const bool minus = sign == 0 && value[0] == '-';
    const works::Measure measure =
        job_.limits.set == trade::LimitSet::us ? works::Measure::feet : works::Measure::metric;
    const auto length = works::length_answer(minus ? value.substr(1) : value,
                                             {minus ? 0 : std::max(0.0, low), minus ? -low : high}, measure);
    if (const base::Metres* metres = std::get_if<base::Metres>(&length))
      return minus ? -metres->value() : metres->value();
    return {};
  }

  std::variant<Alteration, Fault> put_number(const works::Name& name, const Choice& choice, int sign,
                                             const std::string& value) const {
    const std::string may_be =
        fmt::format("{} of the {}: {} (is {})", spaced(choice.key), name, choice.allowed(), choice.now);
    if (choice.may_lack && sign == 0 && works::says_none(value)) {
      if (!choice.number) return no_change(text_, name, choice.key, choice.now);
      choice.put_number(std::nullopt);
      return Alteration{name, choice.key,
                        fmt::format("{}: no {} instead of {}", name, spaced(choice.key), choice.now)};
    }
    const std::optional<double> amount = amount_of(choice, sign, value);
    if (!amount || (sign != 0 && !choice.number))
      return fault("out-of-range", "\"" + value + "\"", may_be, "Say another figure.");
    double becomes = *amount;
    if (sign != 0)
      becomes =
          std::round((choice.number.value_or(0) + sign * *amount) * whole_millimetres) / whole_millimetres;
    const bool count = choice.kind == Choice::Kind::count;
    const std::string text = base::plain_number(becomes, 3) + (count ? "" : " m");
    if (becomes < choice.low - 1e-9 || becomes > choice.high + 1e-9)
      return fault("out-of-range", text, may_be, "Say another figure.");
    if (text == choice.now) return no_change(text_, name, choice.key, choice.now);
    choice.put_number(becomes);
    return Alteration{name, choice.key,
                      fmt::format("{}: {} {} instead of {}", name, spaced(choice.key), text, choice.now)};
  }

  works::Job& job_;
  Words rest_;
  const std::string& text_;
};

}  // namespace

Fault no_change(const std::string& text, const works::Name& part, const std::string& key,
                const std::string& now) {
  return {"no-change", "\"" + text + "\"", fmt::format("{} of the {} is {} already", spaced(key), part, now),
          "another than it is", "Say what it is to become."};
}

std::variant<Alteration, Fault> change_member(works::Job& job, const works::Name& part, Words rest,
                                              const std::string& text) {
  return MemberChange(job, std::move(rest), text).make(part);
}

}  // namespace weatherstruck::files
