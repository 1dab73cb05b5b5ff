#include "weatherstruck/render/when_sheet.h"

#include <fmt/format.h>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/outlook_words.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

// "about 80 %", without the words for it: they would fill the table.
std::string tens(double chance) {
  const std::string words = likely_words(chance);
  return words.substr(words.rfind(", ") + 2);
}

}  // namespace

std::string when_sheet(const WhenFacts& facts, Ink ink) {
  Page page(ink);
  page.title("When to go", facts.job.title);
  page.gap();
  for (const std::string& sentence : facts.brought)
    page.text(sentence, 0);
  if (!facts.brought.empty()) page.gap();
  Table table({{"leave", Table::Kind::left},
               {"home and sound", Table::Kind::left},
               {"light a day", Table::Kind::right},
               {"wet at work", Table::Kind::right},
               {"frost", Table::Kind::right},
               {"", Table::Kind::left}});
  for (const programme::Departure& one : facts.departures) {
    if (one.years == 0) continue;
    const double nights = one.frost_nights;
    table.add({base::day_name(one.day), fmt::format("{} of {} years", one.good, one.years),
               fmt::format("{:.1f} h", one.light_hours), fmt::format("{:.0f} h", one.wet_hours),
               nights < 0.05 ? std::string("none") : fmt::format("{:.1f} nights", nights),
               tens(one.chance())});
  }
  page.table(table);
  page.gap();
  page.text(fmt::format(
                "The trip as it stands in the job, set off on each of these days in the weather of {} to {} "
                "of {}{}. Home and sound: home by the promise, all done that must be, nothing spoilt. Each "
                "year goes by an order of work that was not found on it, and by forecasts as wrong as they "
                "are. With so few years the first of the list may owe its place to luck.",
                facts.first_year, facts.last_year, facts.region,
                facts.kilometres < 1 ? std::string() : fmt::format(", {:.0f} km away", facts.kilometres)),
            0);
  if (!facts.attribution.empty()) page.text(facts.attribution, 0);
  return page.str();
}

}  // namespace weatherstruck::render
