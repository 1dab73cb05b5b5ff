#include "day_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace weatherstruck::render::mark {
namespace {

using html::Attributes;
using html::element;
using html::text;

// Outlines of the weather's marks.
std::string star(double x, double y, double arm) {
  const double up = arm * 0.87;
  const double half = arm / 2;
  return fmt::format("M{} {}h{}M{} {}L{} {}M{} {}L{} {}", number(x - arm), number(y), number(2 * arm),
                     number(x - half), number(y - up), number(x + half), number(y + up), number(x + half),
                     number(y - up), number(x - half), number(y + up));
}
std::string stroke(double x, double y, double height) {
  return fmt::format("M{} {}l{} {}", number(x + 1.5), number(y), number(-3), number(height));
}
std::string chevron(double x, double y) {
  return fmt::format("M{} {}l4 3.5l-4 3.5", number(x - 2), number(y + 2));
}

}  // namespace

std::string number(double value) {
  std::string out = fmt::format("{:.1f}", value);
  if (out.size() > 2 && out.compare(out.size() - 2, 2, ".0") == 0) out.resize(out.size() - 2);
  return out == "-0" ? "0" : out;
}

Html shape(std::string_view tag, const Attributes& attributes) {
  return element(tag, attributes, Html());
}

Html path(const std::string& d, double thick) {
  return shape("path", {{"d", d},
                        {"fill", "none"},
                        {"stroke", black},
                        {"stroke-width", number(thick)},
                        {"stroke-linejoin", "round"}});
}

Html rectangle(double x, double y, double w, double h, const std::string& fill, double thick) {
  Attributes attributes{
      {"x", number(x)}, {"y", number(y)}, {"width", number(w)}, {"height", number(h)}, {"fill", fill}};
  if (thick > 0) {
    attributes.push_back({"stroke", black});
    attributes.push_back({"stroke-width", number(thick)});
  }
  return shape("rect", attributes);
}

Html words_at(double x, double y, const std::string& words, const std::string& anchor, double size,
              bool bold) {
  return element("text",
                 {{"x", number(x)},
                  {"y", number(y)},
                  {"text-anchor", anchor, anchor != "start"},
                  {"font-size", number(size)},
                  {"font-weight", "700", bold},
                  {"fill", black}},
                 text(words));
}

Html weather_shape(char mark, double middle, double y) {
  switch (mark) {
    case 'r':
      return path(stroke(middle, y + 3, 7), 1.1);
    case 'R':
      return path(
          stroke(middle - 2.6, y + 1, 11) + stroke(middle, y + 1, 11) + stroke(middle + 2.6, y + 1, 11), 1.5);
    case 'f':
      return path(star(middle, y + 6.5, 4), 1.1);
    case 'w':
      return path(chevron(middle, y), 1.3);
    case '?':
      return words_at(middle, y + 10.5, "?", "middle", 11);
    default:
      return {};
  }
}

Html light_shape(char mark, double x, double y, double w) {
  if (mark == ' ') return rectangle(x, y, w, 5, black, 0);
  if (mark == ':') return rectangle(x, y + 2, w, 3, black, 0);
  return rectangle(x, y + 4.2, w, 0.8, black, 0);
}

// Strokes across, drawn and not a pattern, which printers render each in their own way.
Html hatched(double x, double y, double w, double h) {
  std::string d;
  constexpr double apart = 5;
  const double first = std::floor((x - h) / apart) * apart;
  for (double at = first; at < x + w; at += apart) {
    const double from = std::max(at, x);
    const double to = std::min(at + h, x + w);
    if (to - from < 0.5) continue;
    d += fmt::format("M{} {}L{} {}", number(from), number(y + h - (from - at)), number(to),
                     number(y + h - (to - at)));
  }
  return rectangle(x, y, w, h, "#fff", 0.8) + path(d, 1);
}

Html roofed(double x, double y, double w) {
  return path(fmt::format("M{} {}l{} {}l{} {}", number(x), number(y), number(w / 2), number(-roof + 1),
                          number(w / 2), number(roof - 1)),
              ink);
}

Html studded(double x, double y, double w) {
  Html out;
  const int count = std::max(1, static_cast<int>(w / 7));
  for (int i = 0; i < count; ++i) {
    out +=
        shape("circle",
              {{"cx", number(x + w * (i + 0.5) / count)}, {"cy", number(y)}, {"r", "1.2"}, {"fill", black}});
  }
  return out;
}

}  // namespace weatherstruck::render::mark
