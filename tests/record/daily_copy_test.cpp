#include "weatherstruck/record/daily_copy.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "record/scratch.h"
#include "weatherstruck/record/folder.h"

namespace weatherstruck::record {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;

constexpr std::int64_t day = 24 * 60;

std::vector<std::string> names(const std::filesystem::path& record) {
  std::vector<std::string> found;
  for (const std::filesystem::path& copy : daily_copies(record))
    found.push_back(copy.filename().string());
  return found;
}

// One use of the program: opens, notes something, keeps the copy.
bool use(const Scratch& scratch, std::int64_t minute) {
  Store store(scratch.file());
  const auto job = store.job("wall");
  const JobId id = job ? job->id : add_wall(store);
  store.append(id, numbered_entry(store.book_revision(id) + 1));
  return keep_daily_copy(store, at_minute(minute));
}

std::int64_t lines_in(const std::filesystem::path& file) {
  Store store(file);
  return store.book_revision(store.job("wall").value().id);
}

TEST(DailyCopy, TheFirstUseOfADayKeepsOneAndNoLaterUseDoes) {
  const Scratch scratch;
  EXPECT_TRUE(use(scratch, 0));
  EXPECT_FALSE(use(scratch, 5));
  EXPECT_TRUE(use(scratch, day));
  EXPECT_THAT(names(scratch.file()), ElementsAre("record-2026-02-10.db", "record-2026-02-09.db"));
  EXPECT_EQ(lines_in(daily_copies(scratch.file()).front()), 3);
  EXPECT_EQ(lines_in(daily_copies(scratch.file()).back()), 1);
  EXPECT_EQ(rights(daily_copies(scratch.file()).front()), 0600U);
  EXPECT_EQ(rights(copies_folder(scratch.file())), 0700U);
}

TEST(DailyCopy, LookingKeepsNone) {
  const Scratch scratch;
  use(scratch, 0);
  Store store(scratch.file());
  store.in_one([&] { EXPECT_EQ(store.job_names().size(), 1U); });
  EXPECT_FALSE(keep_daily_copy(store, at_minute(day)));
  EXPECT_THAT(names(scratch.file()), SizeIs(1));
}

TEST(DailyCopy, AnInvoiceIsInTheCopyOfItsDay) {
  const Scratch scratch;
  use(scratch, 0);
  {
    Store store(scratch.file());
    store.issue_invoice({"2026", store.job("wall").value().id, "one", 1, at_minute(9)},
                        [](std::int64_t) { return std::string("bytes"); });
    EXPECT_TRUE(keep_daily_copy(store, at_minute(10)));
  }
  EXPECT_THAT(names(scratch.file()), SizeIs(1));
  EXPECT_TRUE(Store(daily_copies(scratch.file()).front()).invoice("2026", 1));
}

TEST(DailyCopy, TenStay) {
  const Scratch scratch;
  make_private_folder(copies_folder(scratch.file()));
  for (const int earlier : {27, 28, 29, 30, 31})
    write_bytes(copies_folder(scratch.file()) / ("record-2026-01-" + std::to_string(earlier) + ".db"), "");
  for (int earlier = 1; earlier <= 8; ++earlier)
    write_bytes(copies_folder(scratch.file()) / ("record-2026-02-0" + std::to_string(earlier) + ".db"), "");
  EXPECT_TRUE(use(scratch, 0));
  EXPECT_THAT(names(scratch.file()), SizeIs(daily_copies_kept));
  EXPECT_EQ(names(scratch.file()).front(), "record-2026-02-09.db");
  EXPECT_EQ(names(scratch.file()).back(), "record-2026-01-31.db");
}

TEST(DailyCopy, FilesOfOtherNamesAreLeftAlone) {
  const Scratch scratch;
  use(scratch, 0);
  const std::filesystem::path folder = copies_folder(scratch.file());
  for (const char* name : {"record-mine-0000.db", "record-2026-02-09.db.bak", "notes.txt"})
    write_bytes(folder / name, "mine");
  // As a program that was killed leaves it.
  write_bytes(folder / "record-2026-02-10.db.unfinished", "half");
  EXPECT_TRUE(use(scratch, day));
  EXPECT_FALSE(std::filesystem::exists(folder / "record-2026-02-10.db.unfinished"));
  EXPECT_THAT(names(scratch.file()), SizeIs(2));
  EXPECT_EQ(bytes_of(folder / "notes.txt"), "mine");
}

TEST(DailyCopy, WhereNoneCanBeKeptTheRecordStaysAsItIs) {
  const Scratch scratch;
  {
    Store store(scratch.file());
    add_wall(store);
    write_bytes(copies_folder(scratch.file()), "a file where the folder should be");
    EXPECT_THROW(keep_daily_copy(store, at_minute(0)), RecordError);
  }
  EXPECT_EQ(Store(scratch.file()).job_names().size(), 1U);
}

TEST(DailyCopy, OnItsDayOpeningReadsNothingThroughAndDamageIsToldWhereItIsMet) {
  const Scratch scratch;
  {
    Store store(scratch.file());
    const JobId job = add_wall(store);
    for (std::int64_t number = 1; number <= 30; ++number)
      store.append(job, numbered_entry(number));
    EXPECT_FALSE(is_copied(scratch.file(), at_minute(0)));
    EXPECT_TRUE(keep_daily_copy(store, at_minute(0)));
  }
  EXPECT_TRUE(is_copied(scratch.file(), at_minute(5)));
  EXPECT_FALSE(is_copied(scratch.file(), at_minute(day)));
  const std::string sound = bytes_of(scratch.file());
  int opened = 0;
  int met = 0;
  for (std::size_t page = 1; (page + 1) * 4096 <= sound.size(); ++page) {
    std::string damaged = sound;
    damaged.replace(page * 4096, 64, 64, '\xA5');
    write_bytes(scratch.file(), damaged);
    OpenOptions another_day;
    OpenOptions this_day;
    this_day.check = OpenOptions::Check::copied;
    bool told = false;
    try {
      const Store store(scratch.file(), another_day);
    } catch (const RecordError& error) {
      told = error.kind() == RecordError::Kind::corrupt;
    }
    if (!told) continue;
    try {
      Store store(scratch.file(), this_day);
      ++opened;
      // Where the damage is not in what is read, what is read is true.
      EXPECT_THAT(store.entries(store.job("wall").value().id), SizeIs(30));
    } catch (const RecordError& error) {
      EXPECT_EQ(error.kind(), RecordError::Kind::corrupt) << error.what();
      ++met;
    }
  }
  EXPECT_GT(opened, 0);
  EXPECT_GT(met, 0);
}

TEST(WayBack, TheLatestGoodCopyIsTakenBackByTheCommandInTheMessage) {
  const Scratch scratch;
  use(scratch, 0);
  use(scratch, day);
  use(scratch, 2 * day);
  // The newest copy is spoilt as well, and the log of the damaged record is still there.
  const std::filesystem::path newest = daily_copies(scratch.file()).front();
  write_bytes(newest, bytes_of(newest).substr(0, 9000));
  write_bytes(scratch.file(), std::string(20'000, 'x'));
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file()); }), RecordError::Kind::not_ours);
  write_bytes(scratch.file().string() + "-wal", "a log of what is destroyed");
  const std::string words = way_back(scratch.file());
  EXPECT_THAT(words, AllOf(HasSubstr("The copy of 2026-02-10 is good"), HasSubstr("log that again")));
  const std::size_t from = words.find("  cd ");
  const std::string command = words.substr(from, words.find('\n', from) - from);
  ASSERT_EQ(std::system(command.c_str()), 0) << command;
  EXPECT_EQ(lines_in(scratch.file()), 2);
  EXPECT_EQ(bytes_of(scratch.file().parent_path() / "damaged" / "record.db-wal"),
            "a log of what is destroyed");
  EXPECT_THAT(names(scratch.file()), SizeIs(3)) << "the copies stay where they are";
  EXPECT_THAT(way_back(scratch.file()), HasSubstr("mkdir damaged-2"));
}

TEST(WayBack, WithoutACopyItSaysSo) {
  const Scratch scratch;
  EXPECT_THAT(way_back(scratch.file()), HasSubstr("There is no good copy"));
}

}  // namespace
}  // namespace weatherstruck::record
