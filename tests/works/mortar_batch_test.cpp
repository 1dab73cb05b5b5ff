#include "weatherstruck/works/mortar_batch.h"

#include <gtest/gtest.h>

#include "weatherstruck/trade/materials.h"
#include "works/demo_job.h"

namespace weatherstruck::works {
namespace {

using base::Celsius;

Task laying(double sand, double hours) {
  Task task;
  task.operation = trade::Operation::lay_facing;
  task.hours = base::Hours(hours);
  task.fresh = FreshWork{FreshWork::Kind::mortar_facing, base::SquareMetres(1)};
  task.materials.push_back({"building-sand", sand});
  return task;
}

trade::LimitValues limits() {
  return trade::limits_for(trade::LimitSet::uk, trade::ColdRule::nbs).values;
}

// Mortar that takes its own volume of sand times the recipe's share: .1 m3 of it in 10 h of laying. In the 2
// h that it keeps (NBS clause) a fifth of that is laid, 20 litres; above 30 degrees, in 1 h, half of that.
TEST(MortarBatch, IsWhatIsLaidWhileItKeeps) {
  Job job = demo_job();
  job.crew = {{"mason", true, 1.0}};
  const Task task = laying(0.1 * trade::row_for(job.practice.mortar).sand_per_m3.value(), 10);
  const auto mild = mortar_batches(job, {&task}, limits(), Celsius(15));
  ASSERT_EQ(mild.size(), 1U);
  EXPECT_EQ(mild.front().life, base::Hours(2));
  EXPECT_NEAR(mild.front().laid.value(), 0.02, 1e-9);
  EXPECT_NEAR(mix_at_once(mild.front(), job.kit).value(), 0.02, 1e-9);
  const auto hot = mortar_batches(job, {&task}, limits(), Celsius(32));
  EXPECT_NEAR(hot.front().laid.value(), 0.01, 1e-9);
}

TEST(MortarBatch, GrowsWithHisPaceButNeverBeyondTheMixer) {
  Job job = demo_job();
  job.kit.mixer = base::CubicMetres(0.09);
  job.crew = {{"mason", true, 1.5}};
  const Task quick = laying(1, 4);
  const auto batches = mortar_batches(job, {&quick}, limits(), Celsius(15));
  EXPECT_GT(batches.front().laid.value(), 0.09);
  EXPECT_EQ(mix_at_once(batches.front(), job.kit).value(), 0.09);
  job.crew.front().pace = 3;
  EXPECT_NEAR(mortar_batches(job, {&quick}, limits(), Celsius(15)).front().laid.value(),
              2 * batches.front().laid.value(), 1e-9);
}

TEST(MortarBatch, OfAClassIsThatOfItsSlowestTask) {
  Job job = demo_job();
  const Task quick = laying(0.2, 4), slow = laying(0.2, 9);
  const auto batches = mortar_batches(job, {&quick, &slow}, limits(), Celsius(15));
  ASSERT_EQ(batches.size(), 1U);
  EXPECT_EQ(batches.front().laid, mortar_batches(job, {&slow}, limits(), Celsius(15)).front().laid);
}

}  // namespace
}  // namespace weatherstruck::works
