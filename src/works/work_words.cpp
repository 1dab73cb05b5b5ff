#include <algorithm>
#include <array>
#include <span>
#include <string_view>
#include <vector>

#include "weatherstruck/works/name_words.h"

namespace weatherstruck::works {
namespace {

using trade::Operation;
using Words = std::vector<std::string_view>;

struct WorkWords {
  Operation operation;
  Words past;   ///< say that it was done
  Words other;  ///< name the work
};

const std::vector<WorkWords>& table() {
  static const std::vector<WorkWords> rows{
      {Operation::drive, {"drove", "driven"}, {"drive", "driving"}},
      {Operation::unload, {"unloaded"}, {"unload", "unloading", "van"}},
      {Operation::set_out, {}, {"set", "setting", "out", "setting-out"}},
      {Operation::true_lines, {}, {"true", "lines", "line", "dry", "bond", "string"}},
      {Operation::strip_turf, {"stripped"}, {"strip", "stripping", "turf", "turves", "grass"}},
      {Operation::dig,
       {"dug", "excavated", "reduced"},
       {"dig", "digging", "out", "trench", "trenches", "excavate", "excavating", "reduce", "reducing",
        "level"}},
      {Operation::bail, {"bailed"}, {"bail", "bailing", "water"}},
      {Operation::wheel_in,
       {"wheeled", "barrowed", "carried", "carted"},
       {"wheel", "wheeling", "in", "barrow", "barrowing", "carry", "carrying", "cart", "carting"}},
      {Operation::pour,
       {"poured", "concreted"},
       {"pour", "pouring", "concrete", "concreting", "footing", "footings", "foundation", "strip"}},
      {Operation::lay_below,
       {"laid"},
       {"lay", "laying", "below", "ground", "engineering", "engineers", "brickwork", "bricklaying", "bricks",
        "brick", "courses"}},
      {Operation::lay_facing,
       {"laid", "built"},
       {"lay", "laying", "facing", "facings", "facework", "brickwork", "bricklaying", "bricks", "brick",
        "build", "building", "wall", "walls", "courses"}},
      {Operation::lay_common,
       {"laid", "built"},
       {"lay", "laying", "common", "commons", "brickwork", "bricklaying", "bricks", "brick", "build",
        "building", "wall", "walls", "courses"}},
      {Operation::strike, {"struck"}, {"strike", "striking", "joints"}},
      {Operation::rake_back, {"raked"}, {"rake", "raking", "joints", "back"}},
      {Operation::point, {"pointed", "repointed"}, {"point", "pointing", "joints"}},
      {Operation::lay_coping, {"coped", "laid"}, {"coping", "copings", "lay", "laying"}},
      {Operation::bed_plate, {"bedded"}, {"bed", "bedding", "plate", "plates"}},
      {Operation::strap_plate, {"strapped"}, {"strap", "straps", "strapping"}},
      {Operation::lay_subbase,
       {"compacted", "laid"},
       {"sub-base", "subbase", "hardcore", "compact", "compacting", "lay", "laying"}},
      {Operation::lay_flags,
       {"laid", "flagged", "paved"},
       {"flag", "flags", "flagging", "slab", "slabs", "paving", "flagstones", "lay", "laying", "gravel"}},
      {Operation::grout_flags,
       {"grouted", "jointed", "filled"},
       {"grout", "grouting", "joint", "joints", "jointing", "fill", "filling"}},
      {Operation::fill_bed, {"filled"}, {"fill", "filling", "soil", "membrane", "drain"}},
      {Operation::form_step, {"built", "formed"}, {"build", "building", "form", "forming", "step", "steps"}},
      {Operation::backfill, {"backfilled"}, {"backfill", "backfilling"}},
      {Operation::fetch, {"fetched"}, {"fetch", "fetching", "merchant", "run"}},
      {Operation::clear_up,
       {"cleared", "tidied", "washed", "swept"},
       {"clear", "clearing", "up", "tidy", "tidying", "wash", "washing", "down"}},
      {Operation::load_out, {"loaded"}, {"load", "loading", "van"}},
  };
  return rows;
}

bool holds(const Words& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

std::span<const std::string_view> work_words(trade::Operation operation) {
  static const std::vector<Words> joined = [] {
    std::vector<Words> all;
    for (const WorkWords& row : table()) {
      Words words = row.past;
      words.insert(words.end(), row.other.begin(), row.other.end());
      all.push_back(std::move(words));
    }
    return all;
  }();
  for (std::size_t i = 0; i < table().size(); ++i) {
    if (table()[i].operation == operation) return joined[i];
  }
  return {};
}

bool is_past_of_work(std::string_view word) {
  return std::any_of(table().begin(), table().end(),
                     [word](const WorkWords& row) { return holds(row.past, word); });
}

bool is_word_of_work(std::string_view word) {
  return std::any_of(table().begin(), table().end(), [word](const WorkWords& row) {
    return holds(row.past, word) || holds(row.other, word);
  });
}

}  // namespace weatherstruck::works
