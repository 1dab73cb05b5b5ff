#include "pack_file.h"

#include <fmt/format.h>

#include "job_rows.h"
#include "weatherstruck/base/digest.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

constexpr std::chrono::milliseconds alone{0};  // nobody else can have a database in memory

constexpr std::string_view label_table =
    "CREATE TABLE packed (job TEXT NOT NULL, place TEXT NOT NULL, program TEXT NOT NULL, made_at INTEGER NOT "
    "NULL, content TEXT NOT NULL, seal TEXT NOT NULL) STRICT";

// Files of photographs, in the order of their names. They are no table of the record, where they lie beside
// it.
constexpr std::string_view photograph_table =
    "CREATE TABLE photograph_bytes (content TEXT NOT NULL PRIMARY KEY, bytes BLOB NOT NULL) STRICT";

std::int64_t newest(std::span<const Migration> steps) {
  return steps.empty() ? 0 : steps.back().number;
}

std::string schema_of(Connection& connection) {
  std::string all;
  Statement rows =
      connection.prepare("SELECT type, name, coalesce(sql, '') FROM sqlite_schema ORDER BY name");
  while (rows.step())
    all += fmt::format("{}\n{}\n{}\n", rows.text(0), rows.text(1), rows.text(2));
  return all;
}

// Over the label and the content, so that neither can change unseen.
std::string seal_of(const PackedLabel& label) {
  const base::Sha256 hash =
      base::sha256(fmt::format("{}\n{}\n{}\n{}\n{}", label.job, label.place, label.program,
                               label.made_at.time_since_epoch().count(), label.content));
  return hexadecimal(std::string(hash.begin(), hash.end()));
}

constexpr std::string_view take_another =
    "Nothing was changed. Take another copy of the file, or pack the job away again.";

[[noreturn]] void damaged(const std::filesystem::path& source, std::string_view how) {
  throw RecordError(Kind::corrupt, source, fmt::format("the packed job is damaged ({})", how),
                    std::string(take_another));
}

bool has_table(Connection& connection, std::string_view name) {
  Statement found = connection.prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?");
  found.bind(1, name);
  return found.step();
}

// A file of before there were photographs has no room for them.
void make_room_for_photographs(Connection& connection) {
  if (has_table(connection, "photograph") && !has_table(connection, "photograph_bytes"))
    connection.run(std::string(photograph_table));
}

void make_tables(Connection& connection, std::span<const Migration> steps, std::int64_t version) {
  std::size_t wanted = 0;
  while (wanted < steps.size() && steps[wanted].number <= version)
    ++wanted;
  connection.run(fmt::format("PRAGMA application_id = {}", packed_application_id));
  take_steps(connection, steps.first(wanted), 0);
  connection.run(std::string(label_table));
  make_room_for_photographs(connection);
}

void refuse_strange(Connection& connection, const std::filesystem::path& source,
                    std::span<const Migration> steps) {
  std::int64_t mark = 0;
  std::int64_t version = 0;
  try {
    mark = connection.number("PRAGMA application_id");
    version = connection.number("PRAGMA user_version");
  } catch (const RecordError& error) {
    throw RecordError(
        Kind::not_ours, source,
        fmt::format("it is no packed job, or its first bytes are destroyed ({})", error.found()),
        std::string(take_another));
  }
  if (mark == application_id) {
    throw RecordError(Kind::not_ours, source, "it is a whole record and no packed job",
                      "Name a file that \"weatherstruck pack\" wrote.");
  }
  if (mark != packed_application_id) {
    throw RecordError(Kind::not_ours, source, "it is no packed job",
                      "Name a file that \"weatherstruck pack\" wrote.");
  }
  if (version > newest(steps)) {
    throw RecordError(
        Kind::from_the_future, source,
        fmt::format(
            "it was packed by a newer version of the program (its schema is {}, this program knows {} "
            "and older)",
            version, newest(steps)),
        "Nothing was changed. Install that version or a newer one.");
  }
}

}  // namespace

PackFile::PackFile(std::span<const Migration> steps)
    : connection_(":memory:", Connection::Open::create, alone) {
  make_tables(connection_, steps, newest(steps));
}

