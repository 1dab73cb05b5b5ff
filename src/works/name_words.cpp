#include "weatherstruck/works/name_words.h"

#include <algorithm>
#include <iterator>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::works {
namespace {

constexpr std::size_t most_nearest = 4;
constexpr double word_put_right = 0.7;  ///< confidence for each word that was not known as it stood
constexpr double preferred = 0.8;       ///< confidence where others fit, but by less of their own words

void add_words(std::set<std::string>& words, std::string_view text) {
  std::string word;
  const auto flush = [&] {
    if (!word.empty()) words.insert(word);
    word.clear();
  };
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z') {
      word += static_cast<char>(c - 'A' + 'a');
    } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '\'' ||
               static_cast<unsigned char>(c) >= 0x80) {
      word += c;
    } else {
      flush();
    }
  }
  flush();
}

/// "bricks" for "brick" and the other way.
std::string other_number(const std::string& word) {
  return word.size() > 2 && word.back() == 's' ? word.substr(0, word.size() - 1) : word + "s";
}

/// The known words that a word may stand for: itself, its plural, or else the nearest of four letters or
/// more.
std::vector<std::string> meant(const std::string& word, const std::vector<std::string>& all, bool& exact) {
  exact = true;
  if (std::binary_search(all.begin(), all.end(), word)) return {word};
  const std::string other = other_number(word);
  if (std::binary_search(all.begin(), all.end(), other)) return {other};
  exact = false;
  if (word.size() < 4) return {};
  std::vector<std::string> long_ones;
  std::copy_if(all.begin(), all.end(), std::back_inserter(long_ones),
               [](const std::string& known) { return known.size() >= 4; });
  std::vector<std::string> found;
  for (int turn = 0; turn < 2; ++turn) {
    // The first of equals from either end: two that are equally near are both meant.
    const auto nearest = base::nearest_name(word, long_ones);
    if (nearest && std::find(found.begin(), found.end(), *nearest) == found.end()) found.push_back(*nearest);
    std::reverse(long_ones.begin(), long_ones.end());
  }
  return found;
}

}  // namespace

NameWords::NameWords(const Job& job, const TaskList& tasks) {
  for (const Task& task : tasks.tasks) {
    Known known{task.name, {}, {}};
    for (const std::string_view word : work_words(task.operation))
      known.own.insert(std::string(word));
    known.words = known.own;
    // Flags are grouted, but "the flags" alone are their laying.
    if (task.operation == trade::Operation::grout_flags) known.words.insert("flags");
    add_words(known.words, task.name);
    add_words(known.words, task.part);
    add_words(known.words, task.of);
    add_words(known.words, short_title(task));
    // "Bed the plates": a word of the work that is also the name of another part means that part.
    std::set<std::string> of_part;
    add_words(of_part, task.name);
    add_words(of_part, task.part);
    add_words(of_part, task.of);
    for (const Part& other : job.parts) {
      if (of_part.count(name_of(other)) > 0) continue;
      known.own.erase(name_of(other));
      known.words.erase(name_of(other));
    }
    tasks_.push_back(std::move(known));
  }
  const auto part = [](const Name& name, const std::string& title, std::initializer_list<const char*> more) {
    Known known{name, {}, {}};
    add_words(known.own, name);
    known.words = known.own;
    add_words(known.words, title);
    for (const char* word : more)
      known.words.insert(word);
    return known;
  };
  const Expansion expansion = expand(job);
  std::set<Name> seen;
  for (const Part& written : job.parts) {
    parts_.push_back(part(name_of(written), "", {}));
    seen.insert(name_of(written));
  }
  for (const FootingPart& footing : expansion.footings) {
    footings_.push_back(part(footing.shape.name, footing.title, {"footing", "trench", "strip"}));
    if (seen.insert(footing.shape.name).second) parts_.push_back(footings_.back());
  }
  for (const WallPart& wall : expansion.walls) {
    if (seen.insert(wall.shape.name).second) parts_.push_back(part(wall.shape.name, wall.title, {"wall"}));
  }
  std::set<std::string> drawn;
  for (const Task& task : tasks.tasks) {
    for (const MaterialDraw& draw : task.materials)
      drawn.insert(draw.material);
  }
  for (const trade::Material& row : trade::materials()) {
    Known known = part(std::string(row.key), std::string(row.title), {});
    if (row.unit == "flags") known.words.insert({"flag", "flags", "slab", "slabs"});
    if (row.key == "sub-base") known.words.insert({"hardcore", "subbase"});
    if (row.key == "facing-brick") known.words.insert({"facing", "facings"});
    if (row.key == "engineering-brick" || row.key == "engineering-brick-a") known.words.insert("engineers");
    if (row.key == "building-sand") known.words.insert("soft");
    if (drawn.count(known.name) > 0) used_materials_.push_back(known);
    materials_.push_back(std::move(known));
  }
}

