#include "job_rows.h"

#include <fmt/format.h>

#include <functional>
#include <optional>

#include "weatherstruck/base/digest.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

struct TableRule {
  JobTable table;
  std::string_view name;
  std::string_view rows;  ///< which rows, and in what order; ?1 the job, ?2 the place
};

// Persons in the order in which plans first name them, so that the same job reads the same in a record where
// he has other versions of himself.
constexpr std::array<TableRule, job_table_count> rules{{
    {JobTable::person, "person",
     "WHERE version IN (SELECT person_version FROM plan WHERE job = ?1) ORDER BY "
     "(SELECT min(id) FROM plan WHERE job = ?1 AND person_version = version)"},
    {JobTable::job, "job", "WHERE id = ?1"},
    {JobTable::job_version, "job_version", "WHERE job = ?1 ORDER BY version"},
    {JobTable::forecast, "forecast",
     "WHERE place = ?2 OR place IN (SELECT place FROM forecast WHERE job = ?1 UNION SELECT f.place FROM plan "
     "p "
     "JOIN forecast f ON f.id = p.forecast WHERE p.job = ?1) ORDER BY id"},
    {JobTable::entry, "entry", "WHERE job = ?1 ORDER BY revision"},
    {JobTable::plan, "plan", "WHERE job = ?1 ORDER BY id"},
    {JobTable::sheet, "sheet", "WHERE job = ?1 ORDER BY id"},
    {JobTable::invoice, "invoice", "WHERE job = ?1 ORDER BY id"},
    {JobTable::photograph, "photograph", "WHERE job = ?1 ORDER BY id"},
}};

struct Reference {
  std::string_view column;
  JobTable to;
};
constexpr std::array<Reference, 7> references{{{"job", JobTable::job},
                                               {"confirms", JobTable::forecast},
                                               {"forecast", JobTable::forecast},
                                               {"corrects", JobTable::entry},
                                               {"entry", JobTable::entry},
                                               {"plan", JobTable::plan},
                                               {"person_version", JobTable::person}}};

const TableRule& rule_of(JobTable table) {
  return rules[static_cast<std::size_t>(table)];
}

std::optional<JobTable> referred_by(std::string_view column) {
  for (const Reference& reference : references) {
    if (reference.column == column) return reference.to;
  }
  return std::nullopt;
}

// The column that numbers a row in its record; job_version is numbered within the job.
bool numbers_the_row(JobTable table, std::string_view column) {
  return column == (table == JobTable::person ? "version" : "id");
}

// A forecast of the same place may have been fetched for another job; it comes without that job.
bool may_be_of_another(JobTable table, JobTable to) {
  return table == JobTable::forecast && to == JobTable::job;
}

void put_number(std::string& out, std::uint64_t number) {
  for (int shift = 0; shift < 64; shift += 8)
    out += static_cast<char>(number >> static_cast<unsigned>(shift) & 0xFFU);
}
void put_text(std::string& out, char sort, std::string_view text) {
  out += sort;
  put_number(out, text.size());
  out += text;
}
void put_value(std::string& out, const Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) {
    out += 'n';
    put_number(out, static_cast<std::uint64_t>(*number));
  } else if (const auto* text = std::get_if<std::string>(&value)) {
    put_text(out, 't', *text);
  } else if (const auto* blob = std::get_if<Blob>(&value)) {
    put_text(out, 'b', blob->bytes);
  } else {
    out += '-';
  }
}

std::string digest(std::string_view bytes) {
  const base::Sha256 hash = base::sha256(bytes);
  return {hash.begin(), hash.end()};
}

using Row = std::vector<std::pair<std::string, Value>>;

void each_row(Connection& connection, std::string_view table, std::string_view which, const JobPlace* where,
              const std::function<void(const Row&)>& take) {
  Statement rows = connection.prepare(fmt::format("SELECT * FROM {} {}", table, which));
  if (where != nullptr) {
    // Not every table asks for the place.
    if (which.find("?1") != std::string_view::npos) rows.bind(1, where->job);
    if (which.find("?2") != std::string_view::npos) rows.bind(2, std::string_view(where->place));
  }
  while (rows.step()) {
    Row row;
    for (int column = 0; column < rows.columns(); ++column)
      row.emplace_back(rows.column_name(column), rows.value(column));
    take(row);
  }
}

std::int64_t number_in(JobTable table, const Row& row) {
  for (const auto& [column, value] : row) {
    if (numbers_the_row(table, column)) return std::get<std::int64_t>(value);
  }
  return 0;
}

