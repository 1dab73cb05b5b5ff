#pragma once
// A sheet of plain text, at most 80 columns wide: headings, labelled lines, tables. No boxes and no rules:
// what belongs together is set off by indentation and a blank line.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace weatherstruck::render {

inline constexpr std::size_t page_width = 80;

/// Whether headings are set in bold. Nothing is ever told by it alone.
enum class Ink { plain, bold };

/// Columns as wide as their widest cell, two spaces between them. At most one column wraps into what room
/// is left; the others are never cut.
class Table {
 public:
  enum class Kind { left, right, wrapped };
  struct Column {
    std::string title;
    Kind kind = Kind::left;
  };
  explicit Table(std::vector<Column> columns);
  /// @throws std::invalid_argument unless there is a cell for each column
  void add(std::vector<std::string> cells);
  /// A line of its own between rows; takes no part in the widths.
  void section(std::string text);
  [[nodiscard]] bool empty() const { return rows_.empty(); }
  /// Lines without trailing spaces; the titles first, unless all are empty.
  [[nodiscard]] std::vector<std::string> lines(std::size_t width) const;

 private:
  std::vector<Column> columns_;
  struct Row {
    std::vector<std::string> cells;
    bool section = false;  ///< then there is one cell
  };
  std::vector<Row> rows_;
};

class Page {
 public:
  explicit Page(Ink ink = Ink::plain) : ink_(ink) {}
  /// What the sheet is, and at the right edge a second text if it fits (else on the next line).
  void title(std::string_view left, std::string_view right = {});
  /// A blank line and the name of what follows.
  void heading(std::string_view text);
  /// A paragraph, wrapped, `indent` spaces in; nothing where there are no words.
  void text(std::string_view words, std::size_t indent = 0);
  /// A label and beside it, from column `at`, wrapped text. Without a label: more of the same.
  void item(std::string_view label, std::string_view words, std::size_t at);
  void table(const Table& table, std::size_t indent = 2);
  /// A line exactly as given.
  void exact(std::string_view line);
  void gap();
  [[nodiscard]] std::string str() const { return text_; }

 private:
  [[nodiscard]] std::string strong(std::string_view text) const;
  Ink ink_;
  std::string text_;
};

}  // namespace weatherstruck::render
