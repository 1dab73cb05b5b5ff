#include "weatherstruck/record/store.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "store_inside.h"
#include "weatherstruck/record/folder.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

// Tables whose bytes would take long to read through at every start.
constexpr std::array<std::string_view, 5> big_tables{"forecast", "plan", "sheet", "past", "reckoned"};

// The path itself, once there is a file of ours that can be opened.
const std::filesystem::path& made_ready(const std::filesystem::path& path) {
  const std::filesystem::path folder =
      path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
  make_private_folder(folder);
  if (lies_on_network(folder)) {
    throw RecordError(Kind::other, path,
                      "it would lie on a disk of another machine, where two programs cannot share it",
                      "Name a folder on a disk of this machine in XDG_DATA_HOME.");
  }
  make_private_file(path);
  return path;
}

Document document_from(const Statement& row, int column) {
  return {row.integer(column), row.text(column + 1), row.integer(column + 2), row.instant(column + 3)};
}

}  // namespace

Store::Inside::Inside(const std::filesystem::path& path, const OpenOptions& options)
    : file(made_ready(path)),
      connection(path, Connection::Open::existing, options.busy_timeout),
      steps(options.migrations),
      version(options.migrations.empty() ? 0 : options.migrations.back().number) {
  opening.tail = file.tail();
  refuse_strange_file(connection, options.migrations);
  if (connection.read_only()) {
    opening.migrated.from = opening.migrated.to = connection.number("PRAGMA user_version");
    if (opening.migrated.to != version) {
      throw RecordError(Kind::read_only, path,
                        "it must be brought to this version first, and may not be written");
    }
  } else {
    connection.use_write_ahead_log();
    if (options.most_pages) connection.run(fmt::format("PRAGMA max_page_count = {}", *options.most_pages));
    opening.migrated = migrate(connection, options.migrations);
    opening.created = opening.migrated.from == 0 && opening.migrated.to > 0;
  }
  if (options.check == OpenOptions::Check::whole || opening.tail.left_open) {
    connection.quick_check();
  } else if (options.check == OpenOptions::Check::if_left_open) {
    check_daily_tables();
  }
  changes_at_first = connection.changes();
}

