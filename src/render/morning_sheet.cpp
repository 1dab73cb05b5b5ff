#include "weatherstruck/render/morning_sheet.h"

namespace weatherstruck::render {
namespace {

constexpr std::size_t label_width = 13;

// Blocks are set apart by a blank line.
int block_of(MorningPart part) {
  if (part < MorningPart::tasks) return 0;
  if (part == MorningPart::tasks) return 1;
  if (part < MorningPart::turns) return 2;
  return part == MorningPart::turns ? 3 : 4;
}

}  // namespace

std::string morning_sheet(const TripFacts& facts, const MorningFacts& morning, Ink ink) {
  const MorningLines lines = morning_lines(facts, morning);
  Page page(ink);
  page.title(lines.title, lines.which);
  page.text(lines.job);
  page.text(lines.warning);
  int block = -1;
  for (const MorningLines::Section& section : lines.sections) {
    if (block_of(section.part) != block) page.gap();
    block = block_of(section.part);
    if (!section.rows.empty()) {
      Table table({{"", Table::Kind::left}, {"", Table::Kind::left}, {"", Table::Kind::wrapped}});
      for (const MorningLines::Row& row : section.rows)
        table.add({std::string(1, row.letter), row.time, row.brief});
      page.table(table, 0);
    }
    bool first = true;
    for (const std::string& sentence : section.sentences) {
      page.item(first ? section.label : "", sentence, label_width);
      first = false;
    }
  }
  return page.str();
}

}  // namespace weatherstruck::render
