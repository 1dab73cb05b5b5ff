#include "weatherstruck/render/strip_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "weatherstruck/programme/strip_frost.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::render {
namespace {

constexpr base::Kelvins alike{0.5};
constexpr base::Celsius sure{1.5};

// A degree says too little about freezing.
std::string near_zero(base::Celsius t, Units units) {
  if (units == Units::us) return temperature(t, units);
  return fmt::format("{:.1f} \u00b0C", t.value() > -0.05 && t.value() < 0 ? 0.0 : t.value());
}

}  // namespace

std::vector<std::string> strip_lines(const TripFacts& facts, const programme::Span& night) {
  if (night.from >= night.to) return {};
  std::vector<programme::StripNight> nights =
      programme::strip_nights(facts.job, facts.list, facts.series, facts.limits, facts.plan, night);
  std::stable_sort(nights.begin(), nights.end(),
                   [](const auto& a, const auto& b) { return a.coldest < b.coldest; });
  const Units units = units_of(facts.job.limits.set);
  std::vector<std::string> lines;
  std::vector<bool> told(nights.size(), false);
  for (std::size_t i = 0; i < nights.size(); ++i) {
    if (told[i]) continue;
    const programme::StripNight& first = nights[i];
    std::vector<Piece> pieces;
    for (std::size_t j = i; j < nights.size(); ++j) {
      if (told[j] || nights[j].cover != first.cover || nights[j].coldest > first.coldest + alike) continue;
      told[j] = true;
      pieces.push_back(piece_of(facts.list, nights[j].part, true));
    }
    const bool bare = first.cover == trade::CoverKind::bare;
    const bool freezes = first.coldest.value() < 0;
    const std::string uncovered = !bare && !freezes && first.left_bare.value() < 0
                                      ? ", bare " + near_zero(first.left_bare, units)
                                      : std::string();
    std::string line =
        fmt::format("{}: top {} at {} {} (air {}{})", together(pieces), near_zero(first.coldest, units),
                    quarter(facts.job.site.zone.to_local(first.when)),
                    bare ? std::string("bare") : fmt::format("under {}", trade::row_for(first.cover).title),
                    near_zero(first.air, units), uncovered);
    if (freezes) line += bare ? "; it will freeze: cover it" : "; it will freeze";
    // docs/heat.md: nearer than that nothing is promised.
    if (!freezes && first.coldest < sure) line += "; little to spare";
    lines.push_back(capital(line));
  }
  return lines;
}

}  // namespace weatherstruck::render
