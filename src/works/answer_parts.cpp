#include "weatherstruck/works/answer_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "answer_tokens.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/answer_pieces.h"

namespace weatherstruck::works {
namespace {

constexpr int most_beds = 12;
constexpr int most_of_a_kind = 4;

constexpr auto kinds = std::to_array<std::pair<std::string_view, std::string_view>>(
    {{"base", "base"},    {"bases", "base"},  {"plinth", "base"},  {"shed", "base"},    {"store", "base"},
     {"wall", "wall"},    {"walls", "wall"},  {"bed", "bed"},      {"beds", "bed"},     {"box", "box"},
     {"boxes", "box"},    {"planter", "box"}, {"planters", "box"}, {"steps", "steps"},  {"step", "steps"},
     {"stairs", "steps"}, {"path", "path"},   {"paths", "path"},   {"pathway", "path"}, {"flags", "path"},
     {"slabs", "path"},   {"paving", "path"}, {"patio", "path"}});

}  // namespace

Answer<PartsWanted> parts_answer(std::string_view text) {
  const Refused refused{"some of base, wall, bed, box, steps and path, such as a base, 2 beds and a path"};
  const std::vector<std::string> pieces = pieces_of(text);
  if (pieces.empty()) return refused;
  PartsWanted out;
  for (const std::string& piece : pieces) {
    std::string kind;
    std::string before;
    std::size_t begin = 0;
    while (begin < piece.size()) {
      const std::size_t end = std::min(piece.find(' ', begin), piece.size());
      const std::string word = piece.substr(begin, end - begin);
      begin = end + 1;
      const auto known =
          std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.first == word; });
      // "a shed base", "steps of brick": what tells most stands last, but for "a base for a shed".
      if (known != kinds.end() && (kind.empty() || known->second != "base")) kind = known->second;
      if (before.empty()) before = word;
    }
    if (kind.empty()) return Refused{refused.allowed, "\"" + piece + "\" is none of these."};
    const bool one =
        before == "a" || before == "an" || before == "one" || before == "some" || before == "the";
    const auto number = count_answer(before, 1, 999, "");
    const int* many = std::get_if<int>(&number);
    if (kind == "steps") {
      if (out.steps) return refused;
      out.steps = true;
      if (many != nullptr && *many > 20) return Refused{"at most 20 steps"};
      if (many != nullptr) out.risers = *many;
      continue;
    }
    int& count = kind == "base"   ? out.bases
                 : kind == "wall" ? out.walls
                 : kind == "bed"  ? out.beds
                 : kind == "box"  ? out.boxes
                                  : out.paths;
    count += many != nullptr && !one ? *many : 1;
    const int most = kind == "bed" ? most_beds : most_of_a_kind;
    if (count > most) return Refused{"at most " + std::to_string(most) + " of a kind"};
  }
  return out;
}

namespace {

/// Whether a word of the list stands in the piece; all of them are cut out.
bool take(std::string& piece, std::initializer_list<std::string_view> words) {
  bool any = false;
  std::string padded = " " + piece + " ";
  for (const std::string_view word : words) {
    const std::string whole = " " + std::string(word) + " ";
    for (std::size_t at = padded.find(whole); at != std::string::npos; at = padded.find(whole)) {
      padded.erase(at, whole.size() - 1);
      any = true;
    }
  }
  piece = std::string(trimmed_answer(padded));
  return any;
}

/// Parted at commas, at "by" and "x", behind "long", and around "4 courses".
std::vector<std::string> wall_pieces(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ') {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  std::string said;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool courses = i + 1 < words.size() && words[i + 1].rfind("course", 0) == 0;
    if (words[i] == "by" || words[i] == "x" || words[i] == "long") {
      said += ',';
    } else if (words[i].rfind("course", 0) == 0) {
      said += " courses,";
    } else {
      said += (courses ? "," : " ") + words[i];
    }
  }
  return pieces_of(said);
}

}  // namespace

Answer<WallSaid> wall_answer(std::string_view text, Measure measure) {
  const Refused refused{std::string("length and courses, such as ") +
                        (measure == Measure::feet ? "20 ft" : "6 m") + ", 4 courses"};
  WallSaid out;
  bool long_given = false;
  bool high_given = false;
  const auto length_of = [&](const std::string& words, LengthRange range) -> std::optional<base::Metres> {
    const auto answer = length_answer(words, range, measure);
    const auto* length = std::get_if<base::Metres>(&answer);
    return length == nullptr ? std::nullopt : std::optional(*length);
  };
  for (std::string piece : wall_pieces(text)) {
    const std::string whole = piece;
    const Refused not_this{refused.allowed, "\"" + whole + "\" is not understood."};
    take(piece, {"a", "the", "with", "of", "dwarf", "wall"});
    if (take(piece, {"coping", "copings", "coped", "capped"})) {
      take(piece, {"on", "top", "stone", "stones"});
      if (!piece.empty()) return not_this;
      out.coping = true;
    } else if (take(piece,
                    {"one brick", "1 brick", "one-brick", "full brick", "double", "9 inch", "9 in", "215"})) {
      take(piece, {"thick", "skin"});
      if (!piece.empty() || out.bond) return not_this;
      out.bond = trade::Bond::one_english;
    } else if (take(piece, {"half brick", "half-brick", "half a brick", "single", "stretcher"})) {
      take(piece, {"thick", "skin", "bond"});
      if (!piece.empty() || out.bond) return not_this;
      out.bond = trade::Bond::half_stretcher;
    } else if (take(piece, {"falls", "fall", "drops", "drop", "slopes", "level", "flat"})) {
      const auto fall = piece.empty() ? std::optional(base::Metres(0)) : length_of(piece, {0, 5});
      if (!fall) return not_this;
      out.fall = *fall;
    } else if (const bool courses = take(piece, {"course", "courses", "showing"});
               courses || (long_given && !high_given)) {
      const bool tall = take(piece, {"high", "tall"});
      const auto count = count_answer(piece, 1, 20, "");
      const auto height = length_of(piece, {0.075, 1.5});
      if (const int* number = std::get_if<int>(&count); number != nullptr && (courses || !tall)) {
        out.courses = *number;
      } else if (height && !courses) {
        out.courses = static_cast<int>(
            std::max(1.0, std::round(height->value() / base::to_metres(trade::course_height).value())));
      } else {
        return not_this;
      }
      if (std::exchange(high_given, true)) return not_this;
    } else {
      const auto length = length_of(piece, {0.3, 60});
      if (!length || std::exchange(long_given, true)) return not_this;
      out.length = *length;
    }
  }
  if (!long_given) return refused;
  return out;
}

}  // namespace weatherstruck::works
