#pragma once
// Everything that the tables hold, in one list to be read: each limit, norm, pace, cover, material, mix and
// constant with its figures and its source, by kind of work. The list holds no number of its own; it reads
// them from the tables that the plan reads.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

/// What the number bears on; the order in which a list is read.
enum class WorkGroup { brickwork, concrete, flags, ground, covers, carrying, hours, stock, heat };
/// "Brickwork", "Concrete and footings", ...
[[nodiscard]] std::string_view group_title(WorkGroup group);

enum class ListedTable { limits, paces, norms, soils, covers, materials, mixes, curing, constants, heat };
/// What a row is, in one word: "limit", "pace", "norm", "soil", "cover", "material", "mix", "curing",
/// "constant", "heat".
[[nodiscard]] std::string_view table_word(ListedTable table);
/// "safety", "damage", "quality", "comfort".
[[nodiscard]] std::string_view class_word(LimitClass cls);
/// "both" where a limit holds whatever the set, else "uk" or "us", and the cold rule behind it ("uk nhbc").
[[nodiscard]] std::string set_words(std::optional<LimitSet> set, std::optional<ColdRule> rule);

struct ListedFigure {
  std::string what;  ///< "room"; empty for what the row's title names
  double value = 0;
  std::string unit;  ///< "C", "h/brick"; empty for a pure number
  /// What a job may set a limit to; the range that was seen or taken of a norm or a pace.
  std::optional<double> low, high;
};

struct ListedRow {
  ListedTable table;
  WorkGroup group;
  std::string key;                    ///< unique within table, set and rule
  std::string title;                  ///< plain words
  std::vector<ListedFigure> figures;  ///< at least one
  std::optional<LimitClass> cls;      ///< limits alone
  std::optional<LimitSet> set;        ///< nullopt: both
  std::optional<ColdRule> rule;       ///< nullopt: whatever the cold rule
  Source source;
  std::string_view set_in;       ///< where a job sets it, "limits.overrides"; empty: it cannot
  const Limit* limit = nullptr;  ///< of a limit
  /// What a job may set a norm, a pace or a figure of a cover to; its own figure's low and high are what was
  /// seen.
  std::optional<std::pair<double, double>> may_be{};
};

/// Every row of every table: by group; within one limits first, then in the order of the tables.
[[nodiscard]] std::vector<ListedRow> listed_rows();
/// The group of a limit or a norm, by its key. @throws std::logic_error for a key that none was named for
[[nodiscard]] WorkGroup group_of(std::string_view key);
/// Whether each word stands in the row's key, title, group, class, table, source or the names of its figures;
/// capitals do not count. No word: yes.
[[nodiscard]] bool matches(const ListedRow& row, std::span<const std::string> words);
/// Whether a limit of the row holds under that set and rule; what is no limit always does.
[[nodiscard]] bool in_force(const ListedRow& row, LimitSet set, std::optional<ColdRule> rule);

}  // namespace weatherstruck::trade
