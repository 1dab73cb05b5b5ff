#include "weatherstruck/desk/invoice_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>
#include <utility>

#include "weatherstruck/files/invoice_json.h"

namespace weatherstruck::desk {

namespace {

account::Invoice read_kept(const record::Invoice& kept) {
  const std::string name = account::number_text({kept.series, kept.number});
  return files::read_invoice(kept.bytes, "invoice " + name);
}

/// What an invoice or a credit note does to the deposits billed before it.
void note_deposits(const account::Invoice& invoice, std::vector<account::BilledDeposit>& deposits) {
  if (account::is_deposit_invoice(invoice)) {
    deposits.push_back(
        {invoice.number, invoice.dates.issued, invoice.lines.front().charge.tax, invoice.net, invoice.total});
    return;
  }
  const auto of = [&](const account::InvoiceNumber& number) {
    return std::find_if(deposits.begin(), deposits.end(),
                        [&](const account::BilledDeposit& one) { return one.number == number; });
  };
  if (invoice.credited) {
    // The deposit itself was taken back.
    if (const auto deposit = of(invoice.credited->number); deposit != deposits.end()) {
      deposit->left = deposit->left - invoice.net;
      deposit->billed = deposit->billed - invoice.total;
      return;
    }
  }
  std::size_t at = 0;
  for (const account::InvoiceLine& line : invoice.lines) {
    if (!account::takes_deposit_off(line.charge)) continue;
    const auto deposit = of(invoice.set_off.at(at++).number);
    if (deposit == deposits.end()) continue;  // of a job that was brought in without it
    // The line is below nought: an invoice uses the deposit, a credit note puts it back.
    deposit->left = invoice.credited ? deposit->left - line.net : deposit->left + line.net;
  }
}

account::BilledBefore billed_before(const std::vector<account::Invoice>& earlier,
                                    const base::Currency& currency) {
  account::BilledBefore before;
  for (const account::Invoice& invoice : earlier) {
    if (!(invoice.net.currency() == currency)) {
      const std::string name = account::number_text(invoice.number);
      throw base::InputError("the rates", {{"wrong-currency", "rates", currency.code(),
                                            fmt::format("{}, in which invoice {} of this job was issued",
                                                        invoice.net.currency().code(), name),
                                            "Bill a job in one currency."}});
    }
    // What a credit note takes back counts as not billed.
    const base::Money nought(0, currency);
    const auto signed_money = [&](const base::Money& money) {
      return invoice.credited ? nought - money : money;
    };
    using Paper = account::Billed::Paper;
    const Paper paper = !invoice.credited            ? Paper::invoice
                        : invoice.credited->for_good ? Paper::given_back
                                                     : Paper::taken_back;
    note_deposits(invoice, before.deposits);
    for (const account::InvoiceLine& line : invoice.lines) {
      if (line.charge.kind == account::ChargeKind::deposit) continue;
      before.lines.push_back({line.charge.key,
                              invoice.credited ? -line.charge.quantity : line.charge.quantity,
                              signed_money(line.net), account::number_text(invoice.number), paper});
    }
    before.deposit = before.deposit.value_or(nought) + signed_money(invoice.deposit);
    before.off = before.off.value_or(nought) + signed_money(account::taken_off(invoice));
  }
  return before;
}

/// First and last day on which the book knows of work; none for an empty book.
std::pair<std::optional<base::LocalDay>, std::optional<base::LocalDay>> days_of_work(
    const BillRequest& request) {
  std::pair<std::optional<base::LocalDay>, std::optional<base::LocalDay>> days;
  const auto take = [&](base::Instant at) {
    const base::LocalDay day = request.job.site.zone.day_of(at);
    days.first = days.first ? std::min(*days.first, day) : day;
    days.second = days.second ? std::max(*days.second, day) : day;
  };
  for (const works::TaskProgress& task : request.progress.tasks) {
    // Of what was only taken as done nobody wrote down the day.
    if (task.begun && !(task.taken && task.begun == task.finished)) take(*task.begun);
    if (task.finished && !task.taken) take(*task.finished);
    for (const works::Run& run : task.runs)
      take(run.to);
  }
  return days;
}

account::Charges charges_for(record::Store& store, record::JobId job, const BillRequest& request) {
  base::Faults faults = account::faults_of(request.terms);
  if (!faults.empty()) throw base::InputError("the terms", std::move(faults));
  const account::BilledBefore before = billed_before(invoices_of(store, job), request.terms.rates.currency);
  if (request.deposit) return account::deposit_charges(request.terms, *request.deposit, before);
  return account::charges_of(request.terms, request.job, request.tasks, request.progress, before);
}

account::Invoice invoice_from(const account::Charges& charges, const BillRequest& request,
                              std::optional<std::int64_t> number) {
  std::pair<std::optional<base::LocalDay>, std::optional<base::LocalDay>> days;
  if (!request.deposit) days = days_of_work(request);
  const auto& [from, to] = days;
  return account::make_invoice(
      charges, request.job.title, request.seller, request.buyer, {request.series, number},
      {request.today, request.today + std::chrono::days(request.terms.rates.payment_days), from, to});
}

void require_billable(const account::Charges& charges, const BillRequest& request) {
  base::Faults faults;
  if (!request.leave_open) {
    for (const account::Question& question : charges.questions) {
      faults.push_back({"open-question", question.about, question.text, "an answer",
                        "Answer it, or leave it open for the next invoice."});
    }
  }
  if (charges.lines.empty()) {
    faults.push_back(
        {"nothing-to-bill", "lines",
         charges.kept_off.empty() ? "no charge"
                                  : charges.kept_off.front().text + ": " + charges.kept_off.front().why,
         "at least one charge", "Agree a price, log extras or hours, or wait until a stage is done."});
  }
  if (!faults.empty()) throw base::InputError("the invoice", std::move(faults));
}

// A series in which a job that was brought in has a number is counted where it was begun, and not here.
void require_own_series(record::Store& store, const std::string& series) {
  const std::optional<std::string> job = store.series_closed_by(series);
  if (!job) return;
  throw base::InputError(
      "the invoice",
      {{"series-elsewhere", "series",
        fmt::format("\"{}\", which is numbered in another record: from there the job \"{}\" was brought in",
                    series, *job),
        "a series numbered here alone",
        fmt::format("Name one of this record's own, --series {}-b. What was issued is shown as before.",
                    series)}});
}

/// The one of that key, if it was issued already.
std::optional<Issued> issued_before(record::Store& store, record::JobId job, const std::string& key) {
  for (const record::Invoice& kept : store.invoices(job)) {
    if (kept.key != key) continue;
    account::Invoice invoice = read_kept(kept);
    const base::Currency currency = invoice.net.currency();
    return Issued{std::move(invoice), {currency, {}, base::Money(0, currency), {}, {}}, true};
  }
  return {};
}

// Kept for ever, so read back before it is: a text that no reader takes uses up no number.
std::string bytes_of(const account::Invoice& invoice) {
  std::string bytes = files::write_invoice(invoice);
  if (!(files::read_invoice(bytes, "the invoice") == invoice))
    throw std::logic_error("an invoice does not read back as it was written");
  return bytes;
}

// A deposit that an invoice has taken off cannot be given back as well.
void require_left(const account::Invoice& note, const std::vector<account::Invoice>& issued) {
  std::vector<account::BilledDeposit> deposits;
  std::string taker;
  const account::InvoiceNumber& wanted = note.credited->number;
  for (const account::Invoice& paper : issued) {
    note_deposits(paper, deposits);
    const bool takes = std::any_of(paper.set_off.begin(), paper.set_off.end(),
                                   [&](const account::SetOff& off) { return off.number == wanted; });
    if (takes && !paper.credited) taker = account::number_text(paper.number);
  }
  for (const account::BilledDeposit& deposit : deposits) {
    if (!(deposit.number == wanted) || note.net.minor() <= deposit.left.minor()) continue;
    throw base::InputError(
        "the credit note",
        {{"set-off-already", "number",
          fmt::format("{} before tax, of which {} are left: invoice {} has taken the deposit off",
                      note.net.text(), deposit.left.text(), taker),
          "no more than no invoice has taken off yet",
          fmt::format("Take invoice {} back first; then the deposit is there again.", taker)}});
  }
}

account::Invoice credit_from(record::Store& store, record::JobId job, const CreditRequest& request,
                             std::optional<std::int64_t> number) {
  const account::InvoiceNumber wanted{request.series, request.number};
  const account::Invoice invoice = show_invoice(store, request.series, request.number);
  std::vector<account::Invoice> earlier;
  bool of_this_job = false;
  std::vector<account::Invoice> before = invoices_of(store, job);
  for (const account::Invoice& other : before) {
    of_this_job = of_this_job || other.number == wanted;
    if (other.credited && other.credited->number == wanted) earlier.push_back(other);
  }
  if (!of_this_job) {
    throw base::InputError(
        "the record", {{"of-another-job", "number", account::number_text(wanted), "an invoice of this job",
                        "Name the job that it was issued for."}});
  }
  account::Invoice note = account::credit_note_of(
      invoice, earlier, request.lines, {request.own_series, number}, request.today, request.reason);
  require_left(note, before);
  note.credited->for_good = request.for_good;
  return note;
}

}  // namespace

account::Buyer buyer_of(const works::Job& job) {
  const works::Customer& who = job.customer;
  return {who.name,       who.address,      who.town,      who.postcode,      who.country,
          who.tax_number, who.registration, who.reference, who.purchase_order};
}

account::Seller seller_of(const works::Me& me) {
  return {me.name,     me.address, me.contact,      me.tax_number, me.pay_to, me.town,
          me.postcode, me.country, me.registration, me.iban,       me.bic};
}

Draft draft_invoice(record::Store& store, record::JobId job, const BillRequest& request) {
  require_own_series(store, request.series);
  Draft draft{charges_for(store, job, request), {}};
  if (!draft.charges.lines.empty()) draft.invoice = invoice_from(draft.charges, request, {});
  return draft;
}

Issued issue_invoice(record::Store& store, record::JobId job, const std::string& key,
                     const BillRequest& request, base::Instant now) {
  std::optional<Issued> issued;
  // One transaction from the look at earlier invoices to the number: two programs at once cannot bill a thing
  // twice.
  store.in_one([&] {
    issued = issued_before(store, job, key);
    if (issued) return;
    require_own_series(store, request.series);
    account::Charges charges = charges_for(store, job, request);
    require_billable(charges, request);
    const record::NewInvoice asked{request.series, job, key, request.book_revision, now};
    const record::Invoice kept = store.issue_invoice(
        asked, [&](std::int64_t number) { return bytes_of(invoice_from(charges, request, number)); });
    issued = Issued{read_kept(kept), std::move(charges), false};
  });
  return std::move(issued).value();
}

account::Invoice draft_credit(record::Store& store, record::JobId job, const CreditRequest& request) {
  require_own_series(store, request.own_series);
  return credit_from(store, job, request, {});
}

Issued issue_credit(record::Store& store, record::JobId job, const std::string& key,
                    const CreditRequest& request, base::Instant now) {
  std::optional<Issued> issued;
  store.in_one([&] {
    issued = issued_before(store, job, key);
    if (issued) return;
    require_own_series(store, request.own_series);
    const record::NewInvoice asked{request.own_series, job, key, store.book_revision(job), now};
    const record::Invoice kept = store.issue_invoice(
        asked, [&](std::int64_t number) { return bytes_of(credit_from(store, job, request, number)); });
    account::Invoice note = read_kept(kept);
    const base::Currency currency = note.net.currency();
    issued = Issued{std::move(note), {currency, {}, base::Money(0, currency), {}, {}}, false};
  });
  return std::move(issued).value();
}

account::Invoice show_invoice(record::Store& store, const std::string& series, std::int64_t number) {
  const std::optional<record::Invoice> kept = store.invoice(series, number);
  if (!kept) {
    throw base::InputError("the record",
                           {{"no-such-invoice", "number", account::number_text({series, number}),
                             "an invoice issued", "Look at the list of the job's invoices."}});
  }
  return read_kept(*kept);
}

std::vector<account::Invoice> invoices_of(record::Store& store, record::JobId job) {
  std::vector<account::Invoice> found;
  for (const record::Invoice& kept : store.invoices(job))
    found.push_back(read_kept(kept));
  return found;
}

}  // namespace weatherstruck::desk
