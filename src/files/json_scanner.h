#pragma once
// The words of a JSON text: where reading stands, spaces and comments, texts, numbers, bare words, and the
// faults found. How the words make values is json.cpp's.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::files {

/// The grammar is broken, or there is too much to go on; the fault is already noted. parse_json() catches it.
struct StopReading {};

/// The first code points of a text, for showing; "..." after it where it was longer.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t columns);
inline constexpr std::size_t shown_columns = 40;

/// Newlines stand only between words (a text must not hold one), so lines are counted in skip_space() alone.
class JsonScanner {
 public:
  /// Notes "bad-utf8" at once and passes over a byte order mark.
  JsonScanner(std::string_view text, bool comments);

  [[nodiscard]] bool done() const { return at_ >= text_.size(); }
  [[nodiscard]] char peek() const { return done() ? '\0' : text_[at_]; }
  [[nodiscard]] std::size_t line() const { return line_; }
  [[nodiscard]] std::string here() const { return place_of(at_); }
  [[nodiscard]] base::Faults& faults() { return faults_; }
  void next() { ++at_; }
  void skip_space();

  /// What stands here, as a person would point at it.
  [[nodiscard]] std::string token() const;
  /// @throws StopReading at the hundredth fault
  void note(base::Fault fault);
  /// Notes "bad-json" here and stops.
  [[noreturn]] void broken(std::string found, std::string expected, std::string remedy);
  /// Steps over a comma and the space after it; a fault at the comma if `closing` follows.
  void skip_comma(char closing);

  [[nodiscard]] std::string read_string();  ///< from the opening quote on
  [[nodiscard]] Json read_bare();           ///< a number, true, false or null; anything else is a fault

 private:
  [[nodiscard]] std::string place(std::size_t line, std::size_t line_start, std::size_t offset) const;
  [[nodiscard]] std::string place_of(std::size_t offset) const { return place(line_, line_start_, offset); }
  [[noreturn]] void broken_at(std::size_t offset, std::string found, std::string expected,
                              std::string remedy);
  void note_bad_utf8();
  void skip_comment();
  void read_escape(std::string& out);
  [[nodiscard]] Json read_number();
  [[nodiscard]] Json read_word();
  [[nodiscard]] std::uint32_t read_hex(std::size_t start);
  std::size_t skip_digits();

  std::string_view text_;
  bool comments_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
  std::size_t line_start_ = 0;
  base::Faults faults_;
};

}  // namespace weatherstruck::files
