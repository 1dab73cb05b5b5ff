// Photographs in a packed job.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "record/full_after.h"
#include "record/scratch.h"
#include "weatherstruck/base/digest.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using Kind = RecordError::Kind;
namespace fs = std::filesystem;

const fs::path source{"wall.packed"};

// Three lines with a photograph each, the third the same as the first.
JobId fill(Store& store) {
  const JobId job = add_wall(store);
  for (std::int64_t number = 1; number <= 3; ++number) {
    const EntryId line = store.append(job, numbered_entry(number)).entry.id;
    store.keep_photograph(job, line, numbered_photograph(number % 3 == 0 ? 1 : number), at_minute(number));
  }
  return job;
}

PackedJob pack(Store& store, LostOnes lost = LostOnes::refuse) {
  return store.pack(store.job("wall").value().id, "wall", "0.1.0", at_minute(60), lost);
}

fs::path file_of(Store& store, std::size_t which) {
  return photograph_file(store.path(), store.photographs(store.job("wall").value().id).at(which));
}

std::size_t files_in(const fs::path& folder) {
  std::error_code none;
  std::size_t count = 0;
  for (const auto& entry : fs::directory_iterator(folder, none))
    count += entry.is_regular_file() ? 1U : 0U;
  return count;
}

TEST(PackedPhotographs, ComeAlongAndArePackedToTheSameBytesAgain) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  const JobId job = fill(first);
  const PackedJob packed = pack(first);
  EXPECT_EQ(packed.label.rows.photographs, 3);
  EXPECT_THAT(packed.lost, IsEmpty());
  EXPECT_EQ(check_packed(packed.bytes, source).content, packed.label.content);
  Store second(to.file());
  const Unpacked done = second.unpack(packed.bytes, source, at_minute(70));
  EXPECT_EQ(done.added.photographs, 3);
  EXPECT_EQ(done.photograph_files, 2);
  EXPECT_THAT(done.lost, IsEmpty());
  EXPECT_EQ(files_in(photographs_folder(to.file())), 2U);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(bytes_of(file_of(second, i)), bytes_of(file_of(first, i)));
    EXPECT_EQ(rights(file_of(second, i)), 0600U);
  }
  EXPECT_TRUE(pack(second).bytes == packed.bytes);
  // Once more changes nothing; a later one brings what was added.
  EXPECT_EQ(second.unpack(packed.bytes, source, at_minute(80)).added, PackedRows{});
  first.keep_photograph(job, first.entries(job).front().id, numbered_photograph(9), at_minute(90));
  const Unpacked more = second.unpack(pack(first).bytes, source, at_minute(91));
  EXPECT_EQ(more.added, (PackedRows{0, 0, 0, 0, 0, 0, 1}));
  EXPECT_EQ(more.photograph_files, 1);
  // What went on here is not put back.
  EXPECT_EQ(kind_thrown([&] { second.unpack(packed.bytes, source, at_minute(92)); }), Kind::conflict);
}

TEST(PackedPhotographs, LostOnesAreToldWithTheirLinesAndLeftOutOnlyWhenToldSo) {
  const Scratch from;
  Store first(from.file());
  fill(first);
  const PackedJob whole = pack(first);
  const fs::path lost = file_of(first, 0);
  const std::string picture = bytes_of(lost);
  fs::remove(lost);
  write_bytes(file_of(first, 1), "\xFF\xD8\xFF");
  std::string text;
  EXPECT_EQ(kind_thrown([&] { (void)pack(first); }, &text), Kind::corrupt);
  EXPECT_THAT(text, AllOf(HasSubstr("3 of the job's photographs are lost: line 1, " +
                                    lost.filename().string() + " (missing); line 2, "),
                          HasSubstr("(changed since it was kept)"),
                          HasSubstr("log wall --photo FILE --line 1"), HasSubstr("--without-lost")));
  const PackedJob rest = pack(first, LostOnes::leave_out);
  EXPECT_THAT(rest.lost, SizeIs(3));
  EXPECT_NE(rest.label.content, whole.label.content);
  EXPECT_EQ(check_packed(rest.bytes, source).rows.photographs, 3) << "that there were some is a fact";
  const Scratch to;
  Store second(to.file());
  const Unpacked done = second.unpack(rest.bytes, source, at_minute(70));
  EXPECT_THAT(done.lost, SizeIs(3));
  EXPECT_EQ(done.photograph_files, 0);
  // An earlier packed file that has them puts them back, here and where they were lost.
  EXPECT_EQ(second.unpack(whole.bytes, source, at_minute(71)).photograph_files, 2);
  EXPECT_EQ(first.unpack(whole.bytes, source, at_minute(71)).photograph_files, 2);
  EXPECT_EQ(bytes_of(lost), picture);
  EXPECT_THAT(first.lost_photographs(first.job("wall").value().id), IsEmpty());
  EXPECT_TRUE(pack(second).bytes == whole.bytes);
}

TEST(PackedPhotographs, AByteOfAPictureThatWasChangedIsNoticed) {
  const Scratch from;
  const Scratch to;
  Store first(from.file());
  fill(first);
  const PackedJob packed = pack(first);
  Store second(to.file());
  const std::size_t at = packed.bytes.find(std::string(200, 'B'));
  ASSERT_NE(at, std::string::npos);
  std::string bytes = packed.bytes;
  bytes[at + 100] = 'x';
  EXPECT_EQ(kind_thrown([&] { second.unpack(bytes, source, at_minute(70)); }), Kind::corrupt);
  EXPECT_THAT(second.job_names(), IsEmpty());
  EXPECT_FALSE(fs::exists(photographs_folder(to.file())));
}

