#pragma once
// The record: one file that holds jobs, the site book, forecasts, plans, sheets and invoices. Facts are added
// and never changed. This floor knows SQL and no meaning.
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/record/migrate.h"
#include "weatherstruck/record/packed.h"
#include "weatherstruck/record/photographs.h"
#include "weatherstruck/record/record_error.h"
#include "weatherstruck/record/rows.h"
#include "weatherstruck/record/wal_tail.h"

namespace weatherstruck::record {

struct OpenOptions {
  /// A file that the last program did not close is always read through. Else `if_left_open` reads every table
  /// but those of the big bytes (forecasts, plans, sheets), and `copied` none: a copy was read through today.
  enum class Check { if_left_open, whole, copied };
  Check check = Check::if_left_open;
  std::chrono::milliseconds busy_timeout{5000};
  std::optional<std::int64_t> most_pages;  ///< cap on the file, in pages of 4096 bytes
  std::span<const Migration> migrations = embedded_migrations();
};

/// What opening found and did, for the caller to tell.
struct Opening {
  bool created = false;
  Migrated migrated;  ///< from == to: nothing was to be done
  WalTail tail;
  std::optional<Entry> last_entry;  ///< the newest entry kept, looked up when tail.lost > 0
};

/// One open file, for one thread at a time; other threads and programs open their own and may do so at once.
/// Every function throws RecordError, and of one that throws nothing is kept.
class Store {
 public:
  /// Makes the folder (0700) and the file (0600) where they are missing, brings the file up to this version
  /// and checks it. A file that may not be written can be read, if it is of this version.
  explicit Store(const std::filesystem::path& path, const OpenOptions& options = {});
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  [[nodiscard]] const Opening& opening() const;
  [[nodiscard]] const std::filesystem::path& path() const;
  /// Whether this one has kept anything since it was opened, and whether an invoice.
  [[nodiscard]] bool wrote() const;
  [[nodiscard]] bool issued() const;
  /// Reads the whole file through. @throws RecordError corrupt
  void check_whole();
  /// A copy of the whole record as of now, made while others may go on. `target` must not exist.
  void copy_to(const std::filesystem::path& target);
  // A job packed away. It stays in the record as well; where it is gone on with is for the person to say.
  /// @param place key of the job's site: its forecasts come along
  /// @param lost what to do where the file of a photograph is missing or was changed
  /// @throws RecordError conflict where there is no such job; corrupt where photographs are lost, with the
  /// line of each
  [[nodiscard]] PackedJob pack(JobId job, std::string_view place, std::string_view program,
                               base::Instant made_at, LostOnes lost = LostOnes::refuse);
  /// Brings a packed job in: as a new one, or, where the job is here as it was when it was packed or before,
  /// what it has more. In one transaction, at the end of which every row is compared with the packed one. An
  /// invoice that comes with it closes its series here (series_closed_by). Weather of the place is added to
  /// what is here; who he is stays as it is here, unless nobody is.
  /// @param source of the bytes, for messages
  /// @throws RecordError what check_packed throws; conflict where the job here has gone on, another has its
  /// name, or another has an invoice of a number that comes with it
  Unpacked unpack(std::string_view bytes, const std::filesystem::path& source, base::Instant now);
  /// The job that came with a number of this series counted in another record, so that none is given here: no
  /// number is ever given by two records.
  [[nodiscard]] std::optional<std::string> series_closed_by(std::string_view series);

  /// Several writes as one: all are kept or none, none too where `work` caught what one of them threw. May be
  /// nested.
  void in_one(const std::function<void()>& work);

  // Who he is.
  /// @return the version it became
  std::int64_t put_person(const std::string& document, std::int64_t schema_version, base::Instant made_at);
  [[nodiscard]] std::optional<Document> person();

