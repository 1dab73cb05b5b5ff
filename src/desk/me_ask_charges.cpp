// What he charges.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "me_asking.h"
#include "weatherstruck/works/answer_amounts.h"

namespace weatherstruck::desk {

using works::Answer;
using works::Refused;

namespace {

/// The money of the town by whose clock he lives, as far as that shows it.
std::string_view money_of(const base::Zone& zone, bool us) {
  if (us) return "USD";
  constexpr std::string_view europe = "Europe/";
  if (zone.name().rfind(europe, 0) != 0) return "GBP";
  for (const std::string_view town : {"London", "Belfast", "Jersey", "Guernsey", "Isle_of_Man"}) {
    if (std::string_view(zone.name()).substr(europe.size()) == town) return "GBP";
  }
  return "EUR";
}

}  // namespace

void MeAsking::charges() {
  talk_.heading("What you charge");
  const bool asked = talk_.ask<bool>(
      {"charges", kept_ && out_.rates ? "Change what you charge?" : "Say now what you charge?", "no",
       "It is needed for the first invoice and can wait until then: \"weatherstruck me\" asks again."},
      works::yes_no_answer, false);
  if (!asked) return;
  const bool us = out_.me.limits.set == trade::LimitSet::us;
  if (!out_.rates)
    out_.rates = account::Rates{.currency = *base::Currency::from_code(money_of(out_.me.home_zone, us))};
  account::Rates& rates = *out_.rates;
  const base::Currency before = rates.currency;
  rates.currency = talk_.ask<base::Currency>(
      {"currency", "In which currency?", before.code(), "Its three letters, such as GBP, EUR or USD."},
      [](auto said) -> Answer<base::Currency> {
        std::string code(said);
        std::transform(code.begin(), code.end(), code.begin(),
                       [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
        if (const auto currency = base::Currency::from_code(code)) return *currency;
        return Refused{"the three letters of a currency, such as GBP"};
      },
      before);
  if (!(rates.currency == before)) rates = account::Rates{.currency = rates.currency};
  const std::optional<base::Money> hour = rates.day_work;
  const base::Currency currency = rates.currency;
  using Hour = std::optional<base::Money>;
  rates.day_work = talk_.ask<Hour>(
      {"day-work", "An hour of day work, before tax", hour ? hour->text() : "none",
       "For work by the hour and extras without a price; or for a day of 8 hours, such as 220 a day. none: "
       "you do "
       "none."},
      [currency](auto said) { return works::hourly_answer(said, currency); }, std::optional<Hour>(hour));
  if (rates.day_work != hour && rates.day_work) talk_.say(rates.day_work->text() + " an hour.");
  travel();
  rates.on_materials = percent("materials", "What you put on the cost of materials", rates.on_materials,
                               10000, "In per cent. none: at cost.");
  tax(us);
  rates.payment_days = talk_.ask<int>(
      {"days-to-pay", "Days in which an invoice is to be paid", std::to_string(rates.payment_days),
       "Counted from its date."},
      [](auto said) { return works::count_answer(said, 0, 120, "day"); }, rates.payment_days);
  out_.me.pay_to = text("pay-to", "How you are paid, as an invoice says it", out_.me.pay_to, 300,
                        "Bank, sort code and account, say.");
}

void MeAsking::travel() {
  account::Rates& rates = *out_.rates;
  if (std::holds_alternative<account::TravelByTrip>(rates.travel)) return;
  const auto* by_distance = std::get_if<account::TravelByDistance>(&rates.travel);
  using Mile = std::optional<base::Money>;
  const Mile usual = by_distance != nullptr ? Mile(by_distance->per_unit) : Mile();
  const base::Currency currency = rates.currency;
  const Mile mile = talk_.ask<Mile>(
      {"travel", "Travel, for each mile", usual ? usual->text() : "none",
       "Such as 0.45. none: travel is never charged by the mile."},
      [currency](auto said) { return works::mileage_answer(said, currency); }, std::optional<Mile>(usual));
  rates.travel = mile ? account::Travel(account::TravelByDistance{*mile}) : account::Travel();
}

void MeAsking::tax(bool us) {
  account::Rates& rates = *out_.rates;
  const std::string name = us ? "Sales tax" : "VAT";
  const int rate = percent("tax", name + " that you charge", rates.tax.rate, 10000,
                           "In per cent. none: you are not registered.");
  if (rate == 0) {
    rates.tax = account::no_tax("Not registered for " + name, name);
    out_.me.tax_number.clear();
    return;
  }
  rates.tax = account::tax_at(rate, name);
  std::string& number = out_.me.tax_number;
  number = talk_.ask<std::string>(
      {"tax-number", "Your " + name + " number", number, "An invoice that charges tax must bear it."},
      [](auto said) { return works::text_answer(said, 40); },
      number.empty() ? std::nullopt : std::optional(number));
}

}  // namespace weatherstruck::desk
