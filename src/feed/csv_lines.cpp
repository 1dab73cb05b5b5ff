#include "csv_lines.h"

#include <algorithm>
#include <array>

#include "weatherstruck/feed/csv_weather.h"

namespace weatherstruck::feed {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
    text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
    text.remove_suffix(1);
  return text;
}

std::string_view without_mark(std::string_view text) {
  return text.starts_with("\xEF\xBB\xBF") ? text.substr(3) : text;
}

bool next_line(std::string_view& rest, std::string_view& line) {
  if (rest.empty()) return false;
  const auto end = rest.find('\n');
  line = rest.substr(0, end);
  rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  return true;
}

bool is_remark(std::string_view line) {
  const auto text = trimmed(line);
  return text.empty() || text.front() == '#';
}

bool is_missing(std::string_view text) {
  constexpr std::array<std::string_view, 19> marks{"",     "NA",    "N/A",  "na",      "n/a",   "NaN", "nan",
                                                   "null", "NULL",  "None", "-",       "--",    "---", "...",
                                                   "?",    "-9999", "-999", "-9999.0", "-999.0"};
  return std::find(marks.begin(), marks.end(), text) != marks.end();
}

bool is_trace(std::string_view text) {
  return text == "T" || text == "Tr" || text == "trace";
}

std::optional<std::vector<std::string>> split_csv_line(std::string_view line, char separator) {
  std::vector<std::string> fields(1);
  bool quoted = false;  // inside quotes now
  bool closed = false;  // this field had quotes and they are closed
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quoted) {
      if (c != '"') {
        fields.back() += c;
      } else if (i + 1 < line.size() && line[i + 1] == '"') {
        fields.back() += c;
        ++i;
      } else {
        quoted = false;
        closed = true;
      }
    } else if (c == separator) {
      fields.emplace_back();
      closed = false;
    } else if (c == '"' && !closed && trimmed(fields.back()).empty()) {
      fields.back().clear();
      quoted = true;
    } else if (c == '"' || (closed && c != ' ')) {
      return std::nullopt;
    } else {
      fields.back() += c;
    }
  }
  if (quoted) return std::nullopt;
  return fields;
}

}  // namespace weatherstruck::feed
