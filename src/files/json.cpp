#include "weatherstruck/files/json.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

constexpr std::size_t most_faults = 100;  // after that nobody reads on
constexpr std::int64_t most_whole = std::int64_t{1}
                                    << 53;  // IEEE 754: every whole number up to here is exact
constexpr std::size_t shown_columns = 40;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '$';
}
bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

// The first code points of a text, for showing.
std::string shortened(std::string_view text, std::size_t columns) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_continuation(text[i])) continue;
    if (count++ == columns) return std::string(text.substr(0, i)) + "...";
  }
  return std::string(text);
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

// The grammar is broken, or there is too much to go on; the fault is already noted. Never leaves this file.
struct Stop {};

// Recursive descent; the nesting cap bounds the recursion. Newlines stand only between tokens (a string
// must not hold one), so the line is counted in one place, skip_space().
class Parser {
 public:
  Parser(std::string_view text, const JsonLimits& limits) : text_(text), limits_(limits) {}

  ParsedJson run() {
    ParsedJson out;
    try {
      Json value = document();
      if (faults_.empty()) out.value = std::move(value);
    } catch (const Stop&) {
    }
    out.faults = std::move(faults_);
    out.lines = std::move(lines_);
    return out;
  }

 private:
  using Members = Json::object_t::Container;

