#pragma once
// What the functions of Store share.
#include <utility>

#include "open_files.h"
#include "weatherstruck/record/sqlite.h"
#include "weatherstruck/record/store.h"

namespace weatherstruck::record {

template <class Id>
[[nodiscard]] constexpr std::int64_t number_of(Id id) {
  return static_cast<std::int64_t>(id);
}

template <class Id>
[[nodiscard]] std::optional<std::int64_t> number_of(const std::optional<Id>& id) {
  if (!id) return std::nullopt;
  return static_cast<std::int64_t>(*id);
}

template <class Id>
[[nodiscard]] std::optional<Id> id_of(const std::optional<std::int64_t>& number) {
  if (!number) return std::nullopt;
  return static_cast<Id>(*number);
}

struct Store::Inside {
  Inside(const std::filesystem::path& path, const OpenOptions& options);

  /// One transaction, or a part of the one under way.
  template <class Work>
  auto write(const Work& work) {
    if (connection.in_transaction()) {
      try {
        return work();
      } catch (...) {
        spoiled = true;
        throw;
      }
    }
    Transaction transaction(connection);
    made.clear();
    auto result = [&] {
      try {
        refuse_other_version();
        spoiled = false;
        auto done = work();
        if (spoiled) refuse("a part of this write failed");
        return done;
      } catch (...) {
        take_away_made();
        throw;
      }
    }();
    transaction.commit();
    return result;
  }

  /// Has the file of a photograph whole on the disk. Only in a transaction, so that one program writes at a
  /// time. @return whether it had to be written
  bool put_photograph(const Photograph& photograph, std::string_view bytes);
  /// Removes the files that the transaction under way has made.
  void take_away_made() noexcept;

  /// @throws RecordError from_the_future or other: another program brought the file to another version
  /// meanwhile
  void refuse_other_version();
  [[noreturn]] void refuse(std::string found) const;
  /// A statement with its parameters bound in order. They must outlive the last step().
  template <class... Values>
  Statement ask(std::string_view sql, const Values&... values) {
    Statement statement = connection.prepare(sql);
    int parameter = 0;
    (statement.bind(++parameter, values), ...);
    return statement;
  }
  void check_daily_tables();

  OpenFile file;
  Connection connection;
  std::span<const Migration> steps;
  std::int64_t version = 0;  ///< of the schema, as this program knows it
  Opening opening;
  std::int64_t changes_at_first = 0;  ///< what opening itself changed
  bool issued = false;
  bool spoiled = false;                     ///< a part of the transaction under way has failed
  std::vector<std::filesystem::path> made;  ///< files of photographs that were not there before it
};

}  // namespace weatherstruck::record
