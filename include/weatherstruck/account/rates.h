#pragma once
// What he charges, the same for every job. All prices are before tax.
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "weatherstruck/account/tax.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/money.h"

namespace weatherstruck::account {

/// What quantities are counted in.
enum class Unit { each, hour, mile, kilometre };
/// "", "h", "miles", "km".
[[nodiscard]] std::string_view word_of(Unit unit);
/// UN/ECE Recommendation 20, from memory: "C62", "HUR", "SMI", "KMT". EN 16931 BR-23 wants one.
[[nodiscard]] std::string_view code_of(Unit unit);

struct TravelByDistance {
  base::Money per_unit;    ///< >= 0
  Unit unit = Unit::mile;  ///< mile or kilometre
  friend bool operator==(const TravelByDistance&, const TravelByDistance&) = default;
};
struct TravelByTrip {
  base::Money for_the_trip;  ///< >= 0, out and back
  friend bool operator==(const TravelByTrip&, const TravelByTrip&) = default;
};
/// monostate: travel is never charged.
using Travel = std::variant<std::monostate, TravelByDistance, TravelByTrip>;

/// What a merchant asks for a material, before tax and before anything is put on it.
struct MaterialPrice {
  std::string material;      ///< key of the materials table
  base::Money price;         ///< >= 0, for `thousandths` of it
  std::int64_t thousandths;  ///< of the table's unit, 1..1'000'000: 25'000 is a bag of 25 kg
  friend bool operator==(const MaterialPrice&, const MaterialPrice&) = default;
};

struct Rates {
  base::Currency currency;                ///< of every amount below
  std::optional<base::Money> day_work{};  ///< for one person's hour, > 0; nullopt: he does no day work
  Travel travel{};
  int on_materials = 0;                 ///< put on the cost of materials, hundredths of a percent, 0..10000
  Tax tax{};                            ///< on everything; as it stands it lacks its reason and is a fault
  int payment_days = 14;                ///< 0..120, from the day of the invoice
  std::optional<int> usual_deposit{};   ///< of a fixed price, hundredths of a percent, 1..10000; only reminds
  std::optional<Tax> materials_tax{};   ///< on materials where it is another one, unless the job has its own
  std::vector<MaterialPrice> prices{};  ///< for quotations; each material once
  std::vector<std::string> not_included{};  ///< what every quotation says is not in its price; each 1..200
  int quote_days = 30;  ///< for which a quotation holds, 1..365: common practice, no source
  friend bool operator==(const Rates&, const Rates&) = default;
};

/// "out-of-range", "wrong-currency", "bad-unit", "bad-text" and those of the tax; places "PLACE/day-work",
/// "PLACE/travel", "PLACE/on-materials", "PLACE/tax/...", "PLACE/materials-tax/...", "PLACE/payment-days",
/// "PLACE/usual-deposit", "PLACE/prices/0/price", "PLACE/not-included/0", "PLACE/quote-days"; of prices also
/// "unknown-material" and "priced-twice".
[[nodiscard]] base::Faults faults_of(const Rates& rates, const std::string& place = "rates");

}  // namespace weatherstruck::account
