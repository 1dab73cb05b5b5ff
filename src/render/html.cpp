#include "weatherstruck/render/html.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "weatherstruck/base/digest.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::render::html {

Html markup(std::string bytes) {
  return Html(std::move(bytes));
}

namespace {

// Black on white and nothing else: for sun, wet glasses and a black and white printer.
constexpr std::string_view shared_style = R"css(
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #fff; color: #111; font: 500 1.125rem/1.42 "Segoe UI", Roboto, "Helvetica Neue",
  "Noto Sans", "Liberation Sans", Arial, sans-serif; overflow-wrap: break-word; }
header, main, footer { max-width: 42rem; margin: 0 auto; padding: 0 1rem; }
h1 { font-size: 1.9rem; line-height: 1.3; margin: 1rem 0 .2rem; letter-spacing: -.01em; }
h2 { font-size: 1.3rem; line-height: 1.2; margin: 2rem 0 .5rem; padding-top: .5rem; border-top: .25rem solid #111; }
h3 { font-size: 1.125rem; line-height: 1.25; margin: 1.4rem 0 .3rem; }
p { margin: 0 0 .5rem; }
ul, ol { margin: 0 0 .5rem; padding: 0 0 0 1.2rem; }
dl { margin: 0; }
dt { font-weight: 700; margin-top: .6rem; }
dd { margin: 0; }
dd + dd { margin-top: .35rem; }
.warning { font-weight: 800; border: .2rem solid #111; padding: .5rem .75rem; }
.small { font-size: 1rem; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; font-weight: inherit; }
thead th { font-weight: 700; border-bottom: .15rem solid #111; }
tbody th { white-space: nowrap; }
tbody tr + tr { border-top: .06rem solid #666; }
@media (min-width: 40rem), print {
  dl { display: grid; grid-template-columns: 7.5rem 1fr; gap: .3rem 1rem; }
  dt { margin: 0; grid-column: 1; }
  dd, dd + dd { margin: 0; grid-column: 2; }
}
.n { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
.time { width: 7.4rem; white-space: nowrap; font-variant-numeric: tabular-nums; }
footer { padding-bottom: 2rem; margin-top: 2rem; }
@media print {
  @page { size: A4; margin: 14mm; }
  body { font-size: 9.5pt; line-height: 1.28; }
  header, main, footer { max-width: none; padding: 0; }
  h1 { font-size: 16pt; margin-top: 0; }
  h2 { font-size: 11.5pt; margin: 4mm 0 1mm; padding-top: 1mm; border-top-width: .6mm; break-after: avoid; }
  .time { width: 24mm; }
  h3 { font-size: 9.5pt; margin: 2.5mm 0 .5mm; break-after: avoid; }
  .small { font-size: 9pt; }
  dl { grid-template-columns: 24mm 1fr; gap: .4mm 3mm; }
  th, td { padding: .5mm 3mm .5mm 0; }
  tr, li, dd { break-inside: avoid; }
  footer { margin-top: 4mm; padding-bottom: 0; }
}
)css";

// Units that stay with their number at the end of a line.
constexpr std::array<std::string_view, 13> units{"%",
                                                 "m",
                                                 "mm",
                                                 "m2",
                                                 "m3",
                                                 "kg",
                                                 "t",
                                                 "h",
                                                 "min",
                                                 "mph",
                                                 "in",
                                                 "\xC2\xB0"
                                                 "C",
                                                 "\xC2\xB0"
                                                 "F"};

bool opens_with_unit(std::string_view words) {
  const std::string_view word = words.substr(0, words.find_first_of(" ,;.:)"));
  return std::find(units.begin(), units.end(), word) != units.end();
}

std::string escaped(std::string_view words, bool bind_units) {
  std::string out;
  const bool sound = !base::first_invalid_utf8(words).has_value();
  for (std::size_t i = 0; i < words.size(); ++i) {
    const char c = words[i];
    const auto byte = static_cast<unsigned char>(c);
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '"') {
      out += "&quot;";
    } else if (c == '\'') {
      out += "&#39;";
    } else if (bind_units && c == ' ' && i > 0 && words[i - 1] >= '0' && words[i - 1] <= '9' &&
               opens_with_unit(words.substr(i + 1))) {
      out += "&nbsp;";
    } else if (byte < 0x20 || byte == 0x7F) {
      out += ' ';
    } else if (byte >= 0x80 && !sound) {
      out += '?';
    } else {
      out += c;
    }
  }
  return out;
}

std::string opening(std::string_view tag, const Attributes& attributes) {
  std::string out = "<" + std::string(tag);
  for (const Attribute& attribute : attributes) {
    if (!attribute.set) continue;
    out.append(" ").append(attribute.name);
    if (!attribute.value.empty()) out.append("=\"").append(escaped(attribute.value, false)).append("\"");
  }
  return out + ">";
}

}  // namespace

Attribute flag(std::string_view name, bool set) {
  return {name, {}, set};
}

Html text(std::string_view words) {
  return Html(escaped(words, true));
}

Html element(std::string_view tag, const Attributes& attributes, const Html& inside) {
  return markup(opening(tag, attributes) + inside.str() + "</" + std::string(tag) + ">");
}
Html element(std::string_view tag, const Html& inside) {
  return element(tag, Attributes{}, inside);
}
Html element(std::string_view tag, std::string_view words) {
  return element(tag, Attributes{}, text(words));
}
Html element(std::string_view tag, const Attributes& attributes, std::string_view words) {
  return element(tag, attributes, text(words));
}
Html single(std::string_view tag, const Attributes& attributes) {
  return markup(opening(tag, attributes));
}
Html line(const Html& html) {
  return markup(html.str() + "\n");
}

std::string document(const Document& document) {
  const std::string style = std::string(shared_style) + std::string(document.style);
  std::string policy =
      "default-src 'none'; base-uri 'none'; form-action 'none'; style-src '" + base::policy_hash(style) + "'";
  if (!document.script.empty()) policy += "; script-src '" + base::policy_hash(document.script) + "'";
  std::string out = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  // The quotes of the policy are its own; nothing in it comes from outside.
  out += "<meta http-equiv=\"Content-Security-Policy\" content=\"" + policy + "\">\n";
  out +=
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"format-detection\" content=\"telephone=no\">\n"
      "<meta name=\"referrer\" content=\"no-referrer\">\n";
  out += element("title", document.title).str() + "\n<style>" + style + "</style>\n</head>\n<body>\n";
  out += document.body.str();
  if (!document.script.empty()) out += "<script>" + std::string(document.script) + "</script>\n";
  return out + "</body>\n</html>\n";
}

}  // namespace weatherstruck::render::html
