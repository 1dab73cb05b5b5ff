#include "weatherstruck/render/van_sheet.h"

#include <fmt/format.h>

#include <cmath>

#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

std::string room_of(base::CubicMetres volume) {
  return fmt::format("{:.2f} m3", volume.value());
}

int percent(double part, double whole) {
  return whole > 0 ? static_cast<int>(std::lround(100.0 * part / whole)) : 0;
}

// "3", "3 of 7" where the rest rides in another load; nothing for a single thing.
std::string pieces(int here, int all) {
  if (all == 1) return {};
  return here == all ? fmt::format("{}", all) : fmt::format("{} of {}", here, all);
}

std::string share(const VanFacts& facts, base::Kilograms mass_of, base::CubicMetres volume) {
  return fmt::format("{} of {}, {} %; room {} of {}, {} %", mass(mass_of), mass(facts.payload),
                     percent(mass_of.value(), facts.payload.value()), room_of(volume), room_of(facts.room),
                     percent(volume.value(), facts.room.value()));
}

}  // namespace

std::string van_sheet(const VanFacts& facts, Ink ink) {
  Page page(ink);
  page.title("Van", facts.title);
  int number = 0;
  for (const measure::VanLoad& load : facts.plan.loads) {
    ++number;
    page.heading(facts.plan.loads.size() == 1 ? std::string("The load") : fmt::format("Load {}", number));
    Table table({{"", Table::Kind::left},
                 {"", Table::Kind::right},
                 {"mass", Table::Kind::right},
                 {"room", Table::Kind::right}});
    for (const measure::VanLoad::Piece& piece : load.pieces) {
      const measure::VanItem& item = facts.items[piece.item];
      const double part = static_cast<double>(piece.units) / static_cast<double>(item.units);
      table.add(
          {item.name, pieces(piece.units, item.units), mass(item.mass * part), room_of(item.volume * part)});
    }
    page.table(table);
    page.gap();
    page.text(share(facts, load.mass, load.volume), 2);
  }
  if (facts.plan.loads.empty()) page.heading("Nothing has to ride in the van.");

  for (const std::size_t item : facts.plan.too_big)
    page.text(fmt::format("Too big for this van: {}.", facts.items[item].name), 2);
  if (facts.plan.loads.size() > 1) {
    page.gap();
    std::string over;
    if (facts.plan.over_mass.value() > 0) over = mass(facts.plan.over_mass) + " too heavy";
    if (facts.plan.over_volume.value() > 0) {
      over += (over.empty() ? "" : " and ") + room_of(facts.plan.over_volume) + " too much room";
    }
    page.text(
        fmt::format("It does not go in one load: {} for it. {}", over,
                    facts.merchant ? "Have the heaviest delivered, or buy it from the merchant by the site."
                                   : "Have the heaviest delivered."),
        0);
  }
  if (!facts.brought.empty()) {
    page.heading("Not in the van");
    Table table({{"", Table::Kind::left}, {"", Table::Kind::right}, {"", Table::Kind::wrapped}});
    for (const Brought& line : facts.brought)
      table.add({line.name, line.how_much, line.how});
    page.table(table);
  }
  return page.str();
}

}  // namespace weatherstruck::render
