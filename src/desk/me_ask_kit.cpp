// What he has: mixer, covers, van.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "me_asking.h"
#include "weatherstruck/works/answer_amounts.h"
#include "weatherstruck/works/answer_pieces.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::desk {

using base::CubicMetres;
using base::Kilograms;
using base::SquareMetres;
using works::Answer;
using works::Measure;
using works::Refused;

namespace {

struct Covers {
  SquareMetres hessian;
  SquareMetres sheet;
  std::optional<works::Size> canopy;
  bool lights = false;
};

std::string covers_text(const Covers& covers, Measure measure) {
  const auto area = [&](std::string_view what, SquareMetres m2) {
    return m2.value() == 0 ? fmt::format("no {}", what) : fmt::format("{} {}", what, area_text(m2, measure));
  };
  return area("hessian", covers.hessian) + ", " + area("sheeting", covers.sheet) + ", " +
         (covers.canopy ? "canopy " + works::size_text(*covers.canopy, measure) : "no canopy") + ", " +
         (covers.lights ? "lights" : "no lights");
}

/// Whether one of the words stands in the piece; it is cut out, with "of" and "m" left for the readers.
bool take_word(std::string& piece, std::initializer_list<std::string_view> words) {
  std::string padded = " " + piece + " ";
  for (const std::string_view word : words) {
    const std::size_t at = padded.find(" " + std::string(word) + " ");
    if (at == std::string::npos) continue;
    padded.erase(at, word.size() + 1);
    piece = padded.substr(1, padded.size() - 2);
    while (!piece.empty() && piece.back() == ' ')
      piece.pop_back();
    if (piece.size() >= 3 && piece.substr(piece.size() - 3) == " of") piece.resize(piece.size() - 3);
    return true;
  }
  return false;
}

/// The one that most are sold as: common practice, no source. It is shown back.
works::Size usual_canopy(Measure measure) {
  const double side = measure == Measure::feet ? 10 * works::foot : 3;
  return {base::Metres(side), base::Metres(side)};
}

Answer<Covers> covers_answer(std::string_view text, const Covers& usual, Measure measure) {
  const Refused refused{
      measure == Measure::feet
          ? "what you have of these, such as hessian 200 sq ft, sheeting 300 sq ft, canopy 10 x 10 "
            "ft, lights; what is not said stays, no canopy takes it off"
          : "what you have of these, such as hessian 20 m2, sheeting 30 m2, canopy 3 x 3 m, lights; "
            "what is not said stays, no canopy takes it off"};
  if (works::says_none(text)) return Covers{SquareMetres(0), SquareMetres(0), {}, false};
  const std::vector<std::string> pieces = works::pieces_of(text);
  if (pieces.empty()) return refused;
  Covers out = usual;
  std::array<bool, 4> given{};
  for (std::string piece : pieces) {
    const std::string whole = piece;
    const bool hessian = take_word(piece, {"hessian", "burlap"});
    const bool sheet = !hessian && take_word(piece, {"sheeting", "sheets", "sheet", "tarp", "tarps",
                                                     "plastic", "polythene", "tarpaulin", "tarpaulins"});
    if (hessian || sheet) {
      if (std::exchange(given[hessian ? 0 : 1], true)) return refused;
      // Named without a size it is what stands in the brackets, if anything does.
      const SquareMetres shown = hessian ? usual.hessian : usual.sheet;
      if (works::says_some(piece) && shown.value() > 0) continue;
      const auto area = works::area_answer(piece, measure);
      if (const auto* why = std::get_if<Refused>(&area)) {
        return Refused{(hessian ? "hessian, then " : "sheeting, then ") + why->allowed, why->why};
      }
      (hessian ? out.hessian : out.sheet) = std::get<SquareMetres>(area);
    } else if (take_word(piece, {"canopy", "gazebo", "tent", "awning"})) {
      if (std::exchange(given[2], true)) return refused;
      if (works::says_some(piece)) {
        if (!out.canopy) out.canopy = usual_canopy(measure);
        continue;
      }
      const auto size = works::optional_size_answer(piece, {1, 12}, {1, 12}, measure);
      if (const auto* why = std::get_if<Refused>(&size)) return Refused{"canopy, then " + why->allowed};
      out.canopy = std::get<std::optional<works::Size>>(size);
    } else if (take_word(piece, {"lights", "light", "floodlights", "floodlight", "lamps", "lamp"})) {
      if (std::exchange(given[3], true)) return refused;
      const bool no = works::says_none(piece);
      // How many is no matter.
      const bool counted = std::holds_alternative<int>(works::count_answer(piece, 1, 20, "set"));
      if (!no && !counted && !works::says_some(piece) && piece != "work" && piece != "site")
        return Refused{refused.allowed, "\"" + whole + "\" is not understood."};
      out.lights = !no;
    } else {
      return Refused{refused.allowed, "\"" + whole + "\" is not understood."};
    }
  }
  return out;
}

struct VanRoom {
  Kilograms payload;
  CubicMetres volume;
};

std::string van_text(const VanRoom& van, Measure measure) {
  return mass_text(van.payload, measure) + ", " + volume_text(van.volume, measure);
}

/// A van by its size as people speak of it: common practice, no source. It is shown back, and the plate tells
/// what it may carry.
std::optional<VanRoom> van_called(std::string_view said) {
  struct Row {
    std::string_view word;
    double payload;
    double volume;
  };
  constexpr std::array<Row, 3> rows{{{"small", 600, 3}, {"medium", 1000, 6}, {"large", 1200, 10}}};
  constexpr auto also = std::to_array<std::pair<std::string_view, std::string_view>>({{"big", "large"},
                                                                                      {"long", "large"},
                                                                                      {"lwb", "large"},
                                                                                      {"mwb", "medium"},
                                                                                      {"swb", "medium"},
                                                                                      {"mid", "medium"}});
  std::string words(said);
  std::optional<VanRoom> found;
  std::size_t begin = 0;
  while (begin < words.size()) {
    const std::size_t end = std::min(words.find(' ', begin), words.size());
    std::string_view word = std::string_view(words).substr(begin, end - begin);
    begin = end + 1;
    for (const auto& [other, is] : also) {
      if (word == other) word = is;
    }
    for (const Row& row : rows) {
      if (word == row.word) found = VanRoom{Kilograms(row.payload), CubicMetres(row.volume)};
    }
  }
  return found;
}

/// "1.2 t 9 m3" without a comma: where both halves are understood.
std::vector<std::string> load_and_room(const std::string& piece, Measure measure) {
  for (std::size_t at = piece.find(' '); at != std::string::npos; at = piece.find(' ', at + 1)) {
    const std::string load = piece.substr(0, at);
    const std::string room = piece.substr(at + 1);
    if (load.find_first_not_of("0123456789. ") == std::string::npos) continue;
    if (std::holds_alternative<Kilograms>(works::load_answer(load, measure)) &&
        std::holds_alternative<CubicMetres>(works::room_answer(room, measure)))
      return {load, room};
  }
  return {piece};
}

/// "1100 kg, 6 m3", either alone; a bare number is a load, three lengths are room.
Answer<VanRoom> van_answer(std::string_view text, const VanRoom& usual, Measure measure) {
  const Refused refused{
      measure == Measure::feet
          ? "small, medium or large; or load and room, or one of them, such as 2000 lb, 8 x 5 x 5 ft"
          : "small, medium or large; or load and room, or one of them, such as 1100 kg, 2.5 x 1.7 x 1.4 m"};
  std::vector<std::string> pieces = works::pieces_of(text);
  if (pieces.empty() || pieces.size() > 2) return refused;
  if (text.find_first_of("0123456789") == std::string_view::npos) {
    for (const std::string& piece : pieces) {
      if (const auto called = van_called(piece)) return *called;
    }
  }
  if (pieces.size() == 1) pieces = load_and_room(pieces.front(), measure);
  VanRoom out = usual;
  bool load_given = false;
  bool room_given = false;
  for (const std::string& piece : pieces) {
    const bool bare = piece.find_first_not_of("0123456789. ,") == std::string::npos;
    const auto room = works::room_answer(piece, measure);
    const auto load = works::load_answer(piece, measure);
    // A bare number that could be either is the load where none is said yet.
    if (const auto* mass = std::get_if<Kilograms>(&load); mass != nullptr && !load_given) {
      load_given = true;
      out.payload = *mass;
    } else if (const auto* volume = std::get_if<CubicMetres>(&room);
               volume != nullptr && !room_given && (!bare || load_given)) {
      room_given = true;
      out.volume = *volume;
    } else {
      const bool of_room = piece.find_first_of("x3") != std::string::npos || load_given;
      return of_room
                 ? Refused{std::get_if<Refused>(&room) ? std::get<Refused>(room).allowed : refused.allowed}
                 : Refused{std::get_if<Refused>(&load)
                               ? std::get<Refused>(load).allowed + "; and " + refused.allowed
                               : refused.allowed};
    }
  }
  return out;
}

}  // namespace

