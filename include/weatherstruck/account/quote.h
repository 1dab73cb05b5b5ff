#pragma once
// What a job is offered at, before it is built: a price that was agreed already, or one reckoned from the
// quantities, the hours by the norms and his pace, and what he charges. The sums are those of an invoice.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::account {

/// A material with what it costs him.
struct MaterialCost {
  std::string material;  ///< key of the materials table
  std::string words;     ///< "Cement, 23 bags"
  base::Money cost;      ///< as bought, whole packs, before anything is put on it
};

struct Offer {
  Charges charges;           ///< what the customer reads; questions keep it from being handed out
  bool fixed = false;        ///< the price stands in the job: agreed whole or in stages
  bool by_the_hour = false;  ///< the hours of the book will be billed: what is said here is expected
  Charges reckoned;          ///< by quantities, hours and rates; the same lines where nothing is fixed
  std::vector<MaterialCost> materials{};
  base::Hours hours{0};                 ///< person-hours of all work, in fair weather
  std::vector<std::string> unpriced{};  ///< "facing bricks": materials of which no price is known
  std::vector<std::string> there{};     ///< at the work already, and not charged
};

/// Question codes beside those of charges_of: "material-price", "day-work-rate".
/// @param tasks derive_tasks(job), and `bill` is bill_of(job)
/// @pre faults_of(terms) is empty
/// @throws std::overflow_error where a sum does not fit
[[nodiscard]] Offer offer_of(const Terms& terms, const works::Job& job, const works::TaskList& tasks,
                             const works::Bill& bill);

/// What he should know of an offer and the customer should not; all before tax and before discounts.
struct ForHimself {
  base::Hours hours{0};
  base::Money labour;
  base::Money materials;  ///< as they are paid for
  base::Money put_on;     ///< on materials
  base::Money travel;
  base::Money reckoned;                 ///< the sum of these
  std::optional<base::Money> agreed{};  ///< the fixed price, or its stages together
  /// What is left of that for an hour of work, materials and travel taken off where they are in it; nullopt
  /// without an agreed price or without hours.
  std::optional<base::Money> an_hour{};
};
/// @throws std::overflow_error where a sum does not fit
[[nodiscard]] ForHimself for_himself(const Terms& terms, const Offer& offer);

}  // namespace weatherstruck::account
