#pragma once
// What a change of a job would mean in money, as far as price and rates say. All before tax.
#include <optional>
#include <vector>

#include "weatherstruck/account/rates.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::account {

struct ChangePrice {
  std::optional<base::Money> agreed;     ///< a fixed price, or its stages together: it stays as it is
  std::optional<base::Money> an_hour;    ///< what he charges by the hour; nullopt: not kept
  bool by_the_hour = false;              ///< then the hours of the book are billed, agreed price or not
  std::optional<base::Money> before;     ///< the hours of the job at that; only with `an_hour`
  std::optional<base::Money> after;      ///< likewise
  std::optional<base::Money> apart;      ///< after less before; negative: less work
  std::optional<base::Money> taken_off;  ///< by fallbacks that were agreed with a price
  std::optional<int> on_materials;       ///< hundredths of a percent on what is paid for materials
};

/// @param rates nullptr: what he charges is not kept
/// @param before and after person-hours of the work, 0..1e6
/// @param used those of the job's fallbacks that the change comes to
/// @throws std::overflow_error where a sum does not fit
/// @throws std::invalid_argument where fallbacks are priced in different currencies
[[nodiscard]] ChangePrice change_price(const works::Job& job, const Rates* rates, base::Hours before,
                                       base::Hours after, const std::vector<works::Fallback>& used);

}  // namespace weatherstruck::account
