#pragma once
// What the record keeps, as plain values. Documents and bodies are text whose sense is known elsewhere. All
// moments are UTC to the second. Ids are whole numbers from 1, given by the record.
#include <cstdint>
#include <optional>
#include <string>

#include "weatherstruck/base/zone.h"

namespace weatherstruck::record {

/// Each id its own type, so that a plan's cannot be handed in for a job's.
enum class JobId : std::int64_t {};
enum class EntryId : std::int64_t {};
enum class ForecastId : std::int64_t {};
enum class PlanId : std::int64_t {};
enum class SheetId : std::int64_t {};

/// A document as it was handed in; `version` is counted from 1 by the record.
struct Document {
  std::int64_t version = 0;
  std::string text;                 ///< not empty
  std::int64_t schema_version = 1;  ///< of the text, from 1
  base::Instant made_at{};
};

/// A job with its newest document.
struct Job {
  JobId id{};
  std::string name;  ///< 1 to 120 characters, unlike every other
  Document document;
};

/// How far a job has come, without what it holds.
struct JobMark {
  JobId id{};
  std::string name;
  std::int64_t version = 0;        ///< of its newest document
  std::int64_t book_revision = 0;  ///< 0: the book is empty
};

/// An answer of a forecast service, to be kept. With `body` it is an issue, with `confirms` ("not modified")
/// it says that an earlier one still holds, with neither it is a refusal.
struct NewForecast {
  std::optional<JobId> job;
  std::string place;   ///< the caller's key of the place; not empty
  std::string source;  ///< the service, or "file"; not empty
  std::string url;
  int status = 0;  ///< of HTTP; 0 for a file
  std::optional<std::string> body;
  std::optional<ForecastId> confirms;
  std::optional<std::string> last_modified;  ///< as the server sent them, to be sent back
  std::optional<std::string> etag;
  std::optional<base::Instant> expires;
  base::Instant fetched_at{};
};

/// The newest issue of a place, with the newest word on it.
struct Forecast {
  ForecastId id{};  ///< of the issue, the row that holds the body
  std::string place;
  std::string source;
  std::string url;
  std::string body;
  std::optional<std::string> last_modified;  ///< of the newest answer that issued or confirmed it
  std::optional<std::string> etag;
  std::optional<base::Instant> expires;
  base::Instant fetched_at{};    ///< when the body came
  base::Instant confirmed_at{};  ///< when the server last said that it holds
};

/// The newest answer of whatever sort: when the service may be asked again.
struct ForecastTry {
  std::string url;
  int status = 0;
  std::optional<base::Instant> expires;
  base::Instant fetched_at{};
};

/// A line of the site book, to be added.
struct NewEntry {
  std::string key;  ///< the sender's mark, unique in the job, 1 to 200 characters: sent twice is kept once
  std::string kind;
  base::Instant at{};               ///< when it happened
  std::string zone;                 ///< the zone in which that was said, "Europe/London"
  base::Instant noted_at{};         ///< when it was handed in
  std::string body;                 ///< JSON
  std::optional<EntryId> corrects;  ///< an earlier entry of the same job
};

struct Entry : NewEntry {
  EntryId id{};
  std::int64_t revision = 0;  ///< its place in the job's book, from 1 without a gap
};

struct Appended {
  Entry entry;
  bool added = false;  ///< false: it was there already, from an earlier sending
};

struct NewPlan {
  JobId job{};
  std::int64_t job_version = 0;                ///< of the document it was made from
  std::optional<std::int64_t> person_version;  ///< none: made without knowing who he is
  std::int64_t book_revision = 0;              ///< 0: the book was empty
  ForecastId forecast{};
  std::string program;  ///< version of the program
  std::string zones;    ///< version of the time zone database
  base::Instant made_at{};
  std::string bytes;
};

/// What has moved since a plan was made; looked up when asked for, never kept.
struct Staleness {
  bool book = false;      ///< entries were added
  bool forecast = false;  ///< a newer issue for the same place is there
  bool job = false;       ///< the job's document was replaced
  bool person = false;    ///< what is known of him was replaced
  [[nodiscard]] bool any() const { return book || forecast || job || person; }
};

struct Plan : NewPlan {
  PlanId id{};
  Staleness stale;
};

struct NewSheet {
  JobId job{};
  std::optional<PlanId> plan;
  std::string kind;
  base::Instant made_at{};
  std::string bytes;
};

struct Sheet : NewSheet {
  SheetId id{};
};

struct NewInvoice {
  std::string series;  ///< numbers are counted in each; may be empty
  JobId job{};
  std::string key;  ///< as in NewEntry: asked for twice is issued once
  std::int64_t book_revision = 0;
  base::Instant issued_at{};
};

struct Invoice : NewInvoice {
  std::int64_t number = 0;  ///< from 1 without a gap
  std::string bytes;        ///< as issued, for ever
};

enum class PastId : std::int64_t {};
/// Hourly weather of past years for a region, as one file brought it.
struct NewPast {
  std::string region;         ///< the caller's name of it; 1 to 120 characters
  std::int64_t latitude = 0;  ///< millionths of a degree
  std::int64_t longitude = 0;
  std::string attribution;  ///< what the licence asks to print; may be empty
  base::Instant from{};     ///< of the hours in `bytes`; half open
  base::Instant to{};
  std::string bytes;
  base::Instant made_at{};
};
struct Past {
  PastId id{};
  NewPast past;
};

}  // namespace weatherstruck::record
