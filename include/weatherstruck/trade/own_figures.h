#pragma once
// Figures of the tables of norms, paces and covers that a job may set itself, in the same list as limits
// ("limits.overrides"). What they may be is wider than what was seen: from half of the least to twice the
// most, beyond which a figure is more likely a slip.
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/trade/source.h"

namespace weatherstruck::trade {

struct SettableFigure {
  enum class Table { norms, paces, covers };
  Table table{};
  std::string key;  ///< of the norm or the operation; "cover-mat-rain", "cover-mat-lift", ... of a cover
  std::string title;
  double value;
  std::string unit;
  double low, high;  ///< what a job may set it to, ends included
  Source source;
  CoverKind cover = CoverKind::bare;  ///< covers alone
};

/// Norms, then hours of the operations, then figures of the covers, in the order of their tables. A norm that
/// a job sets elsewhere (set_elsewhere) is left out, likewise joint-give, by which bricks are counted, and
/// what would mean nothing of a cover.
[[nodiscard]] std::span<const SettableFigure> settable_figures();
/// nullptr where there is none.
[[nodiscard]] const SettableFigure* find_settable(std::string_view key);
/// Where a job sets a norm apart from the list: "practice.brick_waste"; empty for any other key.
[[nodiscard]] std::string_view set_elsewhere(std::string_view norm_key);

/// The norms of a job: the tables', but for those that it sets.
class NormValues {
 public:
  /// @throws std::invalid_argument for a key that is not in the table
  [[nodiscard]] double at(std::string_view key) const;
  /// Hours of one person at pace 1 for an amount. @throws as norm_hours
  [[nodiscard]] base::Hours hours(Operation operation, double amount) const;
  /// Takes what is a norm or a pace; anything else is left alone.
  void set(std::string_view key, double value);

 private:
  std::vector<std::pair<std::string, double>> own_;
};

/// The covers of a job, likewise.
class CoverValues {
 public:
  CoverValues();
  [[nodiscard]] const CoverRow& at(CoverKind kind) const;
  void set(std::string_view key, double value);

 private:
  std::array<CoverRow, 6> rows_;
};

}  // namespace weatherstruck::trade