  Json document() {
    if (text_.size() > limits_.most_bytes) {
      note({"too-big", "line 1", fmt::format("{} bytes", text_.size()),
            fmt::format("at most {} bytes", limits_.most_bytes), "Check that this is the right file."});
      throw Stop();
    }
    if (const auto bad = base::first_invalid_utf8(text_)) {
      const auto before = text_.substr(0, *bad);
      const auto newline = before.rfind('\n');
      const auto start = newline == std::string_view::npos ? 0 : newline + 1;
      note({"bad-utf8",
            place(1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')), start, *bad),
            fmt::format("byte 0x{:02X} at offset {}", static_cast<unsigned char>(text_[*bad]), *bad),
            "text in UTF-8", "Save the file as UTF-8."});
    }
    if (text_.substr(0, 3) == "\xEF\xBB\xBF") at_ = line_start_ = 3;
    skip_space();
    if (done()) {
      note({"empty-input", here(), "no text", "one JSON value",
            "Check that the file was written and is the right one."});
      throw Stop();
    }
    Json value = read_value(0);
    skip_space();
    if (!done()) broken(token(), "the end of the text", "Take out what follows the document.");
    return value;
  }

  [[nodiscard]] bool done() const { return at_ >= text_.size(); }
  [[nodiscard]] char peek() const { return done() ? '\0' : text_[at_]; }

  // Columns count characters, as an editor does, not bytes.
  [[nodiscard]] std::string place(std::size_t line, std::size_t line_start, std::size_t offset) const {
    std::size_t column = 1;
    for (std::size_t i = line_start; i < offset; ++i)
      column += is_continuation(text_[i]) ? 0U : 1U;
    return fmt::format("line {}, column {}", line, column);
  }
  [[nodiscard]] std::string place_of(std::size_t offset) const { return place(line_, line_start_, offset); }
  [[nodiscard]] std::string here() const { return place_of(at_); }

  void note(base::Fault fault) {
    faults_.push_back(std::move(fault));
    if (faults_.size() < most_faults) return;
    faults_.push_back({"too-many-faults", here(), fmt::format("{} faults so far", most_faults),
                       "a text without faults", "Put these right first; the rest was not read."});
    throw Stop();
  }
  [[noreturn]] void broken_at(std::size_t offset, std::string found, std::string expected,
                              std::string remedy) {
    note({"bad-json", place_of(offset), std::move(found), std::move(expected), std::move(remedy)});
    throw Stop();
  }
  [[noreturn]] void broken(std::string found, std::string expected, std::string remedy) {
    broken_at(at_, std::move(found), std::move(expected), std::move(remedy));
  }

  // What stands here, as a person would point at it.
  [[nodiscard]] std::string token() const {
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

  void skip_space() {
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
  void skip_comment() {
    const char kind = at_ + 1 < text_.size() ? text_[at_ + 1] : '\0';
    if (kind != '/' && kind != '*') broken("`/`", "JSON", "Take the slash out.");
    if (!limits_.comments) broken("a comment", "JSON without comments", "Take the comment out.");
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

  Json read_value(int depth) {
    if (limits_.keep_lines) lines_.emplace(pointer_, line_);
    switch (peek()) {
      case '{':
        return read_object(depth + 1);
      case '[':
        return read_list(depth + 1);
      case '"':
        return Json(read_string());
      default:
        break;
    }
    if (is_digit(peek()) || peek() == '-') return read_number();
    return read_word();
  }

  void open(int depth) {
    if (depth > limits_.deepest) {
      note({"too-deep", here(), fmt::format("{} objects and lists within each other", depth),
            fmt::format("at most {}", limits_.deepest), "Check that this is the right file."});
      throw Stop();
    }
    ++at_;
    skip_space();
  }

  // After a member of an object or list: true where another follows.
  bool another(char closing, std::size_t opened_line) {
    skip_space();
    if (peek() == closing) {
      ++at_;
      return false;
    }
    if (done()) {
      broken(token(), fmt::format("`,` or `{}`", closing),
             fmt::format("Close what line {} opens with `{}`.", opened_line, closing));
    }
    if (peek() != ',')
      broken(token(), fmt::format("`,` or `{}`", closing),
             "Put in the comma, or what is missing, before it.");
    const std::size_t comma = at_;
    ++at_;
    const std::size_t comma_line = line_;
    const std::size_t comma_start = line_start_;
    skip_space();
    if (peek() == closing) {
      line_ = comma_line;
      line_start_ = comma_start;
      broken_at(comma, fmt::format("a comma before `{}`", closing), "no comma after the last one",
                "Take the comma out.");
    }
    return true;
  }

  Json read_list(int depth) {
    const std::size_t opened = line_;
    open(depth);
    Json::array_t list;
    if (peek() == ']') {
      ++at_;
      return Json(std::move(list));
    }
    const std::size_t length = pointer_.size();
    do {
      pointer_ = pointer_to(std::string_view(pointer_).substr(0, length), list.size());
      list.push_back(read_value(depth));
      pointer_.resize(length);
    } while (another(']', opened));
    return Json(std::move(list));
  }

  Json read_object(int depth) {
    const std::size_t opened = line_;
    open(depth);
    Json::object_t object;
    std::vector<std::size_t> key_lines;
    if (peek() == '}') {
      ++at_;
      return Json(std::move(object));
    }
    const std::size_t length = pointer_.size();
    do {
      if (peek() != '"')
        broken(token(), "a key in double quotes",
               done() ? "Close what is open." : "Write the key as \"key\".");
      key_lines.push_back(line_);
      std::string key = read_string();
      skip_space();
      if (peek() != ':')
        broken(token(), fmt::format("`:` after the key \"{}\"", shortened(key, shown_columns)),
               "Put the colon in.");
      ++at_;
      skip_space();
      pointer_ = pointer_to(std::string_view(pointer_).substr(0, length), key);
      Json value = read_value(depth);
      pointer_.resize(length);
      // Straight to the list beneath: the map's own insert looks through all keys, which a file of
      // a million keys would make dear. Equal keys are looked for once, below.
      static_cast<Members&>(object).emplace_back(std::move(key), std::move(value));
    } while (another('}', opened));
    note_duplicates(object, key_lines);
    return Json(std::move(object));
  }

  void note_duplicates(const Members& object, const std::vector<std::size_t>& key_lines) {
    std::vector<std::size_t> order(object.size());
    for (std::size_t i = 0; i < order.size(); ++i)
      order[i] = i;
    std::sort(order.begin(), order.end(), [&object](std::size_t a, std::size_t b) {
      const int compared = object[a].first.compare(object[b].first);
      return compared != 0 ? compared < 0 : a < b;
    });
    std::vector<std::pair<std::size_t, std::size_t>> pairs;  // later, earlier
    for (std::size_t i = 1; i < order.size(); ++i) {
      if (object[order[i]].first == object[order[i - 1]].first) pairs.emplace_back(order[i], order[i - 1]);
    }
    std::sort(pairs.begin(), pairs.end());
    for (const auto& [later, earlier] : pairs) {
      note({"duplicate-key", pointer_to(pointer_, object[later].first),
            key_lines[later] == key_lines[earlier] ? fmt::format("the key twice on line {}", key_lines[later])
                                                   : fmt::format("the key on line {} and again on line {}",
                                                                 key_lines[earlier], key_lines[later]),
            "each key once", "Take one of the two out."});
    }
  }

  std::string read_string() {
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

  void read_escape(std::string& out) {
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
                "one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\uXXXX", "Write two backslashes for one.");
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
  std::uint32_t read_hex(std::size_t start) {
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

  std::size_t skip_digits() {
    const std::size_t start = at_;
    while (is_digit(peek()))
      ++at_;
    return at_ - start;
  }

  Json read_number() {
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

  Json read_word() {
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
    if (is_letter(peek()))
      remedy = "Put double quotes round a text; the bare words are true, false and null.";
    if (peek() == '+') remedy = "Take the plus sign out.";
    if (peek() == '.') remedy = "Write a digit before the point.";
    broken(token(), "a value", std::move(remedy));
  }

  std::string_view text_;
  JsonLimits limits_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
  std::size_t line_start_ = 0;
  std::string pointer_;
  base::Faults faults_;
  JsonLines lines_;
};

}  // namespace

JsonLimits JsonLimits::job_document() {
  return {std::size_t{1} << 20, 64, true, true};
}
JsonLimits JsonLimits::forecast() {
  return {};
}

ParsedJson parse_json(std::string_view text, const JsonLimits& limits) {
  return Parser(text, limits).run();
}

std::string pointer_to(std::string_view pointer, std::string_view key) {
  std::string out(pointer);
  out.push_back('/');
  for (const char c : key) {
    if (c == '~') {
      out += "~0";
    } else if (c == '/') {
      out += "~1";
    } else {
      out.push_back(c);
    }
  }
  return out;
}

std::string pointer_to(std::string_view pointer, std::size_t position) {
  return fmt::format("{}/{}", pointer, position);
}

std::string shown(const Json& value) {
  if (value.is_array()) return value.empty() ? "an empty list" : fmt::format("a list of {}", value.size());
  if (value.is_object()) return value.empty() ? "an empty object" : "an object";
  return shortened(value.dump(-1, ' ', false, Json::error_handler_t::replace), shown_columns);
}

}  // namespace weatherstruck::files
