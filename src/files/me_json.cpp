#include "weatherstruck/files/me_json.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "shared_sections.h"
#include "tax_json.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::files {
namespace {

enum class TravelBy { mile, kilometre, trip };
constexpr std::array<Word<TravelBy>, 3> travel_words{
    {{"mile", TravelBy::mile}, {"kilometre", TravelBy::kilometre}, {"trip", TravelBy::trip}}};

constexpr std::size_t name_length = 120;
constexpr std::size_t address_length = 300;
constexpr std::size_t most_pace_starts = 1000;
constexpr std::size_t most_prices = 100;
constexpr std::size_t most_words = 30;
constexpr std::size_t longest_words = 200;
constexpr std::size_t code_length = 42;  // an IBAN has 34 characters, and blanks between them

void not_of_currency(ObjectReader& from, std::string_view key, const std::string& found,
                     const base::Currency& currency) {
  from.reading().add({"wrong-currency", from.place(key), found, "an amount in " + currency.code(),
                      "Give all rates in one currency."});
}

std::optional<base::Money> amount(ObjectReader& from, std::string_view key, const base::Currency& currency) {
  auto money = from.money(key);
  if (money && !(money->currency() == currency)) {
    not_of_currency(from, key, money->text(), currency);
    return {};
  }
  return money;
}

account::Travel read_travel(ObjectReader from, const base::Currency& currency) {
  const auto by = from.word<TravelBy>("by", travel_words);
  const Json* price = from.member("price", "an amount such as \"0.45 GBP\"");
  const auto money = price == nullptr ? std::nullopt : amount(from, "price", currency);
  from.finish();
  if (!money) return {};
  if (by == TravelBy::trip) return account::TravelByTrip{*money};
  return account::TravelByDistance{*money,
                                   by == TravelBy::mile ? account::Unit::mile : account::Unit::kilometre};
}

std::vector<account::MaterialPrice> read_prices(ObjectReader& rates, const base::Currency& currency) {
  std::vector<account::MaterialPrice> prices;
  const Json::array_t& list = rates.list("prices", most_prices);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader from(rates.reading(), list[i], pointer_to(rates.place("prices"), i), "material_price");
    std::string key = from.table_key("material");
    const Json* price = from.member("price", "an amount such as \"6.40 GBP\"");
    const auto money = price == nullptr ? std::nullopt : amount(from, "price", currency);
    const trade::Material* row = trade::find_material(key);
    const double per = from.number("per", {0.001, 1000, ""}, row == nullptr ? 1.0 : row->pack_size);
    from.finish();
    prices.push_back({std::move(key), money.value_or(base::Money(0, currency)),
                      std::llround(per * static_cast<double>(account::one_unit))});
  }
  return prices;
}

std::vector<std::string> read_not_included(ObjectReader& rates) {
  std::vector<std::string> words;
  const Json::array_t& list = rates.list("not_included", most_words);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader from(rates.reading(), list[i], pointer_to(rates.place("not_included"), i), "not_included");
    words.push_back(from.text("what", longest_words));
    from.finish();
  }
  return words;
}

base::Currency read_currency(ObjectReader& from) {
  const std::string code = from.text("currency", 3);
  if (const auto currency = base::Currency::from_code(code)) return *currency;
  // A code that was not there at all has been told.
  if (from.member("currency") != nullptr) {
    from.reading().add({"bad-word", from.place("currency"), "\"" + code + "\"",
                        "an ISO 4217 code, such as \"GBP\"", "Write the three letters of the currency."});
  }
  return *base::Currency::from_code("GBP");
}

works::Me read_who(ObjectReader from, const ZoneSource& zones) {
  auto zone = read_zone(from, "home_zone", zones, nullptr);
  works::Me me{"", "", "", "", "", std::move(zone), {}, {}, {}, {}};
  me.name = from.text("name", name_length);
  me.address = from.text("address", address_length, "");
  me.contact = from.text("contact", name_length, "");
  me.tax_number = from.text("tax_number", 40, "");
  me.pay_to = from.text("pay_to", address_length, "");
  me.town = from.text("town", name_length, "");
  me.postcode = from.text("postcode", code_length, "");
  me.country = from.text("country", 2, "");
  me.registration = from.text("registration", code_length, "");
  me.iban = from.text("iban", code_length, "");
  me.bic = from.text("bic", code_length, "");
  from.finish();
  return me;
}