NameMatch NameWords::match(const std::vector<std::string>& words, const std::vector<Known>& known) {
  NameMatch result;
  if (words.empty()) return result;
  for (const Known& one : known) {
    if (words.size() == 1 && words.front() == one.name) {
      result.names = {one.name};
      return result;
    }
  }
  std::set<std::string> sorted;
  for (const Known& one : known)
    sorted.insert(one.words.begin(), one.words.end());
  const std::vector<std::string> all(sorted.begin(), sorted.end());
  std::vector<std::vector<std::string>> wanted;
  for (const std::string& word : words) {
    bool exact = true;
    wanted.push_back(meant(word, all, exact));
    if (!exact) result.confidence *= word_put_right;
  }
  struct Score {
    std::size_t shared = 0;
    std::size_t own = 0;
  };
  std::vector<Score> scores;
  for (const Known& one : known) {
    Score score;
    for (const auto& choices : wanted) {
      const auto has = [&choices](const std::set<std::string>& held) {
        return std::any_of(choices.begin(), choices.end(),
                           [&held](const auto& w) { return held.count(w) > 0; });
      };
      score.shared += has(one.words) ? 1U : 0U;
      score.own += has(one.own) ? 1U : 0U;
    }
    scores.push_back(score);
  }
  std::size_t most_own = 0;
  std::size_t most_shared = 0;
  for (const Score& score : scores) {
    if (score.shared == words.size()) most_own = std::max(most_own, score.own);
    most_shared = std::max(most_shared, score.shared);
  }
  bool others = false;
  for (std::size_t i = 0; i < known.size(); ++i) {
    if (scores[i].shared == words.size() && scores[i].own == most_own) {
      result.names.push_back(known[i].name);
      continue;
    }
    others = others || scores[i].shared == words.size();
    if (most_shared > 0 && scores[i].shared == most_shared && result.nearest.size() < most_nearest) {
      result.nearest.push_back(known[i].name);
    }
  }
  if (others) result.confidence *= preferred;
  return result;
}

NameMatch NameWords::task(const std::vector<std::string>& words, const std::set<Name>& allowed) const {
  std::vector<Known> all;
  for (const Known& task : tasks_) {
    if (words.size() == 1 && words.front() == task.name) return {{task.name}, {}, 1};
    if (allowed.empty() || allowed.count(task.name) > 0) all.push_back(task);
  }
  return match(words, all);
}

NameMatch NameWords::part(const std::vector<std::string>& words) const {
  // A part named in full: its own words and nothing more.
  const std::set<std::string> said(words.begin(), words.end());
  for (const Known& part : parts_) {
    if (part.own == said) return {{part.name}, {}, 1};
  }
  return match(words, parts_);
}

NameMatch NameWords::footing(const std::vector<std::string>& words) const {
  return match(words, footings_);
}

NameMatch NameWords::material(const std::vector<std::string>& words) const {
  for (const Known& material : materials_) {
    if (words.size() == 1 && words.front() == material.name) return {{material.name}, {}, 1};
  }
  NameMatch found = match(words, used_materials_);
  if (found.names.empty() || found.confidence < 1) {
    NameMatch wider = match(words, materials_);
    if (found.names.empty() || wider.confidence > found.confidence) {
      return wider;
    }
  }
  return found;
}

}  // namespace weatherstruck::works