[[noreturn]] void refers_to_nothing(const Connection& connection, JobTable table, std::string_view column) {
  throw RecordError(
      Kind::corrupt, connection.path(),
      fmt::format("the file is damaged (a row of {} refers in {} to nothing)", name_of(table), column));
}

}  // namespace

std::string_view name_of(JobTable table) {
  return rule_of(table).name;
}

std::string hexadecimal(std::string_view bytes) {
  std::string out;
  for (const char byte : bytes)
    out += fmt::format("{:02x}", static_cast<unsigned char>(byte));
  return out;
}

JobRows job_rows(Connection& connection, const JobPlace& where) {
  JobRows found;
  std::array<std::map<std::int64_t, std::string>, job_table_count> keys;
  for (const TableRule& rule : rules) {
    const auto table = static_cast<std::size_t>(rule.table);
    each_row(connection, rule.name, rule.rows, &where, [&](const Row& row) {
      const std::int64_t number = number_in(rule.table, row);
      std::string said(rule.name);
      for (const auto& [column, value] : row) {
        // Where a number was given is the record's business, not the job's.
        if (numbers_the_row(rule.table, column) || column == "brought") continue;
        put_text(said, 'c', column);
        const std::optional<JobTable> to = referred_by(column);
        const auto* refers = std::get_if<std::int64_t>(&value);
        if (!to || refers == nullptr) {
          put_value(said, value);
          continue;
        }
        const auto& known = keys[static_cast<std::size_t>(*to)];
        const auto key = known.find(*refers);
        if (key != known.end()) {
          put_text(said, 'k', key->second);
        } else if (may_be_of_another(rule.table, *to)) {
          put_value(said, {});
        } else {
          refers_to_nothing(connection, rule.table, column);
        }
      }
      keys[table][number] = digest(said);
      found[table].push_back({number, keys[table][number]});
    });
  }
  return found;
}

std::int64_t RowCopier::copy(JobTable table, std::size_t skip) {
  const TableRule& rule = rule_of(table);
  auto& here = numbers[static_cast<std::size_t>(table)];
  std::int64_t copied = 0;
  std::size_t seen = 0;
  each_row(from_, rule.name, rule.rows, &where_, [&](const Row& row) {
    const std::int64_t number = number_in(table, row);
    const bool numbered = number != 0;
    if (seen++ < skip || (numbered && here.count(number) > 0)) return;
    std::string columns;
    std::string marks;
    std::vector<Value> values;
    for (const auto& [column, value] : row) {
      if (column == "id") continue;
      Value put = value;
      const std::optional<JobTable> to = referred_by(column);
      const auto* refers = std::get_if<std::int64_t>(&value);
      if (table == JobTable::person && column == "version") {
        put = to_.number("SELECT coalesce(max(version), 0) + 1 FROM person");
        here[number] = std::get<std::int64_t>(put);
      } else if (column == "brought") {
        put = brought;
      } else if (to && refers != nullptr) {
        const auto& known = numbers[static_cast<std::size_t>(*to)];
        const auto there = known.find(*refers);
        if (there == known.end() && !may_be_of_another(table, *to)) refers_to_nothing(from_, table, column);
        put = there == known.end() ? Value() : Value(there->second);
      }
      columns += (columns.empty() ? "" : ", ") + column;
      marks += marks.empty() ? "?" : ", ?";
      values.push_back(std::move(put));
    }
    Statement add = to_.prepare(fmt::format("INSERT INTO {} ({}) VALUES ({})", rule.name, columns, marks));
    for (std::size_t i = 0; i < values.size(); ++i)
      add.bind_value(static_cast<int>(i) + 1, values[i]);
    add.step();
    if (numbered && table != JobTable::person) here[number] = to_.last_id();
    ++copied;
  });
  return copied;
}

std::string content_of(Connection& connection) {
  std::vector<std::string> tables;
  {
    Statement names = connection.prepare(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'packed' ORDER BY name");
    while (names.step())
      tables.push_back(names.text(0));
  }
  std::string all;
  for (const std::string& table : tables) {
    each_row(connection, table, "ORDER BY rowid", nullptr, [&](const Row& row) {
      std::string said = table;
      for (const auto& [column, value] : row) {
        put_text(said, 'c', column);
        put_value(said, value);
      }
      all += digest(said);
    });
  }
  return hexadecimal(digest(all));
}

}  // namespace weatherstruck::record
