// The world in the way: rights, other programs, a full disk, a failing one, damage.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <cstring>
#include <thread>

#include "record/scratch.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using Kind = RecordError::Kind;

OpenOptions impatient() {
  OpenOptions options;
  options.busy_timeout = std::chrono::milliseconds(30);
  return options;
}

void expect_numbered(Store& store, JobId job, std::int64_t count) {
  const std::vector<Entry> entries = store.entries(job);
  ASSERT_EQ(static_cast<std::int64_t>(entries.size()), count);
  for (const Entry& entry : entries)
    EXPECT_EQ(entry.body, numbered_entry(entry.revision).body);
}

TEST(ReadOnly, AFileThatMayNotBeWrittenIsReadAndRefusesWrites) {
  const Scratch scratch;
  JobId job{};
  {
    Store store(scratch.file());
    job = add_wall(store);
    store.append(job, numbered_entry(1));
  }
  const WithoutRoot guard(scratch.folder());
  ASSERT_EQ(chmod(scratch.file().c_str(), 0400), 0);
  {
    Store store(scratch.file());
    expect_numbered(store, job, 1);
    std::string text;
    EXPECT_EQ(kind_thrown([&] { store.append(job, numbered_entry(2)); }, &text), Kind::read_only);
    EXPECT_THAT(text,
                AllOf(HasSubstr("record.db: it may not be written"), HasSubstr("Give yourself the right")));
  }
  ASSERT_EQ(chmod(scratch.file().c_str(), 0600), 0);
  Store store(scratch.file());
  store.append(job, numbered_entry(2));
  expect_numbered(store, job, 2);
}

TEST(ReadOnly, AFolderThatMayNotBeWrittenIsReadAndRefusesWrites) {
  const Scratch scratch;
  { Store(scratch.file()).put_person("{}", 1, at_minute(0)); }
  const WithoutRoot guard(scratch.folder());
  ASSERT_EQ(chmod(scratch.file().parent_path().c_str(), 0500), 0);
  EXPECT_EQ(Store(scratch.file()).person().value().version, 1) << "reading goes on";
  std::string text;
  EXPECT_EQ(kind_thrown([&] { Store(scratch.file()).put_person("{}", 1, at_minute(1)); }, &text),
            Kind::read_only);
  EXPECT_THAT(text, HasSubstr("their folder"));
}

TEST(ReadOnly, ALogLeftBesideAFileThatMayNotBeWrittenIsReadToo) {
  const Scratch from;
  const Scratch scratch;
  JobId job{};
  {
    Store store(from.file());
    job = add_wall(store);
    store.append(job, numbered_entry(1));
    // As a program that was killed leaves it.
    std::filesystem::create_directory(scratch.file().parent_path());
    for (const char* end : {"", "-wal"})
      write_bytes(scratch.file().string() + end, bytes_of(from.file().string() + end));
  }
  const WithoutRoot guard(scratch.folder());
  ASSERT_EQ(chmod(scratch.file().c_str(), 0400), 0);
  Store store(scratch.file());
  expect_numbered(store, job, 1);
  EXPECT_EQ(kind_thrown([&] { store.append(job, numbered_entry(2)); }), Kind::read_only);
}

TEST(ReadOnly, AnOlderFileThatMayNotBeWrittenCannotBeBroughtUp) {
  const Scratch scratch;
  { const Store store(scratch.file()); }
  const WithoutRoot guard(scratch.folder());
  ASSERT_EQ(chmod(scratch.file().c_str(), 0400), 0);
  std::vector<Migration> steps(embedded_migrations().begin(), embedded_migrations().end());
  steps.push_back({steps.back().number + 1, "next", "CREATE TABLE extra (a INTEGER) STRICT;"});
  OpenOptions options;
  options.migrations = steps;
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file(), options); }), Kind::read_only);
}

TEST(Busy, AFileHeldByAnotherWriterIsReadAndSaysThatItIsBusy) {
  const Scratch scratch;
  Store store(scratch.file(), impatient());
  const JobId job = add_wall(store);
  Connection other(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(30));
  {
    const Transaction held(other);
    std::string text;
    EXPECT_EQ(kind_thrown([&] { store.append(job, numbered_entry(1)); }, &text), Kind::busy);
    EXPECT_THAT(text, HasSubstr("Wait for the other program or close it"));
    EXPECT_EQ(store.book_revision(job), 0);
    EXPECT_EQ(Store(scratch.file(), impatient()).book_revision(job), 0) << "it opens beside a writer";
  }
  store.append(job, numbered_entry(1));
  expect_numbered(store, job, 1);
}

