// Photographs of receipts, from the command that keeps them to the sheets, the bill and the other machine.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "app/machine.h"
#include "app/run_binary.h"

namespace weatherstruck::app {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

class Photographs : public testing::Test {
 protected:
  void SetUp() override {
    EXPECT_EQ(home_.say({"job", "add", in_source("fixtures/demo/job.json")}).code, ExitCode::ok);
    record::write_bytes(receipt_, record::numbered_photograph(7));
  }
  Ended log(std::vector<std::string> words) const {
    words.insert(words.begin(), {"log", job_});
    words.insert(words.end(), {"--now", "2026-02-09T18:00"});
    return home_.say(words);
  }
  [[nodiscard]] std::string book() const { return log({}).out; }
  [[nodiscard]] std::string record_sheet(std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"sheet", job_, "record", "--now", "2026-02-09T18:00"});
    return home_.say(more).out;
  }
  [[nodiscard]] std::filesystem::path kept() const {
    return record::photographs_folder(home_.record()) /
           (record::content_of_bytes(record::numbered_photograph(7)) + ".jpg");
  }

  Machine home_;
  const std::string job_ = "valley-shelter";
  const std::string receipt_ = home_.in_folder("receipt.jpg");
  const std::string mark_ = record::content_of_bytes(record::numbered_photograph(7)).substr(0, 8);
};

// Lines are broken to the page.
std::string flat(std::string text) {
  std::string out;
  for (const char c : text) {
    const char one = c == '\n' ? ' ' : c;
    if (one != ' ' || out.empty() || out.back() != ' ') out += one;
  }
  return out;
}

TEST_F(Photographs, AReceiptGoesWithWhatWasSpentAndIsShownWithIt) {
  const Ended said = log({"bought cement for 37.95 at 10:20", "--photo", receipt_, "--yes"});
  ASSERT_EQ(said.code, ExitCode::ok) << said.err;
  EXPECT_THAT(said.out, AllOf(HasSubstr("With it: receipt.jpg (JPEG, 56 kB), " + mark_ + "."),
                              HasSubstr("Kept: 1 entry; 1 photograph.")));
  EXPECT_EQ(record::bytes_of(kept()), record::numbered_photograph(7));
  EXPECT_THAT(flat(book()), HasSubstr("receipt photograph " + mark_));
  EXPECT_THAT(home_.say({"log", job_, "--json"}).out,
              AllOf(HasSubstr("\"" + record::content_of_bytes(record::numbered_photograph(7)) + "\""),
                    Not(HasSubstr("receipt\": \"photograph"))));
  EXPECT_THAT(flat(record_sheet()),
              AllOf(HasSubstr("Cement, 37.95 GBP, receipt photograph " + mark_),
                    HasSubstr("Photographs: 10:20 cement, 37.95 GBP: " + mark_ + " (JPEG, 56 kB)")));
  EXPECT_THAT(record_sheet({"--for-customer"}), Not(HasSubstr(mark_)));
  EXPECT_THAT(record_sheet({"--for-customer", "--with", "photographs"}), Not(HasSubstr(mark_)))
      << "what it shows is costs";
  EXPECT_THAT(record_sheet({"--for-customer", "--with", "photographs", "--with", "costs"}), HasSubstr(mark_));
  EXPECT_THAT(home_.say({"export", job_}).out, HasSubstr("\"state\": \"whole\""));
  // The same said again is the same line, and the same picture one file.
  EXPECT_THAT(log({"bought cement for 37.95 at 10:20", "--photo", receipt_, "--yes"}).out,
              HasSubstr("Kept: 0 entries, 1 there already; 0 photographs, 1 there already."));
}

TEST_F(Photographs, OneMoreGoesWithALineAndWithTheOnlyExpenseAmongSeveral) {
  EXPECT_EQ(log({"bought cement for 37.95 at 10:20; did set-out by 8:30", "--photo", receipt_, "--yes"}).code,
            ExitCode::ok);
  EXPECT_THAT(flat(book()), HasSubstr("receipt photograph " + mark_));
  EXPECT_EQ(log({"note the gate is locked", "--yes"}).code, ExitCode::ok);
  const Ended with = log({"--photo", receipt_, "--line", "3"});
  ASSERT_EQ(with.code, ExitCode::ok) << with.err;
  EXPECT_THAT(with.out, AllOf(HasSubstr("With line 3: receipt.jpg"), HasSubstr("Kept: 1 photograph.")));
  EXPECT_THAT(flat(book()), HasSubstr("the gate is locked (photograph " + mark_ + ")"));
  EXPECT_THAT(log({"--photo", receipt_, "--line", "3", "--json"}).out,
              HasSubstr("\"photographs_there_already\": 1"));
}

