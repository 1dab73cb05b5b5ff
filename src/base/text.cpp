#include "weatherstruck/base/text.h"

#include <algorithm>
#include <array>

namespace weatherstruck::base {

namespace {

constexpr char32_t not_a_character = 0xffffffff;

struct Decoded {
  char32_t code;       ///< not_a_character where the bytes are not UTF-8
  std::size_t length;  ///< bytes read, at least 1
};

// RFC 3629, section 4: the second byte's range depends on the first, which is what shuts out overlong forms,
// surrogates and anything above U+10FFFF.
Decoded decode(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return {first, 1};
  std::size_t length = 0;
  unsigned char low = 0x80;
  unsigned char high = 0xbf;
  char32_t code = 0;
  if (first >= 0xc2 && first <= 0xdf) {
    length = 2;
    code = first & 0x1fU;
  } else if (first >= 0xe0 && first <= 0xef) {
    length = 3;
    code = first & 0x0fU;
    if (first == 0xe0) low = 0xa0;
    if (first == 0xed) high = 0x9f;
  } else if (first >= 0xf0 && first <= 0xf4) {
    length = 4;
    code = first & 0x07U;
    if (first == 0xf0) low = 0x90;
    if (first == 0xf4) high = 0x8f;
  } else {
    return {not_a_character, 1};
  }
  if (text.size() - at < length) return {not_a_character, 1};
  for (std::size_t i = 1; i < length; ++i) {
    const unsigned char next = byte(at + i);
    if (next < low || next > high) return {not_a_character, 1};
    code = (code << 6) | (next & 0x3fU);
    low = 0x80;
    high = 0xbf;
  }
  return {code, length};
}

std::u32string code_points(std::string_view text) {
  std::u32string points;
  for (std::size_t i = 0; i < text.size();) {
    const Decoded decoded = decode(text, i);
    points += decoded.code;
    i += decoded.length;
  }
  return points;
}

struct Range {
  char32_t first;
  char32_t last;
};

// Whole blocks of combining marks and joiners (Unicode 15 block names: combining diacritical marks and their
// extensions, Hebrew and Arabic points, zero-width characters, variation selectors, half marks). Marks that
// sit singly among letters of other scripts count one: no word of ours is set in those.
constexpr std::array<Range, 12> no_columns{{{0x0300, 0x036f},
                                            {0x0483, 0x0489},
                                            {0x0591, 0x05bd},
                                            {0x064b, 0x065f},
                                            {0x1ab0, 0x1aff},
                                            {0x1dc0, 0x1dff},
                                            {0x200b, 0x200f},
                                            {0x20d0, 0x20ff},
                                            {0xfe00, 0xfe0f},
                                            {0xfe20, 0xfe2f},
                                            {0xfeff, 0xfeff},
                                            {0xe0100, 0xe01ef}}};

// Blocks that Unicode 15's EastAsianWidth.txt gives W or F: Hangul, CJK, kana, full-width forms, pictographs.
constexpr std::array<Range, 10> two_columns{{{0x1100, 0x115f},
                                             {0x2e80, 0x303e},
                                             {0x3041, 0xa4cf},
                                             {0xa960, 0xa97c},
                                             {0xac00, 0xd7a3},
                                             {0xf900, 0xfaff},
                                             {0xfe30, 0xfe6f},
                                             {0xff00, 0xff60},
                                             {0x1f300, 0x1f64f},
                                             {0x20000, 0x3fffd}}};

template <std::size_t N>
bool within(const std::array<Range, N>& ranges, char32_t code) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [code](Range range) { return code >= range.first && code <= range.last; });
}

// Edit distance with swaps of neighbours that are not edited again (optimal string alignment), three rows.
std::size_t edit_distance(const std::u32string& a, const std::u32string& b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j)
    last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
    before_last.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

}  // namespace

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const Decoded decoded = decode(text, i);
    if (decoded.code == not_a_character) return i;
    i += decoded.length;
  }
  return std::nullopt;
}

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  for (const char32_t code : code_points(text)) {
    if (code == not_a_character) {
      ++width;
    } else if (!within(no_columns, code)) {
      width += within(two_columns, code) ? 2U : 1U;
    }
  }
  return width;
}

std::string pad(std::string_view text, std::size_t width) {
  const std::size_t taken = display_width(text);
  std::string padded(text);
  if (taken < width) padded.append(width - taken, ' ');
  return padded;
}

std::string align_right(std::string_view text, std::size_t width) {
  const std::size_t taken = display_width(text);
  std::string padded(taken < width ? width - taken : 0, ' ');
  padded += text;
  return padded;
}

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  std::vector<std::string> lines;
  std::size_t begin = 0;
  while (begin <= text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view paragraph = text.substr(begin, end - begin);
    std::size_t at = std::min(paragraph.find_first_not_of(' '), paragraph.size());
    std::string line(paragraph.substr(0, at));
    std::size_t taken = at;
    bool has_word = false;
    while (at < paragraph.size()) {
      const std::size_t stop = std::min(paragraph.find(' ', at), paragraph.size());
      const std::string_view word = paragraph.substr(at, stop - at);
      const std::size_t columns = display_width(word);
      if (has_word && taken + 1 + columns > width) {
        lines.push_back(line);
        line.clear();
        taken = 0;
      } else if (has_word) {
        line += ' ';
        ++taken;
      }
      line += word;
      taken += columns;
      has_word = true;
      at = std::min(paragraph.find_first_not_of(' ', stop), paragraph.size());
    }
    lines.push_back(line);
    begin = end + 1;
  }
  return lines;
}

std::string join_and(std::span<const std::string> words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

std::optional<std::string> nearest_name(std::string_view word, std::span<const std::string> candidates) {
  const std::u32string wanted = code_points(word);
  const std::string* nearest = nullptr;
  std::size_t least = 0;
  for (const std::string& candidate : candidates) {
    const std::u32string name = code_points(candidate);
    const std::size_t distance = edit_distance(wanted, name);
    const std::size_t limit = (std::max(wanted.size(), name.size()) + 2) / 3;
    if (distance <= limit && (nearest == nullptr || distance < least)) {
      nearest = &candidate;
      least = distance;
    }
  }
  return nearest != nullptr ? std::optional(*nearest) : std::nullopt;
}

}  // namespace weatherstruck::base
