#include "weatherstruck/account/rates.h"

#include <fmt/format.h>

#include <set>
#include <stdexcept>

#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::account {

namespace {

constexpr int longest_payment = 120;
constexpr int longest_offer = 365;
constexpr std::int64_t most_priced = 1'000'000;
constexpr std::size_t longest_words = 200;

}  // namespace

std::string_view word_of(Unit unit) {
  switch (unit) {
    case Unit::each:
      return "";
    case Unit::hour:
      return "h";
    case Unit::mile:
      return "miles";
    case Unit::kilometre:
      return "km";
  }
  throw std::invalid_argument("no such unit");
}

std::string_view code_of(Unit unit) {
  switch (unit) {
    case Unit::each:
      return "C62";
    case Unit::hour:
      return "HUR";
    case Unit::mile:
      return "SMI";
    case Unit::kilometre:
      return "KMT";
  }
  throw std::invalid_argument("no such unit");
}

base::Faults faults_of(const Rates& rates, const std::string& place) {
  base::Faults faults;
  const auto amount = [&](const base::Money& money, std::int64_t least, const std::string& where) {
    if (!(money.currency() == rates.currency)) {
      faults.push_back({"wrong-currency", where, money.text(), "an amount in " + rates.currency.code(),
                        "Give all rates in one currency."});
    }
    if (money.minor() < least) {
      faults.push_back({"out-of-range", where, money.text(),
                        least > 0 ? "more than nought" : "nought or more", "Give what he charges for one."});
    }
  };
  const auto whole = [&](int value, int low, int high, const std::string& where, const std::string& unit) {
    if (value >= low && value <= high) return;
    faults.push_back({"out-of-range", where, fmt::format("{} {}", value, unit),
                      fmt::format("{} to {} {}", low, high, unit), "Choose a number between."});
  };
  if (rates.day_work) amount(*rates.day_work, 1, place + "/day-work");
  if (const auto* by_distance = std::get_if<TravelByDistance>(&rates.travel)) {
    amount(by_distance->per_unit, 0, place + "/travel");
    if (by_distance->unit != Unit::mile && by_distance->unit != Unit::kilometre) {
      faults.push_back({"bad-unit", place + "/travel", "neither miles nor km", "miles or km",
                        "Say in which of the two the distance is counted."});
    }
  } else if (const auto* by_trip = std::get_if<TravelByTrip>(&rates.travel)) {
    amount(by_trip->for_the_trip, 0, place + "/travel");
  }
  const std::string hundredths = "hundredths of a percent";
  whole(rates.on_materials, 0, static_cast<int>(whole_of_it), place + "/on-materials", hundredths);
  for (base::Fault& fault : faults_of(rates.tax, place + "/tax"))
    faults.push_back(std::move(fault));
  if (rates.materials_tax) {
    for (base::Fault& fault : faults_of(*rates.materials_tax, place + "/materials-tax"))
      faults.push_back(std::move(fault));
  }
  whole(rates.payment_days, 0, longest_payment, place + "/payment-days", "days");
  if (rates.usual_deposit) {
    whole(*rates.usual_deposit, 1, static_cast<int>(whole_of_it), place + "/usual-deposit", hundredths);
  }
  whole(rates.quote_days, 1, longest_offer, place + "/quote-days", "days");
  std::set<std::string> priced;
  for (std::size_t i = 0; i < rates.prices.size(); ++i) {
    const MaterialPrice& one = rates.prices[i];
    const std::string at = fmt::format("{}/prices/{}", place, i);
    amount(one.price, 0, at + "/price");
    if (one.thousandths < 1 || one.thousandths > most_priced) {
      faults.push_back({"out-of-range", at + "/per", fmt::format("{} thousandths", one.thousandths),
                        fmt::format("1 to {} thousandths", most_priced), "Choose a number between."});
    }
    if (trade::find_material(one.material) == nullptr) {
      faults.push_back({"unknown-material", at + "/material", one.material,
                        "a material of the quantities, such as facing-brick",
                        "\"weatherstruck quantities JOB --json\" has the words."});
    } else if (!priced.insert(one.material).second) {
      faults.push_back({"priced-twice", at + "/material", one.material, "one price for each material",
                        "Take one of the two out."});
    }
  }
  for (std::size_t i = 0; i < rates.not_included.size(); ++i) {
    const std::size_t width = base::display_width(rates.not_included[i]);
    if (width >= 1 && width <= longest_words) continue;
    faults.push_back({"bad-text", fmt::format("{}/not-included/{}", place, i), rates.not_included[i],
                      fmt::format("1 to {} characters", longest_words), "Say it shorter, or leave it out."});
  }
  return faults;
}

}  // namespace weatherstruck::account
