#include "weatherstruck/render/day_needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::render {
namespace {

using trade::Operation;

bool lays_bricks(Operation operation) {
  return operation == Operation::lay_below || operation == Operation::lay_facing ||
         operation == Operation::lay_common;
}

// Mortar from the sand it takes; plates, copings and joints count too, concrete and sub-base do not.
base::CubicMetres mortar_in(const TripFacts& facts, const works::Task& task, double share) {
  if (task.operation == Operation::pour) return base::CubicMetres(0);
  const auto& practice = facts.job.practice;
  const auto& row =
      trade::row_for(task.operation == Operation::lay_below ? practice.mortar_below : practice.mortar);
  double sand = 0;
  for (const works::MaterialDraw& draw : task.materials) {
    if (draw.material == "building-sand" || draw.material == "sharp-sand") sand += draw.amount;
  }
  return base::CubicMetres(sand * share / row.sand_per_m3.value());
}

bool is_brick(const trade::Material& material) {
  return material.unit == "bricks";
}

}  // namespace

std::string mixes_of(base::CubicMetres wet, base::CubicMetres mixer) {
  if (mixer.value() <= 0) return fmt::format("{:.2f} m3", wet.value());
  return count_of(std::lround(std::ceil(wet / mixer - 0.05)), "mix");
}

DayNeeds needs_of(const TripFacts& facts, const TripDay& day) {
  DayNeeds needs;
  const auto add = [](std::vector<DayNeeds::Line>& lines, const std::string& material, double amount) {
    const auto line =
        std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.material == material; });
    if (line == lines.end()) {
      lines.push_back({material, amount});
    } else {
      line->amount += amount;
    }
  };
  for (const DayTask& task : day.tasks) {
    const works::Task& work = facts.list.tasks[task.task];
    if (work.operation == Operation::wheel_in || work.operation == Operation::fetch) continue;
    for (const works::MaterialDraw& draw : work.materials) {
      const trade::Material* row = trade::find_material(draw.material);
      if (row == nullptr) continue;
      add(is_brick(*row) ? needs.bricks : needs.other, draw.material, draw.amount * task.share);
    }
    if (work.operation == Operation::pour) {
      needs.concrete +=
          base::CubicMetres(work.amount * task.share * (1.0 + facts.job.practice.concrete_waste));
    }
    needs.mortar += mortar_in(facts, work, task.share);
  }
  const auto place = [](const DayNeeds::Line& line) { return trade::find_material(line.material); };
  for (auto* lines : {&needs.bricks, &needs.other}) {
    // Rows of one table: their addresses are their order.
    std::stable_sort(lines->begin(), lines->end(),
                     [&](const auto& a, const auto& b) { return place(a) < place(b); });
  }
  return needs;
}

trade::DayFacts caution_facts(const TripFacts& facts, const TripDay& day, base::Metres deepest_trench) {
  trade::DayFacts out;
  std::optional<base::Instant> first_dig;
  const auto digs = [](Operation o) { return o == Operation::dig || o == Operation::strip_turf; };
  for (std::size_t i = 0; i < facts.plan.tasks.size(); ++i) {
    if (!facts.plan.tasks[i].placed() || !digs(facts.list.tasks[i].operation)) continue;
    first_dig = std::min(first_dig.value_or(facts.plan.tasks[i].start()), facts.plan.tasks[i].start());
  }
  bool mixes = false;
  bool lights = false;
  base::Hours busy{0};
  for (const DayTask& task : day.tasks) {
    const works::Task& work = facts.list.tasks[task.task];
    out.operations.push_back(work.operation);
    if (digs(work.operation) || work.operation == Operation::pour || lays_bricks(work.operation)) {
      out.deepest_trench = std::max(out.deepest_trench, deepest_trench);
    }
    out.cuts = out.cuts || trade::row_for(work.operation).noise == trade::Noise::cutter;
    mixes = mixes || trade::row_for(work.operation).noise == trade::Noise::mixer;
    for (const auto& run : task.runs) {
      lights = lights || run.floodlit;
      const base::Hours length(static_cast<double>((run.span.to - run.span.from).count()) / 3600.0);
      busy += length;
      if (work.operation == Operation::drive) out.drive += length;
    }
  }
  out.work_and_drive = busy;
  out.first_digging = first_dig && day.span.from <= *first_dig && *first_dig < day.span.to;
  for (const auto& sitting : facts.plan.canopy)
    out.canopy_up = out.canopy_up || (sitting.over.from < day.span.to && sitting.over.to > day.span.from);
  const WeatherSum sum = sum_up(facts.series, day.span);
  if (sum.gust) out.highest_gust = *sum.gust;
  if (sum.low) out.lowest_air = *sum.low;
  out.power_tools_wet = (mixes || lights) && sum.rain && sum.rain->value() > 0;
  out.alone = facts.job.crew.size() == 1;
  return out;
}

}  // namespace weatherstruck::render
