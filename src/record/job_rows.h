#pragma once
// The rows of one job, read and copied without knowing what they mean. Row numbers are a record's own, so a
// row is known by what it says, with the rows that it refers to in place of their numbers.
#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {

/// The tables that hold a job, each after those that it refers to.
enum class JobTable { person, job, job_version, forecast, entry, plan, sheet, invoice, photograph };
inline constexpr std::size_t job_table_count = 9;
[[nodiscard]] std::string_view name_of(JobTable table);

/// Which job of which database, and the key of its site: forecasts of a place serve every job there.
struct JobPlace {
  std::int64_t job = 0;
  std::string place;
};

struct KnownRow {
  std::int64_t number = 0;  ///< id or, of a person, version
  std::string key;          ///< SHA-256, 32 bytes
  friend bool operator==(const KnownRow&, const KnownRow&) = default;
};

/// Every row of a job by table, in the order kept.
using JobRows = std::array<std::vector<KnownRow>, job_table_count>;
[[nodiscard]] inline std::vector<KnownRow>& rows_of(JobRows& rows, JobTable table) {
  return rows[static_cast<std::size_t>(table)];
}
[[nodiscard]] inline const std::vector<KnownRow>& rows_of(const JobRows& rows, JobTable table) {
  return rows[static_cast<std::size_t>(table)];
}
[[nodiscard]] JobRows job_rows(Connection& connection, const JobPlace& where);

/// The numbers that rows of another database have here.
using Renumbered = std::array<std::map<std::int64_t, std::int64_t>, job_table_count>;

/// Copies rows of one table from one database to another, with the numbers of those they refer to as they are
/// there.
class RowCopier {
 public:
  RowCopier(Connection& from, const JobPlace& where, Connection& to) : from_(from), where_(where), to_(to) {}

  /// Numbers of rows that are there already; may be added to.
  Renumbered numbers{};
  /// What "brought" is set to in invoices.
  std::int64_t brought = 0;

  /// All rows but those that `numbers` names, or the first `skip`. @return how many
  std::int64_t copy(JobTable table, std::size_t skip = 0);

 private:
  Connection& from_;
  JobPlace where_;
  Connection& to_;
};

/// SHA-256 in hexadecimal over every row of every table but "packed", tables by name and rows in their order.
[[nodiscard]] std::string content_of(Connection& connection);
[[nodiscard]] std::string hexadecimal(std::string_view bytes);

}  // namespace weatherstruck::record
