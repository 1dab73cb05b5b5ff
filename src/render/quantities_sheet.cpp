#include "weatherstruck/render/quantities_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/day_needs.h"
#include "weatherstruck/render/job_recap.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/mortar_batch.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::render {
namespace {

// "bag of 25 kg" -> "bags of 25 kg".
std::string packs(long count, std::string_view pack) {
  const std::size_t of = pack.find(" of ");
  const std::string head(pack.substr(0, of));
  const std::string tail(of == std::string_view::npos ? std::string_view() : pack.substr(of));
  return count_of(count, head) + tail;
}

std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

void buying(Page& page, const works::Bill& bill) {
  page.heading("To buy");
  Table table({{"", Table::Kind::left},
               {"net", Table::Kind::right},
               {"waste", Table::Kind::right},
               {"buy", Table::Kind::left},
               {"left over", Table::Kind::right},
               {"mass", Table::Kind::right}});
  for (const works::TotalLine& line : bill.totals) {
    table.add({line.name, amount(line.net, line.unit), amount(line.waste, line.unit),
               line.on_site                           ? "at the work"
               : line.to_buy <= 0 && line.at_work > 0 ? "enough at the work"
                                                      : purchase(line.to_buy, line.purchase),
               line.on_site ? "" : amount(line.left_over, line.unit), mass(line.mass)});
  }
  page.table(table);
  page.gap();
  page.text(fmt::format("{} of material bought.", capital(mass(bill.mass))), 2);
}

// "13.5": halves come two out of a brick.
std::string halves(double bricks) {
  return bricks > 0 ? base::plain_number(bricks, 1) : std::string();
}

void to_the_brick(Page& page, const works::Bill& bill) {
  if (bill.walls.empty()) return;
  page.heading("Bricks, counted course by course");
  Table table({{"", Table::Kind::left},
               {"courses", Table::Kind::right},
               {"below", Table::Kind::right},
               {"seen", Table::Kind::right},
               {"to cut", Table::Kind::right}});
  int holes = 0;
  for (const works::WallBricks& wall : bill.walls) {
    table.add({wall.title, whole(static_cast<double>(wall.count.courses.size())),
               halves(wall.count.laid_below), halves(wall.count.laid_facing),
               wall.count.cut > 0 ? whole(std::ceil(wall.count.cut)) : std::string()});
    holes += wall.weep_holes;
  }
  page.table(table);
  page.gap();
  std::string sum;
  for (const works::TotalLine& line : bill.totals) {
    if (line.laid <= 0) continue;
    sum += (sum.empty() ? "" : ", ") + whole(line.laid) + " " + line.name;
  }
  page.text(capital(sum) + ", steps included. Half a brick is one cut in two, and both halves are used.", 2);
  if (holes > 0) page.text(capital(count_of(holes, "weep hole")) + ": joints left open.", 2);
}

// "1.15 bags", "half a box", "3.3 boxes".
std::string boxes(double count) {
  return base::plain_number(count, 1) + (std::abs(count - 1) < 0.05 ? " box" : " boxes");
}

void full_mixes(Page& page, const works::Job& job, const works::Bill& bill) {
  std::vector<std::string> said;
  for (const works::Batch& batch : bill.batches) {
    if (std::find(said.begin(), said.end(), batch.what) != said.end()) continue;
    said.push_back(batch.what);
    std::string words;
    for (const works::Gauged& one : batch.mix) {
      const trade::Material* material = trade::find_material(one.material);
      if (material == nullptr) continue;
      words += words.empty() ? "" : ", ";
      if (one.material == "cement") {
        words +=
            fmt::format("{} bags of cement ({})", base::plain_number(batch.bags_a_mix, 2), boxes(one.boxes));
      } else {
        words += fmt::format("{} of {}", boxes(one.boxes), material->title);
      }
    }
    if (words.empty()) continue;
    if (said.size() == 1) {
      page.gap();
      page.text(fmt::format("A full one, in boxes of {} litres:", whole(job.kit.gauge_box.value() * 1000)),
                2);
    }
    page.text(batch.what + ": " + words + ".", 4);
  }
}

// What must be used up decides how much is mixed; bricks of the slowest task, by his own pace.
void mortar_in_time(Page& page, const works::Job& job) {
  if (job.crew.empty() || job.site.routes.empty()) return;  // nobody to lay it, or no way in, yet
  const works::TaskList list = works::derive_tasks(job);
  std::vector<const works::Task*> tasks;
  for (const works::Task& task : list.tasks)
    tasks.push_back(&task);
  const trade::ResolvedLimits limits = works::limits_of(job);
  constexpr base::Celsius ordinary{15};
  const auto words = batch_words(job, works::mortar_batches(job, tasks, limits.values, ordinary));
  if (words.empty()) return;
  page.gap();
  for (const std::string& line : words)
    page.text(line + ".", 2);
  page.text("Above 30 \u00b0C it keeps 1 h at most: mix less.", 2);
}

void mixes(Page& page, const works::Job& job, const works::Bill& bill) {
  if (bill.batches.empty()) return;
  const bool by_hand = job.kit.mixer.value() <= 0;
  page.heading(by_hand ? "Mixes, by hand"
                       : fmt::format("Mixes, {} litres a batch", whole(job.kit.mixer.value() * 1000.0)));
  Table table({{"", Table::Kind::left},
               {"", Table::Kind::left},
               {"wet", Table::Kind::right},
               {"", Table::Kind::right},
               {"last one", Table::Kind::right},
               {"cement", Table::Kind::right}});
  for (const works::Batch& batch : bill.batches) {
    table.add({spoken(batch.part), batch.what, fmt::format("{:.2f} m3", batch.wet.value()),
               by_hand ? "" : count_of(batch.mixes, "mix"),
               by_hand ? "" : fmt::format("{} %", std::lround(100 * batch.last_mix)),
               fmt::format("{:.1f} bags", batch.cement_bags)});
  }
  page.table(table);
  full_mixes(page, job, bill);
  mortar_in_time(page, job);
}

void soil(Page& page, const works::Job& job, const works::Bill& bill) {
  if (bill.dug.value() <= 0) return;
  page.heading("Soil");
  Table table({{"", Table::Kind::left}, {"", Table::Kind::right}, {"", Table::Kind::left}});
  const auto cubic = [](base::CubicMetres v) { return fmt::format("{:.1f} m3", v.value()); };
  table.add({"dug, in the ground", cubic(bill.dug), ""});
  table.add({"dug, loose", cubic(bill.dug_loose), ""});
  table.add({"kept for filling", cubic(bill.soil_kept), ""});
  const double barrows = job.kit.barrow.value() > 0 ? bill.soil_away.value() / job.kit.barrow.value() : 0;
  table.add(
      {"to be got rid of", cubic(bill.soil_away),
       barrows > 0 ? fmt::format("about {}", count_of(std::lround(std::ceil(barrows)), "barrow")) : ""});
  page.table(table);
}

void stock(Page& page, const works::Job& job, const works::Bill& bill) {
  const std::vector<works::StockLine> lines = works::stock_of(job, bill);
  if (lines.empty()) return;
  page.heading("Stock");
  Table table({{"", Table::Kind::left},
               {"at the work", Table::Kind::right},
               {"delivered", Table::Kind::right},
               {"needed", Table::Kind::right},
               {"", Table::Kind::right}});
  for (const works::StockLine& line : lines) {
    const trade::Material& row = trade::material(line.material);
    table.add({std::string(row.title), amount(line.counted, row.unit), amount(line.delivered, row.unit),
               amount(line.needed, row.unit),
               line.short_by > 0 ? amount(line.short_by, row.unit) + " short"
                                 : amount(line.spare, row.unit) + " over"});
  }
  page.table(table);
  for (const works::StockLine& line : lines) {
    const trade::Material& row = trade::material(line.material);
    if (line.short_by <= 0 || row.unit != "bricks") continue;
    page.gap();
    page.text(fmt::format("{} {} short. Buy them, or:", whole(line.short_by), row.title), 2);
    for (const std::string& words : cure_lines(works::cure(job, line.material, line.short_by)))
      page.text(words, 4);
  }
}

void by_part(Page& page, const works::Bill& bill) {
  std::vector<std::string> parts;
  for (const works::PartLine& line : bill.parts) {
    if (std::find(parts.begin(), parts.end(), line.part) == parts.end()) parts.push_back(line.part);
  }
  if (parts.empty()) return;
  page.heading("By part, waste included");
  std::size_t widest = 0;
  for (const std::string& part : parts)
    widest = std::max(widest, base::display_width(part));
  for (const std::string& part : parts) {
    std::string words;
    for (const works::PartLine& line : bill.parts) {
      if (line.part != part) continue;
      const trade::Material* material = trade::find_material(line.material);
      if (material == nullptr) continue;
      if (!words.empty()) words += ", ";
      words += fmt::format("{} {}", material->title, amount(line.total, material->unit));
    }
    page.item("  " + spoken(part), words, widest + 4);
  }
}

}  // namespace

