#include <fmt/format.h>

#include "limits_words.h"
#include "weatherstruck/render/limits_sheet.h"

namespace weatherstruck::render {
namespace {

// What would end a cell or begin a tag.
std::string cell(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '|' || c == '<' || c == '*' || c == '_') out += '\\';
    out += c;
  }
  return out;
}

}  // namespace

namespace {

std::string may_be_text(const trade::ListedRow& row) {
  const trade::ListedFigure& figure = row.figures.front();
  std::string seen = range_text(figure);
  if (!row.may_be) return seen;
  const std::string may = range_text({"", 0, figure.unit, row.may_be->first, row.may_be->second});
  return seen.empty() ? may : fmt::format("{} (seen {})", may, seen);
}

}  // namespace

std::string limits_page(const LimitsFacts& facts) {
  std::string out =
      "# Limits, rates and norms\n\n"
      "Written by the program from the tables that it plans by: do not edit. `scripts/update-golden` writes "
      "it "
      "again,\nand a test says when it is old. `weatherstruck limits` shows the same on a terminal, and for "
      "a "
      "job what the job sets.\n\n"
      "*Class* is what goes wrong when a limit is passed: safety, damage, quality or comfort; other rows say "
      "what they are.\n*Set* is the set of limits, and the cold rule, that a row belongs to. *Range* is what "
      "a "
      "job may set the figure to, and of a norm\nor a pace what was seen or taken. A job sets what says so "
      "under "
      "`limits.overrides`, by its key; other rows say where. A\nperson's own pace stands in `crew.pace`. "
      "Rows that "
      "are set nowhere are listed only: properties of matter and of what is\nbought, not of a job.\n"
      "A source is given as *sourced* where number or wording was read there, *from memory* where it was "
      "not;\n*derived* is worked out from sourced numbers, *common practice, no source* is what the trade "
      "does, "
      "*assumption* is\nchosen for planning. Set-up and factors of a pace are assumptions; the source beside "
      "it is that of its "
      "hours.\n";
  const trade::ListedRow* last = nullptr;
  for (const trade::ListedRow& row : facts.rows) {
    if (last == nullptr || last->group != row.group) {
      out += fmt::format(
          "\n## {}\n\n| key | what | value | range | class | set | in a job | source |\n"
          "|---|---|---|---|---|---|---|---|\n",
          trade::group_title(row.group));
    }
    last = &row;
    const bool limit = row.cls.has_value();
    out += fmt::format(
        "| `{}` | {} | {} | {} | {} | {} | {} | {} |\n", row.key, cell(row.title), cell(figures_text(row, 0)),
        may_be_text(row), kind_text(row), limit ? trade::set_words(row.set, row.rule) : "",
        row.set_in.empty() ? "" : "`" + std::string(row.set_in) + "`", cell(source_text(row.source)));
  }
  return out;
}

}  // namespace weatherstruck::render
