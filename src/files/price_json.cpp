#include "weatherstruck/files/price_json.h"

#include <utility>

namespace weatherstruck::files {
namespace {

std::optional<base::Money> money_if_there(ObjectReader& from, std::string_view key) {
  return from.member(key) == nullptr ? std::nullopt : from.money(key);
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
    entry.finish();
    if (amount) price.stages.push_back({std::move(title), *amount, std::move(of)});
  }
  price.by_the_hour = from.truth("by_the_hour", false);
  price.materials_on_top = truth_if_there(from, "materials_on_top");
  price.travel_on_top = truth_if_there(from, "travel_on_top");
  price.deposit = money_if_there(from, "deposit");
  if (from.member("distance") != nullptr) price.distance = from.number("distance", {0, 100000, ""});
  from.finish();
  return price;
}

Json price_json(const works::Price& price) {
  Json out = Json::object();
  if (price.fixed) out["fixed"] = price.fixed->text();
  Json stages = Json::array();
  for (const works::PriceStage& stage : price.stages)
    stages.push_back({{"title", stage.title}, {"price", stage.price.text()}, {"of", stage.of}});
  out["stages"] = std::move(stages);
  out["by_the_hour"] = price.by_the_hour;
  if (price.materials_on_top) out["materials_on_top"] = *price.materials_on_top;
  if (price.travel_on_top) out["travel_on_top"] = *price.travel_on_top;
  if (price.deposit) out["deposit"] = price.deposit->text();
  if (price.distance) out["distance"] = *price.distance;
  return out;
}

}  // namespace weatherstruck::files
