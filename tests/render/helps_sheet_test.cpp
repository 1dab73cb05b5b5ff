#include "weatherstruck/render/helps_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "weatherstruck/works/task_list.h"
#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;

programme::Help help(programme::Cure::Kind kind, int good, double gain, double error) {
  programme::Help made;
  made.kind = kind;
  made.home = works::demo_job().trip.home_by;
  made.in_hand = std::chrono::hours(2);
  made.outlook.weathers = 100;
  made.outlook.home_and_sound = good;
  made.gain = gain;
  made.error = error;
  return made;
}

TEST(HelpsSheet, RanksWhatShowsAndOnlyNamesWhatDoesNot) {
  const works::Job job = works::demo_job();
  const works::TaskList list = works::derive_tasks(job);
  const sky::Series series;
  const auto limits = trade::limits_for(job.limits.set, job.limits.cold_rule);
  const programme::Plan plan;
  const TripFacts facts{job, list, series, limits.values, plan, job.trip.leave_home, {}};
  programme::Helps helps;
  helps.as_it_is = help({}, 30, 0, 0.01);
  helps.as_it_is.left_out = 1;
  helps.helps = {help(programme::Cure::Kind::labourer, 60, 0.3, 0.05),
                 help(programme::Cure::Kind::lights, 31, 0.01, 0.02)};
  const std::string text = helps_sheet(facts, helps, Ink::plain);
  EXPECT_THAT(text, HasSubstr("one task left out"));
  EXPECT_THAT(text, HasSubstr("With a labourer"));
  EXPECT_THAT(text, HasSubstr("30 points more, give or take 5."));
  EXPECT_THAT(text, HasSubstr("No difference"));
  EXPECT_THAT(text, Not(HasSubstr("With lights:")));
  EXPECT_THAT(text, HasSubstr("with lights"));
}

}  // namespace
}  // namespace weatherstruck::render