std::string lengthy(char sort, const std::string& text) {
  std::string out(1, sort);
  for (unsigned shift = 0; shift < 64; shift += 8)
    out += static_cast<char>(text.size() >> shift & 0xFFU);
  return out + text;
}

std::string digest(const std::string& bytes) {
  const base::Sha256 hash = base::sha256(bytes);
  return {hash.begin(), hash.end()};
}

// The packed file with its rows changed by `sql`, and the hash and seal made anew as its label has them.
std::string sealed_anew(const fs::path& file, const std::string& bytes, const std::string& sql) {
  write_bytes(file, bytes);
  {
    Connection forged(file, Connection::Open::existing, std::chrono::milliseconds(1000));
    forged.run(sql);
    std::string all;
    Statement tables = forged.prepare(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'packed' ORDER BY name");
    while (tables.step()) {
      Statement rows = forged.prepare("SELECT * FROM " + tables.text(0) + " ORDER BY rowid");
      while (rows.step()) {
        std::string said = tables.text(0);
        for (int i = 0; i < rows.columns(); ++i) {
          said += lengthy('c', rows.column_name(i));
          const Value value = rows.value(i);
          if (const auto* number = std::get_if<std::int64_t>(&value)) {
            said += 'n';
            for (unsigned shift = 0; shift < 64; shift += 8)
              said += static_cast<char>(static_cast<std::uint64_t>(*number) >> shift & 0xFFU);
          } else if (const auto* text = std::get_if<std::string>(&value)) {
            said += lengthy('t', *text);
          } else if (const auto* blob = std::get_if<Blob>(&value)) {
            said += lengthy('b', blob->bytes);
          } else {
            said += '-';
          }
        }
        all += digest(said);
      }
    }
    const std::string content = content_of_bytes(all);
    const std::string label = forged.text(
        "SELECT job || char(10) || place || char(10) || program || char(10) || made_at FROM packed");
    forged.run("UPDATE packed SET content = '" + content + "', seal = '" +
               content_of_bytes(label + "\n" + content) + "'");
  }
  return bytes_of(file);
}

// Whoever makes a file of his own can seal it, and still cannot have one picture taken for another.
TEST(PackedPhotographs, AFileSealedAnewWithAnotherPictureUnderTheNameIsRefused) {
  const Scratch from;
  Store first(from.file());
  fill(first);
  const PackedJob packed = pack(first);
  const fs::path file = from.folder() / "made.packed";
  EXPECT_EQ(check_packed(sealed_anew(file, packed.bytes, ""), source).content, packed.label.content);
  for (const char* change : {"UPDATE photograph_bytes SET bytes = x'FFD8FF00' WHERE rowid = 1",
                             "UPDATE photograph_bytes SET bytes = CAST('notes' AS BLOB) WHERE rowid = 1",
                             "INSERT INTO photograph_bytes VALUES ('../../elsewhere', x'FFD8FF')"}) {
    const std::string bytes = sealed_anew(file, packed.bytes, change);
    const Scratch to;
    Store second(to.file());
    std::string text;
    EXPECT_EQ(kind_thrown([&] { second.unpack(bytes, source, at_minute(70)); }, &text), Kind::corrupt)
        << change;
    EXPECT_THAT(text, HasSubstr("is not the one that was packed")) << change;
    EXPECT_THAT(second.job_names(), IsEmpty());
    EXPECT_FALSE(fs::exists(photographs_folder(to.file())));
  }
}

TEST(PackedPhotographs, AFullDiskOrAFolderThatMayNotBeWrittenBringsNothingIn) {
  const Scratch from;
  Store first(from.file());
  const JobId job = add_wall(first);
  const EntryId line = first.append(job, numbered_entry(1)).entry.id;
  for (const char fill_with : {'p', 'q'})
    first.keep_photograph(job, line, "\xFF\xD8\xFF" + std::string(600'000, fill_with), at_minute(1));
  const PackedJob packed = pack(first);
  const Scratch to;
  Store second(to.file());
  second.put_person("{}", 1, at_minute(0));
  std::string text;
  {
    const FullAfter disk(500'000);
    EXPECT_EQ(kind_thrown([&] { second.unpack(packed.bytes, source, at_minute(0)); }, &text), Kind::full)
        << text;
  }
  EXPECT_THAT(second.job_names(), IsEmpty());
  EXPECT_EQ(files_in(photographs_folder(to.file())), 0U);
  fs::create_directories(photographs_folder(to.file()));
  {
    const WithoutRoot guard(to.folder());
    ASSERT_EQ(chmod(photographs_folder(to.file()).c_str(), 0500), 0);
    EXPECT_EQ(kind_thrown([&] { second.unpack(packed.bytes, source, at_minute(0)); }, &text),
              Kind::read_only);
    ASSERT_EQ(chmod(photographs_folder(to.file()).c_str(), 0700), 0);
  }
  EXPECT_THAT(second.job_names(), IsEmpty());
  EXPECT_EQ(second.unpack(packed.bytes, source, at_minute(0)).photograph_files, 2);
}

}  // namespace
}  // namespace weatherstruck::record
