#include "weatherstruck/works/shortage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <variant>

#include "weatherstruck/measure/footing.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::works {

using base::Metres;
using trade::BrickKind;

namespace {

constexpr double slack = 1e-6;
constexpr int most_courses_off = 2;

double whole(double amount) {
  return std::ceil(amount - slack);
}

bool counted_in_ones(const trade::Material& row) {
  return row.unit == "bricks" || row.unit == "flags" || row.unit == "each";
}

double spare_of(const Job& job, const Bill& bill, std::string_view material) {
  const double needed = whole(bill.total_of(std::string(material)));
  if (const auto there = there_is(job, material)) return std::max(0.0, std::floor(*there + slack) - needed);
  for (const TotalLine& line : bill.totals) {
    if (line.material == material) return std::floor(line.left_over + slack);
  }
  return 0;
}

/// The members that the brick parts have in common, whatever they are called.
struct Brickwork {
  int* courses = nullptr;
  int* below = nullptr;  ///< nullptr: none can be buried apart
  BrickKind* brick = nullptr;
  BrickKind* brick_below = nullptr;
  int buried = 0;
};

class Lens {
 public:
  explicit Lens(Job& job) : job_(job) {}
  std::optional<Brickwork> on(Part& part) {
    return std::visit([this](auto& written) { return of(written); }, part);
  }

 private:
  std::optional<Brickwork> of(Base& base) {
    return Brickwork{&base.courses, &base.courses_below, &base.brick, &base.brick_below,
                     buried_courses(base.footing_depth, base.footing_thickness)};
  }
  std::optional<Brickwork> of(Bed& bed) {
    return Brickwork{&bed.courses, &bed.courses_below, &bed.brick, &bed.brick_below,
                     buried_courses(bed.footing_depth, bed.footing_thickness)};
  }
  std::optional<Brickwork> of(Wall& wall) {
    int buried = 0;
    for (const Part& part : job_.parts) {
      const Footing* footing = std::get_if<Footing>(&part);
      if (footing != nullptr && footing->name == wall.footing)
        buried = buried_courses(footing->depth, footing->thickness);
    }
    return Brickwork{&wall.courses, &wall.courses_below, &wall.brick, &wall.brick_below, buried};
  }
  std::optional<Brickwork> of(Box& box) { return Brickwork{&box.courses, nullptr, &box.brick, nullptr, 0}; }
  template <class Other>
  std::optional<Brickwork> of(Other& /*without bricks of its own choice*/) {
    return std::nullopt;
  }

  Job& job_;
};

class Curer {
 public:
  Curer(const Job& job, const std::string& material, double short_by, const LaidSoFar& laid)
      : laid_(laid), out_{material, short_by, {}, short_by, job} {
    for (const trade::BrickRow& row : trade::bricks()) {
      if (row.material == material) kind_ = row.kind;
    }
  }

