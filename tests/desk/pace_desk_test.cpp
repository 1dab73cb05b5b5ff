#include "weatherstruck/desk/pace_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "record/scratch.h"
#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/files/job_writer.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::desk {
namespace {

using record::at_minute;
using testing::HasSubstr;
using testing::IsEmpty;
using works::Begin;
using works::Done;
using works::Whole;

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::logic_error("not there: " + from);
  return text.replace(at, from.size(), to);
}

class Paced : public testing::Test {
 protected:
  record::Scratch scratch_;
  files::SystemZones zones_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  OpenJob past_ = shelf_.add(files::blank_job(), "past", zones_, at_minute(0));
  OpenJob next_ = shelf_.add(later("next"), "next", zones_, at_minute(0));
  base::Instant leave_ = past_.job.trip.leave_home;
  works::Task dig_ = first_dig();

  static std::string later(const std::string& name) {
    std::string text = with(files::blank_job(), "\"my-job\"", "\"" + name + "\"");
    text = with(std::move(text), "2026-03-02T06:00", "2026-05-04T06:00");
    return with(std::move(text), "2026-03-05T20:00", "2026-05-07T20:00");
  }
  [[nodiscard]] works::Task first_dig() const {
    for (const works::Task& task : works::derive_tasks(past_.job).tasks) {
      if (task.operation == trade::Operation::dig) return task;
    }
    throw std::logic_error("nothing to dig");
  }
  void put(const OpenJob& job, const std::string& key, base::Instant at, const works::What& what) {
    (void)shelf_.store().append(job.kept->id, {key, files::kind_of(what), at, "Europe/London", at,
                                               files::body_of(what).dump(), std::nullopt});
  }
  /// So many times the norm's hours, from the morning of that day after setting off.
  void dig(const OpenJob& job, int day, double times) {
    const base::Instant from = job.job.trip.leave_home + std::chrono::hours(3 + 24 * day);
    const double norm = (dig_.hours + dig_.set_up).value();
    put(job, "begin-dig", from, Begin{dig_.name});
    put(job, "done-dig", from + std::chrono::seconds(std::lround(3600 * norm * times)),
        Done{dig_.name, Whole{}});
  }
  [[nodiscard]] double hours_of_dig(const std::string& job) {
    return works::derive_tasks(shelf_.open(job, zones_).job).find(dig_.name)->hours.value();
  }
};

// One task moves the mean half way, so 1.44 times the norm makes it 1.2.
TEST_F(Paced, AJobsHoursGoByWhatWasLoggedOnTheJobBefore) {
  EXPECT_DOUBLE_EQ(hours_of_dig("next"), dig_.hours.value());
  dig(past_, 0, 1.44);
  EXPECT_NEAR(hours_of_dig("next"), 1.2 * dig_.hours.value(), 1e-3);
  EXPECT_DOUBLE_EQ(hours_of_dig("my-job"), dig_.hours.value()) << "its own trip does not move it";
  const auto learnt = own_paces(shelf_.store(), zones_, leave_ + std::chrono::days(30));
  ASSERT_EQ(learnt.size(), 1U);
  EXPECT_EQ(learnt[0].operation, trade::Operation::dig);
  EXPECT_THAT(own_paces(shelf_.store(), zones_, leave_), IsEmpty()) << "not dug yet";
}

TEST_F(Paced, WhatComesLaterIsTakenUpAndWhatWasReckonedIsKept) {
  dig(past_, 0, 1.44);
  (void)hours_of_dig("next");
  // The book goes on: the hours were wrong, he says that evening.
  const auto rows = shelf_.store().entries(past_.kept->id);
  const works::What right = Begin{dig_.name};
  const base::Instant at = rows[0].at - std::chrono::hours(1);
  (void)shelf_.store().append(
      past_.kept->id, {"begin-2", files::kind_of(right), at, "Europe/London", at + std::chrono::hours(12),
                       files::body_of(right).dump(), rows[0].id});
  const double norm = (dig_.hours + dig_.set_up).value();
  EXPECT_NEAR(hours_of_dig("next"), std::sqrt((norm * 1.44 + 1) / norm) * dig_.hours.value(), 1e-3);
  EXPECT_EQ(timed_on_jobs(shelf_.store(), zones_), timed_on_jobs(shelf_.store(), zones_));
}

TEST_F(Paced, ForgettingBeginsAgainFromTheNorm) {
  dig(past_, 0, 1.44);
  const base::Instant now = leave_ + std::chrono::days(20);
  try {
    forget_pace(shelf_.store(), zones_, "dig", now);
    FAIL() << "nobody to forget it of";
  } catch (const base::InputError& error) {
    EXPECT_THAT(error.what(), HasSubstr("weatherstruck me"));
  }
  const char* const him =
      R"({"weatherstruck": 1, "me": {"name": "Ifan", "home_zone": "Europe/London"}, "crew": [{"name": "mason"}]})";
  (void)shelf_.store().put_person(him, files::me_schema_version, at_minute(0));
  forget_pace(shelf_.store(), zones_, "lay-facing", now);
  EXPECT_NEAR(hours_of_dig("next"), 1.2 * dig_.hours.value(), 1e-3) << "another kind of work";
  forget_pace(shelf_.store(), zones_, "dig", now);
  EXPECT_DOUBLE_EQ(hours_of_dig("next"), dig_.hours.value());
  EXPECT_THAT(own_paces(shelf_.store(), zones_, now), IsEmpty());
  try {
    forget_pace(shelf_.store(), zones_, "lay-facin", now);
    FAIL() << "no such work";
  } catch (const base::InputError& error) {
    EXPECT_THAT(error.what(), HasSubstr("lay-facing"));
  }
}

}  // namespace
}  // namespace weatherstruck::desk
