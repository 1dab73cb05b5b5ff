#include "weatherstruck/render/me_sheet.h"

#include <fmt/format.h>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::render {
namespace {

constexpr std::size_t beside = 14;

std::string crew_words(const works::Me& me) {
  std::string text;
  for (const works::Person& person : me.crew) {
    text +=
        fmt::format("{}{}{}", text.empty() ? "" : "; ", person.name, person.lays_bricks ? "" : ", labours");
    if (person.pace != 1) text += fmt::format(", {} of the norm", base::plain_number(person.pace, 2));
  }
  return text;
}

std::string kit_words(const works::Kit& kit, works::Measure measure) {
  std::string text = kit.mixer.value() > 0 ? "mixer of " + volume_text(kit.mixer, measure) : "mixes by hand";
  const auto area = [&](base::SquareMetres m2, std::string_view what) {
    if (m2.value() > 0) text += fmt::format("; {} of {}", area_text(m2, measure), what);
  };
  area(kit.hessian, "hessian");
  area(kit.sheet, "sheeting");
  area(kit.mats, "frost mats");
  if (kit.canopy) text += "; canopy " + works::size_text({kit.canopy->length, kit.canopy->width}, measure);
  text += kit.floodlights ? "; lights" : "; no lights";
  return text;
}

std::string travel_words(const account::Travel& travel) {
  if (const auto* distance = std::get_if<account::TravelByDistance>(&travel))
    return fmt::format("travel {} a {}", distance->per_unit.text(),
                       distance->unit == account::Unit::mile ? "mile" : "km");
  if (const auto* trip = std::get_if<account::TravelByTrip>(&travel))
    return fmt::format("travel {} a trip", trip->for_the_trip.text());
  return "travel not charged";
}

std::string rate_words(const account::Rates& rates) {
  std::string text = rates.day_work ? rates.day_work->text() + " an hour" : "no day work";
  text += "; " + travel_words(rates.travel);
  text += fmt::format("; {} on materials; {}; to be paid in {}", account::percent_text(rates.on_materials),
                      account::tax_words(rates.tax), count_of(rates.payment_days, "day"));
  return text;
}

}  // namespace

std::string me_sheet(const works::Me& me, const std::optional<account::Rates>& rates, Ink ink) {
  const works::Measure measure = works::measure_of(me.limits.set);
  Page page(ink);
  page.title(me.name);
  const auto item = [&](std::string_view label, const std::string& words) {
    page.item(label, words, beside);
  };
  if (!me.address.empty()) item("address", me.address);
  item("mail", me.contact.empty() ? "none: no forecast can be fetched" : me.contact);
  item("clock", me.home_zone.name());
  item("limits", me.limits.set == trade::LimitSet::us ? "us" : "uk");
  if (!me.limits.overrides.empty())
    item("", count_of(static_cast<long>(me.limits.overrides.size()), "limit") + " of your own");
  item("crew", crew_words(me));
  item("kit", kit_words(me.kit, measure));
  item("van", mass_text(me.kit.van_payload, measure) + ", " + volume_text(me.kit.van_volume, measure));
  item("days", fmt::format("{} on site, at most {} h of work", works::span_words(me.working_day),
                           base::plain_number(me.longest_day.value(), 2)));
  item("mixes",
       fmt::format("mortar {}; below ground {}; concrete {}", trade::row_for(me.practice.mortar).title,
                   trade::row_for(me.practice.mortar_below).title,
                   trade::row_for(me.practice.concrete).title));
  item("charges", rates ? rate_words(*rates) : "not said yet");
  return page.str();
}

}  // namespace weatherstruck::render