TEST(Busy, AFileHeldForItselfByAnotherSaysThatItIsBusy) {
  const Scratch scratch;
  { const Store store(scratch.file()); }
  Connection other(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(30));
  other.run("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE");
  EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file(), impatient()); }), Kind::busy);
}

TEST(Busy, TwoWritersAtOnceLoseNothing) {
  const Scratch scratch;
  JobId job{};
  {
    Store store(scratch.file());
    job = add_wall(store);
  }
  constexpr std::int64_t each = 60;
  std::array<std::string, 2> faults;
  std::vector<std::thread> threads;
  for (std::size_t writer = 0; writer < faults.size(); ++writer) {
    threads.emplace_back([&, writer] {
      try {
        Store store(scratch.file());
        for (std::int64_t number = 1; number <= each; ++number) {
          NewEntry entry = numbered_entry(number);
          entry.key += writer == 0 ? " of one" : " of the other";
          if (!store.append(job, entry).added) throw std::logic_error("taken for one sent before");
          store.issue_invoice({"", job, entry.key, 0, at_minute(number)},
                              [](std::int64_t issued) { return std::to_string(issued); });
        }
      } catch (const std::exception& error) {
        faults[writer] = error.what();
      }
    });
  }
  for (std::thread& thread : threads)
    thread.join();
  EXPECT_THAT(faults, testing::Each(""));
  Store store(scratch.file());
  const std::vector<Entry> entries = store.entries(job);
  ASSERT_EQ(entries.size(), 2 * static_cast<std::size_t>(each));
  EXPECT_EQ(entries.back().revision, 2 * each);
  for (std::int64_t number = 1; number <= 2 * each; ++number)
    EXPECT_EQ(store.invoice("", number).value().bytes, std::to_string(number));
}

TEST(Full, ACapOnTheFileKeepsWhatWasThereAndSaysToMakeRoom) {
  const Scratch scratch;
  OpenOptions options;
  options.most_pages = 70;
  Store store(scratch.file(), options);
  const JobId job = add_wall(store);
  std::int64_t kept = 0;
  std::string text;
  const Kind kind = kind_thrown(
      [&] {
        for (;; ++kept)
          store.append(job, numbered_entry(kept + 1));
      },
      &text);
  EXPECT_EQ(kind, Kind::full);
  EXPECT_THAT(text, AllOf(HasSubstr("there is no room on the disk"), HasSubstr("Make room")));
  EXPECT_GE(kept, 5);
  expect_numbered(store, job, kept);
  Store roomy(scratch.file());
  roomy.check_whole();
  roomy.append(job, numbered_entry(kept + 1));
  expect_numbered(roomy, job, kept + 1);
}

// The system's own calls, replaced under SQLite: they fail with `reason` once so many bytes were written.
class FailingDisk {
 public:
  FailingDisk(std::int64_t bytes, int reason) {
    left = bytes;
    error = reason;
    set(true);
  }
  FailingDisk(const FailingDisk&) = delete;
  FailingDisk& operator=(const FailingDisk&) = delete;
  ~FailingDisk() { set(false); }

 private:
  static ssize_t allowed(ssize_t (*work)(const void*, std::size_t), const void* bytes, std::size_t size) {
    if (left >= static_cast<std::int64_t>(size)) {
      left -= static_cast<std::int64_t>(size);
      return work(bytes, size);
    }
    // A disk that fills up takes a part first.
    if (left > 0) {
      const auto part = static_cast<std::size_t>(left);
      left = 0;
      return work(bytes, part);
    }
    errno = error;
    return -1;
  }
  static ssize_t failing_pwrite(int file, const void* bytes, std::size_t size, off_t at) {
    static thread_local int to = 0;
    static thread_local off_t offset = 0;
    to = file;
    offset = at;
    return allowed([](const void* b, std::size_t s) { return ::pwrite(to, b, s, offset); }, bytes, size);
  }
  static ssize_t failing_write(int file, const void* bytes, std::size_t size) {
    static thread_local int to = 0;
    to = file;
    return allowed([](const void* b, std::size_t s) { return ::write(to, b, s); }, bytes, size);
  }
  static void set(bool failing) {
    sqlite3_vfs* vfs = sqlite3_vfs_find(nullptr);
    const auto at = reinterpret_cast<sqlite3_syscall_ptr>(&failing_pwrite);
    const auto plain = reinterpret_cast<sqlite3_syscall_ptr>(&failing_write);
    vfs->xSetSystemCall(vfs, "pwrite", failing ? at : nullptr);
    vfs->xSetSystemCall(vfs, "pwrite64", failing ? at : nullptr);
    vfs->xSetSystemCall(vfs, "write", failing ? plain : nullptr);
  }
  static inline std::int64_t left = 0;
  static inline int error = 0;
};

