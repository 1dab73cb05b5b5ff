// Covers as things that are in use, wet height in a day, materials that must be there.
#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "site_check_view.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::programme::site {
namespace {

using base::Instant;
using Kind = works::FreshWork::Kind;
namespace limit = trade::limit;

constexpr double area_slack = 1e-6;

/// Lines, bricks and steps are set on the strip; pointing and straps are not.
bool is_set_on(const View& view, const works::Task& task, const works::Name& strip) {
  const bool sets =
      task.operation == trade::Operation::true_lines ||
      (task.fresh && (task.fresh->kind == Kind::mortar_below || task.fresh->kind == Kind::mortar_facing));
  return sets && stands_on(view, task.part, strip);
}

/// Work for which the cover of this piece has to be off.
bool touches(const View& view, const works::Task& task, const PlannedCover& cover) {
  if (cover.concrete) {
    return (task.part == cover.part && is_concrete(task)) || is_set_on(view, task, cover.part);
  }
  if (task.part != cover.part || is_concrete(task) || task.operation == trade::Operation::set_out)
    return false;
  return task.fresh.has_value() || trade::row_for(task.operation).lays ||
         task.operation == trade::Operation::strap_plate;
}

void check_off_at_work(const View& view, Objections& out) {
  for (const PlannedCover& cover : view.plan().covers) {
    if (trade::row_for(cover.kind).works_under) continue;
    for (const Entry& entry : view.entries()) {
      if (!entry.placed() || !touches(view, *entry.task, cover)) continue;
      for (const PlannedRun& run : entry.planned->runs) {
        if (!overlap(run.span, cover.span)) continue;
        object(out, "under-cover", entry.task->name, std::max(run.span.from, cover.span.from),
               fmt::format("is worked on while {} lies on {}", trade::row_for(cover.kind).title, cover.part));
      }
    }
  }
}

struct Stock {
  const char* name;
  bool trade::CoverRow::*uses;
  base::SquareMetres works::Kit::*has;
};
constexpr std::array stocks{Stock{"hessian", &trade::CoverRow::uses_hessian, &works::Kit::hessian},
                            Stock{"sheet", &trade::CoverRow::uses_sheet, &works::Kit::sheet},
                            Stock{"mats", &trade::CoverRow::uses_mat, &works::Kit::mats}};

/// At the moment at which each cover goes on: all that lie then against what there is.
void check_stock(const View& view, Objections& out) {
  for (const Stock& stock : stocks) {
    const double has = (view.job().kit.*stock.has).value();
    for (const PlannedCover& goes_on : view.plan().covers) {
      if (!(trade::row_for(goes_on.kind).*stock.uses)) continue;
      double used = 0;
      for (const PlannedCover& cover : view.plan().covers) {
        const bool lies = cover.span.from <= goes_on.span.from && goes_on.span.from < cover.span.to;
        if (lies && trade::row_for(cover.kind).*stock.uses) used += cover.area.value();
      }
      if (used <= has + area_slack) continue;
      object(out, "cover-stock", goes_on.part, goes_on.span.from,
             fmt::format("{:.1f} m2 of {} in use, there are {:.1f}", used, stock.name, has));
    }
  }
}

/// As much of the piece as stands when the cover goes on must fit under it.
void check_reach(const View& view, Objections& out) {
  for (const PlannedCover& cover : view.plan().covers) {
    if (cover.kind == trade::CoverKind::canopy || cover.kind == trade::CoverKind::bare) continue;
    double needed = 0;
    for (const Entry& entry : view.entries()) {
      const works::Task& task = *entry.task;
      if (!entry.placed() || !task.fresh || task.part != cover.part || is_concrete(task) != cover.concrete)
        continue;
      double share = 0;
      for (const PlannedRun& run : entry.planned->runs) {
        if (run.span.to <= cover.span.from) share += run.share;
      }
      needed = std::max(needed, task.fresh->cover.value() * share);
    }
    if (cover.area.value() + 0.01 >= needed) continue;
    object(out, "cover-short", cover.part, cover.span.from,
           fmt::format("{:.1f} m2 of cover for {:.1f} m2 of fresh work", cover.area.value(), needed));
  }
}

void check_heights(const View& view, Objections& out) {
  std::map<std::pair<works::Name, base::LocalDay>, double> all;
  std::map<std::pair<works::Name, base::LocalDay>, double> engineering;
  for (const Entry& entry : view.entries()) {
    const works::Task& task = *entry.task;
    if (!entry.placed() || !task.fresh || task.fresh->course_height.value() <= 0) continue;
    int stood = 0;
    for (const PlannedRun& run : entry.planned->runs) {
      const auto key = std::make_pair(task.part, view.zone().day_of(run.span.from));
      const double rise = (run.courses_after - stood) * task.fresh->course_height.value() * 1000;
      stood = run.courses_after;
      all[key] += rise;
      if (task.operation == trade::Operation::lay_below) engineering[key] += rise;
    }
  }
  const auto judge = [&](const auto& heights, std::string_view key, const char* of) {
    const double most = view.limit(key);
    for (const auto& [where, height] : heights) {
      if (height <= most + 0.5) continue;
      object(out, "height", where.first, view.zone().start_of(where.second),
             fmt::format("{:.0f} mm of {} in a day, at most {:.0f}", height, of, most));
    }
  };
  judge(all, limit::green_height_facing, "brickwork");
  judge(engineering, limit::green_height_engineering, "engineering brick");
}

void check_materials(const View& view, Objections& out) {
  const works::Supplies& supplies = view.job().supplies;
  for (const Entry& entry : view.entries()) {
    if (!entry.placed()) continue;
    for (const works::MaterialDraw& draw : entry.task->materials) {
      if (std::find(supplies.on_site.begin(), supplies.on_site.end(), draw.material) !=
          supplies.on_site.end())
        continue;
      const works::Delivery* first = nullptr;
      for (const works::Delivery& delivery : supplies.deliveries) {
        if (delivery.material == draw.material && (first == nullptr || delivery.at < first->at))
          first = &delivery;
      }
      if (first == nullptr || entry.planned->start() >= first->at) continue;
      object(out, "material", entry.task->name, entry.planned->start(),
             fmt::format("needs {}, which comes at {}", draw.material, view.clock(first->at)));
    }
  }
}

}  // namespace

void check_covers(const View& view, Objections& out) {
  check_off_at_work(view, out);
  check_stock(view, out);
  check_reach(view, out);
}

void check_stuff(const View& view, Objections& out) {
  check_heights(view, out);
  check_materials(view, out);
}

}  // namespace weatherstruck::programme::site