TEST_F(Photographs, WhatCannotBeKeptIsSaidAndTheEntryIsNotKeptEither) {
  const std::string notes = home_.in_folder("notes.jpg");
  record::write_bytes(notes, "notes");
  const Ended wrong = log({"bought cement for 37.95", "--photo", notes, "--yes"});
  EXPECT_EQ(wrong.code, ExitCode::invalid);
  EXPECT_THAT(flat(wrong.err), HasSubstr("JPEG, PNG, WebP, HEIC or PDF"));
  EXPECT_EQ(log({"bought cement for 37.95", "--photo", home_.in_folder("none.jpg"), "--yes"}).code,
            ExitCode::invalid);
  EXPECT_EQ(log({"did set-out by 8:30; note wet", "--photo", receipt_, "--yes"}).code, ExitCode::usage);
  EXPECT_EQ(log({"--photo", receipt_}).code, ExitCode::usage);
  EXPECT_EQ(log({"--photo", receipt_, "--line", "9"}).code, ExitCode::usage);
  EXPECT_EQ(log({"--line", "1"}).code, ExitCode::usage);
  EXPECT_EQ(log({"--photo", receipt_, "--strike", "1"}).code, ExitCode::usage);
  EXPECT_THAT(book(), HasSubstr("Nothing is in it yet"));
  // Where the picture cannot be written.
  record::write_bytes(record::photographs_folder(home_.record()), "a file");
  const Ended stuck = log({"bought cement for 37.95", "--photo", receipt_, "--yes"});
  EXPECT_EQ(stuck.code, ExitCode::failed);
  EXPECT_THAT(stuck.err, HasSubstr("photographs"));
  EXPECT_THAT(book(), HasSubstr("Nothing is in it yet"));
}

TEST_F(Photographs, AreTakenToAnotherMachineAndLostOnesStopThePacking) {
  log({"bought cement for 37.95 at 10:20", "--photo", receipt_, "--yes"});
  const std::string file = home_.in_folder("shelter.packed");
  EXPECT_THAT(home_.say({"pack", job_, file}).out, HasSubstr("1 photograph. Read back"));
  const Machine van;
  EXPECT_THAT(flat(van.say({"unpack", file}).out), HasSubstr("1 line of the book, 1 photograph. Compared"));
  EXPECT_EQ(record::bytes_of(record::photographs_folder(van.record()) / kept().filename()),
            record::numbered_photograph(7));

  std::filesystem::remove(kept());
  EXPECT_THAT(flat(record_sheet()), HasSubstr("its file is missing: give the same picture again"));
  const std::string second = home_.in_folder("second.packed");
  const Ended refused = home_.say({"pack", job_, second});
  EXPECT_EQ(refused.code, ExitCode::failed);
  EXPECT_THAT(refused.err, AllOf(HasSubstr("1 of the job's photographs is lost: line 1, "),
                                 HasSubstr("(missing)"), HasSubstr("--without-lost")));
  EXPECT_FALSE(std::filesystem::exists(second));
  const Ended without = home_.say({"pack", job_, second, "--without-lost"});
  EXPECT_EQ(without.code, ExitCode::ok) << without.err;
  EXPECT_THAT(flat(without.out), HasSubstr("lost and not in it: line 1, " + mark_ + " (missing)."));
  const Machine third;
  EXPECT_THAT(flat(third.say({"unpack", second}).out), HasSubstr("lost where it was packed"));
  EXPECT_THAT(flat(home_.say({"unpack", file}).out), HasSubstr("one photograph that was lost was put back"));
  EXPECT_TRUE(std::filesystem::exists(kept()));
}

TEST_F(Photographs, AReceiptThatWasPhotographedIsBilledAndOneThatWasNotIsAskedFor) {
  ASSERT_EQ(home_
                .say({"me", "--all", "--now", "2026-02-08T19:00"},
                     text_of(in_source("fixtures/demo/me-answers.txt")))
                .code,
            ExitCode::ok);
  const auto draft = [&] { return flat(home_.say({"invoice", job_, "--now", "2026-02-09T18:00"}).out); };
  log({"bought cement for 37.95 at 10:20", "--yes"});
  const std::string before = draft();
  log({"--photo", receipt_, "--line", "1"});
  const std::string after = draft();
  EXPECT_THAT(before, HasSubstr("Is there a receipt for \"cement\""));
  EXPECT_THAT(after, Not(HasSubstr("Is there a receipt")));
  EXPECT_THAT(after, HasSubstr("Cement (receipt photograph " + mark_ + "), at cost"));
}

}  // namespace
}  // namespace weatherstruck::app
