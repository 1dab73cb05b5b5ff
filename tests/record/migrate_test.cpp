#include "weatherstruck/record/migrate.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <thread>
#include <vector>

#include "record/scratch.h"
#include "weatherstruck/record/folder.h"

namespace weatherstruck::record {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;
using Kind = RecordError::Kind;

const std::chrono::milliseconds patience{5000};

// The real steps and one more, which needs foreign keys off: it rebuilds a table that others refer to.
std::vector<Migration> with_next(std::string_view sql) {
  std::vector<Migration> steps(embedded_migrations().begin(), embedded_migrations().end());
  steps.push_back({steps.back().number + 1, "next", sql});
  return steps;
}

constexpr std::string_view rebuild_job =
    "CREATE TABLE job_new (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, made_at INTEGER NOT NULL,"
    " place TEXT) STRICT;"
    "INSERT INTO job_new (id, name, made_at) SELECT id, name, made_at FROM job;"
    "DROP TABLE job; ALTER TABLE job_new RENAME TO job;";

OpenOptions options_with(const std::vector<Migration>& steps) {
  OpenOptions options;
  options.migrations = steps;
  return options;
}

std::string schema_of(const std::filesystem::path& file) {
  Connection connection(file, Connection::Open::existing, patience);
  std::string all;
  Statement rows = connection.prepare("SELECT name, coalesce(sql, '-') FROM sqlite_schema ORDER BY name");
  while (rows.step())
    all += rows.text(0) + ": " + rows.text(1) + "\n";
  return all;
}

std::vector<std::string> files_in(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::string copy_name(const Scratch& scratch) {
  return scratch.file().string() + ".version-" + std::to_string(embedded_migrations().back().number);
}

TEST(Migrate, AnEmptyFileTakesEveryStepAndBearsOurMark) {
  const Scratch scratch;
  {
    const Store store(scratch.file());
    EXPECT_TRUE(store.opening().created);
    EXPECT_EQ(store.opening().migrated.from, 0);
    EXPECT_FALSE(store.opening().migrated.copy);
  }
  Connection connection(scratch.file(), Connection::Open::existing, patience);
  EXPECT_EQ(connection.number("PRAGMA user_version"), embedded_migrations().back().number);
  EXPECT_EQ(connection.number("PRAGMA application_id"), application_id);
  EXPECT_EQ(connection.text("PRAGMA journal_mode"), "wal");
  // Nothing is left of a file that was closed, and there is no copy of one that held nothing.
  EXPECT_THAT(files_in(scratch.file().parent_path()), testing::Contains("record.db"));
}

TEST(Migrate, ASecondOpeningChangesNothing) {
  const Scratch scratch;
  { const Store store(scratch.file()); }
  const std::string before = bytes_of(scratch.file());
  {
    const Store store(scratch.file());
    EXPECT_FALSE(store.opening().created);
    EXPECT_EQ(store.opening().migrated.from, store.opening().migrated.to);
    EXPECT_FALSE(store.opening().tail.left_open);
  }
  EXPECT_EQ(bytes_of(scratch.file()), before);
  EXPECT_THAT(files_in(scratch.file().parent_path()), ElementsAre("record.db"));
}

TEST(Migrate, ACopyIsKeptBeforeAStepAndHoldsWhatWasThere) {
  const Scratch scratch;
  const std::vector<Migration> steps = with_next(rebuild_job);
  {
    Store store(scratch.file());
    store.append(add_wall(store), numbered_entry(1));
  }
  std::filesystem::path copy;
  {
    Store store(scratch.file(), options_with(steps));
    EXPECT_EQ(store.opening().migrated.from, embedded_migrations().back().number);
    EXPECT_EQ(store.opening().migrated.to, steps.back().number);
    copy = store.opening().migrated.copy.value();
    EXPECT_EQ(copy, copy_name(scratch));
    EXPECT_THAT(store.entries(store.job("wall").value().id), SizeIs(1));
  }
  EXPECT_EQ(rights(copy), 0600U);
  Store old(copy);
  EXPECT_EQ(old.opening().migrated.to, embedded_migrations().back().number);
  EXPECT_THAT(old.entries(old.job("wall").value().id), SizeIs(1));
}

std::filesystem::path kept_file(std::int64_t version) {
  return std::filesystem::path(WEATHERSTRUCK_SOURCE_DIR) / "tests" / "record" / "schemas" /
         ("schema-" + std::to_string(version) + ".db");
}

void fill_everything(Store& store) {
  store.put_person(R"({"name":"Rhys"})", 1, at_minute(0));
  store.put_person(R"({"name":"Rhys Vaughan"})", 1, at_minute(1));
  const JobId job = add_wall(store);
  store.replace_job(job, R"({"name":"wall","more":1})", 1, at_minute(2));
  store.append(job, numbered_entry(1));
  NewEntry second = numbered_entry(2);
  second.corrects = store.entries(job).back().id;
  store.append(job, second);
  NewForecast forecast;
  forecast.job = job;
  forecast.place = "wall";
  forecast.source = "file";
  forecast.body = "rain";
  forecast.etag = "\"r\"";
  forecast.fetched_at = at_minute(1);
  const ForecastId id = store.put_forecast(forecast);
  NewForecast confirmed;
  confirmed.place = "wall";
  confirmed.source = "file";
  confirmed.status = 304;
  confirmed.confirms = id;
  confirmed.fetched_at = at_minute(3);
  store.put_forecast(confirmed);
  NewPlan plan = plan_for(store, job);
  plan.made_at = at_minute(4);
  store.put_sheet({job, store.put_plan(plan), "morning", at_minute(5), "sheet"});
  for (const char* key : {"one", "two"}) {
    store.issue_invoice({"2026", job, key, 2, at_minute(6)},
                        [](std::int64_t number) { return "invoice " + std::to_string(number); });
  }
}

// Files as the program of their time wrote them. When a step is added, run this test with
// --gtest_also_run_disabled_tests before, which adds the file of the version that was the newest.
TEST(Migrate, AFileOfEveryEarlierVersionOpensWithNothingLost) {
  const Scratch expected;
  Store filled(expected.file());
  fill_everything(filled);
  const std::string as_new =
      filled.pack(filled.job("wall").value().id, "wall", "", at_minute(9)).label.content;
  for (std::int64_t version = 1; version < embedded_migrations().back().number; ++version) {
    SCOPED_TRACE(version);
    const Scratch scratch;
    make_private_folder(scratch.file().parent_path());
    write_bytes(scratch.file(), bytes_of(kept_file(version)));
    Store store(scratch.file());
    EXPECT_EQ(store.opening().migrated.from, version);
    const JobId job = store.job("wall").value().id;
    // Every row of the job, value by value, is what the same facts are today.
    EXPECT_EQ(store.pack(job, "wall", "", at_minute(9)).label.content, as_new);
    EXPECT_EQ(store.person().value().text, R"({"name":"Rhys Vaughan"})");
    EXPECT_EQ(store.invoice("2026", 2).value().bytes, "invoice 2");
    EXPECT_TRUE(store.pasts(false).empty());
    store.check_whole();
    // And it goes on.
    store.append(job, numbered_entry(3));
    EXPECT_EQ(store
                  .issue_invoice({"2026", job, "three", 3, at_minute(7)},
                                 [](std::int64_t) { return std::string("bytes"); })
                  .number,
              3);
  }
}

TEST(Migrate, DISABLED_TheFileOfTheNewestVersionIsKeptForLater) {
  const Scratch scratch;
  {
    Store store(scratch.file());
    fill_everything(store);
  }
  write_bytes(kept_file(embedded_migrations().back().number), bytes_of(scratch.file()));
}

TEST(Migrate, AnEarlierCopyIsNotWrittenOver) {
  const Scratch scratch;
  { const Store store(scratch.file()); }
  write_bytes(copy_name(scratch), "an earlier one");
  const std::vector<Migration> steps = with_next("CREATE TABLE extra (a INTEGER) STRICT;");
  const Store store(scratch.file(), options_with(steps));
  EXPECT_EQ(store.opening().migrated.copy, copy_name(scratch) + "-2");
  EXPECT_EQ(bytes_of(copy_name(scratch)), "an earlier one");
}

TEST(Migrate, AnUpgradedFileHasTheSchemaOfAFreshOne) {
  const Scratch upgraded;
  const Scratch fresh;
  const std::vector<Migration> steps = with_next(rebuild_job);
  { const Store store(upgraded.file()); }
  { const Store store(upgraded.file(), options_with(steps)); }
  { const Store store(fresh.file(), options_with(steps)); }
  EXPECT_EQ(schema_of(upgraded.file()), schema_of(fresh.file()));
}

TEST(Migrate, AStepThatFailsLeavesTheFileAsItWas) {
  const Scratch scratch;
  {
    Store store(scratch.file());
    add_wall(store);
  }
  const std::string before = schema_of(scratch.file());
  const std::vector<Migration> steps =
      with_next("CREATE TABLE extra (a INTEGER) STRICT; INSERT INTO nowhere VALUES (1);");
  std::string text;
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file(), options_with(steps)); }, &text), Kind::other);
  EXPECT_THAT(text,
              HasSubstr("step " + std::to_string(steps.back().number) + " to this version, next, failed"));
  EXPECT_EQ(schema_of(scratch.file()), before);
  Store store(scratch.file());
  EXPECT_THAT(store.job_names(), ElementsAre("wall"));
}

