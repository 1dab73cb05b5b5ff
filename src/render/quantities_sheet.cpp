#include "weatherstruck/render/quantities_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/materials.h"

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
               line.on_site ? "at the work" : purchase(line.to_buy, line.purchase),
               line.on_site ? "" : amount(line.left_over, line.unit), mass(line.mass)});
  }
  page.table(table);
  page.gap();
  page.text(fmt::format("{} of material bought.", capital(mass(bill.mass))), 2);
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
               {"cement", Table::Kind::right}});
  for (const works::Batch& batch : bill.batches) {
    table.add({spoken(batch.part), batch.what, fmt::format("{:.2f} m3", batch.wet.value()),
               by_hand ? "" : count_of(batch.mixes, "mix"), fmt::format("{:.1f} bags", batch.cement_bags)});
  }
  page.table(table);
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

std::string quantities_sheet(const works::Job& job, const works::Bill& bill, Ink ink) {
  Page page(ink);
  page.title("Quantities", job.title);
  buying(page, bill);
  mixes(page, job, bill);
  soil(page, job, bill);
  by_part(page, bill);
  return page.str();
}

}  // namespace weatherstruck::render
