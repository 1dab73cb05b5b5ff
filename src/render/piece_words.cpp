#include "weatherstruck/render/piece_words.h"

#include <algorithm>
#include <array>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::render {
namespace {

using trade::Operation;
using works::FreshWork;

constexpr std::array<const char*, 11> numbers{"no",  "one",   "two",   "three", "four", "five",
                                              "six", "seven", "eight", "nine",  "ten"};

std::string number(std::size_t count) {
  return count < numbers.size() ? numbers[count] : std::to_string(count);
}

// "the north footing of the shelter" taken apart; other words are a whole of their own.
Piece taken_apart(const std::string& words) {
  Piece piece;
  const std::size_t of = words.find(" of ");
  if (words.rfind("the ", 0) != 0 || of == std::string::npos) {
    piece.whole = words;
    return piece;
  }
  const std::string head = words.substr(4, of - 4);
  const std::size_t last = head.rfind(' ');
  piece.thing = last == std::string::npos ? head : head.substr(last + 1);
  piece.which = last == std::string::npos ? "" : head.substr(0, last);
  piece.whole = words.substr(of + 4);
  return piece;
}

// What a pour makes stands in its title.
std::string poured(const works::Task& task) {
  constexpr std::string_view verb = "Pour ";
  const std::string title = without_sizes(task.title);
  return title.rfind(verb, 0) == 0 ? title.substr(verb.size()) : std::string();
}

Piece concrete_of(const works::TaskList& list, const works::Name& part) {
  const auto task = std::find_if(list.tasks.begin(), list.tasks.end(), [&](const works::Task& t) {
    return t.part == part && t.operation == Operation::pour && !poured(t).empty();
  });
  if (task == list.tasks.end()) return {"", "", "the " + works::spoken(part), 1};
  Piece piece = taken_apart(poured(*task));
  piece.of_kind = 0;
  for (const works::Task& other : list.tasks) {
    if (other.operation != Operation::pour) continue;
    const Piece same = taken_apart(poured(other));
    if (same.thing == piece.thing && same.whole == piece.whole) ++piece.of_kind;
  }
  return piece;
}

bool lays(const works::TaskList& list, const works::Name& part, FreshWork::Kind kind) {
  return std::any_of(list.tasks.begin(), list.tasks.end(), [&](const works::Task& task) {
    return task.part == part && task.fresh && task.fresh->kind == kind;
  });
}

Piece laid_on(const works::TaskList& list, const works::Name& part) {
  Piece piece{"", "", "the " + works::spoken(part), 1};
  const bool flight = std::any_of(list.tasks.begin(), list.tasks.end(), [&](const works::Task& task) {
    return task.part == part && task.operation == Operation::form_step;
  });
  const bool said = piece.whole.find("wall") != std::string::npos;
  if (flight || said) return piece;
  if (lays(list, part, FreshWork::Kind::mortar_below) || lays(list, part, FreshWork::Kind::mortar_facing)) {
    piece.thing = "brickwork";
  } else if (lays(list, part, FreshWork::Kind::flags) || lays(list, part, FreshWork::Kind::grout)) {
    piece.thing = "flags";
  }
  return piece;
}

std::string plural(const std::string& thing) {
  return thing.empty() || thing.back() == 's' ? thing : thing + 's';
}

std::string several(const std::vector<Piece>& pieces) {
  const Piece& first = pieces.front();
  if (pieces.size() == 1) return first.words();
  const std::string rest = plural(first.thing) + " of " + first.whole;
  if (static_cast<int>(pieces.size()) == first.of_kind)
    return (pieces.size() == 2 ? "both " : "all " + number(pieces.size()) + ' ') + rest;
  std::vector<std::string> which;
  for (const Piece& piece : pieces)
    which.push_back(piece.which);
  return "the " + base::join_and(which) + ' ' + rest;
}

}  // namespace

std::string Piece::words() const {
  if (thing.empty()) return whole;
  return "the " + which + (which.empty() ? "" : " ") + thing + " of " + whole;
}

Piece piece_of(const works::TaskList& list, const works::Name& part, bool concrete) {
  return concrete ? concrete_of(list, part) : laid_on(list, part);
}

Piece piece_under(const works::TaskList& list, const programme::PlannedCover& cover) {
  return piece_of(list, cover.part, cover.concrete);
}

Piece piece_left(const works::TaskList& list, const programme::PlannedWait& wait) {
  switch (wait.wait) {
    case works::Wait::concrete_to_lay:
    case works::Wait::concrete_to_lay_box:
    case works::Wait::concrete_to_lay_high:
      return concrete_of(list, wait.part);
    case works::Wait::plate_to_strap:
      return {"", "plates", "the " + works::spoken(wait.part), 1};
    default:
      return laid_on(list, wait.part);
  }
}

std::string together(const std::vector<Piece>& pieces) {
  std::vector<std::vector<Piece>> kinds;
  for (const Piece& piece : pieces) {
    auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const std::vector<Piece>& k) {
      return !piece.which.empty() && k.front().thing == piece.thing && k.front().whole == piece.whole;
    });
    if (kind != kinds.end()) {
      if (std::find(kind->begin(), kind->end(), piece) == kind->end()) kind->push_back(piece);
      continue;
    }
    const bool known = std::any_of(kinds.begin(), kinds.end(),
                                   [&](const std::vector<Piece>& k) { return k.front() == piece; });
    if (!known) kinds.push_back({piece});
  }
  std::vector<std::string> words;
  for (const std::vector<Piece>& kind : kinds)
    words.push_back(several(kind));
  return base::join_and(words);
}

std::string without_sizes(const std::string& title) {
  const std::size_t detail = title.rfind(" (");
  if (detail == std::string::npos || title.back() != ')') return title;
  return title.substr(0, detail);
}

}  // namespace weatherstruck::render
