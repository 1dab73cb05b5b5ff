#pragma once
// Small functions on UTF-8 text and on how times and numbers are spoken. Locale never matters here.
#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/zone.h"

namespace weatherstruck::base {

/// Byte offset of the first byte that is not valid UTF-8 (RFC 3629: no overlong forms, no surrogates).
[[nodiscard]] std::optional<std::size_t> first_invalid_utf8(std::string_view text);
/// Columns a terminal gives the text: code points, combining marks counting nothing, wide CJK two.
[[nodiscard]] std::size_t display_width(std::string_view text);
/// Pads with spaces on the right (left for align_right) to `width` columns; longer text is left whole.
[[nodiscard]] std::string pad(std::string_view text, std::size_t width);
[[nodiscard]] std::string align_right(std::string_view text, std::size_t width);
/// Breaks at spaces so that no line is wider than `width` unless one word is. Existing newlines stay; the
/// spaces that open a line stay, other runs of spaces become one.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, std::size_t width);
/// Words of `words` joined with commas and a last "and".
[[nodiscard]] std::string join_and(std::span<const std::string> words);
/// The candidate with the least edit distance (insert, delete, replace, swap of neighbours), if that is at
/// most a third of the longer length rounded up; the first of equals.
[[nodiscard]] std::optional<std::string> nearest_name(std::string_view word,
                                                      std::span<const std::string> candidates);
/// "Mon 9 Feb"; "08:15"; "Mon 9 Feb 08:15"; "2026-02-09T08:15".
[[nodiscard]] std::string day_name(LocalDay day);
[[nodiscard]] std::string clock_time(LocalTime t);
[[nodiscard]] std::string day_and_time(LocalTime t);
[[nodiscard]] std::string iso_local(LocalTime t);
/// "2026-02-09T08:15:00Z".
[[nodiscard]] std::string iso_utc(Instant t);
/// Reads "YYYY-MM-DDThh:mm[:ss]" (also a space for T). Nothing else; no offset. nullopt when malformed
/// or when no such date or time exists in the calendar.
[[nodiscard]] std::optional<LocalTime> parse_iso_local(std::string_view text);
/// Reads the same with "Z" or "+hh:mm"/"-hh:mm"/"+hhmm" at the end; the offset is needed.
[[nodiscard]] std::optional<Instant> parse_iso_instant(std::string_view text);
/// Reads "YYYY-MM-DD".
[[nodiscard]] std::optional<LocalDay> parse_iso_day(std::string_view text);
/// A whole decimal number ("-12", "3.50", "1e3"), nothing before or after it, a digit on both sides of the
/// point; finite only. Correctly rounded.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);
/// Shortest plain text for a number with at most `decimals` decimals (0..17), trailing zeros dropped, "-0"
/// never. @throws std::invalid_argument for a value that is not finite or decimals out of range
[[nodiscard]] std::string plain_number(double value, int decimals);

}  // namespace weatherstruck::base
