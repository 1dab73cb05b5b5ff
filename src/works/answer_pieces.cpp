#include "weatherstruck/works/answer_pieces.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>

#include "answer_tokens.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::works {
namespace {

using base::Metres;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ' || c == '\t') {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

/// Takes out every word of the list; whether there was one.
bool take_words(std::vector<std::string>& words, std::initializer_list<std::string_view> list) {
  const auto in_list = [&](const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  const auto end = std::remove_if(words.begin(), words.end(), in_list);
  const bool any = end != words.end();
  words.erase(end, words.end());
  return any;
}

/// "Left to right" goes to the right: of two sides with "to" between them the first says no more.
void keep_far_side(std::vector<std::string>& words) {
  constexpr std::array<std::string_view, 4> sides{"left", "right", "front", "back"};
  const auto is_side = [&](const std::string& word) {
    return std::find(sides.begin(), sides.end(), word) != sides.end();
  };
  for (std::size_t i = 0; i + 2 < words.size(); ++i) {
    if (!is_side(words[i]) || words[i + 1] != "to" || !is_side(words[i + 2])) continue;
    words.erase(words.begin() + static_cast<std::ptrdiff_t>(i));
    return;
  }
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : " ") + word;
  return text;
}

/// A length that the words are, with fillers left off.
std::optional<Metres> length_in(std::vector<std::string> words, LengthRange range, Measure measure) {
  take_words(words, {"the", "at", "its", "it", "is", "of", "place", "about"});
  const auto answer = length_answer(joined(words), range, measure);
  const Metres* length = std::get_if<Metres>(&answer);
  return length == nullptr ? std::nullopt : std::optional(*length);
}

std::optional<int> count_in(std::vector<std::string> words, int low, int high) {
  take_words(words, {"the", "of", "its", "built", "showing"});
  const auto answer = count_answer(joined(words), low, high, "");
  const int* count = std::get_if<int>(&answer);
  return count == nullptr ? std::nullopt : std::optional(*count);
}

}  // namespace

