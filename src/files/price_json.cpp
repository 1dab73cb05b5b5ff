#include "weatherstruck/files/price_json.h"

#include <utility>

#include "tax_json.h"
#include "weatherstruck/account/charges.h"

namespace weatherstruck::files {
namespace {

std::optional<base::Money> money_if_there(ObjectReader& from, std::string_view key) {
  return from.member(key) == nullptr ? std::nullopt : from.money(key);
}
/// Judged here as where bills are made, so that a fault is told while the document is at hand.
std::optional<works::PriceTax> tax_if_there(ObjectReader& from) {
  const Json* value = from.member("tax");
  if (value == nullptr) return std::nullopt;
  const std::string place = from.place("tax");
  const account::Tax tax = read_tax({from.reading(), *value, place, "tax"});
  for (base::Fault& fault : account::faults_of(tax, place)) {
    if (fault.place == place + "/rate") fault.place = place + "/percent";
    from.reading().add(std::move(fault));
  }
  return works::PriceTax{std::string(account::code_of(tax.category)), tax.rate, tax.name, tax.reason};
}

std::optional<works::PriceOff> off_if_there(ObjectReader& from) {
  const Json* value = from.member("off");
  if (value == nullptr) return std::nullopt;
  ObjectReader entry(from.reading(), *value, from.place("off"), "price_off");
  works::PriceOff off;
  if (entry.member("percent") != nullptr) off.percent = hundredths(entry.number("percent", {0.01, 100, "%"}));
  off.amount = money_if_there(entry, "amount");
  off.reason = entry.text("reason", 120);
  entry.finish();
  if ((entry.member("percent") != nullptr) == (entry.member("amount") != nullptr)) {
    from.reading().add({"one-of-two", from.place("off"),
                        off.amount ? "a percentage and an amount" : "neither a percentage nor an amount",
                        "\"percent\" or \"amount\"", "Give one of the two."});
  }
  return off;
}

Json tax_of(const works::PriceTax& said) {
  return tax_json(account::tax_of(said));
}

Json off_json(const works::PriceOff& off) {
  Json out = Json::object();
  if (off.amount) {
    out["amount"] = off.amount->text();
  } else {
    out["percent"] = percent_json(off.percent);
  }
  out["reason"] = off.reason;
  return out;
}

std::optional<bool> truth_if_there(ObjectReader& from, std::string_view key) {
  if (from.member(key) == nullptr) return std::nullopt;
  return from.truth(key, false);
}

}  // namespace

works::Price read_price(ObjectReader from) {
  works::Price price;
  price.fixed = money_if_there(from, "fixed");
  const auto& stages = from.list("stages", 20);
  for (std::size_t i = 0; i < stages.size(); ++i) {
    ObjectReader entry(from.reading(), stages[i], pointer_to(from.place("stages"), i), "price_stage");
    std::string title = entry.text("title", 120);
    const std::optional<base::Money> amount =
        entry.member("price", "an amount and a currency") == nullptr ? std::nullopt : entry.money("price");
    std::vector<works::Name> of = entry.names("of", 100);
    std::optional<works::PriceTax> tax = tax_if_there(entry);
    std::optional<works::PriceOff> off = off_if_there(entry);
    entry.finish();
    if (amount)
      price.stages.push_back({std::move(title), *amount, std::move(of), std::move(tax), std::move(off)});
  }
  price.by_the_hour = from.truth("by_the_hour", false);
  price.materials_on_top = truth_if_there(from, "materials_on_top");
  price.travel_on_top = truth_if_there(from, "travel_on_top");
  price.deposit = money_if_there(from, "deposit");
  if (from.member("distance") != nullptr) price.distance = from.number("distance", {0, 100000, ""});
  price.tax = tax_if_there(from);
  price.off = off_if_there(from);
  from.finish();
  return price;
}

Json price_json(const works::Price& price) {
  Json out = Json::object();
  if (price.fixed) out["fixed"] = price.fixed->text();
  Json stages = Json::array();
  for (const works::PriceStage& stage : price.stages) {
    Json one = {{"title", stage.title}, {"price", stage.price.text()}, {"of", stage.of}};
    if (stage.tax) one["tax"] = tax_of(*stage.tax);
    if (stage.off) one["off"] = off_json(*stage.off);
    stages.push_back(std::move(one));
  }
  out["stages"] = std::move(stages);
  out["by_the_hour"] = price.by_the_hour;
  if (price.materials_on_top) out["materials_on_top"] = *price.materials_on_top;
  if (price.travel_on_top) out["travel_on_top"] = *price.travel_on_top;
  if (price.deposit) out["deposit"] = price.deposit->text();
  if (price.distance) out["distance"] = *price.distance;
  if (price.tax) out["tax"] = tax_of(*price.tax);
  if (price.off) out["off"] = off_json(*price.off);
  return out;
}

}  // namespace weatherstruck::files
