#include "weatherstruck/desk/export_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <map>
#include <optional>

#include "record/scratch.h"

namespace weatherstruck::desk {
namespace {

using record::at_minute;
using testing::HasSubstr;
using testing::StartsWith;

class Exported : public testing::Test {
 protected:
  void SetUp() override {
    std::ifstream in(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/job.json");
    const std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    shelf_.add(text, "job.json", zones_, at_minute(0));
    shelf_.replace("valley-shelter", text + "\n", zones_, at_minute(5));
    open_ = shelf_.open("valley-shelter", zones_);
    record::Store& store = shelf_.store();
    const auto first = store.append(
        open_->kept->id,
        {"a", "note", at_minute(1), "Europe/London", at_minute(2), R"({"text": "wet, cold"})", {}});
    store.append(open_->kept->id, {"b", "note", at_minute(1), "Europe/London", at_minute(3),
                                   R"({"text": "dry"})", first.entry.id});
    store.put_sheet({open_->kept->id, {}, "calendar", at_minute(4), R"({"events": []})"});
    store.issue_invoice({"2026", open_->kept->id, "k", 2, at_minute(9)},
                        [](std::int64_t) { return R"({"schema": "weatherstruck/invoice"})"; });
  }

  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  files::SystemZones zones_;
  std::optional<OpenJob> open_;
};

TEST_F(Exported, OneDocumentHoldsEverythingAndCorrectionsToo) {
  const files::Json all = export_job(shelf_, *open_, at_minute(10));
  EXPECT_EQ(all["schema"], "weatherstruck/job-export");
  EXPECT_EQ(all["exported_at"], "2026-02-09T08:10:00Z");
  ASSERT_EQ(all["documents"].size(), 2U);
  EXPECT_EQ(all["documents"][1]["version"], 2);
  EXPECT_EQ(all["documents"][0]["document"]["job"]["name"], "valley-shelter");
  ASSERT_EQ(all["book"].size(), 2U);
  EXPECT_EQ(all["book"][0]["says"]["text"], "wet, cold");
  EXPECT_EQ(all["book"][0]["corrects"], nullptr);
  EXPECT_EQ(all["book"][1]["corrects"], all["book"][0]["id"]);
  EXPECT_EQ(all["calendar"]["events"].size(), 0U);
  EXPECT_EQ(all["invoices"][0]["paper"]["schema"], "weatherstruck/invoice");
  EXPECT_EQ(all["plan"], nullptr);
  EXPECT_EQ(all["me"], nullptr);
  EXPECT_EQ(export_job(shelf_, *open_, at_minute(10)), all);
}

TEST_F(Exported, TablesHaveARowForEachThing) {
  std::map<std::string, std::string> tables;
  // Invoices are read as invoices for their table; the stand-in of this test is none.
  EXPECT_THROW((void)export_tables(shelf_, *open_, at_minute(10)), base::InputError);
  record::Scratch elsewhere;
  Shelf plain([&] { return elsewhere.file(); });
  std::ifstream in(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/job.json");
  plain.add({std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()}, "job.json", zones_,
            at_minute(0));
  const OpenJob open = plain.open("valley-shelter", zones_);
  plain.store().append(
      open.kept->id,
      {"a", "note", at_minute(1), "Europe/London", at_minute(2), R"({"text": "wet, cold"})", {}});
  for (NamedTable& table : export_tables(plain, open, at_minute(10)))
    tables[table.name] = std::move(table.text);
  EXPECT_EQ(tables["book.csv"],
            "revision,id,kind,at,zone,noted_at,corrects,says\r\n"
            "1,1,note,2026-02-09T08:01:00Z,Europe/London,2026-02-09T08:02:00Z,,\"{\"\"text\"\": \"\"wet, "
            "cold\"\"}\"\r\n");
  EXPECT_THAT(tables["work.csv"], StartsWith("task,part,title,amount,unit,person_hours,done,"));
  EXPECT_THAT(tables["work.csv"], HasSubstr("\r\nset-out,"));
  EXPECT_THAT(tables["materials.csv"], HasSubstr("\r\ncement,"));
  EXPECT_EQ(tables["plan.csv"], "task,title,from,to,people,share,courses_after,under_canopy\r\n");
  EXPECT_EQ(tables["covers.csv"], "part,title,cover,square_metres,from,to,stays_on\r\n");
  EXPECT_THAT(tables["invoices.csv"], StartsWith("row,paper,number,"));
}

}  // namespace
}  // namespace weatherstruck::desk