// What most vans carry and most masons have, in round feet and pounds: common practice, no source.
void MeAsking::usual_in_feet() {
  works::Kit& kit = out_.me.kit;
  constexpr double square_foot = works::foot * works::foot;
  kit.mixer = CubicMetres(3 * works::cubic_foot);
  kit.hessian = SquareMetres(200 * square_foot);
  kit.sheet = SquareMetres(300 * square_foot);
  kit.van_payload = Kilograms(2200 * works::pound);
  kit.van_volume = CubicMetres(200 * works::cubic_foot);
}

void MeAsking::kit() {
  works::Kit& kit = out_.me.kit;
  talk_.heading("What you have");
  if (!kept_ && measure_ == Measure::feet) usual_in_feet();
  const CubicMetres usual = kit.mixer;
  kit.mixer = talk_.ask<CubicMetres>(
      {"mixer", "What your mixer turns out at once",
       usual.value() == 0 ? "none" : volume_text(usual, measure_),
       "In litres or cubic feet of wet mix, or by the bag it takes: half bag. none: you mix by hand."},
      [this](auto said) { return works::mixer_answer(said, measure_); }, usual);
  say_back(kit.mixer.value() != usual.value() && kit.mixer.value() > 0, volume_text(kit.mixer, measure_),
           volume_text(kit.mixer, other_than(measure_)));
  covers();
  van();
}

