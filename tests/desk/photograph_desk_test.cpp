#include "weatherstruck/desk/photograph_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "record/scratch.h"
#include "weatherstruck/desk/book_desk.h"
#include "weatherstruck/desk/day_book_desk.h"
#include "weatherstruck/desk/export_desk.h"
#include "weatherstruck/desk/file_text.h"

namespace weatherstruck::desk {
namespace {

using record::at_minute;
using record::numbered_photograph;
using record::write_bytes;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

works::Entry expense(const std::string& key, const std::string& what, std::int64_t minor,
                     std::optional<std::string> receipt = {}, std::optional<works::EntryKey> corrects = {}) {
  const base::Money money(minor, *base::Currency::from_code("GBP"));
  return {key, works::Expense{what, money, std::move(receipt)}, at_minute(0), at_minute(1),
          std::move(corrects)};
}

class PhotographDesk : public testing::Test {
 protected:
  void SetUp() override {
    const std::string source(WEATHERSTRUCK_SOURCE_DIR);
    shelf_.add(text_of_file(source + "/fixtures/demo/job.json", "a fixture"), "job.json", zones_,
               at_minute(-9));
    open_ = shelf_.open("valley-shelter", zones_);
  }
  std::filesystem::path file(const std::string& name, const std::string& bytes) {
    std::filesystem::path path = scratch_.folder() / name;
    write_bytes(path, bytes);
    return path;
  }
  void keep(const std::vector<works::Entry>& entries) {
    keep_entries(shelf_, *open_, entries, zones_, at_minute(5));
  }
  KeptPhotographs put(const works::EntryKey& key, std::int64_t number) {
    return keep_photographs(shelf_, *open_, key,
                            {read_photograph(file("a.jpg", numbered_photograph(number)))}, at_minute(6));
  }
  [[nodiscard]] std::string receipt(const works::EntryKey& key) {
    const works::Book book = with_receipts(open_->book, photographs_of(shelf_, *open_));
    return std::get<works::Expense>(book.find(key)->what).receipt.value_or("none");
  }
  static std::string mark(std::int64_t number) {
    return record::content_of_bytes(numbered_photograph(number)).substr(0, 8);
  }
  std::string refused(const std::filesystem::path& path) {
    try {
      (void)read_photograph(path);
    } catch (const base::InputError& error) {
      const base::Fault& fault = error.faults().front();
      return fault.code + ": " + fault.found + "; " + fault.expected + "; " + fault.remedy;
    }
    return "taken";
  }

  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  files::SystemZones zones_;
  std::optional<OpenJob> open_;
};

TEST_F(PhotographDesk, WhatIsNoPictureIsRefusedWithWhatIsAllowedAndWhatToDo) {
  EXPECT_THAT(refused(scratch_.folder() / "none.jpg"), HasSubstr("no-such-file"));
  EXPECT_THAT(refused(scratch_.folder()), HasSubstr("not-a-file"));
  EXPECT_THAT(refused(file("empty.jpg", "")), HasSubstr("no-picture: an empty file"));
  EXPECT_THAT(
      refused(file("notes.jpg", "notes")),
      AllOf(HasSubstr("no-picture: a file of another kind, whatever its name"),
            HasSubstr("at most 20 MB: JPEG, PNG, WebP, HEIC or PDF"), HasSubstr("save it as one of")));
  EXPECT_THAT(refused(file("big.jpg", "\xFF\xD8\xFF" + std::string(record::most_photograph_bytes, 'x'))),
              HasSubstr("too-large: more than 20 MB"));
  const std::filesystem::path pipe = scratch_.folder() / "pipe.jpg";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_THAT(refused(pipe), HasSubstr("something other than a file")) << "and is not waited for";
  const GivenPhotograph good = read_photograph(file("good.txt", numbered_photograph(3)));
  EXPECT_EQ(good.picture.kind, record::PhotographKind::jpeg);
  EXPECT_EQ(good.bytes, numbered_photograph(3));
  EXPECT_EQ(photograph_words(good.picture), "JPEG, 24 kB");
}

TEST_F(PhotographDesk, AnExpenseHasItsPhotographForItsReceipt) {
  keep({expense("a", "cement", 3795), expense("b", "sand", 1200, "4711"), expense("c", "fuel", 900)});
  EXPECT_EQ(put("a", 1).added, 1);
  EXPECT_EQ(put("a", 2).added, 1);
  EXPECT_EQ(put("b", 3).added, 1);
  EXPECT_EQ(receipt("a"), "photographs " + mark(1) + " " + mark(2));
  EXPECT_EQ(receipt("b"), "4711, photograph " + mark(3));
  EXPECT_EQ(receipt("c"), "none");
  EXPECT_EQ(put("b", 3).there_already, 1);
  // The book itself is as it was said.
  EXPECT_EQ(std::get<works::Expense>(open_->book.find("a")->what).receipt, std::nullopt);
}

TEST_F(PhotographDesk, ACorrectionKeepsThePhotographOfWhatItStandsInFor) {
  keep({expense("a", "cement", 3795)});
  put("a", 1);
  keep({expense("b", "cement", 3975, {}, "a"), expense("c", "white cement", 3975, {}, "b")});
  put("c", 2);
  EXPECT_EQ(receipt("c"), "photographs " + mark(1) + " " + mark(2));
  const KeptDays days = kept_days(shelf_, *open_, at_minute(60));
  ASSERT_THAT(days.photographs, SizeIs(2));
  EXPECT_EQ(days.photographs[0].of, "white cement, 39.75 GBP");
  EXPECT_EQ(days.photographs[0].mark, mark(1));
  EXPECT_TRUE(days.photographs[0].costs);
  EXPECT_THAT(days.photographs[0].trouble, IsEmpty());
  // What never happened shows nothing.
  keep({{"d", works::Struck{}, at_minute(2), at_minute(3), "c"}});
  EXPECT_THAT(kept_days(shelf_, *open_, at_minute(60)).photographs, IsEmpty());
}

TEST_F(PhotographDesk, ALostFileIsToldOnTheDaySheetAndInTheExport) {
  keep({{"n", works::Note{"the gate as it was"}, at_minute(0), at_minute(1), {}}});
  put("n", 1);
  const record::Photograph photograph = shelf_.store().photographs(open_->kept->id).at(0);
  files::Json told = export_job(shelf_, *open_, at_minute(9))["photographs"].at(0);
  EXPECT_EQ(told["sha256"], photograph.content);
  EXPECT_EQ(told["state"], "whole");
  EXPECT_EQ(record::bytes_of(told["file"].get<std::string>()), numbered_photograph(1));
  std::filesystem::remove(told["file"].get<std::string>());
  EXPECT_EQ(export_job(shelf_, *open_, at_minute(9))["photographs"].at(0)["state"], "missing");
  EXPECT_THAT(
      export_tables(shelf_, *open_, at_minute(9)).back().text,
      AllOf(HasSubstr("line,entry,kind,bytes,sha256,kept_at,file,state\r\n1,"), HasSubstr(",missing\r\n")));
  const KeptDays days = kept_days(shelf_, *open_, at_minute(60));
  ASSERT_THAT(days.photographs, SizeIs(1));
  EXPECT_THAT(days.photographs[0].of, HasSubstr("the gate as it was"));
  EXPECT_FALSE(days.photographs[0].costs);
  EXPECT_EQ(
      days.photographs[0].trouble,
      "its file is missing: give the same picture again with \"weatherstruck log valley-shelter --photo FILE "
      "--line 1\"");
  put("n", 1);
  EXPECT_THAT(kept_days(shelf_, *open_, at_minute(60)).photographs.at(0).trouble, IsEmpty());
}

TEST_F(PhotographDesk, AnEntryThatIsRefusedKeepsNoPhotograph) {
  const GivenPhotograph given = read_photograph(file("a.jpg", numbered_photograph(1)));
  EXPECT_THROW(shelf_.store().in_one([&] {
    keep({expense("a", "cement", 3795)});
    keep_photographs(shelf_, *open_, "a", {given}, at_minute(6));
    keep({expense("b", "", 100)});
  }),
               base::InputError);
  EXPECT_THAT(shelf_.open("valley-shelter", zones_).book.entries(), IsEmpty());
  EXPECT_TRUE(std::filesystem::is_empty(record::photographs_folder(scratch_.file())));
}

}  // namespace
}  // namespace weatherstruck::desk
