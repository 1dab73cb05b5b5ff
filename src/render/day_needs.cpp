#include "weatherstruck/render/day_needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/mortar_behaviour.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/mortar_batch.h"
#include "weatherstruck/works/uses.h"

namespace weatherstruck::render {
namespace {

using trade::Operation;

bool lays_bricks(Operation operation) {
  return operation == Operation::lay_below || operation == Operation::lay_facing ||
         operation == Operation::lay_common;
}

bool is_brick(const trade::Material& material) {
  return material.unit == "bricks";
}

}  // namespace

std::string mixes_of(base::CubicMetres wet, base::CubicMetres mixer) {
  if (mixer.value() <= 0) return fmt::format("{:.2f} m3", wet.value());
  return count_of(std::lround(std::ceil(wet / mixer - 0.05)), "mix");
}

std::vector<std::string> batch_words(const works::Job& job, const std::vector<works::MortarBatch>& batches) {
  std::vector<std::string> lines;
  for (const works::MortarBatch& batch : batches) {
    const double litres = works::mix_at_once(batch, job.kit).value() * 1000;
    const double hours = batch.life.value();
    // Rounded down: what is left over at the end of its time is thrown away.
    const bool full = batch.laid >= works::batch_of(job.kit);
    std::string words = fmt::format(
        "{} mortar keeps {} h: ", trade::mortar_title(batch.mortar, job.practice.binder, job.limits.set),
        base::plain_number(hours, 1));
    words += full ? fmt::format("a full mix of {} litres is laid in time",
                                base::plain_number(std::floor(litres + 1e-9), 0))
                  : fmt::format("mix at most {} litres at once", base::plain_number(std::floor(litres), 0));
    lines.push_back(std::move(words));
  }
  return lines;
}

std::string lots_of_mortar(const TripFacts& facts, const TripDay& day) {
  std::vector<const works::Task*> tasks;
  std::optional<base::Celsius> warmest;
  for (const DayTask& task : day.tasks) {
    tasks.push_back(&facts.list.tasks[task.task]);
    const WeatherSum sum = sum_up(facts.series, {task.start(), task.finish()});
    if (sum.high) warmest = std::max(warmest.value_or(*sum.high), *sum.high);
  }
  const base::Celsius usual(15);
  const base::CubicMetres full = works::batch_of(facts.job.kit);
  base::CubicMetres least = full;
  bool quick = false;
  for (const works::MortarBatch& batch :
       works::mortar_batches(facts.job, tasks, facts.limits, warmest.value_or(usual))) {
    least = std::min(least, works::mix_at_once(batch, facts.job.kit));
    quick = quick || batch.life.value() <= 1;
  }
  if (least >= full) return {};
  return fmt::format(" in lots of {:.0f} litres{}", std::floor(least.value() * 1000),
                     quick ? " (it keeps 1 h)" : "");
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
    needs.mortar += works::mortar_in(work, facts.job.practice) * task.share;
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
  out.set = facts.job.limits.set;
  return out;
}

}  // namespace weatherstruck::render
