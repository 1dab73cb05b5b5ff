#include "weatherstruck/record/sqlite.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <cstring>
#include <new>
#include <utility>

#include "weatherstruck/record/folder.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

// How often a file that another program is just making is asked again.
constexpr int pause_ms = 10;

std::string plain_words(Kind kind, std::chrono::milliseconds waited) {
  switch (kind) {
    case Kind::busy:
      return fmt::format("another program was writing to it for more than {} s",
                         static_cast<double>(waited.count()) / 1000.0);
    case Kind::locked:
      return "this program still reads what it wants to write";
    case Kind::full:
      return "there is no room on the disk";
    case Kind::read_only:
      return "it may not be written";
    case Kind::corrupt:
      return "the file is damaged";
    case Kind::not_ours:
      return "it is no record, or its first bytes are destroyed";
    case Kind::conflict:
      return "it does not go with what is there";
    case Kind::io:
      return "the disk refused to read or write, or the file cannot be opened";
    case Kind::from_the_future:
    case Kind::other:
      break;
  }
  return "SQLite refused it";
}

// `reason` is errno of the system call that failed last, if one did.
Kind kind_of(int code, int reason, const std::filesystem::path& path) {
  const int primary = code & 0xFF;
  const bool from_system = primary == SQLITE_IOERR || primary == SQLITE_CANTOPEN;
  if (from_system && (reason == ENOSPC || reason == EDQUOT || reason == EFBIG)) return Kind::full;
  switch (primary) {
    case SQLITE_BUSY:
      return Kind::busy;
    case SQLITE_LOCKED:
      return Kind::locked;
    case SQLITE_FULL:
      return Kind::full;
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return Kind::read_only;
    case SQLITE_CORRUPT:
      return Kind::corrupt;
    case SQLITE_NOTADB:
      return Kind::not_ours;
    case SQLITE_CONSTRAINT:
    case SQLITE_MISMATCH:
      return Kind::conflict;
    case SQLITE_CANTOPEN: {
      // The log must be made beside the file, even to read it.
      const std::filesystem::path folder = path.has_parent_path() ? path.parent_path() : ".";
      if (reason == EROFS || ::access(folder.c_str(), W_OK) != 0) return Kind::read_only;
      return Kind::io;
    }
    case SQLITE_IOERR:
      return reason == EROFS ? Kind::read_only : Kind::io;
    default:
      return Kind::other;
  }
}

// errno of the write that failed. SQLite forgets it on the way up, but the file (database or log) keeps it.
int reason_of_write(sqlite3* handle) {
  int reason = 0;
  sqlite3_file_control(handle, "main", SQLITE_FCNTL_LAST_ERRNO, &reason);
  sqlite3_file* log = nullptr;
  sqlite3_file_control(handle, "main", SQLITE_FCNTL_JOURNAL_POINTER, &log);
  if (reason == 0 && log != nullptr && log->pMethods != nullptr) {
    log->pMethods->xFileControl(log, SQLITE_FCNTL_LAST_ERRNO, &reason);
  }
  return reason;
}

// The name under which a file is opened that nobody can write: as one that does not change, so that no log is
// made beside it, which could not be made or would stay behind. Not where there is a log, for then it must be
// read.
std::optional<std::string> name_as_unchanging(const std::filesystem::path& path) {
  const std::filesystem::path folder = path.has_parent_path() ? path.parent_path() : ".";
  std::error_code ignored;
  const auto writable = [](const std::filesystem::path& what) {
    return ::faccessat(AT_FDCWD, what.c_str(), W_OK, AT_EACCESS) == 0;
  };
  if (!std::filesystem::exists(path, ignored) || (writable(path) && writable(folder))) return std::nullopt;
  if (std::filesystem::exists(path.string() + "-wal", ignored)) return std::nullopt;
  std::string name = "file:";
  for (const char c : std::filesystem::absolute(path).string()) {
    if (c == '%' || c == '?' || c == '#') {
      name += fmt::format("%{:02x}", static_cast<unsigned char>(c));
    } else {
      name += c;
    }
  }
  return name + "?immutable=1";
}

}  // namespace

