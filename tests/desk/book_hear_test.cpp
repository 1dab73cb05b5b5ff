// What a text comes to by how the job stands.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "record/scratch.h"
#include "weatherstruck/desk/book_desk.h"

namespace weatherstruck::desk {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

base::Instant at(int day, int hour, int minute = 0) {
  return std::chrono::sys_days(std::chrono::year(2026) / 2 / day) + std::chrono::hours(hour) +
         std::chrono::minutes(minute);
}
std::string text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

class Heard : public testing::Test {
 protected:
  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  files::SystemZones zones_;
  OpenJob open_ = shelf_.add(text_of(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/job.json"),
                             "job.json", zones_, at(8, 20));

  HeardText hear_at(const std::string& words, base::Instant now, const programme::Plan* plan = nullptr) {
    HearRequest request{words, now, *base::Currency::from_code("GBP")};
    request.plan = plan;
    return hear(open_, works::standing_of(open_.job, open_.book, now), request);
  }
  void keep(const std::string& words, base::Instant now) {
    const HeardText heard = hear_at(words, now);
    EXPECT_THAT(heard.doubts, IsEmpty()) << words;
    std::vector<works::Entry> entries;
    for (const Ready& ready : heard.ready)
      entries.push_back(ready.entry);
    keep_entries(shelf_, open_, entries, zones_, now);
  }
  static std::vector<works::Name> done_in(const HeardText& heard) {
    std::vector<works::Name> tasks;
    for (const Ready& ready : heard.ready) {
      if (const auto* done = std::get_if<works::Done>(&ready.entry.what)) tasks.push_back(done->task);
    }
    return tasks;
  }
  static programme::Plan planned(const works::Name& task, base::Instant from, base::Instant to) {
    programme::Plan plan;
    programme::PlannedTask one;
    one.task = task;
    programme::PlannedRun run;
    run.span = {from, to};
    one.runs.push_back(run);
    plan.tasks.push_back(one);
    return plan;
  }
};

TEST_F(Heard, AFinishedTaskIsNotMeantWhereAnotherFits) {
  keep("finished shelter-below at 12", at(10, 13));
  const HeardText heard = hear_at("did 2 courses on the shelter at 4", at(10, 17));
  EXPECT_THAT(done_in(heard), ElementsAre("shelter-lay"));
  EXPECT_THAT(heard.ready.front().sentence, HasSubstr("Taken so, since shelter-below is finished."));
}

TEST_F(Heard, WhatCannotHaveBegunIsNotMeant) {
  keep("did shelter-lines by 11", at(10, 12));
  const HeardText heard = hear_at("did 2 courses on the shelter at 4", at(10, 17));
  EXPECT_THAT(done_in(heard), ElementsAre("shelter-below"));
  EXPECT_THAT(heard.ready.front().sentence, HasSubstr("since shelter-lay cannot have begun."));
}

TEST_F(Heard, WhatHasNotSoMuchLeftIsNotMeant) {
  keep("did shelter-lines by 9, did 1 course of shelter-below by 10", at(10, 12));
  const works::Standing standing = works::standing_of(open_.job, open_.book, at(10, 12));
  const std::size_t of_it = standing.list.find("shelter-below")->courses.size();
  const HeardText heard =
      hear_at("did " + std::to_string(of_it) + " courses on the shelter at 4", at(10, 17));
  EXPECT_THAT(done_in(heard), ElementsAre("shelter-lay"));
  EXPECT_THAT(heard.ready.front().sentence, HasSubstr("shelter-below has less than that left."));
}

TEST_F(Heard, OfTwoThatCouldBeTheOnePlannedForThenIsMeant) {
  const std::string words = "did the pointing by 4";
  EXPECT_THAT(hear_at(words, at(10, 17)).doubts, SizeIs(1));
  const programme::Plan plan = planned("bed-lay-point", at(10, 14), at(10, 18));
  const HeardText heard = hear_at(words, at(10, 17), &plan);
  EXPECT_THAT(done_in(heard), ElementsAre("bed-lay-point"));
  EXPECT_THAT(heard.ready.front().sentence, HasSubstr("since the plan has it then."));
}

TEST_F(Heard, APartAloneDoesNotSayWhichOfItsWork) {
  EXPECT_THAT(hear_at("bed finished", at(10, 17)).doubts, SizeIs(1));
  keep("did path-dig by 8, did path-wheel by 9", at(10, 12));
  EXPECT_THAT(hear_at("path finished", at(10, 17)).doubts, SizeIs(1));
  EXPECT_THAT(done_in(hear_at("half of the path", at(10, 17))), ElementsAre("path-subbase"));
}

TEST_F(Heard, TheSameTextSaysWhatWasFinishedAndTheOrderDoesNotMatter) {
  for (const char* words : {"finished shelter-below at 12, did 2 courses on the shelter at 4",
                            "did 2 courses on the shelter at 4, finished shelter-below at 12"}) {
    EXPECT_THAT(done_in(hear_at(words, at(10, 17))),
                testing::UnorderedElementsAre("shelter-below", "shelter-lay"))
        << words;
  }
}

TEST_F(Heard, TheSameWordsSentAgainMeanTheSameThoughTheJobHasGoneOn) {
  keep("did shelter-lines by 8", at(10, 9));
  for (const char* words : {"did 2 courses on the shelter at 10", "did all of the shelter courses"}) {
    keep(words, at(10, 12));
    const std::size_t lines = open_.book.size();
    keep(words, at(10, 13));
    EXPECT_EQ(open_.book.size(), lines) << words;
  }
}

TEST_F(Heard, TheTrenchesAreThoseNotDugYet) {
  keep("did shelter-north-dig by 10", at(10, 12));
  const HeardText heard = hear_at("dug the shelter trenches by 3", at(10, 17));
  EXPECT_THAT(done_in(heard),
              testing::UnorderedElementsAre("shelter-east-dig", "shelter-south-dig", "shelter-west-dig"));
}

TEST_F(Heard, ItIsThePieceWorkedOnLastAndTheCoverTheOneInThePlan) {
  keep("did bed-pour by 3", at(10, 16));
  EXPECT_THAT(hear_at("covered it at 4", at(10, 17)).doubts, SizeIs(1));
  programme::Plan plan;
  programme::PlannedCover cover;
  for (const works::Task& task : works::standing_of(open_.job, open_.book, at(10, 17)).list.tasks) {
    if (task.name == "bed-pour") cover.part = task.part;
  }
  cover.kind = trade::CoverKind::hessian_and_sheet;
  cover.span = {at(10, 15), at(11, 9)};
  plan.covers.push_back(cover);
  const HeardText heard = hear_at("covered it at 4", at(10, 17), &plan);
  ASSERT_THAT(heard.ready, SizeIs(1));
  EXPECT_EQ(heard.ready.front().entry.what,
            works::What(works::CoverOn{"bed", trade::CoverKind::hessian_and_sheet}));
}

TEST_F(Heard, ACorrectionIsNotSettledByWhatItCorrects) {
  keep("did shelter-below by 12", at(10, 13));
  HearRequest request{"did 2 courses on the shelter at 12", at(10, 14), *base::Currency::from_code("GBP")};
  request.corrects = open_.book.entries().front().key;
  EXPECT_THAT(hear(open_, works::standing_of(open_.job, open_.book, at(10, 14)), request).doubts, SizeIs(1));
}

}  // namespace
}  // namespace weatherstruck::desk
