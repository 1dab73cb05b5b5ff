#include "csv_lines.h"

#include <algorithm>
#include <array>

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
  constexpr std::array<std::string_view, 13> marks{"",   "NA",  "N/A",   "na",   "n/a",     "null",  "-",
                                                   "--", "---", "-9999", "-999", "-9999.0", "-999.0"};
  return std::find(marks.begin(), marks.end(), text) != marks.end();
}

}  // namespace weatherstruck::feed