Connection::Connection(std::filesystem::path path, Open open, std::chrono::milliseconds busy_timeout)
    : path_(std::move(path)), busy_timeout_(busy_timeout) {
  const std::optional<std::string> unchanging = name_as_unchanging(path_);
  const int flags = (unchanging ? SQLITE_OPEN_READONLY | SQLITE_OPEN_URI : SQLITE_OPEN_READWRITE) |
                    SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE |
                    (open == Open::create && !unchanging ? SQLITE_OPEN_CREATE : 0);
  const int code =
      sqlite3_open_v2(unchanging ? unchanging->c_str() : path_.c_str(), &handle_, flags, nullptr);
  try {
    check(code);
    check(sqlite3_busy_timeout(handle_, static_cast<int>(busy_timeout.count())));
    check(sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr));
    run("PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA trusted_schema = OFF;"
        "PRAGMA synchronous = FULL");
  } catch (...) {
    sqlite3_close(handle_);
    throw;
  }
}

Connection::~Connection() {
  sqlite3_close(handle_);
}

void Connection::use_write_ahead_log() {
  // Two programs that make a new file at once can be in each other's way here without SQLite waiting by
  // itself.
  std::int64_t tries = busy_timeout_.count() / pause_ms + 1;
  while (text("PRAGMA journal_mode") != "wal") {
    if (read_only()) fail(SQLITE_READONLY);
    try {
      if (text("PRAGMA journal_mode = WAL") == "wal") return;
      throw RecordError(Kind::other, path_, "SQLite will not keep a write-ahead log here",
                        "Name a folder on a disk of this machine in XDG_DATA_HOME.");
    } catch (const RecordError& error) {
      if (error.kind() != Kind::busy || --tries <= 0) throw;
    }
    sqlite3_sleep(pause_ms);
  }
}

void Connection::run(const std::string& sql) {
  check(sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t Connection::number(std::string_view sql) {
  Statement statement = prepare(sql);
  if (!statement.step()) fail(SQLITE_CORRUPT);
  return statement.integer(0);
}

std::string Connection::text(std::string_view sql) {
  Statement statement = prepare(sql);
  if (!statement.step()) fail(SQLITE_CORRUPT);
  return statement.text(0);
}

std::int64_t Connection::last_id() const {
  return sqlite3_last_insert_rowid(handle_);
}

std::int64_t Connection::changes() const {
  return sqlite3_total_changes64(handle_);
}

void Connection::copy_to(const std::filesystem::path& target) {
  // SQLite would make the copy readable for everybody; it takes an empty file that is there.
  if (!make_private_file(target)) {
    throw RecordError(Kind::conflict, target, "a file of this name is there",
                      "Name another file for the copy.");
  }
  try {
    Statement statement = prepare("VACUUM INTO ?");
    const std::string name = target.string();
    statement.bind(1, std::string_view(name));
    statement.step();
    Connection(target, Open::existing, busy_timeout_).quick_check();
    flush_to_disk(target);
  } catch (...) {
    std::error_code ignored;
    std::filesystem::remove(target, ignored);
    throw;
  }
}

std::string Connection::bytes() {
  sqlite3_int64 size = 0;
  unsigned char* const made = sqlite3_serialize(handle_, "main", &size, 0);
  if (made == nullptr) throw std::bad_alloc();
  std::string out;
  try {
    out.assign(made, made + size);
  } catch (...) {
    sqlite3_free(made);
    throw;
  }
  sqlite3_free(made);
  return out;
}

void Connection::take_bytes(std::string_view bytes) {
  auto* const copy = static_cast<unsigned char*>(sqlite3_malloc64(std::max<std::size_t>(bytes.size(), 1)));
  if (copy == nullptr) throw std::bad_alloc();
  std::copy(bytes.begin(), bytes.end(), copy);
  const auto size = static_cast<sqlite3_int64>(bytes.size());
  // Freed by SQLite, where it fails too.
  check(sqlite3_deserialize(handle_, "main", copy, size, size,
                            SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_RESIZEABLE));
}

void Connection::quick_check(const std::string& table) {
  const std::string said =
      text(table.empty() ? "PRAGMA quick_check(1)" : "PRAGMA quick_check(" + table + ")");
  if (said != "ok") throw RecordError(Kind::corrupt, path_, fmt::format("the file is damaged ({})", said));
}

bool Connection::read_only() const {
  return sqlite3_db_readonly(handle_, "main") == 1;
}

bool Connection::in_transaction() const {
  return sqlite3_get_autocommit(handle_) == 0;
}

void Connection::roll_back() noexcept {
  if (in_transaction()) sqlite3_exec(handle_, "ROLLBACK", nullptr, nullptr, nullptr);
}

void Connection::fail(int code) const {
  if ((code & 0xFF) == SQLITE_NOMEM) throw std::bad_alloc();
  int reason = handle_ != nullptr ? sqlite3_system_errno(handle_) : 0;
  if (code == SQLITE_IOERR_WRITE) reason = reason_of_write(handle_);
  const Kind kind = kind_of(code, reason, path_);
  std::string detail = handle_ != nullptr ? sqlite3_errmsg(handle_) : sqlite3_errstr(code);
  const int primary = code & 0xFF;
  if (reason != 0 && (primary == SQLITE_IOERR || primary == SQLITE_CANTOPEN)) {
    detail += fmt::format("; {}", std::strerror(reason));
  }
  throw RecordError(kind, path_, fmt::format("{} ({})", plain_words(kind, busy_timeout_), detail));
}

void Connection::check(int code) const {
  if (code != SQLITE_OK) fail(code);
}

Statement::Statement(Connection& connection, std::string_view sql) : connection_(&connection) {
  connection.check(
      sqlite3_prepare_v2(connection.handle_, sql.data(), static_cast<int>(sql.size()), &handle_, nullptr));
}

Statement::Statement(Statement&& other) noexcept
    : connection_(other.connection_), handle_(std::exchange(other.handle_, nullptr)) {}

Statement::~Statement() {
  sqlite3_finalize(handle_);
}

void Statement::bind(int parameter, std::int64_t value) {
  check(sqlite3_bind_int64(handle_, parameter, value));
}

void Statement::bind(int parameter, std::string_view text) {
  // A null pointer would be bound as NULL.
  check(sqlite3_bind_text64(handle_, parameter, text.empty() ? "" : text.data(), text.size(), nullptr,
                            SQLITE_UTF8));
}

void Statement::bind(int parameter, Bytes bytes) {
  check(sqlite3_bind_blob64(handle_, parameter, bytes.bytes.empty() ? "" : bytes.bytes.data(),
                            bytes.bytes.size(), nullptr));
}

void Statement::bind_value(int parameter, const Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) bind(parameter, *number);
  if (const auto* text = std::get_if<std::string>(&value)) bind(parameter, std::string_view(*text));
  if (const auto* blob = std::get_if<Blob>(&value)) bind(parameter, Bytes{blob->bytes});
}

int Statement::columns() const {
  return sqlite3_column_count(handle_);
}

std::string Statement::column_name(int column) const {
  const char* name = sqlite3_column_name(handle_, column);
  if (name == nullptr) throw std::bad_alloc();
  return name;
}

Value Statement::value(int column) const {
  switch (sqlite3_column_type(handle_, column)) {
    case SQLITE_NULL:
      return {};
    case SQLITE_TEXT:
      return text(column);
    case SQLITE_BLOB:
      return Blob{bytes(column)};
    default:
      return integer(column);
  }
}

bool Statement::step() {
  const int code = sqlite3_step(handle_);
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) connection_->fail(code);
  return false;
}

