#include "weatherstruck/record/photographs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "record/full_after.h"
#include "record/scratch.h"
#include "weatherstruck/record/folder.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using Kind = RecordError::Kind;
namespace fs = std::filesystem;

EntryId put_entry(Store& store, JobId job, std::int64_t number) {
  return store.append(job, numbered_entry(number)).entry.id;
}

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(folder, none))
    names.push_back(entry.path().filename().string());
  return names;
}

TEST(PhotographKinds, AreToldByTheirFirstBytesAndNotByTheirName) {
  const auto kind = [](std::string_view bytes) { return photograph_kind(bytes); };
  EXPECT_EQ(kind("\xFF\xD8\xFF\xE1 Exif"), PhotographKind::jpeg);
  EXPECT_EQ(kind("\x89PNG\r\n\x1A\n...."), PhotographKind::png);
  EXPECT_EQ(kind(std::string_view("RIFF\x10\0\0\0WEBPVP8 ", 16)), PhotographKind::webp);
  EXPECT_EQ(kind(std::string_view("\0\0\0\x18"
                                  "ftypheic\0\0\0\0",
                                  16)),
            PhotographKind::heic);
  EXPECT_EQ(kind("%PDF-1.7\n"), PhotographKind::pdf);
  EXPECT_EQ(kind(std::string_view("\0\0\0\x18"
                                  "ftypisom\0\0\0\0",
                                  16)),
            std::nullopt)
      << "a film";
  EXPECT_EQ(kind("RIFF....WAVEfmt "), std::nullopt) << "a sound";
  for (const std::string_view other : {"", "\xFF", "RIFF", "GIF89a", "photo.jpg", "    ftyp"})
    EXPECT_EQ(kind(other), std::nullopt) << other;
  for (const PhotographKind one : {PhotographKind::jpeg, PhotographKind::png, PhotographKind::webp,
                                   PhotographKind::heic, PhotographKind::pdf})
    EXPECT_EQ(photograph_kind_named(word_of(one)), one);
  EXPECT_EQ(photograph_kind_named("gif"), std::nullopt);
  EXPECT_EQ(photograph_kinds_allowed(), "JPEG, PNG, WebP, HEIC or PDF");
}

// FIPS 180-4's example: the hash of "abc".
TEST(Photographs, AreNamedByTheirBytes) {
  EXPECT_EQ(content_of_bytes("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  Photograph photograph;
  photograph.content = content_of_bytes("abc");
  photograph.kind = PhotographKind::pdf;
  EXPECT_EQ(mark_of(photograph), "ba7816bf");
  EXPECT_EQ(photograph_file("/home/rhys/record.db", photograph),
            "/home/rhys/photographs/ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad.pdf");
}

TEST(Photographs, AreKeptWithALineAndBelongToTheirOwnerAlone) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  put_entry(store, job, 1);
  const EntryId second = put_entry(store, job, 2);
  const std::string bytes = numbered_photograph(3);
  const KeptPhotograph kept = store.keep_photograph(job, second, bytes, at_minute(7));
  EXPECT_TRUE(kept.added);
  EXPECT_EQ(kept.photograph.line, 2);
  const fs::path file = photograph_file(scratch.file(), kept.photograph);
  EXPECT_EQ(bytes_of(file), bytes);
  EXPECT_EQ(rights(file), 0600U);
  EXPECT_EQ(rights(file.parent_path()), 0700U);
  const std::vector<Photograph> all = store.photographs(job);
  ASSERT_THAT(all, SizeIs(1));
  EXPECT_EQ(all[0].entry, second);
  EXPECT_EQ(all[0].content, content_of_bytes(bytes));
  EXPECT_EQ(all[0].kind, PhotographKind::jpeg);
  EXPECT_EQ(all[0].size, static_cast<std::int64_t>(bytes.size()));
  EXPECT_EQ(all[0].kept_at, at_minute(7));
  EXPECT_THAT(store.lost_photographs(job), IsEmpty());
}

TEST(Photographs, TheSamePictureIsOneFileAndWithOneLineOneRow) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  const EntryId one = put_entry(store, job, 1);
  const EntryId other = put_entry(store, job, 2);
  store.keep_photograph(job, one, numbered_photograph(3), at_minute(7));
  const KeptPhotograph again = store.keep_photograph(job, one, numbered_photograph(3), at_minute(9));
  EXPECT_FALSE(again.added);
  EXPECT_EQ(again.photograph.kept_at, at_minute(7));
  store.keep_photograph(job, other, numbered_photograph(3), at_minute(9));
  EXPECT_THAT(store.photographs(job), SizeIs(2));
  EXPECT_THAT(names_in(photographs_folder(scratch.file())), SizeIs(1));
}

