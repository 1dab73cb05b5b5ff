#include "weatherstruck/record/migrate.h"

#include <fmt/format.h>

#include <chrono>
#include <string>

#include "weatherstruck/record/record_error.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

std::int64_t newest(std::span<const Migration> steps) {
  return steps.empty() ? 0 : steps.back().number;
}

std::filesystem::path free_name(const std::filesystem::path& file, std::int64_t version) {
  std::filesystem::path name = file.string() + fmt::format(".version-{}", version);
  for (int next = 2; std::filesystem::exists(name); ++next) {
    name = file.string() + fmt::format(".version-{}-{}", version, next);
  }
  return name;
}

void take(Connection& connection, const Migration& step) {
  try {
    connection.run(std::string(step.sql));
    connection.run(fmt::format("PRAGMA user_version = {}", step.number));
  } catch (const RecordError& error) {
    throw RecordError(
        error.kind(), error.path(),
        fmt::format("step {} to this version, {}, failed: {}", step.number, step.name, error.found()),
        error.remedy());
  }
  if (!connection.in_transaction()) {
    throw RecordError(Kind::other, connection.path(),
                      fmt::format("step {}, {}, ended the transaction it stands in", step.number, step.name));
  }
}

// Rebuilding a table needs foreign keys off, which can be said only outside a transaction.
class ForeignKeysOff {
 public:
  explicit ForeignKeysOff(Connection& connection) : connection_(connection) {
    connection_.run("PRAGMA foreign_keys = OFF");
  }
  ForeignKeysOff(const ForeignKeysOff&) = delete;
  ForeignKeysOff& operator=(const ForeignKeysOff&) = delete;
  ~ForeignKeysOff() {
    try {
      connection_.run("PRAGMA foreign_keys = ON");
    } catch (const std::exception&) {
      // The connection is of no more use to anybody; whoever opened it is told by the exception under way.
    }
  }

 private:
  Connection& connection_;
};

}  // namespace

void take_steps(Connection& connection, std::span<const Migration> steps, std::int64_t version) {
  const ForeignKeysOff keys_off(connection);
  Transaction transaction(connection);
  for (const Migration& step : steps) {
    if (step.number > version) take(connection, step);
  }
  transaction.commit();
}

void refuse_strange_file(Connection& connection, std::span<const Migration> steps) {
  // All of one moment: another program may be making the file just now.
  connection.run("SAVEPOINT look");
  const std::int64_t mark = connection.number("PRAGMA application_id");
  const std::int64_t version = connection.number("PRAGMA user_version");
  const std::int64_t things = connection.number("SELECT count(*) FROM sqlite_schema");
  connection.run("RELEASE look");
  if (version == 0 && mark == 0 && things == 0) return;
  if (mark != application_id) {
    throw RecordError(Kind::not_ours, connection.path(), "it is a database of some other program");
  }
  if (version > newest(steps)) {
    throw RecordError(
        Kind::from_the_future, connection.path(),
        fmt::format("it was written by a newer version of the program (its schema is {}, this program "
                    "knows {} and older)",
                    version, newest(steps)));
  }
}

Migrated migrate(Connection& connection, std::span<const Migration> steps) {
  Migrated done;
  done.from = done.to = connection.number("PRAGMA user_version");
  if (done.from == newest(steps)) return done;

  const ForeignKeysOff keys_off(connection);
  Transaction transaction(connection);
  // Another program may have taken the steps while this one waited.
  refuse_strange_file(connection, steps);
  done.from = done.to = connection.number("PRAGMA user_version");
  if (done.from == newest(steps)) return done;
  if (done.from > 0) {
    // By a second connection: a transaction cannot copy, and this one keeps the others from writing.
    done.copy = free_name(connection.path(), done.from);
    Connection(connection.path(), Connection::Open::existing, std::chrono::seconds(5)).copy_to(*done.copy);
  } else {
    connection.run(fmt::format("PRAGMA application_id = {}", application_id));
  }
  for (const Migration& step : steps) {
    if (step.number > done.from) take(connection, step);
  }
  if (connection.prepare("PRAGMA foreign_key_check").step()) {
    throw RecordError(Kind::other, connection.path(),
                      "a step to this version left a row that refers to nothing");
  }
  transaction.commit();
  done.to = newest(steps);
  return done;
}

}  // namespace weatherstruck::record