std::int64_t Statement::integer(int column) const {
  expect(column, SQLITE_INTEGER);
  return sqlite3_column_int64(handle_, column);
}

base::Instant Statement::instant(int column) const {
  return base::Instant(std::chrono::seconds(integer(column)));
}

std::string Statement::text(int column) const {
  expect(column, SQLITE_TEXT);
  const void* bytes = sqlite3_column_blob(handle_, column);
  const int size = sqlite3_column_bytes(handle_, column);
  return size == 0 ? std::string()
                   : std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

std::string Statement::bytes(int column) const {
  expect(column, SQLITE_BLOB);
  const void* bytes = sqlite3_column_blob(handle_, column);
  const int size = sqlite3_column_bytes(handle_, column);
  return size == 0 ? std::string()
                   : std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

bool Statement::is_null(int column) const {
  return sqlite3_column_type(handle_, column) == SQLITE_NULL;
}

std::optional<std::int64_t> Statement::optional_integer(int column) const {
  if (is_null(column)) return std::nullopt;
  return integer(column);
}

std::optional<base::Instant> Statement::optional_instant(int column) const {
  if (is_null(column)) return std::nullopt;
  return instant(column);
}

std::optional<std::string> Statement::optional_text(int column) const {
  if (is_null(column)) return std::nullopt;
  return text(column);
}

void Statement::expect(int column, int type) const {
  if (sqlite3_column_type(handle_, column) == type) return;
  throw RecordError(Kind::corrupt, connection_->path(),
                    fmt::format("the file is damaged (column {} of \"{}\" holds another kind of value)",
                                column, sqlite3_sql(handle_)));
}

void Statement::check(int code) const {
  connection_->check(code);
}

Transaction::Transaction(Connection& connection) : connection_(connection) {
  connection_.run("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  connection_.roll_back();
}

void Transaction::commit() {
  connection_.run("COMMIT");
}

}  // namespace weatherstruck::record