TEST(Migrate, AStepMayNotLeaveARowThatRefersToNothing) {
  const Scratch scratch;
  {
    Store store(scratch.file());
    add_wall(store);
  }
  const std::vector<Migration> steps = with_next("DROP TRIGGER job_is_kept; DELETE FROM job;");
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file(), options_with(steps)); }), Kind::other);
  Store store(scratch.file());
  EXPECT_THAT(store.job_names(), ElementsAre("wall"));
}

TEST(Migrate, AFileFromTheFutureIsRefusedAndLeftAlone) {
  const Scratch scratch;
  const std::vector<Migration> steps = with_next("CREATE TABLE extra (a INTEGER) STRICT;");
  { const Store store(scratch.file(), options_with(steps)); }
  const std::string before = bytes_of(scratch.file());
  std::string text;
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file()); }, &text), Kind::from_the_future);
  EXPECT_THAT(text, HasSubstr("Install that version or a newer one"));
  EXPECT_EQ(bytes_of(scratch.file()), before);
}

TEST(Migrate, ANewerProgramBesideAnOpenOneStopsItsWrites) {
  const Scratch scratch;
  Store old(scratch.file());
  const JobId job = add_wall(old);
  const std::vector<Migration> steps = with_next("CREATE TABLE extra (a INTEGER) STRICT;");
  { const Store newer(scratch.file(), options_with(steps)); }
  EXPECT_EQ(kind_thrown([&] { old.append(job, numbered_entry(1)); }), Kind::from_the_future);
  EXPECT_EQ(old.book_revision(job), 0);
}

