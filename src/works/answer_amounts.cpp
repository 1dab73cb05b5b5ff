#include "weatherstruck/works/answer_amounts.h"

#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "answer_tokens.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::works {
namespace {

constexpr double square_foot = foot * foot;
constexpr double litre = 0.001;
// What people call a mixer by: the cement it takes at once. Common practice, no source; shown back as litres.
constexpr double half_bag_metric = 90 * litre;
constexpr double half_bag_feet = 3 * cubic_foot;

constexpr std::array<UnitWord, 13> areas{{{"m2", 1},
                                          {"sqm", 1},
                                          {"sqmetre", 1},
                                          {"sqmeter", 1},
                                          {"squaremetre", 1},
                                          {"squaremeter", 1},
                                          {"sqft", square_foot},
                                          {"ft2", square_foot},
                                          {"sqfeet", square_foot},
                                          {"squarefoot", square_foot},
                                          {"squarefeet", square_foot},
                                          {"sqyd", 9 * square_foot},
                                          {"squareyard", 9 * square_foot}}};
constexpr std::array<UnitWord, 14> volumes{{{"m3", 1},
                                            {"cum", 1},
                                            {"cubicmetre", 1},
                                            {"cubicmeter", 1},
                                            {"cube", 1},
                                            {"l", litre},
                                            {"litre", litre},
                                            {"liter", litre},
                                            {"cuft", cubic_foot},
                                            {"ft3", cubic_foot},
                                            {"cufeet", cubic_foot},
                                            {"cubicfoot", cubic_foot},
                                            {"cubicfeet", cubic_foot},
                                            {"cubicft", cubic_foot}}};
constexpr std::array<UnitWord, 8> masses{{{"kg", 1},
                                          {"kilo", 1},
                                          {"kilogram", 1},
                                          {"t", 1000},
                                          {"tonne", 1000},
                                          {"lb", pound},
                                          {"pound", pound},
                                          {"cwt", 112 * pound}}};
// A ton is near enough a tonne in Britain today; in America it is 2,000 lb.
constexpr double short_ton = 2000 * pound;

bool is_unit(std::string_view said, std::string_view word) {
  return said == word || said == std::string(word) + "s";
}

/// A number with a unit; bare where `bare` says what one is worth, 0: not taken.
std::optional<double> measured(std::string_view text, std::span<const UnitWord> units, double bare) {
  AnswerWalk at = walk_through(text);
  const auto number = spoken_number(at);
  if (!number) return {};
  std::string unit;
  at.take("of");
  for (; !at.at_end(); at.skip()) {
    if (!at.is(".")) unit += at.peek()->text;
  }
  if (unit.empty()) return bare > 0 ? std::optional(*number * bare) : std::nullopt;
  for (const UnitWord& one : units) {
    if (is_unit(unit, one.word)) return *number * one.worth;
  }
  return {};
}

std::string lower_of(std::string_view text) {
  std::string out(trimmed_answer(text));
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

/// Takes one of the endings off, with what stands between; false where it ends otherwise.
bool take_ending(std::string& text, std::span<const std::string_view> endings) {
  for (const std::string_view ending : endings) {
    if (text.size() < ending.size() || text.substr(text.size() - ending.size()) != ending) continue;
    text.resize(text.size() - ending.size());
    text = std::string(trimmed_answer(text));
    return true;
  }
  return false;
}

constexpr std::array<std::string_view, 7> each_day{"a day", "per day", "each day", "/day",
                                                   "/ day", "/d",      "daily"};
constexpr std::array<std::string_view, 7> each_hour{"an hour", "per hour", "each hour", "/hour",
                                                    "/ hour",  "/h",       "/hr"};
constexpr std::array<std::string_view, 5> each_mile{"a mile", "per mile", "each mile", "/mile", "/ mile"};

/// Lengths with "x" or "by" between them, multiplied; nullopt unless there are `many`.
std::optional<double> product(std::string_view text, std::size_t many, Measure measure) {
  std::string rest(lower_of(text));
  for (std::size_t at = rest.find(" by "); at != std::string::npos; at = rest.find(" by "))
    rest.replace(at, 4, " x ");
  for (std::size_t at = rest.find("\xC3\x97"); at != std::string::npos; at = rest.find("\xC3\x97"))
    rest.replace(at, 2, "x");
  std::vector<std::string> sides(1);
  for (const char c : rest) {
    if (c == 'x') {
      sides.emplace_back();
    } else {
      sides.back() += c;
    }
  }
  if (sides.size() != many) return {};
  // A unit said once, at the end, is that of all.
  const std::string_view last = trimmed_answer(sides.back());
  const std::size_t digits = last.find_first_not_of("0123456789. ");
  const std::string unit = digits == std::string_view::npos ? "" : std::string(last.substr(digits));
  double all = 1;
  for (std::string& side : sides) {
    if (side.find_first_not_of("0123456789. ") == std::string::npos) side += " " + unit;
    const auto length = length_answer(side, {0.05, 500}, measure);
    const auto* metres = std::get_if<base::Metres>(&length);
    if (metres == nullptr) return {};
    all *= metres->value();
  }
  return all;
}

}  // namespace

Answer<base::SquareMetres> area_answer(std::string_view text, Measure measure) {
  const bool feet = measure == Measure::feet;
  const std::string said = feet ? "an area up to 10,000 sq ft, such as 200 sq ft or 30 x 6 ft, or none"
                                : "an area up to 1000 m2, such as 20 m2 or 10 x 2 m, or none";
  if (says_none(text)) return base::SquareMetres(0);
  if (lower_of(text).find("roll") != std::string::npos)
    return Refused{said, "Rolls differ: say what it covers."};
  // "two 4 x 3 m", "2 of 4 x 3 m".
  AnswerWalk at = walk_through(text);
  double count = 1;
  std::string_view each = text;
  std::optional<double> number;
  if (const auto figure = at.number()) {
    if (figure->whole) number = figure->value;
  } else if (const auto word = at.word()) {
    number = spelt_number(*word);
  }
  if (number && *number <= 20 && (at.is_number() || at.is("of"))) {
    at.take("of");
    if (const std::size_t rest = text.find_first_of("0123456789", text.find_first_of(' '));
        rest < text.size()) {
      count = *number;
      each = text.substr(rest);
    }
  }
  std::optional<double> area = product(each, 2, measure);
  if (area) area = *area * count;
  if (!area) area = measured(text, areas, feet ? square_foot : 1.0);
  if (!area || *area > 1000) return Refused{said};
  return base::SquareMetres(*area);
}

Answer<base::Kilograms> load_answer(std::string_view text, Measure measure) {
  const bool feet = measure == Measure::feet;
  std::optional<double> mass = measured(text, masses, feet ? pound : 1.0);
  constexpr std::array<UnitWord, 1> british{{{"ton", 1000}}};
  constexpr std::array<UnitWord, 1> american{{{"ton", short_ton}}};
  if (!mass) mass = measured(text, feet ? american : british, 0);
  if (!mass || *mass < 50 - 1e-9 || *mass > 20000)
    return Refused{feet ? "a load from 110 to 44,000 lb, such as 2000 lb or a ton"
                        : "a load from 50 to 20000 kg, such as 1100 kg or 1.1 t"};
  return base::Kilograms(*mass);
}

Answer<base::CubicMetres> room_answer(std::string_view text, Measure measure) {
  const bool feet = measure == Measure::feet;
  std::optional<double> room = product(text, 3, measure);
  if (!room) room = measured(text, volumes, feet ? cubic_foot : 1.0);
  if (!room || *room < 0.2 - 1e-9 || *room > 60)
    return Refused{feet ? "room from 7 to 2100 cu ft, such as 200 cu ft or 8 x 5 x 5 ft"
                        : "room from 0.2 to 60 m3, such as 6 m3 or 2.5 x 1.7 x 1.4 m"};
  return base::CubicMetres(std::round(*room * 1e6) / 1e6);
}

Answer<base::CubicMetres> mixer_answer(std::string_view text, Measure measure) {
  const bool feet = measure == Measure::feet;
  std::string said = lower_of(text);
  if (said.size() > 6 && said.substr(said.size() - 6) == " mixer") said.resize(said.size() - 6);
  if (says_none(said) || said == "by hand" || said == "hand") return base::CubicMetres(0);
  const double half_bag = feet ? half_bag_feet : half_bag_metric;
  for (char& c : said) {
    if (c == '-') c = ' ';
  }
  if (said == "half bag" || said == "half a bag" || said == "1/2 bag") return base::CubicMetres(half_bag);
  if (said == "one bag" || said == "a bag" || said == "1 bag" || said == "full bag")
    return base::CubicMetres(2 * half_bag);
  const auto bare = base::parse_number(said);
  std::optional<double> volume = measured(text, volumes, feet && bare && *bare <= 18 ? cubic_foot : litre);
  if (!volume || *volume < 20 * litre - 1e-9 || *volume > 500 * litre + 1e-9)
    return Refused{feet ? "a batch from 0.7 to 17.6 cu ft, such as 3 cu ft or 90 litres, or none"
                        : "litres from 20 to 500, such as 90 litres, 3 cu ft or half bag, or none"};
  return base::CubicMetres(std::round(*volume * 1e6) / 1e6);
}

Answer<double> bricks_answer(std::string_view text, double low, double high) {
  std::string said = lower_of(text);
  const bool by_day = take_ending(said, each_day);
  if (!by_day) take_ending(said, each_hour);
  constexpr std::array<UnitWord, 1> units{{{"brick", 1}}};
  auto number = measured(said, units, 1);
  if (number && by_day) *number /= hours_of_a_days_rate;
  if (!number || *number < low || *number > high)
    return Refused{"bricks an hour from " + base::plain_number(low, 0) + " to " +
                   base::plain_number(high, 0) +
                   ", such as 50; or those of a day of 8 hours, such as 400 a day"};
  return *number;
}

Answer<std::optional<base::Money>> hourly_answer(std::string_view text, const base::Currency& usual) {
  if (says_none(text)) return std::optional<base::Money>();
  std::string said = lower_of(text);
  const bool by_day = take_ending(said, each_day);
  if (!by_day) take_ending(said, each_hour);
  const auto money = money_answer(said, usual);
  const auto* value = std::get_if<base::Money>(&money);
  if (value == nullptr)
    return Refused{"an amount of " + usual.code() +
                   " for an hour, such as 38 or 34.50, or for a day of 8 hours, such as 220 a day; or none"};
  if (value->minor() == 0) return std::optional<base::Money>();
  if (!by_day) return std::optional(*value);
  return std::optional(
      base::Money(std::llround(static_cast<double>(value->minor()) / hours_of_a_days_rate), usual));
}

Answer<std::optional<base::Money>> mileage_answer(std::string_view text, const base::Currency& usual) {
  if (says_none(text)) return std::optional<base::Money>();
  std::string said = lower_of(text);
  take_ending(said, each_mile);
  const auto money = money_answer(said, usual);
  const auto* value = std::get_if<base::Money>(&money);
  if (value == nullptr)
    return Refused{"an amount of " + usual.code() + " for a mile, such as 0.45" +
                   (usual.code() == "GBP" ? " or 45p" : "") + ", or none"};
  return value->minor() == 0 ? std::optional<base::Money>() : std::optional(*value);
}

}  // namespace weatherstruck::works