std::string amount(double value, std::string_view unit) {
  if (unit == "m3") return fmt::format("{:.2f} m3", value);
  if (unit == "m2" || unit == "m") return fmt::format("{:.1f} {}", value, unit);
  if (unit == "kg" || unit == "litres") return fmt::format("{} {}", whole(value), unit);
  return whole(value);
}

std::string purchase(double count, std::string_view pack) {
  if (pack == "each") return whole(count);
  // A symbol takes no plural, and may be bought by halves.
  if (pack == "m" || pack == "m2" || pack == "m3")
    return fmt::format("{} {}", base::plain_number(count, 1), pack);
  return packs(std::lround(count), pack);
}

std::vector<std::string> cure_lines(const works::CurePlan& plan) {
  std::vector<std::string> out;
  const std::string_view kind = trade::material(plan.material).title;
  const auto part = [](const works::Name& name) { return "the " + render::spoken(name); };
  for (const works::Cure& cure : plan.cures) {
    if (cure.kind == works::Cure::Kind::share_out) {
      out.push_back(fmt::format("{} of {} in {}, {} of those to spare: frees {} {}.",
                                cure.courses == 1 ? std::string("The lowest course")
                                                  : fmt::format("The lowest {} courses", cure.courses),
                                part(cure.part), trade::material(cure.instead).title, whole(cure.takes),
                                whole(cure.frees), kind));
    } else {
      out.push_back(fmt::format("One course off {}: frees {} {}.", part(cure.part), whole(cure.frees), kind));
    }
  }
  if (plan.cures.empty()) {
    out.push_back("Nothing can be built otherwise to make up for it.");
  } else if (plan.still_short > 0) {
    out.push_back(fmt::format("Then {} are still missing.", whole(plan.still_short)));
  }
  return out;
}

std::string quantities_sheet(const works::Job& job, const works::Bill& bill, Ink ink) {
  Page page(ink);
  page.title("Quantities", job.title);
  buying(page, bill);
  to_the_brick(page, bill);
  mixes(page, job, bill);
  stock(page, job, bill);
  soil(page, job, bill);
  by_part(page, bill);
  if (bill.bricks > 0 && job.limits.set == trade::LimitSet::us) {
    page.gap();
    page.text(capital(modular_brick_note()) + ".");
  }
  return page.str();
}

}  // namespace weatherstruck::render