TEST(Migrate, StrangeFilesAreRefusedAndLeftAlone) {
  const Scratch scratch;
  make_private_folder(scratch.file().parent_path());
  {
    Connection other(scratch.file(), Connection::Open::create, patience);
    other.run("CREATE TABLE tune (name TEXT)");
  }
  std::string before = bytes_of(scratch.file());
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file()); }), Kind::not_ours);
  EXPECT_EQ(bytes_of(scratch.file()), before);

  before = std::string(5000, 'x');
  write_bytes(scratch.file(), before);
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file()); }), Kind::not_ours);
  EXPECT_EQ(bytes_of(scratch.file()), before);
}

TEST(Migrate, ProgramsThatOpenANewFileAtOnceAllGetIt) {
  for (int round = 0; round < 15; ++round) {
    const Scratch scratch;
    std::array<std::string, 4> faults;
    std::vector<std::thread> threads;
    for (std::string& fault : faults) {
      threads.emplace_back([&] {
        try {
          Store store(scratch.file());
          store.put_person("{}", 1, at_minute(0));
        } catch (const std::exception& error) {
          fault = error.what();
        }
      });
    }
    for (std::thread& thread : threads)
      thread.join();
    EXPECT_THAT(faults, testing::Each(""));
    EXPECT_EQ(Store(scratch.file()).person().value().version, 4);
  }
}

}  // namespace
}  // namespace weatherstruck::record
