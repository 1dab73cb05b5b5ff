#pragma once
// Bills of a job kept in the record. A command would
//   1. take the job with its book (Shelf::open), derive its tasks and fold the book into works::Progress;
//   2. make the terms, account::terms_of(rates, job.price), and add what was said with the command: hours for
//      day work and extras, fallbacks made use of, trips;
//   3. call draft_invoice, show render::invoice_text of the draft and render::open_matters_text of its
//      charges, and, once he has said yes, issue_invoice;
//   4. print render::invoice_text, invoice_html or files::write_invoice of what came back.
// An invoice once issued is looked up with show_invoice and never reckoned again.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/account/credit.h"
#include "weatherstruck/account/deposit.h"
#include "weatherstruck/account/invoice.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/record/store.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/me.h"
#include "weatherstruck/works/progress.h"

namespace weatherstruck::desk {

/// What a bill is made from. References must outlive the call.
struct BillRequest {
  const works::Job& job;
  const works::TaskList& tasks;  ///< derive_tasks(job)
  const works::Progress& progress;
  std::int64_t book_revision = 0;  ///< of the book that `progress` was folded from
  account::Terms terms;
  account::Seller seller;
  account::Buyer buyer;     ///< buyer_of(job) unless he says otherwise
  std::string series;       ///< numbers are counted in each: the year, say; may be empty
  base::LocalDay today;     ///< date of the invoice
  bool leave_open = false;  ///< bill what is clear although questions are open; they wait for the next one
  /// A deposit before the work, and nothing else; nullopt: the work.
  std::optional<account::DepositAsk> deposit{};
};

[[nodiscard]] account::Buyer buyer_of(const works::Job& job);
[[nodiscard]] account::Seller seller_of(const works::Me& me);

struct Draft {
  account::Charges charges;                 ///< with questions and what is kept off
  std::optional<account::Invoice> invoice;  ///< without a number; nullopt where there is nothing to bill
};
/// What would be billed now. Writes nothing.
/// @throws base::InputError for faults in terms or parties, and as account::deposit_charges
/// @throws record::RecordError
[[nodiscard]] Draft draft_invoice(record::Store& store, record::JobId job, const BillRequest& request);

struct Issued {
  account::Invoice invoice;
  account::Charges charges;  ///< empty lines where it was there already
  bool repeated = false;     ///< the key was there: this is the invoice of then
};
/// Reckons and issues in one transaction: the number follows on the last of its series without a gap, lines
/// billed before are left off, and the bytes kept are files::write_invoice.
/// @param key 1 to 200 characters, one for each time he says yes: sent twice it is issued once
/// @throws base::InputError for faults in terms or parties, "nothing-to-bill", "open-question" (unless
/// `leave_open`); no number is used then
/// @throws record::RecordError
Issued issue_invoice(record::Store& store, record::JobId job, const std::string& key,
                     const BillRequest& request, base::Instant now);

/// What a credit note is made from. References must outlive the call.
struct CreditRequest {
  std::string series;  ///< of the invoice
  std::int64_t number = 0;
  std::vector<account::CreditLine> lines;  ///< empty: everything that is left
  std::string reason;
  std::string own_series;  ///< of the note: its numbers are counted with the invoices of that series
  base::LocalDay today;
  bool for_good = false;  ///< what is given back is not billed again
};
/// What would be credited now, without a number. Writes nothing.
/// @throws base::InputError as account::credit_note_of, "no-such-invoice", "of-another-job",
/// "set-off-already" (a deposit that an invoice for the work has taken off: that one is taken back first)
[[nodiscard]] account::Invoice draft_credit(record::Store& store, record::JobId job,
                                            const CreditRequest& request);
/// Makes and issues it in one transaction. Unless it is for good, what it takes back comes up at the next
/// invoice again.
/// @param key as for issue_invoice; sent twice it is issued once, and `charges` is empty either way
Issued issue_credit(record::Store& store, record::JobId job, const std::string& key,
                    const CreditRequest& request, base::Instant now);

/// As issued. @throws base::InputError "no-such-invoice"; and where the bytes kept do not read back
[[nodiscard]] account::Invoice show_invoice(record::Store& store, const std::string& series,
                                            std::int64_t number);
/// All of one job, credit notes too, in the order they were issued.
[[nodiscard]] std::vector<account::Invoice> invoices_of(record::Store& store, record::JobId job);

}  // namespace weatherstruck::desk
