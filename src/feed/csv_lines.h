#pragma once
// A table's text, line by line and field by field.
#include <string_view>

namespace weatherstruck::feed {

/// Without blanks and tabs at both ends, nor a carriage return at the last.
[[nodiscard]] std::string_view trimmed(std::string_view text);
/// Without a byte order mark at the front.
[[nodiscard]] std::string_view without_mark(std::string_view text);
/// Takes the next line off `rest`, its end left out; false when there is none.
[[nodiscard]] bool next_line(std::string_view& rest, std::string_view& line);
/// An empty line, or one that begins with #.
[[nodiscard]] bool is_remark(std::string_view line);
/// An empty field or a mark that stands for no value.
[[nodiscard]] bool is_missing(std::string_view text);
/// Rain too little to measure: "T", "Tr", "trace".
[[nodiscard]] bool is_trace(std::string_view text);

}  // namespace weatherstruck::feed
