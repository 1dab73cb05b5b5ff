#include "weatherstruck/record/packed.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "record/full_after.h"
#include "record/scratch.h"
#include "weatherstruck/record/folder.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;
using Kind = RecordError::Kind;

const std::filesystem::path source{"wall.packed"};

void put_forecast(Store& store, const std::string& body, std::int64_t minute, std::optional<JobId> job = {},
                  const std::string& place = "wall") {
  NewForecast forecast;
  forecast.job = job;
  forecast.place = place;
  forecast.source = "file";
  forecast.body = body;
  forecast.etag = "\"" + body + "\"";
  forecast.fetched_at = at_minute(minute);
  store.put_forecast(forecast);
}

void issue(Store& store, JobId job, const std::string& series, const std::string& key) {
  store.issue_invoice({series, job, key, store.book_revision(job), at_minute(50)},
                      [&](std::int64_t number) { return series + "/" + std::to_string(number); });
}

// A record with another job before and between, so that no number is what it will be elsewhere.
JobId fill(Store& store) {
  store.put_person(R"({"name":"before"})", 1, at_minute(-9));
  store.put_person(R"({"name":"Rhys"})", 1, at_minute(-8));
  const JobId other = store.add_job("other", R"({"name":"other"})", 1, at_minute(-7));
  store.append(other, numbered_entry(1));
  put_forecast(store, "elsewhere", -5, other, "elsewhere");
  issue(store, other, "2026", "one");
  const JobId job = add_wall(store);
  put_forecast(store, "rain", 1, other);
  put_forecast(store, "frost", 2, job);
  NewForecast confirmed;
  confirmed.place = "wall";
  confirmed.source = "file";
  confirmed.status = 304;
  confirmed.confirms = store.latest_forecast("wall", "file").value().id;
  confirmed.fetched_at = at_minute(3);
  store.put_forecast(confirmed);
  store.append(job, numbered_entry(1));
  NewEntry corrected = numbered_entry(2);
  corrected.corrects = store.entries(job).back().id;
  store.append(job, corrected);
  const PlanId plan = store.put_plan(plan_for(store, job));
  store.put_sheet({job, plan, "morning", at_minute(4), std::string("a\0b", 3)});
  store.put_sheet({job, std::nullopt, "calendar", at_minute(4), "{}"});
  issue(store, job, "2026", "two");
  issue(store, other, "2026", "three");
  issue(store, job, "2026", "four");
  return job;
}

PackedJob packed_wall(Store& store) {
  return store.pack(store.job("wall").value().id, "wall", "0.1.0", at_minute(60));
}

// What there is to read of a job, without its numbers.
std::string told(Store& store) {
  const Job job = store.job("wall").value();
  std::string all = job.document.text + std::to_string(job.document.version);
  for (const Entry& entry : store.entries(job.id)) {
    all += entry.key + entry.kind + entry.body + entry.zone + std::to_string(entry.revision);
    for (const Entry& earlier : store.entries(job.id)) {
      if (entry.corrects == earlier.id) all += " corrects " + earlier.key;
    }
  }
  for (const Forecast& forecast : store.forecasts_since("wall", base::Instant::min()))
    all += forecast.body + forecast.etag.value_or("-") +
           std::to_string(forecast.confirmed_at.time_since_epoch().count());
  const Plan plan = store.latest_plan(job.id).value();
  all +=
      plan.bytes + plan.zones + store.forecast(plan.forecast).value().body + (plan.stale.any() ? "s" : "-");
  all += store.latest_sheet(job.id, "morning").value().bytes;
  all += store.latest_sheet(job.id, "morning").value().plan == plan.id ? "of the plan" : "of no plan";
  for (const Invoice& invoice : store.invoices(job.id))
    all += invoice.series + std::to_string(invoice.number) + invoice.bytes + invoice.key;
  return all + store.person().value().text;
}

std::string everything(const std::filesystem::path& file) {
  Connection connection(file, Connection::Open::existing, std::chrono::milliseconds(1000));
  std::string all;
  std::vector<std::string> tables;
  Statement names = connection.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (names.step())
    tables.push_back(names.text(0));
  for (const std::string& table : tables) {
    Statement rows = connection.prepare("SELECT * FROM " + table + " ORDER BY rowid");
    while (rows.step()) {
      for (int i = 0; i < rows.columns(); ++i) {
        const Value value = rows.value(i);
        if (const auto* number = std::get_if<std::int64_t>(&value)) all += std::to_string(*number);
        if (const auto* text = std::get_if<std::string>(&value)) all += *text;
        if (const auto* blob = std::get_if<Blob>(&value)) all += blob->bytes;
        all += '|';
      }
    }
  }
  return all;
}

