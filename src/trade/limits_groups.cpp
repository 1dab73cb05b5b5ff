// Which kind of work a limit or a norm bears on.
#include <algorithm>
#include <array>
#include <cctype>
#include <stdexcept>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/limits_list.h"
#include "weatherstruck/trade/norms.h"

namespace weatherstruck::trade {
namespace {

struct Grouped {
  WorkGroup group;
  /// A key, or with a dash at its end all the keys that begin so.
  std::string_view keys;
};

namespace l = limit;
namespace n = norm_key;

// The first line that fits counts.
constexpr std::array table{
    Grouped{WorkGroup::brickwork, "brick-"},
    Grouped{WorkGroup::brickwork, "rain-facework-"},
    Grouped{WorkGroup::brickwork, l::rain_below_stop},
    Grouped{WorkGroup::brickwork, l::rain_pointing_stop},
    Grouped{WorkGroup::brickwork, "soft-joint-"},
    Grouped{WorkGroup::brickwork, l::fresh_wall_wind},
    Grouped{WorkGroup::brickwork, "green-height-"},
    Grouped{WorkGroup::brickwork, "free-wall-"},
    Grouped{WorkGroup::brickwork, "retaining-"},
    Grouped{WorkGroup::brickwork, "strap-"},
    Grouped{WorkGroup::brickwork, "plate-"},
    Grouped{WorkGroup::brickwork, l::pointing_lights_pace},
    Grouped{WorkGroup::brickwork, "mortar-"},
    Grouped{WorkGroup::brickwork, n::dwarf_wall_factor},
    Grouped{WorkGroup::brickwork, n::mate_serves},
    Grouped{WorkGroup::brickwork, n::waste_bricks},
    Grouped{WorkGroup::brickwork, n::waste_mortar},
    Grouped{WorkGroup::brickwork, n::mixing_water},
    Grouped{WorkGroup::brickwork, n::frog_mortar},
    Grouped{WorkGroup::brickwork, n::dpc_lap},
    Grouped{WorkGroup::brickwork, n::weep_spacing},
    Grouped{WorkGroup::brickwork, n::joint_give},
    Grouped{WorkGroup::concrete, "pour-"},
    Grouped{WorkGroup::concrete, "concrete-"},
    Grouped{WorkGroup::concrete, l::rain_pour_stop},
    Grouped{WorkGroup::concrete, "strip-"},
    Grouped{WorkGroup::concrete, "box-"},
    Grouped{WorkGroup::concrete, "high-wall-"},
    Grouped{WorkGroup::concrete, "evaporation-"},
    Grouped{WorkGroup::concrete, "cure-"},
    Grouped{WorkGroup::concrete, "footing-"},
    Grouped{WorkGroup::concrete, n::waste_concrete},
    Grouped{WorkGroup::flags, "flags-"},
    Grouped{WorkGroup::flags, "flag-"},
    Grouped{WorkGroup::flags, l::grout_wait},
    Grouped{WorkGroup::flags, l::rain_flags_stop},
    Grouped{WorkGroup::flags, n::waste_flags},
    Grouped{WorkGroup::flags, n::subbase_compaction},
    Grouped{WorkGroup::ground, l::rain_ground_stop},
    Grouped{WorkGroup::ground, "fill-"},
    Grouped{WorkGroup::ground, "trench-"},
    Grouped{WorkGroup::ground, "ground-"},
    Grouped{WorkGroup::ground, n::deep_dig},
    Grouped{WorkGroup::covers, "canopy-"},
    Grouped{WorkGroup::covers, l::rain_cover},
    Grouped{WorkGroup::covers, "cover-"},
    Grouped{WorkGroup::covers, "night-cover-"},
    Grouped{WorkGroup::carrying, "barrow-"},
    Grouped{WorkGroup::carrying, "bucket-"},
    Grouped{WorkGroup::carrying, "hand-"},
    Grouped{WorkGroup::carrying, n::wet_ground_factor},
    Grouped{WorkGroup::carrying, l::lift_caution},
    Grouped{WorkGroup::carrying, n::merchant_stop},
    Grouped{WorkGroup::hours, "drive-"},
    Grouped{WorkGroup::hours, l::day_red_line},
    Grouped{WorkGroup::hours, l::rest_before_drive},
    Grouped{WorkGroup::hours, l::evening_from},
    Grouped{WorkGroup::hours, "noise-"},
    Grouped{WorkGroup::hours, "pace-"},
    Grouped{WorkGroup::hours, "pace-"},
    Grouped{WorkGroup::stock, n::sand_bulking},
};

bool fits(std::string_view key, std::string_view keys) {
  return keys.back() == '-' ? key.substr(0, keys.size()) == keys : key == keys;
}

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(), [](unsigned char c) {
    return c < 0x80 ? static_cast<char>(std::tolower(c)) : static_cast<char>(c);
  });
  return out;
}

}  // namespace

