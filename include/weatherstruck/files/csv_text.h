#pragma once
// Rows of comma-separated values as in RFC 4180: UTF-8, lines end in CR LF, what holds a comma, a quotation
// mark or a line break stands between quotation marks.
#include <string>
#include <vector>

namespace weatherstruck::files {

[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells);

}  // namespace weatherstruck::files
