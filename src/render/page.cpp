#include "weatherstruck/render/page.h"

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/base/text.h"

namespace weatherstruck::render {
namespace {

constexpr std::size_t gap_width = 2;
// A wrapped column is never squeezed below this; the line then runs over rather than read as a ribbon.
constexpr std::size_t least_wrapped = 12;

std::string trimmed(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

}  // namespace

Table::Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

void Table::add(std::vector<std::string> cells) {
  if (cells.size() != columns_.size())
    throw std::invalid_argument("a table row needs a cell for each column");
  rows_.push_back({std::move(cells), false});
}

void Table::section(std::string text) {
  rows_.push_back({{std::move(text)}, true});
}

std::vector<std::string> Table::lines(std::size_t width) const {
  std::vector<Row> all = rows_;
  const bool titled =
      std::any_of(columns_.begin(), columns_.end(), [](const Column& c) { return !c.title.empty(); });
  if (titled) {
    std::vector<std::string> titles;
    for (const Column& column : columns_)
      titles.push_back(column.title);
    all.insert(all.begin(), Row{std::move(titles), false});
  }
  std::vector<std::size_t> widths(columns_.size(), 0);
  for (const Row& row : all) {
    for (std::size_t i = 0; i < row.cells.size() && !row.section; ++i)
      widths[i] = std::max(widths[i], base::display_width(row.cells[i]));
  }
  std::size_t taken = columns_.empty() ? 0 : gap_width * (columns_.size() - 1);
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    if (columns_[i].kind != Kind::wrapped) taken += widths[i];
  }
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    if (columns_[i].kind != Kind::wrapped) continue;
    const std::size_t room = width > taken + least_wrapped ? width - taken : least_wrapped;
    widths[i] = std::min(widths[i], room);
  }

  std::vector<std::string> out;
  for (const auto& [row, section] : all) {
    if (section) {
      out.push_back(row.front());
      continue;
    }
    std::vector<std::vector<std::string>> cells;
    std::size_t height = 1;
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (columns_[i].kind == Kind::wrapped) {
        cells.push_back(base::wrap(row[i], widths[i]));
      } else {
        cells.push_back({row[i]});
      }
      height = std::max(height, cells.back().size());
    }
    for (std::size_t k = 0; k < height; ++k) {
      std::string line;
      for (std::size_t i = 0; i < row.size(); ++i) {
        if (i > 0) line.append(gap_width, ' ');
        const std::string cell = k < cells[i].size() ? cells[i][k] : std::string();
        line +=
            columns_[i].kind == Kind::right ? base::align_right(cell, widths[i]) : base::pad(cell, widths[i]);
      }
      out.push_back(trimmed(std::move(line)));
    }
  }
  return out;
}

std::string Page::strong(std::string_view text) const {
  if (ink_ == Ink::plain) return std::string(text);
  return "\x1b[1m" + std::string(text) + "\x1b[0m";
}

void Page::title(std::string_view left, std::string_view right) {
  const std::size_t used = base::display_width(left) + base::display_width(right);
  if (right.empty()) {
    for (const std::string& line : base::wrap(left, page_width))
      text_ += strong(line) + '\n';
  } else if (used + gap_width <= page_width) {
    text_ += strong(left) + std::string(page_width - used, ' ') + std::string(right) + '\n';
  } else {
    title(left);
    text(right);
  }
}

void Page::heading(std::string_view text) {
  gap();
  text_ += strong(text) + '\n';
}

void Page::text(std::string_view words, std::size_t indent) {
  if (words.empty()) return;
  for (const std::string& line : base::wrap(words, page_width - indent))
    text_ += trimmed(std::string(indent, ' ') + line) + '\n';
}

void Page::item(std::string_view label, std::string_view words, std::size_t at) {
  std::string head = base::pad(label, at);
  if (base::display_width(head) > at) head += ' ';
  bool first = true;
  for (const std::string& line : base::wrap(words, page_width - std::max(at, base::display_width(head)))) {
    text_ += trimmed((first ? head : std::string(base::display_width(head), ' ')) + line) + '\n';
    first = false;
  }
}

void Page::table(const Table& table, std::size_t indent) {
  for (const std::string& line : table.lines(page_width - indent))
    text_ += trimmed(std::string(indent, ' ') + line) + '\n';
}

void Page::exact(std::string_view line) {
  text_ += trimmed(std::string(line)) + '\n';
}

void Page::gap() {
  if (!text_.empty() && (text_.size() < 2 || text_.substr(text_.size() - 2) != "\n\n")) text_ += '\n';
}

}  // namespace weatherstruck::render