WorkGroup group_of(std::string_view key) {
  const auto* const found =
      std::find_if(table.begin(), table.end(), [&](const Grouped& one) { return fits(key, one.keys); });
  if (found == table.end()) {
    throw std::logic_error("no kind of work is named for \"" + std::string(key) + "\" in limits_groups.cpp");
  }
  return found->group;
}

std::string_view group_title(WorkGroup group) {
  switch (group) {
    case WorkGroup::brickwork:
      return "Brickwork";
    case WorkGroup::concrete:
      return "Concrete and footings";
    case WorkGroup::flags:
      return "Flags";
    case WorkGroup::ground:
      return "Ground";
    case WorkGroup::covers:
      return "Covers and canopy";
    case WorkGroup::carrying:
      return "Carrying";
    case WorkGroup::hours:
      return "Hours, the road, noise";
    case WorkGroup::stock:
      return "Materials and mixes";
    case WorkGroup::heat:
      return "Heat of fresh concrete";
  }
  throw std::logic_error("a kind of work without a title");
}

std::string_view table_word(ListedTable table_of_row) {
  switch (table_of_row) {
    case ListedTable::limits:
      return "limit";
    case ListedTable::paces:
      return "pace";
    case ListedTable::norms:
      return "norm";
    case ListedTable::soils:
      return "soil";
    case ListedTable::covers:
      return "cover";
    case ListedTable::materials:
      return "material";
    case ListedTable::mixes:
      return "mix";
    case ListedTable::curing:
      return "curing";
    case ListedTable::constants:
      return "constant";
    case ListedTable::heat:
      return "heat";
  }
  throw std::logic_error("a table without a word");
}

std::string_view class_word(LimitClass cls) {
  switch (cls) {
    case LimitClass::safety:
      return "safety";
    case LimitClass::damage:
      return "damage";
    case LimitClass::quality:
      return "quality";
    case LimitClass::comfort:
      return "comfort";
  }
  throw std::logic_error("a class without a word");
}

std::string set_words(std::optional<LimitSet> set, std::optional<ColdRule> rule) {
  std::string words = !set ? "both" : *set == LimitSet::uk ? "uk" : "us";
  if (!rule) return words;
  switch (*rule) {
    case ColdRule::nhbc:
      return words + " nhbc";
    case ColdRule::bda:
      return words + " bda";
    case ColdRule::nbs:
      return words + " nbs";
  }
  throw std::logic_error("a cold rule without a word");
}

bool matches(const ListedRow& row, std::span<const std::string> words) {
  std::string all = row.key + ' ' + row.title + ' ' + std::string(table_word(row.table)) + ' ' +
                    std::string(group_title(row.group)) + ' ' + std::string(words_for(row.source.standing)) +
                    ' ' + std::string(row.source.text);
  if (row.cls) all += ' ' + std::string(class_word(*row.cls));
  for (const ListedFigure& figure : row.figures)
    all += ' ' + figure.what;
  all = lower(all);
  return std::all_of(words.begin(), words.end(),
                     [&](const std::string& word) { return all.find(lower(word)) != std::string::npos; });
}

bool in_force(const ListedRow& row, LimitSet set, std::optional<ColdRule> rule) {
  if (row.set && *row.set != set) return false;
  return !row.rule || !rule || *row.rule == *rule;
}

}  // namespace weatherstruck::trade
