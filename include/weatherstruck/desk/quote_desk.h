#pragma once
// A job offered before the work: what it comes to and the sheet for the customer. Writes nothing; an offer
// has no number, since only what is billed has one.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/deposit.h"
#include "weatherstruck/account/quote.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/render/quote_sheet.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::desk {

struct QuoteRequest {
  const works::Job& job;  ///< must outlive the call
  account::Rates rates;
  account::Seller seller;
  account::Buyer buyer;
  base::LocalDay today;
  std::vector<std::string> not_included{};       ///< beside what his rates name
  std::optional<account::DepositAsk> deposit{};  ///< nullopt: the usual one, if he has one
  /// All trips, out and back, thousandths of what he counts travel in; nullopt: as the job says.
  std::optional<std::int64_t> distance{};
};

struct Quoted {
  account::Offer offer;
  account::ForHimself mine;
  std::optional<base::Money> deposit;       ///< asked for with the order, tax included
  std::optional<render::QuoteSheet> sheet;  ///< nullopt where nothing has a price yet: see the questions
};

/// @throws base::InputError for faults in rates, price or parties, and as account::deposit_charges
[[nodiscard]] Quoted quote(const QuoteRequest& request);

/// The customer said yes to a price that was reckoned: it becomes the job's fixed price, materials and travel
/// in it, and what is taken off the whole stays as it stands. Comments in the job's document are lost.
/// @pre open.kept, and `quoted` is of that job
/// @throws base::InputError "agreed-already" (a price stands in the job), "by-the-hour", "open-question",
/// "several-taxes" (one price has one tax), "job-changed" (since it was opened)
/// @throws record::RecordError
OpenJob agree(Shelf& shelf, const OpenJob& open, const Quoted& quoted, const files::ZoneSource& zones,
              base::Instant now);

/// Keeps what was said of prices, days, share of deposit and what is not included, for later quotations.
/// @throws base::InputError for a document that does not read back
void keep_for_quotes(Shelf& shelf, const QuoteRequest& request, const files::ZoneSource& zones,
                     base::Instant now);

}  // namespace weatherstruck::desk
