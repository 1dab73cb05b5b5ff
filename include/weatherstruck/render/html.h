#pragma once
// HTML that is escaped by construction: text from outside can only come in through `text` and attribute
// values. And the one frame that all pages share, which lets nothing in from anywhere.
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace weatherstruck::render::html {

/// Markup that is well formed in itself.
class Html {
 public:
  Html() = default;
  Html& operator+=(const Html& more) {
    bytes_ += more.bytes_;
    return *this;
  }
  friend Html operator+(Html left, const Html& right) { return left += right; }
  [[nodiscard]] const std::string& str() const { return bytes_; }
  [[nodiscard]] bool empty() const { return bytes_.empty(); }

 private:
  explicit Html(std::string bytes) : bytes_(std::move(bytes)) {}
  std::string bytes_;
  friend Html text(std::string_view);
  friend Html markup(std::string);
};

struct Attribute {
  std::string_view name;
  std::string value;
  bool set = true;  ///< false: not there at all
};
using Attributes = std::vector<Attribute>;
/// An attribute that is there or not: "hidden".
[[nodiscard]] Attribute flag(std::string_view name, bool set = true);

/// Any bytes as text: signs of markup escaped, controls a space, bytes that are not UTF-8 "?", units
/// kept with their number.
[[nodiscard]] Html text(std::string_view words);
[[nodiscard]] Html element(std::string_view tag, const Attributes& attributes, const Html& inside);
[[nodiscard]] Html element(std::string_view tag, const Html& inside);
/// The usual case: text and nothing else in it.
[[nodiscard]] Html element(std::string_view tag, std::string_view words);
[[nodiscard]] Html element(std::string_view tag, const Attributes& attributes, std::string_view words);
/// Without content or end: input, meta, br.
[[nodiscard]] Html single(std::string_view tag, const Attributes& attributes);
/// Each on a line of its own, for people who look at the source.
[[nodiscard]] Html line(const Html& html);

struct Document {
  std::string title;
  Html body;
  std::string_view style;   ///< beside the style all sheets share
  std::string_view script;  ///< may be empty
};
/// A whole HTML 5 document in UTF-8. Its policy allows the style and script in it, by their sums, and no
/// request, form or frame.
[[nodiscard]] std::string document(const Document& document);

}  // namespace weatherstruck::render::html