// Writes until the disk fails after each of many amounts; what was acknowledged must be there, whole, and
// nothing else, both at once and after opening anew.
void fail_after_every_amount(int reason, Kind expected) {
  for (std::int64_t bytes = 0; bytes < 150'000; bytes += 7'321) {
    const Scratch scratch;
    std::int64_t acknowledged = 0;
    JobId job{};
    {
      Store store(scratch.file());
      job = add_wall(store);
      {
        const FailingDisk disk(bytes, reason);
        std::string text;
        const Kind kind = kind_thrown(
            [&] {
              for (;; ++acknowledged)
                store.append(job, numbered_entry(acknowledged + 1));
            },
            &text);
        EXPECT_EQ(kind, expected) << bytes << ": " << text;
        expect_numbered(store, job, acknowledged);
      }
      store.append(job, numbered_entry(acknowledged + 1));
      expect_numbered(store, job, acknowledged + 1);
    }
    OpenOptions options;
    options.check = OpenOptions::Check::whole;
    Store again(scratch.file(), options);
    expect_numbered(again, job, acknowledged + 1);
  }
}

TEST(Full, ADiskThatFillsUpAtAnyByteKeepsWhatWasAcknowledged) {
  fail_after_every_amount(ENOSPC, Kind::full);
}

TEST(Full, AQuotaThatIsUsedUpIsFullToo) {
  fail_after_every_amount(EDQUOT, Kind::full);
}

TEST(FailingDiskUnder, KeepsWhatWasAcknowledged) {
  fail_after_every_amount(EIO, Kind::io);
}

TEST(FailingDiskUnder, ANewRecordOnAFullDiskSaysThatItIsFull) {
  for (const std::int64_t bytes : {std::int64_t{0}, std::int64_t{4096}, std::int64_t{40'000}}) {
    const Scratch scratch;
    {
      const FailingDisk disk(bytes, ENOSPC);
      EXPECT_EQ(kind_thrown([&] { const Store store(scratch.file()); }), Kind::full) << bytes;
    }
    Store store(scratch.file());
    add_wall(store);
  }
}

TEST(Damage, IsFoundWhenTheFileIsOpened) {
  const Scratch scratch;
  {
    Store store(scratch.file());
    const JobId job = add_wall(store);
    for (std::int64_t number = 1; number <= 30; ++number)
      store.append(job, numbered_entry(number));
  }
  const std::string sound = bytes_of(scratch.file());
  std::size_t found = 0;
  std::size_t tried = 0;
  for (std::size_t page = 1; (page + 1) * 4096 <= sound.size(); ++page) {
    // A page that carries on a long entry is all text, which nothing but reading it with sense could doubt.
    std::string damaged = sound;
    std::memset(damaged.data() + page * 4096, 0xA5, 64);
    write_bytes(scratch.file(), damaged);
    OpenOptions options;
    options.check = OpenOptions::Check::whole;
    ++tried;
    try {
      const Store store(scratch.file(), options);
      ADD_FAILURE() << "page " << page + 1 << " of the file was destroyed and nobody noticed";
    } catch (const RecordError& error) {
      EXPECT_EQ(error.kind(), Kind::corrupt) << error.what();
      EXPECT_THAT(error.remedy(), HasSubstr("take the newest kept copy"));
      ++found;
    }
  }
  EXPECT_EQ(found, tried);
  EXPECT_GE(tried, 30U);
}

}  // namespace
}  // namespace weatherstruck::record