void read_hours(ObjectReader from, works::Me& me) {
  me.working_day = from.span("working_day", me.working_day);
  me.longest_day = from.hours("longest_day", 1, 16, me.longest_day);
  me.merchant_monday_to_friday = from.spans("merchant_monday_to_friday", me.merchant_monday_to_friday);
  me.merchant_saturday = from.spans("merchant_saturday", me.merchant_saturday);
  from.finish();
}

std::vector<works::PaceStart> read_pace_from(ObjectReader& document) {
  std::vector<works::PaceStart> starts;
  const Json::array_t& list = document.list("pace_from", most_pace_starts);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader from(document.reading(), list[i], pointer_to("/pace_from", i), "pace_start");
    works::PaceStart start{from.text("work", name_length, ""), {}};
    const std::string moment = from.text("from", code_length);
    if (const auto read = base::parse_iso_instant(moment)) {
      start.from = *read;
    } else if (!moment.empty()) {
      document.reading().add({"bad-time", from.place("from"), moment,
                              "a moment with its offset such as 2026-03-01T12:00:00Z", "Write one."});
    }
    if (!start.work.empty() && !trade::operation_from_key(start.work)) {
      document.reading().add({"bad-word", from.place("work"), "\"" + start.work + "\"",
                              "a kind of work such as \"lay-facing\", or nothing for all",
                              "\"weatherstruck pace\" names them."});
    }
    from.finish();
    starts.push_back(std::move(start));
  }
  return starts;
}

MeDocument read_document(Reading& reading, const Json& value, const ZoneSource& zones) {
  ObjectReader document(reading, value, "", "me_document");
  read_version(document, me_schema_version);
  works::Me me = read_who(section(document, "me", "me"), zones);
  me.crew = read_crew(document);
  me.kit = read_kit(section(document, "kit", "kit"));
  me.limits = read_limits(section(document, "limits", "limits"));
  me.practice = read_practice(section(document, "practice", "practice"));
  read_hours(section(document, "hours", "hours"), me);
  MeDocument out{std::move(me), {}};
  if (const Json* rates = document.member("rates")) {
    out.rates = read_rates({reading, *rates, "/rates", "rates"});
  }
  out.me.pace_from = read_pace_from(document);
  document.finish();
  return out;
}

bool told_already(const base::Faults& faults, const std::string& place) {
  return std::any_of(faults.begin(), faults.end(), [&](const base::Fault& f) { return f.place == place; });
}

}  // namespace

account::Rates read_rates(ObjectReader from) {
  account::Rates rates{.currency = read_currency(from), .day_work = {}};
  rates.day_work = amount(from, "day_work", rates.currency);
  if (const Json* travel = from.member("travel")) {
    rates.travel = read_travel({from.reading(), *travel, from.place("travel"), "travel"}, rates.currency);
  }
  rates.on_materials = hundredths(from.number("on_materials", {0, 100, "%"}, 0.0));
  rates.tax = read_tax(section(from, "tax", "tax"));
  if (const Json* tax = from.member("materials_tax"))
    rates.materials_tax = read_tax({from.reading(), *tax, from.place("materials_tax"), "tax"});
  rates.payment_days = from.whole("payment_days", 0, 120, rates.payment_days);
  rates.prices = read_prices(from, rates.currency);
  rates.not_included = read_not_included(from);
  rates.quote_days = from.whole("quote_days", 1, 365, rates.quote_days);
  if (from.member("usual_deposit") != nullptr)
    rates.usual_deposit = hundredths(from.number("usual_deposit", {0.01, 100, "%"}, 1.0));
  from.finish();
  return rates;
}

