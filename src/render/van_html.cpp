#include "weatherstruck/render/van_html.h"

#include <fmt/format.h>

#include "care_words.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using html::element;
using html::Html;
using html::line;
using html::single;
using html::text;

std::string cubic(base::CubicMetres volume) {
  return fmt::format("{:.2f} m3", volume.value());
}

// A thing, how many of it, and what it weighs, beside a box to tick.
Html item(const std::string& name, const std::string& how_much) {
  return line(element(
      "li", element("label",
                    single("input", {{"type", "checkbox"}}) +
                        element("span", text(name) + (how_much.empty() ? Html() : text(", " + how_much))))));
}

constexpr std::string_view style = R"css(
.load { list-style: none; padding: 0; }
.load label { display: flex; align-items: center; gap: .75rem; min-height: 3rem; border-bottom: .06rem solid #666; }
.load input { width: 1.6rem; height: 1.6rem; margin: 0; flex: none; accent-color: #111; }
@media print {
  .load { columns: 2; column-gap: 8mm; }
  .load label { min-height: 0; padding: .6mm 0; gap: 2mm; break-inside: avoid; }
  .load input { width: 3mm; height: 3mm; }
}
)css";

}  // namespace

std::string van_html(const VanFacts& facts) {
  Html parts;
  int number = 0;
  for (const measure::VanLoad& load : facts.plan.loads) {
    ++number;
    Html items;
    for (const measure::VanLoad::Piece& piece : load.pieces) {
      const measure::VanItem& what = facts.items[piece.item];
      const double part = static_cast<double>(piece.units) / static_cast<double>(what.units);
      std::string how_much;
      if (what.units > 1) {
        how_much = piece.units == what.units ? std::to_string(piece.units) + ", "
                                             : fmt::format("{} of {}, ", piece.units, what.units);
      }
      items += item(what.name, how_much + mass(what.mass * part));
    }
    const std::string sum = fmt::format("{} of {}; room {} of {}", mass(load.mass), mass(facts.payload),
                                        cubic(load.volume), cubic(facts.room));
    parts += care::section(
        "load-" + std::to_string(number),
        facts.plan.loads.size() == 1 ? std::string("The load") : fmt::format("Load {}", number),
        line(element("ul", {{"class", "load"}}, line(Html()) + items)) + line(element("p", sum)));
  }
  if (facts.plan.loads.empty()) parts += line(element("p", "Nothing has to ride in the van."));
  for (const std::size_t big : facts.plan.too_big)
    parts += line(element("p", fmt::format("Too big for this van: {}.", facts.items[big].name)));
  if (facts.plan.loads.size() > 1) {
    parts += line(element("p", facts.merchant
                                   ? "It does not go in one load. Have the heaviest delivered, or buy it "
                                     "from the merchant by the site."
                                   : "It does not go in one load. Have the heaviest delivered."));
  }
  Html brought;
  for (const Brought& one : facts.brought)
    brought += item(one.name, one.how_much + ", " + one.how);
  if (!brought.empty()) {
    parts += care::section("brought", "Not in the van",
                           line(element("ul", {{"class", "load"}}, line(Html()) + brought)));
  }
  const Html head = line(Html()) + line(element("h1", "Van")) + line(element("p", facts.title));
  return html::document({"Van: " + facts.title,
                         line(element("header", head)) + line(element("main", line(Html()) + parts)),
                         style,
                         {}});
}

}  // namespace weatherstruck::render
