// The site book, and the invoices drawn from it.
#include <fmt/format.h>

#include "store_inside.h"

namespace weatherstruck::record {
namespace {

// The columns of an entry, always in this order.
const std::string entry_rows =
    "SELECT id, revision, key, kind, at, zone, noted_at, body, corrects FROM entry ";

Entry entry_from(const Statement& row) {
  Entry entry;
  entry.id = EntryId{row.integer(0)};
  entry.revision = row.integer(1);
  entry.key = row.text(2);
  entry.kind = row.text(3);
  entry.at = row.instant(4);
  entry.zone = row.text(5);
  entry.noted_at = row.instant(6);
  entry.body = row.text(7);
  entry.corrects = id_of<EntryId>(row.optional_integer(8));
  return entry;
}

bool says_the_same(const NewEntry& one, const NewEntry& other) {
  return one.kind == other.kind && one.at == other.at && one.zone == other.zone && one.body == other.body &&
         one.corrects == other.corrects;
}

const std::string invoice_rows =
    "SELECT series, number, job, key, book_revision, issued_at, bytes FROM invoice ";

Invoice invoice_from(const Statement& row) {
  Invoice invoice;
  invoice.series = row.text(0);
  invoice.number = row.integer(1);
  invoice.job = JobId{row.integer(2)};
  invoice.key = row.text(3);
  invoice.book_revision = row.integer(4);
  invoice.issued_at = row.instant(5);
  invoice.bytes = row.bytes(6);
  return invoice;
}

}  // namespace

Appended Store::append(JobId job, const NewEntry& entry) {
  return inside_->write([&] {
    Statement earlier =
        inside_->ask(entry_rows + "WHERE job = ? AND key = ?", number_of(job), std::string_view(entry.key));
    if (earlier.step()) {
      Appended there{entry_from(earlier), false};
      if (!says_the_same(there.entry, entry)) {
        inside_->refuse(fmt::format("the key \"{}\" stands for another entry already", entry.key));
      }
      return there;
    }
    if (entry.corrects &&
        !inside_
             ->ask("SELECT 1 FROM entry WHERE job = ? AND id = ?", number_of(job), number_of(*entry.corrects))
             .step()) {
      inside_->refuse("the entry to be corrected is not in the book of this job");
    }
    // Here and not in the schema, where SQLite 3.40 does not trust its own function.
    Statement json = inside_->ask("SELECT json_valid(?)", std::string_view(entry.body));
    json.step();
    if (json.integer(0) == 0) inside_->refuse("the body of the entry is not JSON");
    Appended added{{}, true};
    static_cast<NewEntry&>(added.entry) = entry;
    added.entry.revision = book_revision(job) + 1;
    inside_
        ->ask(
            "INSERT INTO entry (job, revision, key, kind, at, zone, noted_at, body, corrects) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            number_of(job), added.entry.revision, std::string_view(entry.key), std::string_view(entry.kind),
            entry.at, std::string_view(entry.zone), entry.noted_at, std::string_view(entry.body),
            number_of(entry.corrects))
        .step();
    added.entry.id = EntryId{inside_->connection.last_id()};
    return added;
  });
}

std::vector<Entry> Store::entries(JobId job, std::int64_t after_revision) {
  std::vector<Entry> found;
  Statement rows = inside_->ask(entry_rows + "WHERE job = ? AND revision > ? ORDER BY revision",
                                number_of(job), after_revision);
  while (rows.step())
    found.push_back(entry_from(rows));
  return found;
}

std::int64_t Store::book_revision(JobId job) {
  Statement row = inside_->ask("SELECT coalesce(max(revision), 0) FROM entry WHERE job = ?", number_of(job));
  row.step();
  return row.integer(0);
}

Invoice Store::issue_invoice(const NewInvoice& invoice,
                             const std::function<std::string(std::int64_t)>& write) {
  return inside_->write([&] {
    Statement earlier = inside_->ask(invoice_rows + "WHERE job = ? AND key = ?", number_of(invoice.job),
                                     std::string_view(invoice.key));
    if (earlier.step()) return invoice_from(earlier);
    if (const auto brought_by = series_closed_by(invoice.series)) {
      inside_->refuse(fmt::format(
          "invoices of series \"{}\" are numbered in another record, from which the job \"{}\" was "
          "brought in",
          invoice.series, *brought_by));
    }
    Statement next = inside_->ask("SELECT coalesce(max(number), 0) + 1 FROM invoice WHERE series = ?",
                                  std::string_view(invoice.series));
    next.step();
    Invoice issued;
    static_cast<NewInvoice&>(issued) = invoice;
    issued.number = next.integer(0);
    issued.bytes = write(issued.number);
    inside_
        ->ask(
            "INSERT INTO invoice (series, number, job, key, book_revision, issued_at, bytes) "
            "VALUES (?, ?, ?, ?, ?, ?, ?)",
            std::string_view(issued.series), issued.number, number_of(issued.job),
            std::string_view(issued.key), issued.book_revision, issued.issued_at, Bytes{issued.bytes})
        .step();
    inside_->issued = true;
    return issued;
  });
}

std::optional<Invoice> Store::invoice(std::string_view series, std::int64_t number) {
  Statement row = inside_->ask(invoice_rows + "WHERE series = ? AND number = ?", series, number);
  if (!row.step()) return std::nullopt;
  return invoice_from(row);
}

std::vector<Invoice> Store::invoices(JobId job) {
  std::vector<Invoice> found;
  Statement rows = inside_->ask(invoice_rows + "WHERE job = ? ORDER BY id", number_of(job));
  while (rows.step())
    found.push_back(invoice_from(rows));
  return found;
}

}  // namespace weatherstruck::record
