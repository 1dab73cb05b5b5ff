// A job packed away and brought in by commands, and what is said of a record that is damaged.
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

class PackCommand : public testing::Test {
 protected:
  void SetUp() override {
    EXPECT_EQ(laptop_.say({"job", "add", in_source("fixtures/demo/job.json")}).code, ExitCode::ok);
    file_ = laptop_.in_folder("shelter.packed");
  }
  Machine laptop_;
  Machine other_;
  const std::string job_ = "valley-shelter";
  std::string file_;
};

std::string mark_in(const std::string& text) {
  const std::string before = "mark is ";
  std::string flat = text;
  std::replace(flat.begin(), flat.end(), '\n', ' ');
  const std::size_t at = flat.find(before);
  return at == std::string::npos ? "" : flat.substr(at + before.size(), 14);
}

TEST_F(PackCommand, AJobIsTakenToAnotherMachineAndBothShowOneMark) {
  const Ended packed = laptop_.say({"pack", job_, file_});
  ASSERT_EQ(packed.code, ExitCode::ok) << packed.err;
  EXPECT_THAT(packed.out, AllOf(HasSubstr("kB): 1 document. Read"), HasSubstr("mark is")));
  const Ended brought = other_.say({"unpack", file_});
  ASSERT_EQ(brought.code, ExitCode::ok) << brought.err;
  EXPECT_THAT(brought.out, HasSubstr("Brought in the job \"valley-shelter\""));
  EXPECT_EQ(mark_in(brought.out), mark_in(packed.out));
  EXPECT_EQ(mark_in(packed.out).size(), 14U);
  EXPECT_EQ(other_.say({"job", "show", job_}).out, laptop_.say({"job", "show", job_}).out);
  EXPECT_THAT(other_.say({"unpack", file_}).out, HasSubstr("nothing was to be done"));
}

TEST_F(PackCommand, WhatCannotBeDoneIsSaidAndNothingIsWrittenOver) {
  EXPECT_EQ(laptop_.say({"pack", job_, file_}).code, ExitCode::ok);
  const std::string bytes = text_of(file_);
  const Ended again = laptop_.say({"pack", job_, file_});
  EXPECT_EQ(again.code, ExitCode::failed);
  EXPECT_THAT(again.err, HasSubstr("a file of this name is there"));
  EXPECT_EQ(text_of(file_), bytes);
  EXPECT_EQ(laptop_.say({"pack", "nobody"}).code, ExitCode::invalid);
  EXPECT_EQ(laptop_.say({"pack", in_source("fixtures/demo/job.json")}).code, ExitCode::usage);
  EXPECT_THAT(other_.say({"unpack", other_.in_folder("none.packed")}).err, HasSubstr("it cannot be opened"));
  EXPECT_THAT(other_.say({"unpack", in_source("fixtures/demo/job.json")}).err,
              HasSubstr("it is no packed job"));
  EXPECT_THAT(other_.say({"unpack", file_, "--json"}).out, HasSubstr("\"fresh\": true"));
}

TEST_F(PackCommand, ADamagedRecordIsToldWithTheCommandThatTakesACopyBack) {
  record::write_bytes(laptop_.record(), std::string(30'000, '\xA5'));
  const Ended list = laptop_.say({"job", "list"});
  EXPECT_EQ(list.code, ExitCode::failed);
  EXPECT_THAT(list.err, AllOf(HasSubstr("The copy of 2026-02-08 is good"),
                              HasSubstr("cp copies/record-2026-02-08.db"), Not(HasSubstr("kept copy"))));
  // A packed job that is damaged says nothing of the record.
  record::write_bytes(file_, "nothing of the kind");
  EXPECT_THAT(other_.say({"unpack", file_}).err, Not(HasSubstr("copies")));
}

TEST_F(PackCommand, ACopyThatCannotBeMadeStopsNothing) {
  std::filesystem::remove_all(laptop_.record().parent_path() / "copies");
  record::write_bytes(laptop_.record().parent_path() / "copies", "in the way");
  const Ended logged = laptop_.say({"log", job_, "did all of bed-dig at 16:10", "--yes"});
  EXPECT_EQ(logged.code, ExitCode::ok) << logged.err << logged.out;
  EXPECT_THAT(logged.err, HasSubstr("no copy of the record could be made"));
  EXPECT_THAT(laptop_.say({"job", "list"}).err, IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::app
