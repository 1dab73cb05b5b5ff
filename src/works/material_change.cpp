#include "weatherstruck/works/material_change.h"
#include "weatherstruck/works/shortage.h"

#include <algorithm>
#include <cmath>

#include "weatherstruck/trade/materials.h"

namespace weatherstruck::works {
namespace {

constexpr double slack = 1e-6;

const TotalLine* line_of(const Bill& bill, std::string_view material) {
  for (const TotalLine& line : bill.totals) {
    if (line.material == material) return &line;
  }
  return nullptr;
}

/// A stock that the book counted says more than what was to be delivered.
const Stock* counted(const Progress* progress, const std::string& material) {
  const Stock* stock = progress == nullptr ? nullptr : progress->stock_of(material);
  return stock != nullptr && stock->left ? stock : nullptr;
}

bool counted_in_ones(std::string_view unit) {
  return unit == "bricks" || unit == "flags" || unit == "each";
}

struct Pack {
  std::string name;
  double size = 1;
};

/// What a run to the merchant buys it by; what the bill buys it by where the job takes it along.
Pack pack_of(const trade::Material& row, const TotalLine* line, bool missing) {
  if (!missing && line != nullptr && line->to_buy > 0) return {line->purchase, line->bought / line->to_buy};
  if (!row.small_pack.empty()) return {std::string(row.small_pack), row.small_pack_size};
  return {std::string(row.pack), row.pack_size};
}

void put(MaterialChange::Side& side, std::optional<double> there, const Pack& pack, std::string_view unit) {
  if (counted_in_ones(unit)) side.needed = std::ceil(side.needed - slack);
  if (there) {
    side.short_by = std::max(0.0, side.needed - *there);
    side.spare = std::max(0.0, *there - side.needed);
  }
  side.packs = std::ceil((there ? side.short_by : side.needed) / pack.size - slack);
}

}  // namespace

std::vector<MaterialChange> material_changes(const BilledJob& before, const BilledJob& after) {
  std::vector<MaterialChange> out;
  for (const trade::Material& row : trade::materials()) {
    const TotalLine* was = line_of(before.bill, row.key);
    const TotalLine* is = line_of(after.bill, row.key);
    if (was == nullptr && is == nullptr) continue;
    const auto on_site = [](const TotalLine* line) { return line != nullptr && line->on_site; };
    if (on_site(was) || on_site(is)) continue;
    MaterialChange one;
    one.material = row.key;
    one.name = row.title;
    one.unit = row.unit;
    one.before.needed = was == nullptr ? 0 : was->total;
    one.after.needed = is == nullptr ? 0 : is->total;
    one.there = there_is(before.job, row.key);
    const Stock* stock_was = counted(before.progress, one.material);
    const Stock* stock_is = counted(after.progress, one.material);
    if (stock_was != nullptr && stock_is != nullptr) {
      one.there = stock_was->left;
      one.before.needed = stock_was->needed;
      one.after.needed = stock_is->needed;
    }
    const Pack pack = pack_of(row, is == nullptr ? was : is, one.there.has_value());
    one.pack = pack.name;
    put(one.before, one.there, pack, row.unit);
    put(one.after, one.there, pack, row.unit);
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace weatherstruck::works