  CurePlan run() {
    if (!kind_) return std::move(out_);
    for (std::size_t i = 0; i < out_.job.parts.size() && short_still(); ++i)
      share_out(i);
    for (int round = 0; round < most_courses_off; ++round) {
      for (const Importance importance : {Importance::may, Importance::should, Importance::must})
        shrink(importance);
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool short_still() const { return out_.still_short > slack; }
  [[nodiscard]] static bool among(const std::vector<Name>& names, const Name& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  }
  [[nodiscard]] Importance importance_of(const Name& part) const {
    for (const PartImportance& one : out_.job.importance) {
      if (one.part == part) return one.importance;
    }
    return Importance::must;
  }

  /// The cure done on a copy of the job as it stands by now.
  struct Tried {
    Cure cure;
    Job job;
  };
  template <class Change>
  [[nodiscard]] Tried tried(std::size_t part, Cure cure, Change change) const {
    Tried out{std::move(cure), out_.job};
    const Bill before = bill_of(out_.job);
    if (auto brickwork = Lens(out.job).on(out.job.parts[part])) change(*brickwork);
    const Bill after = bill_of(out.job);
    out.cure.part = name_of(out.job.parts[part]);
    out.cure.frees = whole(before.total_of(out_.material)) - whole(after.total_of(out_.material));
    if (!out.cure.instead.empty())
      out.cure.takes = whole(after.total_of(out.cure.instead)) - whole(before.total_of(out.cure.instead));
    return out;
  }
  void take(Tried tried) {
    out_.still_short = std::max(0.0, out_.still_short - tried.cure.frees);
    out_.cures.push_back(std::move(tried.cure));
    out_.job = std::move(tried.job);
  }

  void share_out(std::size_t part) {
    if (among(laid_.begun, name_of(out_.job.parts[part]))) return;
    const auto now = Lens(out_.job).on(out_.job.parts[part]);
    if (!now || now->below == nullptr) return;
    const bool buries_it = *now->brick_below == *kind_ && *now->below > 0;
    if (*now->brick != *kind_ && !buries_it) return;
    const Bill bill = bill_of(out_.job);
    for (const BrickKind hard :
         std::array{*now->brick_below, BrickKind::engineering_b, BrickKind::engineering_a}) {
      if (hard == *kind_) continue;
      const std::string instead(trade::row_for(hard).material);
      const double spare = spare_of(out_.job, bill, instead);
      const int least = buries_it ? *now->below : *now->below + 1;
      const int most = *now->brick == *kind_ ? std::min(now->buried, *now->courses - 1) : *now->below;
      std::optional<Tried> best;
      for (int courses = least; courses <= std::max(most, buries_it ? least : 0); ++courses) {
        Cure cure;
        cure.kind = Cure::Kind::share_out;
        cure.courses = courses;
        cure.instead = instead;
        Tried one = tried(part, std::move(cure), [&](Brickwork& brickwork) {
          *brickwork.below = courses;
          *brickwork.brick_below = hard;
        });
        if (one.cure.takes > spare + slack) break;
        if (one.cure.frees <= 0) continue;
        best = std::move(one);
        if (best->cure.frees >= out_.still_short - slack) break;
      }
      if (!best) continue;
      take(std::move(*best));
      return;
    }
  }

  void shrink(Importance importance) {
    std::vector<std::size_t> open;
    for (std::size_t i = 0; i < out_.job.parts.size(); ++i) {
      const Name& name = name_of(out_.job.parts[i]);
      if (importance_of(name) == importance && !among(laid_.finished, name)) open.push_back(i);
    }
    while (short_still() && !open.empty()) {
      std::optional<Tried> best;
      std::size_t of = 0;
      for (std::size_t k = 0; k < open.size(); ++k) {
        const auto now = Lens(out_.job).on(out_.job.parts[open[k]]);
        const int below = now && now->below != nullptr ? *now->below : 0;
        if (!now || *now->brick != *kind_ || *now->courses - below < 2) continue;
        Cure cure;
        cure.kind = Cure::Kind::shrink;
        cure.courses = 1;
        Tried one = tried(open[k], std::move(cure), [](Brickwork& brickwork) { --*brickwork.courses; });
        if (one.cure.frees <= 0) continue;
        if (best && !better(one.cure.frees, best->cure.frees)) continue;
        best = std::move(one);
        of = k;
      }
      if (!best) return;
      take(std::move(*best));
      open.erase(open.begin() + static_cast<std::ptrdiff_t>(of));
    }
  }
  /// The fewest that suffice; short of that the most.
  [[nodiscard]] bool better(double frees, double than) const {
    const bool enough = frees >= out_.still_short - slack;
    const bool other = than >= out_.still_short - slack;
    if (enough != other) return enough;
    return enough ? frees < than : frees > than;
  }

  const LaidSoFar& laid_;
  CurePlan out_;
  std::optional<BrickKind> kind_;
};

}  // namespace

std::optional<double> there_is(const Job& job, std::string_view material) {
  std::optional<double> sum;
  for (const StockAtWork& line : job.supplies.stock) {
    if (line.material == material) sum = sum.value_or(0) + line.amount;
  }
  for (const Delivery& delivery : job.supplies.deliveries) {
    if (delivery.material == material) sum = sum.value_or(0) + delivery.amount;
  }
  return sum;
}

std::vector<StockLine> stock_of(const Job& job, const Bill& bill) {
  std::vector<StockLine> out;
  for (const TotalLine& total : bill.totals) {
    StockLine line;
    bool named = false;
    line.material = total.material;
    for (const StockAtWork& stock : job.supplies.stock) {
      if (stock.material != total.material) continue;
      line.counted += stock.amount;
      named = true;
    }
    if (!named) continue;
    for (const Delivery& delivery : job.supplies.deliveries) {
      if (delivery.material == total.material) line.delivered += delivery.amount;
    }
    line.needed = counted_in_ones(trade::material(total.material)) ? whole(total.total) : total.total;
    const double over = line.counted + line.delivered - line.needed;
    line.short_by = std::max(0.0, -over);
    line.spare = std::max(0.0, over);
    out.push_back(std::move(line));
  }
  return out;
}

LaidSoFar laid_so_far(const TaskList& tasks, const Progress& progress) {
  LaidSoFar out;
  std::vector<Name> open;
  for (std::size_t i = 0; i < tasks.tasks.size() && i < progress.tasks.size(); ++i) {
    const Task& task = tasks.tasks[i];
    if (task.operation != trade::Operation::lay_below && task.operation != trade::Operation::lay_facing &&
        task.operation != trade::Operation::lay_common)
      continue;
    if (progress.tasks[i].done > 0) out.begun.push_back(task.of);
    (progress.tasks[i].share() < 1 - slack ? open : out.finished).push_back(task.of);
  }
  const auto still_open = [&](const Name& name) {
    return std::find(open.begin(), open.end(), name) != open.end();
  };
  out.finished.erase(std::remove_if(out.finished.begin(), out.finished.end(), still_open),
                     out.finished.end());
  return out;
}

CurePlan cure(const Job& job, const std::string& material, double short_by, const LaidSoFar& laid) {
  return Curer(job, material, short_by, laid).run();
}

int buried_courses(Metres footing_depth, Metres footing_thickness) {
  return std::max(
      0, static_cast<int>(std::floor((footing_depth - footing_thickness) / measure::course_height + slack)));
}

}  // namespace weatherstruck::works
