#include "weatherstruck/works/answer_parts.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "weatherstruck/works/answer_pieces.h"

namespace weatherstruck::works {
namespace {

constexpr int most_beds = 12;
constexpr int most_of_a_kind = 4;

constexpr std::array<std::pair<std::string_view, std::string_view>, 19> kinds{{{"base", "base"},
                                                                               {"bases", "base"},
                                                                               {"plinth", "base"},
                                                                               {"bed", "bed"},
                                                                               {"beds", "bed"},
                                                                               {"box", "box"},
                                                                               {"boxes", "box"},
                                                                               {"planter", "box"},
                                                                               {"planters", "box"},
                                                                               {"steps", "steps"},
                                                                               {"step", "steps"},
                                                                               {"stairs", "steps"},
                                                                               {"path", "path"},
                                                                               {"paths", "path"},
                                                                               {"flags", "path"},
                                                                               {"paving", "path"},
                                                                               {"patio", "path"},
                                                                               {"shed", "base"},
                                                                               {"store", "base"}}};

}  // namespace

Answer<PartsWanted> parts_answer(std::string_view text) {
  const Refused refused{"some of base, bed, box, steps and path, such as a base, 2 beds and a path"};
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
    if (kind.empty()) {
      const bool wall = piece.find("wall") != std::string::npos;
      return Refused{refused.allowed,
                     wall ? "A wall by itself is not asked for; \"weatherstruck job blank\" has it." : ""};
    }
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
    int& count = kind == "base"  ? out.bases
                 : kind == "bed" ? out.beds
                 : kind == "box" ? out.boxes
                                 : out.paths;
    count += many != nullptr && !one ? *many : 1;
    const int most = kind == "bed" ? most_beds : most_of_a_kind;
    if (count > most) return Refused{"at most " + std::to_string(most) + " of a kind"};
  }
  return out;
}

}  // namespace weatherstruck::works
