#include "weatherstruck/works/amount_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string_view>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::works {
namespace {

struct UnitWord {
  std::string_view word;
  std::string_view unit;
};
constexpr std::array<UnitWord, 34> unit_words{{{"m3", "m3"},
                                               {"cube", "m3"},
                                               {"cubes", "m3"},
                                               {"m2", "m2"},
                                               {"m", "m"},
                                               {"metre", "m"},
                                               {"metres", "m"},
                                               {"meter", "m"},
                                               {"meters", "m"},
                                               {"brick", "bricks"},
                                               {"bricks", "bricks"},
                                               {"flag", "flags"},
                                               {"flags", "flags"},
                                               {"load", "loads"},
                                               {"loads", "loads"},
                                               {"barrows", "loads"},
                                               {"barrowloads", "loads"},
                                               {"step", "steps"},
                                               {"steps", "steps"},
                                               {"strap", "straps"},
                                               {"straps", "straps"},
                                               {"t", "t"},
                                               {"tonne", "t"},
                                               {"tonnes", "t"},
                                               {"hour", "hours"},
                                               {"hours", "hours"},
                                               {"kg", "kg"},
                                               {"kilos", "kg"},
                                               {"litre", "litres"},
                                               {"litres", "litres"},
                                               {"bag", "bag"},
                                               {"bags", "bag"},
                                               {"pack", "pack"},
                                               {"packs", "pack"}}};
constexpr std::array<UnitWord, 9> pack_words{{{"roll", "roll"},
                                              {"rolls", "roll"},
                                              {"length", "length"},
                                              {"lengths", "length"},
                                              {"box", "box"},
                                              {"boxes", "box"},
                                              {"can", "can"},
                                              {"cans", "can"},
                                              {"each", "each"}}};

template <std::size_t N>
std::string unit_named(const std::array<UnitWord, N>& table, std::string_view word) {
  for (const UnitWord& row : table) {
    if (row.word == word) return std::string(row.unit);
  }
  return "";
}

/// The unit at word i, and how many words it takes.
std::pair<std::string, std::size_t> unit_at(const WordList& words, std::size_t i) {
  if (words.is(i, {"cubic"}) && unit_named(unit_words, words.text(i + 1)) == "m") return {"m3", 2};
  if (words.is(i, {"square"}) && unit_named(unit_words, words.text(i + 1)) == "m") return {"m2", 2};
  if (words.is(i, {"bulk"}) && unit_named(unit_words, words.text(i + 1)) == "bag") return {"bulk bag", 2};
  return {unit_named(unit_words, words.text(i)), 1};
}

bool is_count(double value) {
  return value >= 1 && value <= 1000 && value == std::floor(value);
}

struct Found {
  Amount amount;
  std::size_t first;
  std::size_t count;
  std::size_t also = 0;  ///< another word used, 0: none (the first word is never one)
};

std::optional<Found> amount_at(const WordList& words, std::size_t i) {
  const auto number = words.number(i);
  if (words.is(i, {"another", "a"}) && words.is(i + 1, {"course"})) return Found{Courses{1}, i, 2};
  if (words.is(i, {"a"}) && words.is(i + 1, {"couple"})) {
    const std::size_t at = words.is(i + 2, {"of"}) ? i + 3 : i + 2;
    if (words.is(at, {"courses"})) return Found{Courses{2}, i, at + 1 - i};
  }
  if (words.is(i, {"half"}) && !words.is(i + 1, {"height", "past"}))
    return Found{Share{base::Fraction(0.5)}, i, 1};
  if (words.is(i, {"quarter", "third"})) {
    return Found{Share{base::Fraction(words.is(i, {"quarter"}) ? 0.25 : 1.0 / 3.0)}, i, 1};
  }
  if (!number) return std::nullopt;
  if (words.is(i + 1, {"quarters", "thirds"})) {
    const double parts = words.is(i + 1, {"quarters"}) ? 4 : 3;
    if (*number <= parts) return Found{Share{base::Fraction(*number / parts)}, i, 2};
  }
  std::size_t next = i + 1;
  if (words.is(next, {"more"})) ++next;
  if (words.is(next, {"course", "courses"}) && is_count(*number)) {
    return Found{Courses{static_cast<int>(*number)}, i, next + 1 - i};
  }
  if (words.is(next, {"%", "percent"}) && *number <= 100)
    return Found{Share{base::Fraction(*number / 100)}, i, 2};
  if (words.is(next, {"per"}) && words.is(next + 1, {"cent"}) && *number <= 100) {
    return Found{Share{base::Fraction(*number / 100)}, i, next + 2 - i};
  }
  if (*number <= 0) return std::nullopt;
  if (words.is(next, {"facing", "engineering", "common"}) && words.is(next + 1, {"bricks", "brick"})) {
    return Found{Measured{*number, "bricks"}, i, next - i, next + 1};
  }
  const auto [unit, count] = unit_at(words, next);
  if (!unit.empty()) return Found{Measured{*number, unit}, i, next + count - i};
  return std::nullopt;
}

/// Whole minor units from what stands there; nullopt where the currency has no such amount.
std::optional<std::int64_t> minor_units(const Word& word, int decimals) {
  std::string text = word.text;
  text.erase(std::remove(text.begin(), text.end(), ','), text.end());
  if (!word.figure) {
    if (!word.number) return std::nullopt;
    text = base::plain_number(*word.number, 0);
  }
  const std::size_t point = text.find('.');
  std::string whole = text.substr(0, point);
  std::string part = point == std::string::npos ? "" : text.substr(point + 1);
  if (part.size() > static_cast<std::size_t>(decimals)) return std::nullopt;
  part.resize(static_cast<std::size_t>(decimals), '0');
  std::int64_t minor = 0;
  for (const char c : whole + part) {
    if (c < '0' || c > '9' || minor > (std::numeric_limits<std::int64_t>::max() - 9) / 10)
      return std::nullopt;
    minor = minor * 10 + (c - '0');
  }
  return minor;
}

std::optional<base::Currency> currency_of(std::string_view word, const base::Currency& usual) {
  if (word == "\xc2\xa3" || word == "pounds" || word == "pound" || word == "quid")
    return base::Currency::from_code("GBP");
  if (word == "\xe2\x82\xac" || word == "euros" || word == "euro") return base::Currency::from_code("EUR");
  if (word == "$" || word == "dollars" || word == "dollar") {
    // Many lands have dollars; the one at home is meant.
    return usual.code()[2] == 'D' ? usual : base::Currency::from_code("USD");
  }
  if (word.size() != 3) return std::nullopt;
  std::string code;
  for (const char c : word)
    code += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  return base::Currency::from_code(code);
}

}  // namespace

