#include "weatherstruck/works/spoken.h"

#include <algorithm>
#include <string_view>

#include "weatherstruck/base/text.h"

namespace weatherstruck::works {

std::string spoken(const Name& name) {
  std::string text = name;
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

std::string millimetres(base::Metres length) {
  return base::plain_number(length.value() * 1000, 1) + " mm";
}
std::string cubic(base::CubicMetres volume) {
  return base::plain_number(volume.value(), 2) + " m3";
}
std::string square(base::SquareMetres area) {
  return base::plain_number(area.value(), 1) + " m2";
}
std::string metres(base::Metres length) {
  return base::plain_number(length.value(), 1) + " m";
}

std::string counted(long count, const std::string& word) {
  if (count == 1) return "1 " + word;
  const auto ends_in = [&](std::string_view end) {
    return word.size() >= end.size() && word.compare(word.size() - end.size(), end.size(), end) == 0;
  };
  const bool hisses = ends_in("x") || ends_in("s") || ends_in("ch") || ends_in("sh");
  return std::to_string(count) + " " + word + (hisses ? "es" : "s");
}

}  // namespace weatherstruck::works
