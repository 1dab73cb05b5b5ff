#include "json_scanner.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

constexpr std::size_t most_faults = 100;  // after that nobody reads on
constexpr std::int64_t most_whole = std::int64_t{1}
                                    << 53;  // IEEE 754: every whole number up to here is exact

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '$';
}
bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

void append_utf8(std::string& out, std::uint32_t code) {
  const auto put = [&out](std::uint32_t byte) { out.push_back(static_cast<char>(byte)); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xC0U | (code >> 6U));
    put(0x80U | (code & 0x3FU));
  } else if (code < 0x10000) {
    put(0xE0U | (code >> 12U));
    put(0x80U | ((code >> 6U) & 0x3FU));
    put(0x80U | (code & 0x3FU));
  } else {
    put(0xF0U | (code >> 18U));
    put(0x80U | ((code >> 12U) & 0x3FU));
    put(0x80U | ((code >> 6U) & 0x3FU));
    put(0x80U | (code & 0x3FU));
  }
}

}  // namespace

std::string shortened(std::string_view text, std::size_t columns) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_continuation(text[i])) continue;
    if (count++ == columns) return std::string(text.substr(0, i)) + "...";
  }
  return std::string(text);
}

JsonScanner::JsonScanner(std::string_view text, bool comments) : text_(text), comments_(comments) {
  note_bad_utf8();
  if (text_.substr(0, 3) == "\xEF\xBB\xBF") at_ = line_start_ = 3;
}

void JsonScanner::note_bad_utf8() {
  const auto bad = base::first_invalid_utf8(text_);
  if (!bad) return;
  const auto before = text_.substr(0, *bad);
  const auto newline = before.rfind('\n');
  const auto start = newline == std::string_view::npos ? 0 : newline + 1;
  const auto line = 1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
  note({"bad-utf8", place(line, start, *bad),
        fmt::format("byte 0x{:02X} at offset {}", static_cast<unsigned char>(text_[*bad]), *bad),
        "text in UTF-8", "Save the file as UTF-8."});
}

// Columns count characters, as an editor does, not bytes.
std::string JsonScanner::place(std::size_t line, std::size_t line_start, std::size_t offset) const {
  std::size_t column = 1;
  for (std::size_t i = line_start; i < offset; ++i)
    column += is_continuation(text_[i]) ? 0U : 1U;
  return fmt::format("line {}, column {}", line, column);
}

void JsonScanner::note(base::Fault fault) {
  faults_.push_back(std::move(fault));
  if (faults_.size() < most_faults) return;
  faults_.push_back({"too-many-faults", here(), fmt::format("{} faults so far", most_faults),
                     "a text without faults", "Put these right first; the rest was not read."});
  throw StopReading();
}
void JsonScanner::broken_at(std::size_t offset, std::string found, std::string expected, std::string remedy) {
  note({"bad-json", place_of(offset), std::move(found), std::move(expected), std::move(remedy)});
  throw StopReading();
}
void JsonScanner::broken(std::string found, std::string expected, std::string remedy) {
  broken_at(at_, std::move(found), std::move(expected), std::move(remedy));
}

// What stands here, as a person would point at it.
std::string JsonScanner::token() const {
  if (done()) return "the end of the text";
  std::size_t end = at_;
  while (end < text_.size() && (is_letter(text_[end]) || is_digit(text_[end])))
    ++end;
  if (end == at_) {
    ++end;
    while (end < text_.size() && is_continuation(text_[end]))
      ++end;
  }
  const auto word = text_.substr(at_, end - at_);
  const auto first = static_cast<unsigned char>(word[0]);
  if (first < 0x20 || base::first_invalid_utf8(word)) return fmt::format("byte 0x{:02X}", first);
  return "`" + shortened(word, shown_columns) + "`";
}

void JsonScanner::skip_space() {
  for (; !done(); ++at_) {
    const char c = text_[at_];
    if (c == '\n') {
      ++line_;
      line_start_ = at_ + 1;
    } else if (c == '/') {
      skip_comment();
    } else if (c != ' ' && c != '\t' && c != '\r') {
      return;
    }
  }
}

// Leaves at_ on the last character of the comment.
void JsonScanner::skip_comment() {
  const char kind = at_ + 1 < text_.size() ? text_[at_ + 1] : '\0';
  if (kind != '/' && kind != '*') broken("`/`", "JSON", "Take the slash out.");
  if (!comments_) broken("a comment", "JSON without comments", "Take the comment out.");
  if (kind == '/') {
    const auto newline = text_.find('\n', at_);
    at_ = (newline == std::string_view::npos ? text_.size() : newline) - 1;
    return;
  }
  const auto end = text_.find("*/", at_ + 2);
  if (end == std::string_view::npos)
    broken("a comment without an end", "`*/` after it", "Close the comment.");
  for (; at_ < end; ++at_) {
    if (text_[at_] != '\n') continue;
    ++line_;
    line_start_ = at_ + 1;
  }
  at_ = end + 1;
}

std::string JsonScanner::read_string() {
  const std::size_t start = at_;
  ++at_;
  std::string out;
  while (true) {
    if (done() || peek() == '\n') {
      broken_at(start, "a text without its closing quote", "`\"` on the same line",
                "Close the text with a double quote.");
    }
    const char c = text_[at_];
    if (c == '"') break;
    if (static_cast<unsigned char>(c) < 0x20) {
      broken(fmt::format("byte 0x{:02X} in a text", static_cast<unsigned char>(c)), "no control characters",
             c == '\t' ? "Write a space or \\t for the tab." : "Take it out.");
    }
    if (c == '\\') {
      read_escape(out);
    } else {
      out.push_back(c);
      ++at_;
    }
  }
  ++at_;
  return out;
}

