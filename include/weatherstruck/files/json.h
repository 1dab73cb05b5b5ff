#pragma once
// JSON text (RFC 8259) in, with everything a stranger's file can do to a reader found and named. The
// grammar is read here and not by the library's parser, because that one stops at the first fault, lets
// the last of two equal keys win in silence, and cannot say on which line a value stands. The values
// themselves are the library's: its ordered kind, so that faults come in the order of the text and a
// document written back keeps the order its author chose.
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::files {

using Json = nlohmann::ordered_json;

/// What a text may be. The caps keep a hostile or mistaken file from costing memory or stack.
struct JsonLimits {
  std::size_t most_bytes = std::size_t{16} << 20;  ///< 16 MiB; the real forecasts have 0.1-0.3 MB
  int deepest = 64;                                ///< objects and lists within each other
  bool comments = false;                           ///< `//` to the end of the line and `/* */` allowed
  bool keep_lines = false;                         ///< fill ParsedJson::lines
  /// At most 1 MiB, comments allowed, lines kept.
  [[nodiscard]] static JsonLimits job_document();
  /// At most 16 MiB, strict JSON.
  [[nodiscard]] static JsonLimits forecast();
};

/// The line, from 1, on which each value stands, by JSON pointer; the document itself is "".
using JsonLines = std::map<std::string, std::size_t, std::less<>>;

/// Either a value and no faults, or faults and no value.
struct ParsedJson {
  std::optional<Json> value;
  base::Faults faults;
  JsonLines lines;
};

/// Reads a whole text. Never throws for what stands in it. Faults, `place` being "line 3, column 7":
/// "too-big", "empty-input", "bad-utf8" (with the byte offset), "bad-json" (the first break of the
/// grammar, after which nothing is read), "too-deep", "not-a-number" (NaN and Infinity), "huge-number"
/// (beyond a double, or a whole number beyond 2^53, which a double does not hold exactly),
/// "bad-unicode-escape", and with a JSON pointer as place "duplicate-key". All but the grammar's are
/// collected to the end of the text. Whole numbers come out as signed 64-bit integers, others as doubles.
/// A byte order mark at the very start is passed over (RFC 8259 8.1 allows that).
[[nodiscard]] ParsedJson parse_json(std::string_view text, const JsonLimits& limits);

/// `pointer` one key or one list position further, "~" and "/" in the key escaped (RFC 6901).
[[nodiscard]] std::string pointer_to(std::string_view pointer, std::string_view key);
[[nodiscard]] std::string pointer_to(std::string_view pointer, std::size_t position);

/// What stands there, for a fault's `found`: the value as JSON on one line, cut after about 40 columns;
/// lists and objects as "a list of 3" and "an object".
[[nodiscard]] std::string shown(const Json& value);

}  // namespace weatherstruck::files