MeRead read_me(std::string_view text, const ZoneSource& zones) {
  MeRead out;
  auto parsed = parse_json(text, JsonLimits::job_document());
  out.lines = std::move(parsed.lines);
  if (!parsed.value) {
    out.faults = std::move(parsed.faults);
    return out;
  }
  Reading reading;
  auto document = read_document(reading, *parsed.value, zones);
  out.faults = reading.take_faults();
  out.shapes = std::move(reading.shapes());
  base::Faults sense = works::faults_of(document.me);
  if (document.rates) {
    for (base::Fault& fault : account::faults_of(*document.rates, "/rates")) {
      std::replace(fault.place.begin(), fault.place.end(), '-', '_');
      for (const std::string tax : {"/rates/tax", "/rates/materials_tax"}) {
        if (fault.place == tax + "/rate") fault.place = tax + "/percent";
      }
      sense.push_back(std::move(fault));
    }
  }
  for (base::Fault& fault : sense) {
    // Where the shape is wrong a stand-in was judged.
    if (!told_already(out.faults, fault.place)) out.faults.push_back(std::move(fault));
  }
  in_order_of_text(out.faults, out.lines);
  if (out.faults.empty()) out.document = std::move(document);
  return out;
}

Json rates_json(const account::Rates& rates) {
  Json out = {{"currency", rates.currency.code()}};
  if (rates.day_work) out["day_work"] = rates.day_work->text();
  if (const auto* distance = std::get_if<account::TravelByDistance>(&rates.travel)) {
    out["travel"] = {{"by", distance->unit == account::Unit::mile ? "mile" : "kilometre"},
                     {"price", distance->per_unit.text()}};
  } else if (const auto* trip = std::get_if<account::TravelByTrip>(&rates.travel)) {
    out["travel"] = {{"by", "trip"}, {"price", trip->for_the_trip.text()}};
  }
  out["on_materials"] = percent_json(rates.on_materials);
  out["tax"] = tax_json(rates.tax);
  if (rates.materials_tax) out["materials_tax"] = tax_json(*rates.materials_tax);
  out["payment_days"] = rates.payment_days;
  if (rates.usual_deposit) out["usual_deposit"] = percent_json(*rates.usual_deposit);
  for (const account::MaterialPrice& one : rates.prices) {
    out["prices"].push_back(
        {{"material", one.material},
         {"price", one.price.text()},
         {"per", static_cast<double>(one.thousandths) / static_cast<double>(account::one_unit)}});
  }
  for (const std::string& words : rates.not_included)
    out["not_included"].push_back({{"what", words}});
  out["quote_days"] = rates.quote_days;
  return out;
}

Json me_to_json(const MeDocument& document) {
  const works::Me& me = document.me;
  Json out = Json::object();
  out["weatherstruck"] = me_schema_version;
  out["me"] = {{"name", me.name},       {"address", me.address},
               {"contact", me.contact}, {"tax_number", me.tax_number},
               {"pay_to", me.pay_to},   {"home_zone", me.home_zone.name()},
               {"town", me.town},       {"postcode", me.postcode},
               {"country", me.country}, {"registration", me.registration},
               {"iban", me.iban},       {"bic", me.bic}};
  out["crew"] = crew_json(me.crew);
  out["kit"] = kit_json(me.kit);
  out["limits"] = limits_json(me.limits);
  out["practice"] = practice_json(me.practice);
  out["hours"] = {{"working_day", span_text(me.working_day)},
                  {"longest_day", duration(me.longest_day)},
                  {"merchant_monday_to_friday", spans_json(me.merchant_monday_to_friday)},
                  {"merchant_saturday", spans_json(me.merchant_saturday)}};
  if (document.rates) out["rates"] = rates_json(*document.rates);
  for (const works::PaceStart& start : me.pace_from) {
    Json one = Json::object();
    if (!start.work.empty()) one["work"] = start.work;
    one["from"] = base::iso_utc(start.from);
    out["pace_from"].push_back(std::move(one));
  }
  return out;
}

std::string write_me(const MeDocument& document) {
  return me_to_json(document).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace weatherstruck::files
