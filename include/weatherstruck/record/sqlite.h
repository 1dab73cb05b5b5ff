#pragma once
// The little of SQLite that the record needs: connection, statement, transaction, and its error codes turned
// into RecordError. Nothing above this floor includes this header.
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/record/record_error.h"

struct sqlite3;
struct sqlite3_stmt;

namespace weatherstruck::record {

/// Bytes bound as BLOB; a plain string_view is bound as TEXT.
struct Bytes {
  std::string_view bytes;
};

/// What a column holds, whatever it is: nothing, a number, text, bytes.
struct Blob {
  std::string bytes;
  friend bool operator==(const Blob&, const Blob&) = default;
};
using Value = std::variant<std::monostate, std::int64_t, std::string, Blob>;

/// One prepared statement. Columns and parameters are counted from 0 and 1, as SQLite does.
/// What is bound must outlive the last step(); nothing is copied.
class Statement {
 public:
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  Statement(Statement&& other) noexcept;
  Statement& operator=(Statement&&) = delete;
  ~Statement();

  void bind(int parameter, std::int64_t value);
  void bind(int parameter, std::string_view text);
  void bind(int parameter, Bytes bytes);
  void bind(int parameter, base::Instant at) { bind(parameter, std::int64_t{at.time_since_epoch().count()}); }
  /// A value that is absent is bound as NULL.
  template <class T>
  void bind(int parameter, const std::optional<T>& value) {
    if (value) bind(parameter, *value);
  }
  void bind(int parameter, const std::optional<std::string>& text) {
    if (text) bind(parameter, std::string_view(*text));
  }

  void bind_value(int parameter, const Value& value);

  /// @return whether a row is there to read
  bool step();
  [[nodiscard]] int columns() const;
  [[nodiscard]] std::string column_name(int column) const;
  /// @throws RecordError corrupt for a fraction, of which the record has none
  [[nodiscard]] Value value(int column) const;

  /// A column of another kind than asked for means a damaged file: RecordError corrupt.
  [[nodiscard]] std::int64_t integer(int column) const;
  [[nodiscard]] base::Instant instant(int column) const;
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::string bytes(int column) const;
  [[nodiscard]] bool is_null(int column) const;
  [[nodiscard]] std::optional<std::int64_t> optional_integer(int column) const;
  [[nodiscard]] std::optional<base::Instant> optional_instant(int column) const;
  [[nodiscard]] std::optional<std::string> optional_text(int column) const;

 private:
  friend class Connection;
  Statement(class Connection& connection, std::string_view sql);
  void expect(int column, int type) const;
  void check(int code) const;

  class Connection* connection_;
  sqlite3_stmt* handle_ = nullptr;
};

/// An open file, for one thread at a time. Foreign keys are kept, triggers hold for REPLACE too, functions
/// named in the schema are not trusted, and a lock is waited for as long as `busy_timeout`.
class Connection {
 public:
  enum class Open { existing, create };

  /// Opens and does not yet read or write. A file that may not be written is opened for reading.
  /// @throws RecordError
  Connection(std::filesystem::path path, Open open, std::chrono::milliseconds busy_timeout);
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection();

  /// Write-ahead log, and every commit on the disk before it returns (synchronous=FULL).
  void use_write_ahead_log();

  /// Statements without rows, parted by semicolons.
  void run(const std::string& sql);
  [[nodiscard]] Statement prepare(std::string_view sql) { return {*this, sql}; }
  /// First column of the first row.
  [[nodiscard]] std::int64_t number(std::string_view sql);
  [[nodiscard]] std::string text(std::string_view sql);
  /// The row id of the last INSERT.
  [[nodiscard]] std::int64_t last_id() const;
  /// How many rows this connection has added since it was opened.
  [[nodiscard]] std::int64_t changes() const;

  /// A copy of the whole file as it now stands, private, checked and on the disk. Others may go on meanwhile.
  /// @throws RecordError, conflict where `target` is there; nothing is left of a copy that failed
  void copy_to(const std::filesystem::path& target);
  /// The whole database as the bytes of a file. Not while a transaction is under way.
  [[nodiscard]] std::string bytes();
  /// Takes such bytes for the database. For a connection to ":memory:"; what is wrong with them shows when it
  /// is read (quick_check).
  void take_bytes(std::string_view bytes);
  /// Reads one table through, or the whole file. @throws RecordError corrupt
  void quick_check(const std::string& table = {});

  [[nodiscard]] bool read_only() const;
  [[nodiscard]] bool in_transaction() const;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  friend class Statement;
  friend class Transaction;
  void roll_back() noexcept;
  [[noreturn]] void fail(int code) const;
  void check(int code) const;

  std::filesystem::path path_;
  std::chrono::milliseconds busy_timeout_;
  sqlite3* handle_ = nullptr;
};

/// BEGIN IMMEDIATE: waits its turn at once, so that it cannot be refused half way. Rolled back unless
/// committed.
class Transaction {
 public:
  explicit Transaction(Connection& connection);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  void commit();

 private:
  Connection& connection_;
};

}  // namespace weatherstruck::record