std::vector<std::string> pieces_of(std::string_view text) {
  std::vector<std::string> out(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool thousands = c == ',' && i > 0 && is_digit(text[i - 1]) && i + 3 < text.size() &&
                           is_digit(text[i + 1]) && is_digit(text[i + 2]) && is_digit(text[i + 3]) &&
                           (i + 4 == text.size() || !is_digit(text[i + 4]));
    if ((c == ',' && !thousands) || c == ';') {
      out.emplace_back();
    } else {
      out.back() += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  std::vector<std::string> pieces;
  for (const std::string& part : out) {
    std::vector<std::string> piece;
    const auto close = [&] {
      if (!piece.empty()) pieces.push_back(joined(piece));
      piece.clear();
    };
    for (const std::string& word : words_of(part)) {
      if (word == "and" || word == "&") {
        close();
      } else {
        piece.push_back(word);
      }
    }
    close();
  }
  return pieces;
}

Answer<StripSize> strip_answer(std::string_view text, const StripSize& usual, Measure measure) {
  const bool feet = measure == Measure::feet;
  const Refused refused{
      feet ? "width, thickness and depth, or those that differ, such as 16 in wide, 8 in thick, 18 in deep"
           : "width, thickness and depth, or those that differ, such as 450 mm wide, 200 thick, 450 deep"};
  const std::vector<std::string> pieces = pieces_of(text);
  if (pieces.empty()) return refused;
  StripSize out = usual;
  std::array<bool, 3> given{};
  for (const std::string& piece : pieces) {
    std::vector<std::string> words = words_of(piece);
    const bool wide = take_words(words, {"wide", "width", "across"});
    const bool thick = take_words(words, {"thick", "thickness", "concrete"});
    const bool deep = take_words(words, {"deep", "depth", "down"});
    if ((wide ? 1 : 0) + (thick ? 1 : 0) + (deep ? 1 : 0) != 1) return refused;
    const std::size_t which = wide ? 0 : thick ? 1 : 2;
    constexpr std::array<LengthRange, 3> ranges{{{0.2, 1.5}, {0.1, 1}, {0.1, 2}}};
    const auto length = length_in(words, ranges[which], measure);
    if (given[which]) return refused;
    if (!length)
      return Refused{(wide    ? "a width of "
                      : thick ? "a thickness of "
                              : "a depth of ") +
                     length_text(Metres(ranges[which].low), measure) + " to " +
                     length_text(Metres(ranges[which].high), measure)};
    given[which] = true;
    (wide ? out.width : thick ? out.thickness : out.depth) = *length;
  }
  if (out.depth < out.thickness)
    return Refused{"a depth of " + length_text(out.thickness, measure) + " or more",
                   "The depth is from the ground to the underside of the concrete, so it is no less than "
                   "that is thick."};
  return out;
}

std::string strip_text(const StripSize& strip, Measure measure) {
  return length_text(strip.width, measure) + " wide, " + length_text(strip.thickness, measure) + " thick, " +
         length_text(strip.depth, measure) + " deep";
}

Answer<GroundFall> ground_fall_answer(std::string_view text, Measure measure) {
  const bool feet = measure == Measure::feet;
  const Refused refused{std::string("level, or how far and which way, such as ") +
                        (feet ? "6 in" : "150 mm") + " to the right, " + (feet ? "4 in" : "100 mm") +
                        " to the front; left and back likewise"};
  GroundFall out;
  bool sideways = false;
  bool endways = false;
  const std::vector<std::string> pieces = pieces_of(text);
  if (pieces.empty()) return refused;
  for (const std::string& piece : pieces) {
    if (piece == "level" || piece == "flat" || says_none(piece)) {
      if (pieces.size() > 1) return refused;
      return out;
    }
    std::vector<std::string> words = words_of(piece);
    keep_far_side(words);
    const bool right = take_words(words, {"right"});
    const bool left = take_words(words, {"left"});
    const bool front = take_words(words, {"front", "forward", "forwards"});
    const bool back = take_words(words, {"back", "backward", "backwards"});
    take_words(words, {"to", "towards", "falls", "falling", "fall", "drops", "drop", "slopes", "slope",
                       "sloping", "down", "from", "by"});
    if ((right ? 1 : 0) + (left ? 1 : 0) + (front ? 1 : 0) + (back ? 1 : 0) != 1)
      return Refused{refused.allowed, "Which way does it fall?"};
    const auto length = length_in(words, {0, 5}, measure);
    bool& given = right || left ? sideways : endways;
    if (!length || given) return refused;
    given = true;
    (right || left ? out.to_right : out.to_front) = *length * (left || back ? -1.0 : 1.0);
  }
  return out;
}

Answer<WayIn> way_in_answer(std::string_view text, const WayIn& usual, Measure measure) {
  const Refused refused{"how long, how far up or down, how many steps, how narrow, such as " +
                        std::string(measure == Measure::feet ? "60 ft, 10 ft up, no steps, 3 ft wide"
                                                             : "38 m, 3 m up, no steps, 750 mm wide") +
                        "; what is not said stays"};
  const std::vector<std::string> pieces = pieces_of(text);
  if (pieces.empty()) return refused;
  WayIn out = usual;
  std::array<bool, 4> given{};
  for (const std::string& piece : pieces) {
    std::vector<std::string> words = words_of(piece);
    take_words(words, {"from", "kerb", "curb", "long", "away", "about"});
    std::size_t which = 0;
    const Refused this_one{refused.allowed, "\"" + piece + "\" is not understood."};
    if (take_words(words, {"step", "steps", "stair", "stairs"})) {
      which = 2;
      const auto steps = count_in(words, 0, 200);
      if (!steps) return this_one;
      out.steps = *steps;
    } else if (take_words(words, {"wide", "narrow", "narrowest", "gate", "gap", "passage", "clear"})) {
      which = 3;
      const auto width = length_in(words, {0.3, 10}, measure);
      if (!width) return this_one;
      out.narrowest = *width;
    } else if (const bool down = take_words(words, {"down", "downhill", "falls"});
               down ||
               take_words(words, {"up", "uphill", "climb", "climbs", "rise", "rises", "level", "flat"})) {
      which = 1;
      const auto rise = words.empty() ? std::optional(Metres(0)) : length_in(words, {0, 30}, measure);
      if (!rise || (down && words.empty())) return this_one;
      out.rise = *rise * (down ? -1.0 : 1.0);
    } else {
      const auto length = length_in(words, {1, 2000}, measure);
      if (!length) return this_one;
      out.length = *length;
    }
    if (given[which]) return this_one;
    given[which] = true;
  }
  return out;
}

std::string way_in_text(const WayIn& way, Measure measure) {
  std::string text = length_text(way.length, measure);
  text += way.rise.value() == 0 ? ", level"
                                : ", " + length_text(Metres(std::abs(way.rise.value())), measure) +
                                      (way.rise.value() > 0 ? " up" : " down");
  text += way.steps == 0 ? ", no steps"
                         : ", " + std::to_string(way.steps) + (way.steps == 1 ? " step" : " steps");
  return text + ", " + length_text(way.narrowest, measure) + " wide";
}

Answer<BedShape> bed_shape_answer(std::string_view text, const BedShape& usual, Measure measure) {
  const Refused refused{
      "courses from 1 to 20, sides from 1 to 4, and how far the ground falls along it, such as 4 courses, 3 "
      "sides, "
      "falls " +
      std::string(measure == Measure::feet ? "6 in" : "150 mm") + "; what is not said stays"};
  const std::vector<std::string> pieces = pieces_of(text);
  if (pieces.empty()) return refused;
  BedShape out = usual;
  std::array<bool, 3> given{};
  for (const std::string& piece : pieces) {
    std::vector<std::string> words = words_of(piece);
    std::size_t which = 2;
    // "4 courses all round" says both at once.
    const std::size_t many = words.size();
    if (many > 2 && words[many - 2] == "all" && words[many - 1] == "round" && !given[1]) {
      given[1] = true;
      out.sides = 4;
      words.resize(many - 2);
    }
    if (take_words(words, {"side", "sides", "round"})) {
      which = 1;
      const auto sides = joined(words) == "all" ? std::optional(4) : count_in(words, 1, 4);
      if (!sides) return refused;
      out.sides = *sides;
    } else if (take_words(words, {"fall", "falls", "falling", "drop", "drops", "slope", "slopes", "level",
                                  "flat"})) {
      take_words(words, {"along", "ground", "by"});
      const auto fall = words.empty() ? std::optional(Metres(0)) : length_in(words, {0, 5}, measure);
      if (!fall) return refused;
      out.fall = *fall;
    } else {
      // A bare count is that of the courses; a length with a unit the fall.
      const bool courses = take_words(words, {"course", "courses", "high"});
      const auto count = count_in(words, 1, 20);
      const auto fall = courses || count ? std::nullopt : length_in(words, {0, 5}, measure);
      if (!count && !fall) return refused;
      if (count) {
        which = 0;
        out.courses = *count;
      } else {
        out.fall = *fall;
      }
    }
    if (given[which]) return refused;
    given[which] = true;
  }
  return out;
}

std::string bed_shape_text(const BedShape& bed, Measure measure) {
  std::string text = std::to_string(bed.courses) + (bed.courses == 1 ? " course, " : " courses, ") +
                     std::to_string(bed.sides) + (bed.sides == 1 ? " side, " : " sides, ");
  return text + (bed.fall.value() == 0 ? "level" : "falls " + length_text(bed.fall, measure));
}

Answer<std::optional<SideOpening>> opening_answer(std::string_view text, Metres widest_lengthwise,
                                                  Metres widest_crosswise, Measure measure) {
  if (says_none(text)) return std::optional<SideOpening>();
  const std::string example = measure == Measure::feet ? "3 ft" : "900 mm";
  const Refused refused{"none; or the side and how wide its door is, such as front, " + example +
                        "; or the side that has no wall, such as open front"};
  std::vector<std::string> words;
  for (const std::string& piece : pieces_of(text)) {
    for (const std::string& word : words_of(piece))
      words.push_back(word);
  }
  SideOpening out;
  const bool front = take_words(words, {"front", "south"});
  const bool back = take_words(words, {"back", "north"});
  const bool left = take_words(words, {"left", "west"});
  const bool right = take_words(words, {"right", "east"});
  const std::size_t before = words.size();
  out.open = take_words(words, {"open", "three"});
  if (take_words(words, {"wall"})) out.open = true;
  take_words(words, {"no", "none", "nothing", "a", "on", "in", "the", "at", "side", "sides", "door", "wide",
                     "with", "3-sided", "three-sided", "is", "opening", "gap", "and"});
  const int sides = (front ? 1 : 0) + (back ? 1 : 0) + (left ? 1 : 0) + (right ? 1 : 0);
  if (sides == 0 && before > words.size() && words.empty())
    return Refused{"the side as well, such as open front", "Which side?"};
  if (sides != 1) return refused;
  out.side = front ? Side::south : back ? Side::north : left ? Side::west : Side::east;
  if (words.empty()) return std::optional(out);
  if (out.open) return refused;
  const Metres widest = front || back ? widest_lengthwise : widest_crosswise;
  if (widest.value() < 0.4)
    return Refused{"none, or a longer side; or open and the side", "That side is too short for a door."};
  const auto width = length_answer(joined(words), {0.4, widest.value()}, measure);
  if (const auto* why = std::get_if<Refused>(&width))
    return Refused{"the side and " + why->allowed + "; or open " + (front ? "front" : "and the side")};
  out.width = std::get<Metres>(width);
  return std::optional(out);
}

namespace {

/// "That's it", "no, nothing else": an answer to what else there is, and to no other question.
bool says_enough(std::string_view text) {
  std::vector<std::string> words;
  for (const std::string& piece : pieces_of(text)) {
    for (const std::string& word : words_of(piece))
      words.push_back(word);
  }
  take_words(words, {"no"});
  const std::string rest = joined(words);
  constexpr std::array<std::string_view, 7> ways{"that's it", "that's all",   "thats it", "thats all",
                                                 "thanks",    "nothing else", "no more"};
  return std::find(ways.begin(), ways.end(), rest) != ways.end();
}

}  // namespace

Answer<std::optional<ExtraSaid>> extra_answer(std::string_view text) {
  if (says_none(text) || says_enough(text)) return std::optional<ExtraSaid>();
  const Refused refused{"what it is and the hours of one person, such as hang the gate, 2 hours; or none"};
  const std::string said(trimmed_answer(text));
  // The hours are the last words that can be hours: "hang the gate 2 hours", "hang the gate, half an hour".
  const std::size_t comma = said.rfind(',');
  std::vector<std::size_t> cuts;
  if (comma != std::string::npos) cuts.push_back(comma);
  for (std::size_t at = said.find(' '); at != std::string::npos; at = said.find(' ', at + 1))
    cuts.push_back(at);
  for (const std::size_t cut : cuts) {
    const std::string hours_text = said.substr(cut + 1);
    const bool unit = hours_text.find_first_of("hm:") != std::string::npos;
    if (cut != comma && !unit) continue;
    const auto hours = hours_answer(trimmed_answer(hours_text), 0.05, 200);
    if (std::holds_alternative<Refused>(hours)) continue;
    std::string title = said.substr(0, cut);
    while (!title.empty() && (title.back() == ',' || title.back() == ' ' || title.back() == ':'))
      title.pop_back();
    const auto checked = text_answer(title, 120);
    if (std::holds_alternative<Refused>(checked)) return refused;
    return std::optional(ExtraSaid{std::get<std::string>(checked), std::get<base::Hours>(hours)});
  }
  return refused;
}

}  // namespace weatherstruck::works
