#include "weatherstruck/works/stock_book.h"

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::works {
namespace {

constexpr double slack = 1e-6;  ///< of what was used: sums of draws are not exact

// Wheeling in moves what the work after it uses up.
bool uses_up(const Task& task) {
  return task.operation != trade::Operation::wheel_in && task.operation != trade::Operation::fetch;
}

}  // namespace

StockBook::StockBook(const Job& job, const TaskList& list) : job_(job), list_(list) {
  for (const Task& task : list_.tasks) {
    for (const MaterialDraw& draw : task.materials)
      stock_[draw.material];
  }
}

void StockBook::count(const StockCount& what, const Entry& entry) {
  Stock& stock = stock_[what.material];
  stock.counted = what.amount;
  stock.counted_at = entry.at;
  stock.arrived = 0;
  stock.used = 0;
  count_entry_[what.material] = entry.key;
}

void StockBook::draw(const Task& task, double before, double after, base::Instant at) {
  if (task.amount <= 0 || !uses_up(task)) return;
  for (const MaterialDraw& material : task.materials) {
    Stock& stock = stock_[material.material];
    if (stock.counted_at && at < *stock.counted_at) continue;
    stock.used += material.amount * (after - before) / task.amount;
  }
}

void StockBook::weigh(Progress& progress, const std::function<bool(std::size_t)>& there) {
  for (std::size_t i = 0; i < list_.tasks.size(); ++i) {
    if (!there(i) || !uses_up(list_.tasks[i])) continue;
    for (const MaterialDraw& draw : list_.tasks[i].materials)
      stock_[draw.material].needed += draw.amount * (1 - progress.tasks[i].share());
  }
  for (const trade::Material& row : trade::materials()) {
    const auto found = stock_.find(std::string(row.key));
    if (found == stock_.end()) continue;
    Stock& stock = found->second;
    stock.material = found->first;
    if (stock.counted) {
      const double left = *stock.counted + stock.arrived - stock.used;
      if (left < -slack * (1 + stock.used)) {
        progress.remarks.push_back(
            {Remark::Kind::question, "stock-below-nought", count_entry_[stock.material],
             "By the count of " + base::day_and_time(job_.site.zone.to_local(*stock.counted_at)) + " the " +
                 std::string(row.title) + " must have run out, yet the work went on. Count them again."});
      }
      stock.left = std::max(0.0, left);
      stock.short_by = std::max(0.0, stock.needed - *stock.left);
    }
    progress.stock.push_back(stock);
  }
}

}  // namespace weatherstruck::works