TEST(Pack, AJobBroughtIntoAnEmptyRecordIsTheSameAndPacksToTheSameContent) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  fill(first);
  const PackedJob packed = packed_wall(first);
  EXPECT_EQ(packed.label.job, "wall");
  EXPECT_EQ(packed.label.rows, (PackedRows{1, 2, 3, 1, 2, 2}));
  EXPECT_THAT(packed.label.content, SizeIs(64));
  EXPECT_EQ(check_packed(packed.bytes, source).content, packed.label.content);

  Store second(to.file());
  const Unpacked done = second.unpack(packed.bytes, source, at_minute(70));
  EXPECT_TRUE(done.fresh);
  EXPECT_EQ(done.added, packed.label.rows);
  EXPECT_EQ(told(second), told(first));
  EXPECT_THAT(second.job_names(), ElementsAre("wall")) << "nothing of another job comes along";
  const PackedJob again = packed_wall(second);
  EXPECT_EQ(again.label.content, packed.label.content);
  EXPECT_EQ(again.bytes, packed.bytes) << "and to the same file, byte for byte";
  second.check_whole();
}

TEST(Pack, TheSameOnceMoreChangesNothing) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  fill(first);
  const PackedJob packed = packed_wall(first);
  Store second(to.file());
  second.unpack(packed.bytes, source, at_minute(70));
  const std::string before = everything(to.file());
  const Unpacked again = second.unpack(packed.bytes, source, at_minute(80));
  EXPECT_FALSE(again.fresh);
  EXPECT_EQ(again.added, PackedRows{});
  EXPECT_EQ(everything(to.file()), before);
  // Where it came from it is as well.
  EXPECT_EQ(first.unpack(packed.bytes, source, at_minute(80)).added, PackedRows{});
  EXPECT_FALSE(first.series_closed_by("2026")) << "the series is still counted where it was begun";
}

TEST(Pack, WhatWentOnElsewhereComesBack) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  const JobId job = fill(first);
  Store second(to.file());
  second.unpack(packed_wall(first).bytes, source, at_minute(70));
  const JobId there = second.job("wall").value().id;
  second.replace_job(there, R"({"name":"wall","more":1})", 1, at_minute(71));
  NewEntry entry = numbered_entry(3);
  entry.corrects = second.entries(there).front().id;
  second.append(there, entry);
  put_forecast(second, "thaw", 72, there);
  second.put_plan(plan_for(second, there));
  issue(second, there, "2026-b", "five");

  const Unpacked back = first.unpack(packed_wall(second).bytes, source, at_minute(90));
  EXPECT_FALSE(back.fresh);
  EXPECT_EQ(back.added, (PackedRows{1, 1, 1, 1, 0, 1}));
  EXPECT_THAT(back.closed_series, ElementsAre("2026-b"));
  EXPECT_EQ(told(first), told(second));
  EXPECT_EQ(first.entries(job).back().corrects, first.entries(job).front().id);
  EXPECT_FALSE(first.series_closed_by("2026"));
  issue(first, job, "2026", "six");
  EXPECT_EQ(first.invoice("2026", 5).value().key, "six");
}

TEST(Pack, AJobThatWentOnHereIsNotPutBack) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  const JobId job = fill(first);
  const PackedJob packed = packed_wall(first);
  Store second(to.file());
  second.unpack(packed.bytes, source, at_minute(70));
  first.append(job, numbered_entry(3));
  const std::string before = everything(from.file());
  std::string text;
  EXPECT_EQ(kind_thrown([&] { first.unpack(packed.bytes, source, at_minute(80)); }, &text), Kind::conflict);
  EXPECT_THAT(text, AllOf(HasSubstr("has gone on here"), HasSubstr("the book here has 3 lines and 1 plans")));
  // Both went on.
  second.append(second.job("wall").value().id, numbered_entry(4));
  EXPECT_EQ(kind_thrown([&] { first.unpack(packed_wall(second).bytes, source, at_minute(80)); }, &text),
            Kind::conflict);
  EXPECT_THAT(text, HasSubstr("went on here and in the packed copy as well"));
  EXPECT_EQ(everything(from.file()), before);
  // The one that only has more comes.
  EXPECT_EQ(Store(to.file()).job("wall").value().name, "wall");
}

TEST(Pack, AnotherJobOfThatNameIsLeftAlone) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  fill(first);
  Store second(to.file());
  second.add_job("wall", R"({"name":"wall"})", 1, at_minute(5));
  std::string text;
  EXPECT_EQ(kind_thrown([&] { second.unpack(packed_wall(first).bytes, source, at_minute(80)); }, &text),
            Kind::conflict);
  EXPECT_THAT(text, HasSubstr("another job \"wall\" is kept here"));
}