PackFile::PackFile(std::string_view bytes, const std::filesystem::path& source,
                   std::span<const Migration> steps)
    : connection_(":memory:", Connection::Open::create, alone) {
  try {
    connection_.take_bytes(bytes);
    refuse_strange(connection_, source, steps);
    connection_.quick_check();
    const std::int64_t version = connection_.number("PRAGMA user_version");
    Connection fresh(":memory:", Connection::Open::create, alone);
    make_tables(fresh, steps, version);
    if (schema_of(connection_) != schema_of(fresh))
      damaged(source, "its tables are not those of its version");
    {
      Statement row = connection_.prepare("SELECT job, place, program, made_at, content, seal FROM packed");
      if (!row.step()) damaged(source, "its label is missing");
      label_ = {row.text(0), row.text(1), row.text(2), row.instant(3), row.text(4), {}};
      if (row.text(5) != seal_of(label_) || row.step()) damaged(source, "its label was changed");
    }
    if (content_of(connection_) != label_.content) damaged(source, "its rows are not those that were packed");
    take_steps(connection_, steps, version);
    make_room_for_photographs(connection_);
    check_photographs(source);
    count();
  } catch (const RecordError& error) {
    if (error.path() == source) throw;
    damaged(source, error.found());
  }
}

void PackFile::count() {
  const auto rows = [&](JobTable table) {
    return connection_.number(fmt::format("SELECT count(*) FROM {}", name_of(table)));
  };
  label_.rows = {rows(JobTable::job_version), rows(JobTable::entry), rows(JobTable::forecast),
                 rows(JobTable::plan),        rows(JobTable::sheet), rows(JobTable::invoice),
                 rows(JobTable::photograph)};
}

void PackFile::check_photographs(const std::filesystem::path& source) {
  Statement rows = connection_.prepare(
      "SELECT b.content, b.bytes, p.kind, p.size FROM photograph_bytes b LEFT JOIN photograph p ON p.content "
      "= b.content "
      "GROUP BY b.content");
  while (rows.step()) {
    const std::string bytes = rows.bytes(1);
    const std::optional<PhotographKind> kind = photograph_kind(bytes);
    if (rows.is_null(2) || !kind || rows.text(2) != word_of(*kind) ||
        rows.text(0) != content_of_bytes(bytes) ||
        rows.integer(3) != static_cast<std::int64_t>(bytes.size()) || bytes.size() > most_photograph_bytes)
      damaged(source,
              fmt::format("the photograph {} is not the one that was packed", rows.text(0).substr(0, 8)));
  }
}

void PackFile::put_photograph(const std::string& content, std::string_view bytes) {
  Statement put = connection_.prepare("INSERT INTO photograph_bytes (content, bytes) VALUES (?, ?)");
  put.bind(1, std::string_view(content));
  put.bind(2, Bytes{bytes});
  put.step();
}

std::optional<std::string> PackFile::photograph(const std::string& content) {
  Statement row = connection_.prepare("SELECT bytes FROM photograph_bytes WHERE content = ?");
  row.bind(1, std::string_view(content));
  if (!row.step()) return std::nullopt;
  return row.bytes(0);
}

std::string PackFile::seal(PackedLabel label) {
  label_ = std::move(label);
  label_.content = content_of(connection_);
  const std::string seal = seal_of(label_);
  {
    Statement put = connection_.prepare(
        "INSERT INTO packed (job, place, program, made_at, content, seal) VALUES (?, ?, ?, ?, ?, ?)");
    put.bind(1, std::string_view(label_.job));
    put.bind(2, std::string_view(label_.place));
    put.bind(3, std::string_view(label_.program));
    put.bind(4, label_.made_at);
    put.bind(5, std::string_view(label_.content));
    put.bind(6, std::string_view(seal));
    put.step();
  }
  count();
  return connection_.bytes();
}

PackedLabel check_packed(std::string_view bytes, const std::filesystem::path& source,
                         std::span<const Migration> steps) {
  return PackFile(bytes, source, steps).label();
}

}  // namespace weatherstruck::record