std::optional<Amount> take_amount(WordList& words) {
  std::optional<Found> found;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto here = amount_at(words, i);
    if (!here) continue;
    if (found) return std::nullopt;
    found = here;
    i += here->count - 1;
  }
  if (found) {
    words.use(found->first, found->count);
    if (found->also != 0) words.use(found->also);
    return found->amount;
  }
  if (words.take({"all", "everything", "whole"})) return Amount(Whole{});
  return std::nullopt;
}

MoneyRead take_money(WordList& words, const base::Currency& usual, bool bare) {
  MoneyRead result;
  std::size_t first = 0;
  std::size_t count = 0;
  const auto note = [&](std::size_t at, std::size_t length, std::size_t number,
                        const base::Currency& currency) {
    if (count > 0) {
      result.more_than_one = true;
      return;
    }
    first = at;
    count = length;
    const auto minor = minor_units(words.at(number), currency.decimals());
    if (minor) {
      result.money = base::Money(*minor, currency);
    } else {
      result.fault = words.at(number).text + " is no amount of " + currency.code();
    }
  };
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words.number(i + 1)) {
      const auto sign = words.text(i).size() <= 3 && !words.is(i, {"all"}) ? currency_of(words.text(i), usual)
                                                                           : std::nullopt;
      const bool before = words.is(i, {"$", "\xc2\xa3", "\xe2\x82\xac"});
      if (sign && before) {
        note(i, 2, i + 1, *sign);
        ++i;
        continue;
      }
    }
    if (!words.number(i)) continue;
    if (const auto currency = currency_of(words.text(i + 1), usual)) {
      note(i, 2, i, *currency);
      ++i;
    }
  }
  if (count == 0 && bare) {
    for (std::size_t i = 0; i < words.size(); ++i) {
      const bool measured = !unit_at(words, i + 1).first.empty();
      if (words.number(i) && words.at(i).figure && !measured) note(i, 1, i, usual);
    }
  }
  if (count > 0 && !result.more_than_one) words.use(first, count);
  if (result.more_than_one) result.money.reset();
  return result;
}

std::optional<Counted> take_counted(WordList& words) {
  std::optional<std::size_t> place;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!words.number(i)) continue;
    if (place) return std::nullopt;
    place = i;
  }
  if (!place) {
    if (!words.take({"no", "none"})) return std::nullopt;
    return Counted{0, ""};
  }
  Counted counted{*words.number(*place), ""};
  auto [unit, count] = unit_at(words, *place + 1);
  if (unit.empty()) unit = unit_named(pack_words, words.text(*place + 1));
  words.use(*place);
  // "60 bricks" and "12 flags" name the thing as well as its unit.
  if (!unit.empty() && unit != "bricks" && unit != "flags") {
    counted.unit = unit;
    words.use(*place + 1, count);
  }
  return counted;
}

std::optional<double> in_table_unit(const Counted& counted, const std::string& material) {
  const trade::Material* row = trade::find_material(material);
  if (row == nullptr) return std::nullopt;
  if (counted.number == 0) return 0.0;
  const bool by_piece = row->unit == "bricks" || row->unit == "flags" || row->unit == "each";
  if (counted.unit.empty()) return by_piece ? std::optional(counted.number) : std::nullopt;
  if (counted.unit == row->unit) return counted.number;
  if (counted.unit == row->small_pack && row->small_pack_size > 0)
    return counted.number * row->small_pack_size;
  if (counted.unit == row->pack) return counted.number * row->pack_size;
  if (counted.unit == "kg") return counted.number / row->kg_per_unit;
  if (counted.unit == "t") return counted.number * 1000 / row->kg_per_unit;
  return std::nullopt;
}

}  // namespace weatherstruck::works
