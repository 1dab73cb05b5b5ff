#include "weatherstruck/desk/shelf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "record/scratch.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::desk {
namespace {

using record::at_minute;
using testing::ElementsAre;
using testing::HasSubstr;

class Shelved : public testing::Test {
 protected:
  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  files::SystemZones zones_;
  std::string blank_ = files::blank_job();

  [[nodiscard]] std::string name_of_blank() { return read_open_job(blank_, "blank", zones_).job.name; }
  static std::string refusal(const std::function<void()>& work) {
    try {
      work();
    } catch (const base::InputError& error) {
      return error.what();
    }
    return "taken";
  }
};

TEST_F(Shelved, AWordWithADotOrASlashIsAFile) {
  EXPECT_TRUE(is_path("shed.json"));
  EXPECT_TRUE(is_path("./shed"));
  EXPECT_FALSE(is_path("shed-2"));
}

TEST_F(Shelved, AFileIsOpenedWithoutTouchingTheRecord) {
  Shelf shelf([]() -> std::filesystem::path { throw std::logic_error("the record was opened"); });
  EXPECT_THAT(refusal([&] { (void)shelf.open("/no/such/job.json", zones_); }), HasSubstr("no such file"));
  EXPECT_EQ(shelf.opened(), nullptr);
}

TEST_F(Shelved, KeepsAJobAndOpensItByName) {
  const std::string name = name_of_blank();
  const OpenJob added = shelf_.add(blank_, "blank.json", zones_, at_minute(0));
  EXPECT_EQ(added.source, name);
  ASSERT_TRUE(added.kept);
  const OpenJob open = shelf_.open(name, zones_);
  ASSERT_TRUE(open.kept);
  EXPECT_EQ(open.kept->id, added.kept->id);
  EXPECT_EQ(open.kept->version, 1);
  EXPECT_EQ(open.document, blank_);
  EXPECT_EQ(open.book.size(), 0U);
  EXPECT_THAT(shelf_.names(), ElementsAre(name));
}

TEST_F(Shelved, RefusesATakenNameAndAnUnknownOneWithTheNearest) {
  const std::string name = name_of_blank();
  (void)shelf_.add(blank_, "blank.json", zones_, at_minute(0));
  EXPECT_THAT(refusal([&] { (void)shelf_.add(blank_, "blank.json", zones_, at_minute(1)); }),
              HasSubstr("kept already"));
  EXPECT_THAT(refusal([&] { (void)shelf_.open(name + "x", zones_); }), HasSubstr(name + "\""));
  EXPECT_THAT(refusal([&] { (void)shelf_.open("q", zones_); }), HasSubstr("job list"));
}

TEST_F(Shelved, AFaultyDocumentLeavesNothing) {
  EXPECT_THAT(refusal([&] { (void)shelf_.add("{}", "x.json", zones_, at_minute(0)); }), HasSubstr("x.json"));
  EXPECT_TRUE(shelf_.names().empty());
}

TEST_F(Shelved, ReplacingMakesANewVersionAndKeepsTheBook) {
  const std::string name = name_of_blank();
  const OpenJob added = shelf_.add(blank_, "blank.json", zones_, at_minute(0));
  const works::What note = works::Note{"gate is locked"};
  (void)shelf_.store().append(added.kept->id, {"k1", files::kind_of(note), at_minute(1), "Europe/London",
                                               at_minute(2), files::body_of(note).dump(), std::nullopt});
  const OpenJob again = shelf_.replace(name, blank_, zones_, at_minute(3));
  ASSERT_TRUE(again.kept);
  EXPECT_EQ(again.kept->version, 2);
  EXPECT_EQ(again.kept->book_revision, 1);
  ASSERT_EQ(again.book.size(), 1U);
  EXPECT_EQ(again.book.entries().front().what, note);
  EXPECT_THAT(refusal([&] { (void)shelf_.replace("other", blank_, zones_, at_minute(4)); }),
              HasSubstr("document"));
}

TEST_F(Shelved, ACorrectionComesBackNamingTheEntryItCorrects) {
  const OpenJob added = shelf_.add(blank_, "blank.json", zones_, at_minute(0));
  const works::What note = works::Note{"3 courses"};
  const auto put = [&](const std::string& key, const works::What& what, std::optional<record::EntryId> of) {
    return shelf_.store().append(added.kept->id, {key, files::kind_of(what), at_minute(1), "Europe/London",
                                                  at_minute(2), files::body_of(what).dump(), of});
  };
  const record::Appended first = put("k1", note, std::nullopt);
  put("k2", works::Struck{}, first.entry.id);
  const OpenJob open = shelf_.open(name_of_blank(), zones_);
  ASSERT_EQ(open.book.size(), 2U);
  EXPECT_EQ(open.book.entries()[1].corrects, "k1");
  EXPECT_TRUE(works::effective(open.book).entries.empty());
}

}  // namespace
}  // namespace weatherstruck::desk