void MeAsking::covers() {
  works::Kit& kit = out_.me.kit;
  const Covers usual{
      kit.hessian, kit.sheet,
      kit.canopy ? std::optional(works::Size{kit.canopy->length, kit.canopy->width}) : std::nullopt,
      kit.floodlights};
  const Covers covers = talk_.ask<Covers>(
      {"covers", "Covers for fresh work, a canopy to lay under, lights", covers_text(usual, measure_),
       "Hessian keeps off frost and sun; sheeting keeps off rain and holds the damp in; a canopy is for "
       "laying in "
       "the rain and comes down before strong gusts; with lights, digging, carrying and pointing go on after "
       "dark. "
       "Say those that differ, such as canopy 3 x 3 m, lights. none: you have none of them."},
      [&](auto said) { return covers_answer(said, usual, measure_); }, usual);
  say_back(covers_text(covers, measure_) != covers_text(usual, measure_), covers_text(covers, measure_),
           covers_text(covers, other_than(measure_)));
  kit.hessian = covers.hessian;
  kit.sheet = covers.sheet;
  kit.floodlights = covers.lights;
  if (!covers.canopy) {
    kit.canopy.reset();
    return;
  }
  if (!kit.canopy) kit.canopy.emplace();
  kit.canopy->length = covers.canopy->length;
  kit.canopy->width = covers.canopy->width;
}

void MeAsking::van() {
  works::Kit& kit = out_.me.kit;
  const VanRoom usual{kit.van_payload, kit.van_volume};
  const VanRoom van = talk_.ask<VanRoom>(
      {"van", "The van: small, medium, large, or its load and room", van_text(usual, measure_),
       "Its payload from the plate or the papers, and the load space as a volume or as length by width by "
       "height. "
       "Such as 1100 kg, 2.5 x 1.7 x 1.4 m."},
      [&](auto said) { return van_answer(said, usual, measure_); }, usual);
  say_back(van_text(van, measure_) != van_text(usual, measure_), van_text(van, measure_),
           van_text(van, other_than(measure_)));
  kit.van_payload = van.payload;
  kit.van_volume = van.volume;
}

}  // namespace weatherstruck::desk