void JsonScanner::read_escape(std::string& out) {
  const std::size_t start = at_;
  static constexpr std::string_view letters = "\"\\/bfnrt";
  static constexpr std::string_view meanings = "\"\\/\b\f\n\r\t";
  ++at_;
  const auto which = done() ? std::string_view::npos : letters.find(text_[at_]);
  if (which != std::string_view::npos) {
    out.push_back(meanings[which]);
    ++at_;
    return;
  }
  if (peek() != 'u') {
    broken_at(start, fmt::format("`\\` and then {}", token()),
              "one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t, or \\u with four hex digits",
              "Write two backslashes for one.");
  }
  const std::uint32_t first = read_hex(start);
  const bool leads = first >= 0xD800 && first < 0xDC00;
  if (leads && text_.substr(at_, 2) == "\\u") {
    const std::size_t second_start = at_++;
    const std::uint32_t second = read_hex(second_start);
    if (second >= 0xDC00 && second < 0xE000) {
      append_utf8(out, 0x10000U + ((first - 0xD800U) << 10U) + (second - 0xDC00U));
      return;
    }
    at_ = second_start;
  }
  if (first >= 0xD800 && first < 0xE000) {
    note({"bad-unicode-escape", place_of(start), fmt::format("`\\u{:04X}`, half of a pair", first),
          "a character, or both halves of a pair", "Write the character itself."});
    append_utf8(out, 0xFFFD);
    return;
  }
  append_utf8(out, first);
}

// at_ stands on the u.
std::uint32_t JsonScanner::read_hex(std::size_t start) {
  std::uint32_t code = 0;
  const auto digits = text_.substr(at_ + 1, 4);
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), code, 16);
  if (digits.size() != 4 || error != std::errc() || end != digits.data() + 4) {
    broken_at(start, "`\\u` without four hexadecimal digits", "for example \\u00e9",
              "Write the character itself.");
  }
  at_ += 5;
  return code;
}

std::size_t JsonScanner::skip_digits() {
  const std::size_t start = at_;
  while (is_digit(peek()))
    ++at_;
  return at_ - start;
}

Json JsonScanner::read_bare() {
  return is_digit(peek()) || peek() == '-' ? read_number() : read_word();
}

Json JsonScanner::read_number() {
  const std::size_t start = at_;
  if (peek() == '-') ++at_;
  if (peek() == 'I' || peek() == 'N') {
    at_ = start;
    return read_word();
  }
  const bool zero_first = peek() == '0';
  const std::size_t whole_digits = skip_digits();
  bool whole = true;
  bool good = whole_digits > 0 && !(zero_first && whole_digits > 1);
  if (good && peek() == '.') {
    ++at_;
    whole = false;
    good = skip_digits() > 0;
  }
  if (good && (peek() == 'e' || peek() == 'E')) {
    ++at_;
    whole = false;
    if (peek() == '+' || peek() == '-') ++at_;
    good = skip_digits() > 0;
  }
  if (!good || is_letter(peek()) || peek() == '.' || peek() == '-' || peek() == '+') {
    while (is_letter(peek()) || is_digit(peek()) || peek() == '.' || peek() == '-' || peek() == '+')
      ++at_;
    broken_at(start, "`" + shortened(text_.substr(start, at_ - start), shown_columns) + "`",
              "a number such as 12, 0.5 or -3", "Write a plain number, or put quotes round a text.");
  }
  const auto digits = text_.substr(start, at_ - start);
  if (whole) {
    std::int64_t value = 0;
    const auto error = std::from_chars(digits.data(), digits.data() + digits.size(), value).ec;
    if (error == std::errc() && value >= -most_whole && value <= most_whole) return Json(value);
  } else {
    double value = 0;
    const auto error = std::from_chars(digits.data(), digits.data() + digits.size(), value).ec;
    if (error == std::errc() && std::isfinite(value)) return Json(value);
  }
  note({"huge-number", place_of(start), "`" + shortened(digits, shown_columns) + "`",
        whole ? "whole numbers up to 9007199254740992" : "numbers from about 1e-308 to 1e308",
        "Check the number."});
  return {};
}

Json JsonScanner::read_word() {
  const std::size_t start = at_;
  if (peek() == '-' || peek() == '+') ++at_;
  while (is_letter(peek()))
    ++at_;
  const auto word = text_.substr(start, at_ - start);
  if (word == "true") return Json(true);
  if (word == "false") return Json(false);
  if (word == "null") return {};
  auto bare = std::string(word.substr(word.empty() || is_letter(word[0]) ? 0 : 1));
  std::transform(bare.begin(), bare.end(), bare.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (bare == "nan" || bare == "inf" || bare == "infinity") {
    note({"not-a-number", place_of(start), fmt::format("`{}`", word), "a finite number",
          "Write the number, or leave the key out."});
    return {};
  }
  at_ = start;
  std::string remedy = "Put in the value.";
  if (peek() == '\'') remedy = "Use double quotes.";
  if (is_letter(peek())) remedy = "Put double quotes round a text; the bare words are true, false and null.";
  if (peek() == '+') remedy = "Take the plus sign out.";
  if (peek() == '.') remedy = "Write a digit before the point.";
  broken(token(), "a value", std::move(remedy));
}

void JsonScanner::skip_comma(char closing) {
  const std::size_t comma = at_;
  const std::size_t comma_line = line_;
  const std::size_t comma_start = line_start_;
  ++at_;
  skip_space();
  if (peek() != closing) return;
  line_ = comma_line;
  line_start_ = comma_start;
  broken_at(comma, fmt::format("a comma before `{}`", closing), "no comma after the last one",
            "Take the comma out.");
}

}  // namespace weatherstruck::files