TEST(Photographs, WhatIsNoPictureOrOfNoLineIsRefusedAndLeavesNothing) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  const EntryId line = put_entry(store, job, 1);
  std::string text;
  EXPECT_EQ(kind_thrown([&] { store.keep_photograph(job, line, "notes", at_minute(7)); }, &text),
            Kind::conflict);
  EXPECT_THAT(text, HasSubstr("the photograph is no JPEG, PNG, WebP, HEIC or PDF"));
  const std::string big = "\xFF\xD8\xFF" + std::string(most_photograph_bytes, 'x');
  EXPECT_EQ(kind_thrown([&] { store.keep_photograph(job, line, big, at_minute(7)); }), Kind::conflict);
  EXPECT_EQ(
      kind_thrown([&] { store.keep_photograph(job, EntryId{9}, numbered_photograph(1), at_minute(7)); }),
      Kind::conflict);
  EXPECT_THAT(store.photographs(job), IsEmpty());
  EXPECT_THAT(names_in(photographs_folder(scratch.file())), IsEmpty());
}

TEST(Photographs, WhereTheTransactionFailsNeitherRowNorNewFileStays) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  const EntryId line = put_entry(store, job, 1);
  store.keep_photograph(job, line, numbered_photograph(1), at_minute(7));
  EXPECT_THROW(store.in_one([&] {
    const EntryId next = put_entry(store, job, 2);
    store.keep_photograph(job, next, numbered_photograph(1), at_minute(8));
    store.keep_photograph(job, next, numbered_photograph(2), at_minute(8));
    throw std::runtime_error("thought better of it");
  }),
               std::runtime_error);
  EXPECT_EQ(store.book_revision(job), 1);
  EXPECT_THAT(store.photographs(job), SizeIs(1));
  EXPECT_THAT(names_in(photographs_folder(scratch.file())), SizeIs(1)) << "that of the first line";
  EXPECT_THAT(store.lost_photographs(job), IsEmpty());
}

TEST(Photographs, LostOnesAreToldAndThePictureGivenAgainPutsThemRight) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  std::vector<EntryId> lines;
  for (std::int64_t number = 1; number <= 3; ++number) {
    lines.push_back(put_entry(store, job, number));
    store.keep_photograph(job, lines.back(), numbered_photograph(number), at_minute(number));
  }
  const std::vector<Photograph> all = store.photographs(job);
  const auto file = [&](std::size_t i) { return photograph_file(scratch.file(), all[i]); };
  fs::remove(file(0));
  std::string changed = bytes_of(file(1));
  changed.back() = '!';
  write_bytes(file(1), changed);
  std::vector<LostPhotograph> lost = store.lost_photographs(job);
  ASSERT_THAT(lost, SizeIs(2));
  EXPECT_EQ(lost[0].photograph.line, 1);
  EXPECT_EQ(words_of(lost[0].state), "missing");
  EXPECT_EQ(lost[1].photograph.line, 2);
  EXPECT_EQ(words_of(lost[1].state), "changed since it was kept");
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_FALSE(store
                     .keep_photograph(job, lines[i], numbered_photograph(static_cast<std::int64_t>(i) + 1),
                                      at_minute(9))
                     .added);
  }
  EXPECT_THAT(store.lost_photographs(job), IsEmpty());
  EXPECT_THAT(store.photographs(job), SizeIs(3));
  // A file cut short, and a folder in its place.
  write_bytes(file(2), "\xFF\xD8\xFF");
  EXPECT_EQ(state_of(scratch.file(), all[2]), PhotographState::changed);
  fs::remove(file(2));
  fs::create_directory(file(2));
  EXPECT_EQ(state_of(scratch.file(), all[2]), PhotographState::unreadable);
}