TEST(Pack, ASeriesIsNeverCountedInTwoRecords) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  fill(first);
  Store second(to.file());
  const JobId own = second.add_job("shed", "{}", 1, at_minute(0));
  const Unpacked done = second.unpack(packed_wall(first).bytes, source, at_minute(70));
  EXPECT_THAT(done.closed_series, ElementsAre("2026"));
  EXPECT_EQ(second.series_closed_by("2026"), "wall");
  const JobId there = second.job("wall").value().id;
  for (const JobId job : {own, there}) {
    std::string text;
    EXPECT_EQ(kind_thrown([&] { issue(second, job, "2026", "mine"); }, &text), Kind::conflict);
    EXPECT_THAT(text, HasSubstr("numbered in another record"));
  }
  issue(second, there, "2026-b", "mine");
  EXPECT_EQ(second.invoice("2026", 4).value().bytes, "2026/4") << "what came is there to be shown";
  // No program gets around it.
  Connection raw(to.file(), Connection::Open::existing, std::chrono::milliseconds(1000));
  EXPECT_EQ(kind_thrown([&] {
              raw.run(
                  "INSERT INTO invoice (series, number, job, key, book_revision, issued_at, bytes) VALUES "
                  "('2026', 5, 1, 'raw', 0, 0, x'')");
            }),
            Kind::conflict);
}

TEST(Pack, ANumberThatIsTakenHereIsRefused) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  fill(first);
  Store second(to.file());
  const JobId own = second.add_job("shed", "{}", 1, at_minute(0));
  issue(second, own, "2026", "one");
  issue(second, own, "2026", "two");
  const std::string before = everything(to.file());
  std::string text;
  EXPECT_EQ(kind_thrown([&] { second.unpack(packed_wall(first).bytes, source, at_minute(70)); }, &text),
            Kind::conflict);
  EXPECT_THAT(text, HasSubstr("invoice 2 of series \"2026\" bears a number that the job \"shed\" has here"));
  EXPECT_EQ(everything(to.file()), before);
}

TEST(Pack, WhoHeIsAndTheNewestForecastHereStayTheNewest) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  fill(first);
  Store second(to.file());
  second.put_person(R"({"name":"here"})", 1, at_minute(0));
  put_forecast(second, "today's", 500);
  second.unpack(packed_wall(first).bytes, source, at_minute(600));
  EXPECT_EQ(second.person().value().text, R"({"name":"here"})");
  EXPECT_EQ(second.latest_forecast("wall", "file").value().body, "today's");
  const Plan plan = second.latest_plan(second.job("wall").value().id).value();
  EXPECT_EQ(second.forecast(plan.forecast).value().body, "frost");
  EXPECT_TRUE(plan.stale.person && plan.stale.forecast);
  EXPECT_EQ(second.unpack(packed_wall(first).bytes, source, at_minute(700)).added, PackedRows{});
}

TEST(Pack, AFileFromTheFutureOrOfSomethingElseIsRefused) {
  const Scratch from;
  std::vector<Migration> steps(embedded_migrations().begin(), embedded_migrations().end());
  steps.push_back({steps.back().number + 1, "next", "CREATE TABLE extra (a INTEGER) STRICT;"});
  OpenOptions options;
  options.migrations = steps;
  std::string newer;
  {
    Store store(from.file(), options);
    fill(store);
    newer = packed_wall(store).bytes;
  }
  const Scratch to;
  Store store(to.file());
  std::string text;
  EXPECT_EQ(kind_thrown([&] { store.unpack(newer, source, at_minute(0)); }, &text), Kind::from_the_future);
  EXPECT_THAT(text, HasSubstr("Install that version or a newer one"));
  EXPECT_EQ(kind_thrown([&] { store.unpack("notes", source, at_minute(0)); }), Kind::not_ours);
  EXPECT_EQ(kind_thrown([&] { store.unpack("", source, at_minute(0)); }), Kind::not_ours);
  EXPECT_EQ(kind_thrown([&] { store.unpack(bytes_of(to.file()), source, at_minute(0)); }, &text),
            Kind::not_ours);
  EXPECT_THAT(store.job_names(), SizeIs(0));
}

TEST(Pack, AnOlderFileIsBroughtUp) {
  const Scratch from;
  PackedJob old;
  {
    Store store(from.file());
    fill(store);
    old = packed_wall(store);
  }
  std::vector<Migration> steps(embedded_migrations().begin(), embedded_migrations().end());
  steps.push_back({steps.back().number + 1, "next", "ALTER TABLE sheet ADD COLUMN more TEXT;"});
  OpenOptions options;
  options.migrations = steps;
  const Scratch to;
  Store store(to.file(), options);
  EXPECT_EQ(store.unpack(old.bytes, source, at_minute(0)).added, old.label.rows);
}

