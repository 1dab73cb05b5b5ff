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

// A step is never changed once it has been out, so that the first steps make the file of then.
TEST(Migrate, AFileOfEveryEarlierVersionOpensWithNothingLost) {
  const auto all = embedded_migrations();
  for (std::size_t count = 1; count < all.size(); ++count) {
    const Scratch scratch;
    const std::vector<Migration> steps(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(count));
    {
      Store store(scratch.file(), options_with(steps));
      store.put_person("{}", 1, at_minute(0));
      const JobId job = add_wall(store);
      store.append(job, numbered_entry(1));
      store.append(job, numbered_entry(2));
      const PlanId plan = store.put_plan(plan_for(store, job));
      store.put_sheet({job, plan, "morning", at_minute(3), "sheet"});
      store.issue_invoice({"2026", job, "key", 1, at_minute(4)},
                          [](std::int64_t) { return std::string("bytes"); });
    }
    Store store(scratch.file());
    EXPECT_EQ(store.opening().migrated.from, static_cast<std::int64_t>(count));
    const JobId job = store.job("wall").value().id;
    EXPECT_THAT(store.entries(job), SizeIs(2));
    EXPECT_TRUE(store.person() && store.latest_plan(job) && store.latest_sheet(job, "morning"));
    EXPECT_THAT(store.invoices(job), SizeIs(1));
    EXPECT_TRUE(store.pasts(false).empty());
  }
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