TEST(Photographs, WhatAKilledProgramLeftUnfinishedIsClearedByTheNext) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  const EntryId line = put_entry(store, job, 1);
  const fs::path folder = photographs_folder(scratch.file());
  make_private_folder(folder);
  write_bytes(folder / "0123.jpg.unfinished", "half a pic");
  store.keep_photograph(job, line, numbered_photograph(1), at_minute(7));
  EXPECT_THAT(names_in(folder), ElementsAre(content_of_bytes(numbered_photograph(1)) + ".jpg"));
}

TEST(PhotographsInTrouble, AFullDiskKeepsWhatWasThereAndNothingOfTheNewLine) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  store.keep_photograph(job, put_entry(store, job, 1), numbered_photograph(1), at_minute(1));
  const std::string picture = "\xFF\xD8\xFF" + std::string(400'000, 'p');
  int failed = 0;
  // The record itself is smaller than any of these.
  for (rlim_t bytes = 250'000; bytes < 400'000; bytes += 30'011) {
    const FullAfter disk(bytes);
    std::string text;
    EXPECT_EQ(kind_thrown(
                  [&] {
                    store.in_one(
                        [&] { store.keep_photograph(job, put_entry(store, job, 2), picture, at_minute(2)); });
                  },
                  &text),
              Kind::full);
    EXPECT_THAT(text, AllOf(HasSubstr("photographs/"), HasSubstr("Make room")));
    ++failed;
    EXPECT_EQ(store.book_revision(job), 1);
    EXPECT_THAT(names_in(photographs_folder(scratch.file())), SizeIs(1));
  }
  EXPECT_GT(failed, 3);
  store.keep_photograph(job, put_entry(store, job, 2), picture, at_minute(2));
  EXPECT_THAT(store.lost_photographs(job), IsEmpty());
}

TEST(PhotographsInTrouble, AFolderThatMayNotBeWrittenIsToldAndTheLineIsNotKept) {
  const Scratch scratch;
  Store store(scratch.file());
  const JobId job = add_wall(store);
  store.keep_photograph(job, put_entry(store, job, 1), numbered_photograph(1), at_minute(1));
  const fs::path folder = photographs_folder(scratch.file());
  {
    const WithoutRoot guard(scratch.folder());
    ASSERT_EQ(chmod(folder.c_str(), 0500), 0);
    std::string text;
    EXPECT_EQ(kind_thrown(
                  [&] {
                    store.in_one([&] {
                      store.keep_photograph(job, put_entry(store, job, 2), numbered_photograph(2),
                                            at_minute(2));
                    });
                  },
                  &text),
              Kind::read_only);
    EXPECT_THAT(text, AllOf(HasSubstr("photographs/"), HasSubstr("Give yourself the right")));
    EXPECT_EQ(store.book_revision(job), 1);
    EXPECT_THAT(store.lost_photographs(job), IsEmpty()) << "those that are there can be read";
    ASSERT_EQ(chmod(folder.c_str(), 0700), 0);
  }
  // A file where the folder should be.
  fs::remove_all(folder);
  write_bytes(folder, "");
  EXPECT_ANY_THROW(store.in_one(
      [&] { store.keep_photograph(job, put_entry(store, job, 2), numbered_photograph(2), at_minute(2)); }));
  EXPECT_EQ(store.book_revision(job), 1);
}

TEST(PhotographsInTrouble, WhileAnotherProgramWritesNothingIsWrittenAtAll) {
  const Scratch scratch;
  OpenOptions impatient;
  impatient.busy_timeout = std::chrono::milliseconds(30);
  Store store(scratch.file(), impatient);
  const JobId job = add_wall(store);
  const EntryId line = put_entry(store, job, 1);
  Connection other(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(30));
  {
    const Transaction held(other);
    std::string text;
    EXPECT_EQ(
        kind_thrown([&] { store.keep_photograph(job, line, numbered_photograph(1), at_minute(1)); }, &text),
        Kind::busy);
    EXPECT_THAT(text, HasSubstr("Wait for the other program"));
    EXPECT_THAT(names_in(photographs_folder(scratch.file())), IsEmpty());
  }
  EXPECT_TRUE(store.keep_photograph(job, line, numbered_photograph(1), at_minute(1)).added);
}

}  // namespace
}  // namespace weatherstruck::record