  // Jobs, in the order they were added.
  /// @throws RecordError conflict where the name is taken
  JobId add_job(const std::string& name, const std::string& document, std::int64_t schema_version,
                base::Instant made_at);
  /// @return the version it became
  std::int64_t replace_job(JobId job, const std::string& document, std::int64_t schema_version,
                           base::Instant made_at);
  [[nodiscard]] std::vector<std::string> job_names();
  [[nodiscard]] std::vector<JobMark> job_marks();
  [[nodiscard]] std::optional<Job> job(std::string_view name);
  [[nodiscard]] std::optional<Document> job_version(JobId job, std::int64_t version);

  // The site book.
  /// Adds an entry unless its key is there. @throws RecordError conflict where the key is there with another
  /// kind, time, zone, body or correction (noted_at may differ), or `corrects` is no entry of this job
  Appended append(JobId job, const NewEntry& entry);
  /// Those after `after_revision`, in the order they were noted.
  [[nodiscard]] std::vector<Entry> entries(JobId job, std::int64_t after_revision = 0);
  /// The number of the newest entry, 0 for an empty book.
  [[nodiscard]] std::int64_t book_revision(JobId job);

  // Photographs and scans, as files beside the record.
  /// Says that they go with an entry, once their file is whole on the disk. A file that is there and is not
  /// what its name says is written anew. Where the transaction fails, a file that was made in it is taken
  /// away.
  /// @throws RecordError conflict where `bytes` are of no kind that is kept or too many, or there is no such
  /// entry
  KeptPhotograph keep_photograph(JobId job, EntryId entry, std::string_view bytes, base::Instant at);
  /// In the order kept.
  [[nodiscard]] std::vector<Photograph> photographs(JobId job);
  /// Those whose files are missing or are not what they were: reads every one through.
  [[nodiscard]] std::vector<LostPhotograph> lost_photographs(JobId job);

  // Forecasts.
  ForecastId put_forecast(const NewForecast& forecast);
  [[nodiscard]] std::optional<Forecast> latest_forecast(std::string_view place, std::string_view source);
  /// Every issue for a place from whatever source whose body came at or after `since`, in the order kept.
  [[nodiscard]] std::vector<Forecast> forecasts_since(std::string_view place, base::Instant since);
  [[nodiscard]] std::optional<ForecastTry> last_try(std::string_view place, std::string_view source);
  [[nodiscard]] std::optional<Forecast> forecast(ForecastId id);

  // Plans.
  PlanId put_plan(const NewPlan& plan);
  [[nodiscard]] std::optional<Plan> latest_plan(JobId job);
  /// The newest that was made before a moment.
  [[nodiscard]] std::optional<Plan> plan_before(JobId job, base::Instant moment);

  // Weather of past years, and what was reckoned from it.
  PastId put_past(const NewPast& past);
  /// In the order kept; `with_bytes` false leaves them out.
  [[nodiscard]] std::vector<Past> pasts(bool with_bytes);
  /// Keeps what was reckoned under a key that names all that it hangs on; where the key is there, nothing is
  /// done.
  void keep_reckoned(std::string_view key, const std::string& bytes, base::Instant made_at);
  [[nodiscard]] std::optional<std::string> reckoned(std::string_view key);
  /// All that is kept under keys that begin so, in the order of the keys.
  [[nodiscard]] std::vector<std::string> reckoned_under(std::string_view beginning);

  // Sheets handed out.
  SheetId put_sheet(const NewSheet& sheet);
  [[nodiscard]] std::optional<Sheet> latest_sheet(JobId job, std::string_view kind);

  // Invoices.
  /// Gives the next number of the series, has `write` make the bytes that bear it, and keeps both in one
  /// transaction; where `write` throws, the number is free again. A key that is there gives the invoice of
  /// then, and `write` is not called. @throws RecordError conflict for a closed series
  Invoice issue_invoice(const NewInvoice& invoice, const std::function<std::string(std::int64_t)>& write);
  [[nodiscard]] std::optional<Invoice> invoice(std::string_view series, std::int64_t number);
  /// Of one job, in the order they were issued.
  [[nodiscard]] std::vector<Invoice> invoices(JobId job);

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace weatherstruck::record
