#include "limits_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

std::string number_text(double value) {
  if (value == 0) return "0";
  constexpr int figures = 4;
  constexpr int most = 12;
  const int whole = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
  return base::plain_number(value, std::clamp(figures - whole, 0, most));
}

}  // namespace

std::string figure_text(double value, const std::string& unit) {
  if (unit == "yes/no") return value != 0 ? "yes" : "no";
  if (unit == "month") return "month " + number_text(value);
  if (unit == "C") return number_text(value) + " °C";
  if (value == 1 && unit == "days") return "1 day";
  return unit.empty() ? number_text(value) : number_text(value) + ' ' + unit;
}

std::string figure_text_twice(double value, const std::string& unit, bool fahrenheit) {
  std::string once = figure_text(value, unit);
  if (unit == "m/s") return fmt::format("{} ({})", once, wind(base::MetresPerSecond(value)));
  if (unit == "C" && fahrenheit)
    return fmt::format("{} ({})", once, temperature(base::Celsius(value), Units::us));
  return once;
}

std::string range_text(const trade::ListedFigure& figure) {
  if (!figure.low || !figure.high || *figure.low == *figure.high) return {};
  const std::string high = figure_text(*figure.high, figure.unit);
  if (figure.unit == "yes/no") return figure_text(*figure.low, figure.unit) + " or " + high;
  return number_text(*figure.low) + " to " + (figure.unit == "month" ? number_text(*figure.high) : high);
}

std::string figures_text(const trade::ListedRow& row, std::size_t from) {
  std::string text;
  for (std::size_t i = from; i < row.figures.size(); ++i) {
    const trade::ListedFigure& one = row.figures[i];
    if (!text.empty()) text += "; ";
    if (!one.what.empty()) text += one.what + ' ';
    text += figure_text(one.value, one.unit);
  }
  return text;
}

std::string kind_text(const trade::ListedRow& row) {
  return std::string(row.cls ? trade::class_word(*row.cls) : trade::table_word(row.table));
}

std::string source_text(const trade::Source& source) {
  const std::string standing(trade::words_for(source.standing));
  return source.text.empty() ? standing : standing + ": " + std::string(source.text);
}

}  // namespace weatherstruck::render