void Store::Inside::check_daily_tables() {
  std::vector<std::string> names;
  Statement tables = ask("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (tables.step())
    names.push_back(tables.text(0));
  for (const std::string& name : names) {
    if (std::find(big_tables.begin(), big_tables.end(), name) == big_tables.end())
      connection.quick_check(name);
  }
}

void Store::Inside::refuse_other_version() {
  const std::int64_t now = connection.number("PRAGMA user_version");
  if (now == version) return;
  if (now > version) {
    throw RecordError(
        Kind::from_the_future, connection.path(),
        fmt::format("a newer version of the program has taken it over meanwhile (its schema is now {}, this "
                    "program knows {})",
                    now, version),
        "Nothing was kept. Close this program and start the newer one.");
  }
  throw RecordError(Kind::other, connection.path(),
                    fmt::format("its schema went back from {} to {} while it was open", version, now),
                    "Nothing was kept. Close every program that uses the file and start again.");
}

void Store::Inside::refuse(std::string found) const {
  throw RecordError(Kind::conflict, connection.path(), std::move(found));
}

Store::Store(const std::filesystem::path& path, const OpenOptions& options)
    : inside_(std::make_unique<Inside>(path, options)) {
  if (inside_->opening.tail.lost == 0) return;
  Statement last = inside_->ask("SELECT job, revision FROM entry ORDER BY id DESC LIMIT 1");
  if (!last.step()) return;
  std::vector<Entry> found = entries(JobId{last.integer(0)}, last.integer(1) - 1);
  if (!found.empty()) inside_->opening.last_entry = std::move(found.front());
}

Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

const Opening& Store::opening() const {
  return inside_->opening;
}

const std::filesystem::path& Store::path() const {
  return inside_->connection.path();
}

bool Store::wrote() const {
  return inside_->connection.changes() > inside_->changes_at_first;
}

bool Store::issued() const {
  return wrote() && inside_->issued;
}

void Store::check_whole() {
  inside_->connection.quick_check();
}

void Store::copy_to(const std::filesystem::path& target) {
  inside_->connection.copy_to(target);
}

void Store::in_one(const std::function<void()>& work) {
  inside_->write([&] {
    work();
    return true;
  });
}

std::int64_t Store::put_person(const std::string& document, std::int64_t schema_version,
                               base::Instant made_at) {
  return inside_->write([&] {
    const std::int64_t version =
        inside_->connection.number("SELECT coalesce(max(version), 0) + 1 FROM person");
    inside_
        ->ask("INSERT INTO person (version, document, schema_version, made_at) VALUES (?, ?, ?, ?)", version,
              std::string_view(document), schema_version, made_at)
        .step();
    return version;
  });
}

std::optional<Document> Store::person() {
  Statement row = inside_->ask(
      "SELECT version, document, schema_version, made_at FROM person ORDER BY version DESC LIMIT 1");
  if (!row.step()) return std::nullopt;
  return document_from(row, 0);
}

JobId Store::add_job(const std::string& name, const std::string& document, std::int64_t schema_version,
                     base::Instant made_at) {
  return inside_->write([&] {
    if (inside_->ask("SELECT 1 FROM job WHERE name = ?", std::string_view(name)).step()) {
      inside_->refuse(fmt::format("there is a job \"{}\" already", name));
    }
    inside_->ask("INSERT INTO job (name, made_at) VALUES (?, ?)", std::string_view(name), made_at).step();
    const JobId job{inside_->connection.last_id()};
    replace_job(job, document, schema_version, made_at);
    return job;
  });
}

std::int64_t Store::replace_job(JobId job, const std::string& document, std::int64_t schema_version,
                                base::Instant made_at) {
  return inside_->write([&] {
    Statement next =
        inside_->ask("SELECT coalesce(max(version), 0) + 1 FROM job_version WHERE job = ?", number_of(job));
    next.step();
    const std::int64_t version = next.integer(0);
    inside_
        ->ask(
            "INSERT INTO job_version (job, version, document, schema_version, made_at) VALUES (?, ?, ?, ?, "
            "?)",
            number_of(job), version, std::string_view(document), schema_version, made_at)
        .step();
    return version;
  });
}

std::vector<std::string> Store::job_names() {
  std::vector<std::string> names;
  Statement rows = inside_->ask("SELECT name FROM job ORDER BY id");
  while (rows.step())
    names.push_back(rows.text(0));
  return names;
}

std::vector<JobMark> Store::job_marks() {
  std::vector<JobMark> marks;
  Statement rows = inside_->ask(
      "SELECT id, name, (SELECT max(version) FROM job_version v WHERE v.job = job.id), "
      "(SELECT coalesce(max(revision), 0) FROM entry e WHERE e.job = job.id) FROM job ORDER BY id");
  while (rows.step())
    marks.push_back({JobId{rows.integer(0)}, rows.text(1), rows.integer(2), rows.integer(3)});
  return marks;
}

std::optional<Job> Store::job(std::string_view name) {
  Statement row = inside_->ask(
      "SELECT job.id, job.name, v.version, v.document, v.schema_version, v.made_at FROM job "
      "JOIN job_version v ON v.job = job.id WHERE job.name = ? ORDER BY v.version DESC LIMIT 1",
      name);
  if (!row.step()) return std::nullopt;
  return Job{JobId{row.integer(0)}, row.text(1), document_from(row, 2)};
}

std::optional<Document> Store::job_version(JobId job, std::int64_t version) {
  Statement row = inside_->ask(
      "SELECT version, document, schema_version, made_at FROM job_version WHERE job = ? AND version = ?",
      number_of(job), version);
  if (!row.step()) return std::nullopt;
  return document_from(row, 0);
}

}  // namespace weatherstruck::record
