#include "weatherstruck/desk/quote_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "weatherstruck/account/rounding.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/files/job_writer.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/quantities.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::desk {
namespace {

/// By the rule that deposit_charges goes by, so that what is asked for is what is billed then.
std::optional<base::Money> deposit_of(const QuoteRequest& request, account::Terms terms,
                                      const account::Invoice& sums) {
  std::optional<account::DepositAsk> ask = request.deposit;
  if (!ask && terms.rates.usual_deposit) ask = account::DepositAsk{*terms.rates.usual_deposit, {}};
  if (!ask) return {};
  // Once it is agreed, a price that was reckoned is a price like any other.
  if (!account::agreed_price(terms)) terms.fixed_price = account::lines_net(sums);
  const account::Charge line = account::deposit_charges(terms, *ask).lines.front();
  return account::deposit_with_tax(account::net_of(line), static_cast<int>(account::whole_of_it), line.tax);
}

}  // namespace

Quoted quote(const QuoteRequest& request) {
  account::Terms terms = account::terms_of(request.rates, request.job.price);
  if (request.distance) terms.distance = request.distance;
  base::Faults faults = account::faults_of(terms);
  if (!faults.empty()) throw base::InputError("the terms", std::move(faults));
  const works::Bill bill = works::bill_of(request.job);
  account::Offer offer = account::offer_of(terms, request.job, works::derive_tasks(request.job), bill);
  account::ForHimself mine = account::for_himself(terms, offer);
  Quoted out{std::move(offer), mine, {}, {}};
  if (out.offer.charges.lines.empty()) return out;
  const account::Invoice sums = account::make_invoice(
      out.offer.charges, request.job.title, request.seller, request.buyer, {},
      {request.today, request.today + std::chrono::days(terms.rates.quote_days), {}, {}});
  out.deposit = deposit_of(request, terms, sums);
  std::vector<std::string> not_included = terms.rates.not_included;
  not_included.insert(not_included.end(), request.not_included.begin(), request.not_included.end());
  const works::Expansion expansion = works::expand(request.job);
  out.sheet = render::quote_sheet_of(
      {request.job, expansion, bill, terms, out.offer, sums, not_included, out.deposit});
  return out;
}

OpenJob agree(Shelf& shelf, const OpenJob& open, const Quoted& quoted, const files::ZoneSource& zones,
              base::Instant now) {
  const auto refuse = [&](const std::string& code, const std::string& found, const std::string& allowed,
                          const std::string& remedy) {
    throw base::InputError(open.source, {{code, "price", found, allowed, remedy}});
  };
  if (quoted.offer.fixed) {
    refuse("agreed-already", "a price that stands in the job", "a price that was reckoned",
           "It is billed as it stands.");
  }
  if (quoted.offer.by_the_hour) {
    refuse("by-the-hour", "a job that is billed by the hours of its book", "one that is not",
           "Its hours are billed as they are logged; there is no price to keep.");
  }
  if (!quoted.sheet || !quoted.offer.charges.questions.empty()) {
    refuse("open-question",
           quoted.offer.charges.questions.empty() ? "no price" : quoted.offer.charges.questions.front().text,
           "a price of everything", "Answer what is open first.");
  }
  const account::Invoice& sums = quoted.sheet->sums;
  if (sums.taxes.size() > 1) {
    refuse("several-taxes", fmt::format("{} taxes", sums.taxes.size()), "one tax on all of it",
           "Write the price into the job as stages, each with its tax.");
  }
  std::optional<OpenJob> kept;
  // One transaction from the look at the version to the new one: what was offered is what is agreed.
  shelf.store().in_one([&] {
    const OpenJob fresh = shelf.open(open.source, zones);
    if (fresh.kept->version != open.kept.value().version) {
      refuse("job-changed", "a job that was changed meanwhile", "the job as it was offered",
             "Look at the offer again.");
    }
    // As its document has it: the opened one holds what the book and his pace add.
    works::Job job = read_open_job(fresh.document, fresh.source, zones).job;
    if (!job.price) job.price.emplace();
    job.price->fixed = account::lines_net(sums);
    job.price->materials_on_top = false;
    job.price->travel_on_top = false;
    kept = shelf.replace(open.source, files::write_job(job), zones, now);
  });
  return std::move(kept).value();
}

void keep_for_quotes(Shelf& shelf, const QuoteRequest& request, const files::ZoneSource& zones,
                     base::Instant now) {
  files::MeDocument document = needed_me(shelf, zones).document;
  account::Rates rates = request.rates;
  for (const std::string& words : request.not_included) {
    auto& known = rates.not_included;
    if (std::find(known.begin(), known.end(), words) == known.end()) known.push_back(words);
  }
  if (request.deposit && request.deposit->percent > 0) rates.usual_deposit = request.deposit->percent;
  document.rates = std::move(rates);
  keep_me(shelf, document, zones, now);
}

}  // namespace weatherstruck::desk
