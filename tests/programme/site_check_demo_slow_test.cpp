// The planner's own plans of the demonstration's job, held against the site checker.
#include <gtest/gtest.h>

#include "programme/demo_week.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/programme/site_check.h"
#include "works/demo_job.h"

namespace weatherstruck::programme {
namespace {

struct Case {
  works::Job job = works::demo_job();
  sky::Series weather = demo_week();
};

/// Every objection, a line each; empty: the plan may be followed.
std::string said_of(const Case& c) {
  std::vector<trade::LimitSetting> settings;
  for (const works::LimitOverride& o : c.job.limits.overrides)
    settings.push_back({o.key, o.value});
  const trade::LimitValues limits =
      trade::limits_for(c.job.limits.set, c.job.limits.cold_rule, settings).values;
  const works::TaskList list = works::derive_tasks(c.job);
  const PlanResult result = make_plan({c.job, list, c.weather, limits, c.job.trip.leave_home});
  std::string said;
  for (const Objection& o : check_on_site(c.job, list, c.weather, limits, result.plan)) {
    said += o.code + " " + o.task + " " + base::iso_utc(o.at) + ": " + o.text + "\n";
  }
  return said;
}

TEST(SiteCheckOfPlans, TheDemonstrationsPlanMayBeFollowed) {
  EXPECT_EQ(said_of({}), "");
}

}  // namespace
}  // namespace weatherstruck::programme
