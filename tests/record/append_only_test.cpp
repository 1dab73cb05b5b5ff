// The file itself refuses changes, whichever program makes them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "record/scratch.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

// A record with a row in every table.
void fill(const std::filesystem::path& file) {
  Store store(file);
  store.put_person("{}", 1, at_minute(0));
  const JobId job = add_wall(store);
  store.keep_photograph(job, store.append(job, numbered_entry(1)).entry.id, numbered_photograph(1),
                        at_minute(2));
  const PlanId plan = store.put_plan(plan_for(store, job));
  store.put_sheet({job, plan, "morning", at_minute(3), "sheet"});
  store.put_past({"coast", 0, 0, "", base::Instant(std::chrono::hours(1)),
                  base::Instant(std::chrono::hours(2)), "bytes", at_minute(5)});
  store.keep_reckoned("key", "bytes", at_minute(5));
  store.issue_invoice({"2026", job, "key", 1, at_minute(4)},
                      [](std::int64_t) { return std::string("bytes"); });
  Connection(file, Connection::Open::existing, std::chrono::milliseconds(1000))
      .run("INSERT INTO closed_series VALUES ('2025', 1, 0)");
}

std::vector<std::string> list(Connection& connection, const std::string& sql) {
  std::vector<std::string> found;
  Statement rows = connection.prepare(sql);
  while (rows.step())
    found.push_back(rows.text(0));
  return found;
}

TEST(AppendOnly, EveryColumnOfEveryTableRefusesToChangeAndEveryRowToGo) {
  const Scratch scratch;
  fill(scratch.file());
  Connection connection(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(1000));
  const auto tables = list(connection, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  ASSERT_GE(tables.size(), 8U);
  for (const std::string& table : tables) {
    EXPECT_EQ(connection.number("SELECT strict FROM pragma_table_list('" + table + "')"), 1) << table;
    EXPECT_EQ(connection.number("SELECT count(*) FROM " + table), 1) << table << " has no row to try it on";
    for (const std::string& column :
         list(connection, "SELECT name FROM pragma_table_info('" + table + "')")) {
      EXPECT_EQ(kind_thrown([&] { connection.run("UPDATE " + table + " SET " + column + " = " + column); }),
                Kind::conflict)
          << table << "." << column;
    }
    EXPECT_EQ(kind_thrown([&] { connection.run("DELETE FROM " + table); }), Kind::conflict) << table;
    // As a program without our settings would do it: triggers do not see what REPLACE deletes.
    connection.run("PRAGMA recursive_triggers = OFF");
    EXPECT_EQ(
        kind_thrown([&] { connection.run("INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table); }),
        Kind::conflict)
        << table;
    EXPECT_EQ(connection.number("SELECT count(*) FROM " + table), 1) << table;
  }
}

TEST(AppendOnly, NumbersThatLeaveAGapAreRefused) {
  const Scratch scratch;
  fill(scratch.file());
  Connection connection(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(1000));
  for (const char* sql :
       {"INSERT INTO invoice VALUES (NULL, '2026', 3, 1, 'k3', 0, 0, x'', 0)",
        "INSERT INTO invoice VALUES (NULL, '2027', 2, 1, 'k3', 0, 0, x'', 0)",
        "INSERT OR REPLACE INTO invoice VALUES (NULL, '2026', 2, 1, 'key', 0, 0, x'', 0)",
        "INSERT INTO entry VALUES (NULL, 1, 3, 'k3', 'note', 0, 'UTC', 0, '{}', NULL)",
        "INSERT OR REPLACE INTO entry VALUES (NULL, 1, 2, 'key-1', 'note', 0, 'UTC', 0, '{}', NULL)",
        "INSERT INTO photograph SELECT NULL, job, entry, content, kind, size, kept_at FROM photograph",
        "INSERT INTO job_version VALUES (1, 3, '{}', 1, 0)", "INSERT INTO person VALUES (3, '{}', 1, 0)"}) {
    EXPECT_EQ(kind_thrown([&] { connection.run(sql); }), Kind::conflict) << sql;
  }
  connection.run("INSERT INTO invoice VALUES (NULL, '2026', 2, 1, 'k2', 0, 0, x'', 0)");
  connection.run("INSERT INTO entry VALUES (NULL, 1, 2, 'k2', 'note', 0, 'UTC', 0, '{}', NULL)");
}

TEST(AppendOnly, WrongTypesAndRowsThatReferToNothingAreRefused) {
  const Scratch scratch;
  fill(scratch.file());
  Connection connection(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(1000));
  for (const char* sql :
       {"INSERT INTO entry VALUES (NULL, 1, 2, 'k2', 'note', 'noon', 'UTC', 0, '{}', NULL)",
        "INSERT INTO entry VALUES (NULL, 1, 2, 'k2', 'note', 0, 'UTC', 0, '', NULL)",
        "INSERT INTO entry VALUES (NULL, 9, 1, 'k2', 'note', 0, 'UTC', 0, '{}', NULL)",
        "INSERT INTO entry VALUES (NULL, 1, 2, '', 'note', 0, 'UTC', 0, '{}', NULL)",
        // Its content names a file.
        "INSERT INTO photograph VALUES (NULL, 1, 1, '../../elsewhere', 'jpeg', 1, 0)",
        "INSERT INTO photograph SELECT NULL, 1, 2, content, kind, size, 0 FROM photograph",
        "INSERT INTO photograph SELECT NULL, 1, 1, '0' || substr(content, 2, 62) || '/', kind, "
        "size, 0 FROM photograph"}) {
    EXPECT_EQ(kind_thrown([&] { connection.run(sql); }), Kind::conflict) << sql;
  }
}

}  // namespace
}  // namespace weatherstruck::record