// Bytes that nobody reads (a page's free room) may change; then what comes in is still the same.
TEST(Pack, AByteThatWasChangedIsNoticedOrChangesNothing) {
  const Scratch from;
  Store first(from.file());
  fill(first);
  const PackedJob packed = packed_wall(first);
  std::mt19937 random(20260209);
  int refused = 0;
  for (int round = 0; round < 120; ++round) {
    std::string bytes = packed.bytes;
    const std::size_t at = random() % bytes.size();
    bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ (1U << (random() % 8)));
    try {
      EXPECT_EQ(check_packed(bytes, source).content, packed.label.content) << "byte " << at;
    } catch (const RecordError& error) {
      EXPECT_EQ(error.path(), source) << error.what();
      ++refused;
    }
  }
  EXPECT_GT(refused, 15);
  for (std::size_t length = 0; length < packed.bytes.size(); length += 1771)
    EXPECT_ANY_THROW((void)check_packed(packed.bytes.substr(0, length), source)) << length;
}

// Without this a table made later would be left behind in silence.
TEST(Pack, EveryTableOfTheRecordIsPackedOrKnownToStay) {
  const Scratch scratch;
  { const Store store(scratch.file()); }
  Connection connection(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(1000));
  std::vector<std::string> tables;
  Statement names = connection.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (names.step())
    tables.push_back(names.text(0));
  EXPECT_THAT(tables, ElementsAre("closed_series", "entry", "forecast", "invoice", "job", "job_version",
                                  "past", "person", "photograph", "plan", "reckoned", "sheet"))
      << "say in src/record/job_rows.cpp whether the new table belongs to a job";
}

TEST(Pack, IsMadeBesideAWriterAndABroughtJobWaitsItsTurn) {
  const Scratch from;
  OpenOptions impatient;
  impatient.busy_timeout = std::chrono::milliseconds(30);
  Store store(from.file(), impatient);
  fill(store);
  Connection other(from.file(), Connection::Open::existing, std::chrono::milliseconds(30));
  const Transaction held(other);
  const PackedJob packed = packed_wall(store);
  const Scratch to;
  Store second(to.file(), impatient);
  Connection writer(to.file(), Connection::Open::existing, std::chrono::milliseconds(30));
  {
    const Transaction writing(writer);
    EXPECT_EQ(kind_thrown([&] { second.unpack(packed.bytes, source, at_minute(0)); }), Kind::busy);
  }
  EXPECT_TRUE(second.unpack(packed.bytes, source, at_minute(0)).fresh);
}

TEST(Pack, AFullDiskLeavesNothingHalfThere) {
  const Scratch from;
  Store first(from.file());
  fill(first);
  const PackedJob packed = packed_wall(first);
  const std::filesystem::path file = from.folder() / "wall.packed";
  for (rlim_t bytes = 0; bytes < packed.bytes.size(); bytes += 9001) {
    const FullAfter disk(bytes);
    EXPECT_EQ(kind_thrown([&] { write_new_file(file, packed.bytes); }), Kind::full) << bytes;
    EXPECT_FALSE(std::filesystem::exists(file) || std::filesystem::exists(file.string() + ".unfinished"));
  }
  write_new_file(file, packed.bytes);
  EXPECT_EQ(read_whole_file(file), packed.bytes);
  EXPECT_EQ(rights(file), 0600U);
  EXPECT_EQ(kind_thrown([&] { write_new_file(file, "other"); }), Kind::conflict);
  EXPECT_EQ(read_whole_file(file), packed.bytes);

  const Scratch to;
  { Store(to.file()).put_person("{}", 1, at_minute(0)); }
  const std::string before = everything(to.file());
  int failed = 0;
  for (rlim_t bytes = 4096; bytes < 200'000; bytes += 12'289) {
    {
      Store second(to.file());
      const FullAfter disk(bytes);
      try {
        second.unpack(packed.bytes, source, at_minute(0));
        break;
      } catch (const RecordError& error) {
        EXPECT_EQ(error.kind(), Kind::full) << error.what();
        ++failed;
      }
    }
    EXPECT_EQ(everything(to.file()), before) << bytes;
  }
  EXPECT_GT(failed, 0);
  EXPECT_THAT(Store(to.file()).unpack(packed.bytes, source, at_minute(0)).label.content,
              packed.label.content);
}

}  // namespace
}  // namespace weatherstruck::record
