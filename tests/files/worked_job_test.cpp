// The job that docs/quantities-worked.md works by hand. The figures are read from that page: tables of
// courses, and lines such as "= front below: 63".
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "files/job_support.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/quantities.h"
#include "weatherstruck/works/shortage.h"

namespace weatherstruck::files {
namespace {

const std::string& page() {
  static const std::string text = file_text("docs/quantities-worked.md");
  return text;
}

/// The figure that stands behind "= WHAT: ".
double by_hand(const std::string& what) {
  std::istringstream lines(page());
  const std::string head = "= " + what + ": ";
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind(head, 0) == 0) return std::stod(line.substr(head.size()));
  }
  ADD_FAILURE() << "the page has no line \"" << head << "\"";
  return std::nan("");
}

struct Row {
  double below;
  double seen;
};
/// Rows "| wall | 1 | 5.5 | 0 | ... |" in their order.
std::vector<Row> courses_by_hand(const std::string& wall) {
  std::vector<Row> rows;
  std::istringstream lines(page());
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("| " + wall + " | ", 0) != 0) continue;
    std::vector<std::string> cells;
    std::istringstream parts(line);
    for (std::string cell; std::getline(parts, cell, '|');)
      cells.push_back(cell);
    EXPECT_EQ(std::stoul(cells.at(2)), rows.size() + 1) << line;
    rows.push_back({std::stod(cells.at(3)), std::stod(cells.at(4))});
  }
  return rows;
}

const works::Job& job() {
  static const works::Job one = [] {
    const auto document = read(file_text("fixtures/worked/corner.json"));
    EXPECT_TRUE(document.job) << all_texts(document.faults);
    return document.job.value();
  }();
  return one;
}
const works::Bill& bill() {
  static const works::Bill one = works::bill_of(job());
  return one;
}
const works::TotalLine& line(const std::string& material) {
  for (const works::TotalLine& one : bill().totals) {
    if (one.material == material) return one;
  }
  throw std::logic_error("no line " + material);
}
double laid(const std::string& part, bool below) {
  double sum = 0;
  for (const works::WallBricks& wall : bill().walls) {
    if (wall.part == part) sum += below ? wall.count.laid_below : wall.count.laid_facing;
  }
  return sum;
}

TEST(WorkedJob, EveryCourseAgreesToTheBrick) {
  for (const std::string wall : {"front", "side"}) {
    const std::vector<Row> rows = courses_by_hand(wall);
    ASSERT_FALSE(rows.empty()) << wall;
    for (const works::WallBricks& one : bill().walls) {
      if (one.wall != wall) continue;
      ASSERT_EQ(one.count.courses.size(), rows.size()) << wall;
      for (std::size_t i = 0; i < rows.size(); ++i) {
        EXPECT_EQ(one.count.courses[i].laid_below, rows[i].below) << wall << " course " << i + 1;
        EXPECT_EQ(one.count.courses[i].laid_facing, rows[i].seen) << wall << " course " << i + 1;
      }
    }
  }
}

TEST(WorkedJob, WallsAndKindsAgreeToTheBrick) {
  EXPECT_EQ(laid("front", true), by_hand("front below"));
  EXPECT_EQ(laid("front", false), by_hand("front seen"));
  EXPECT_EQ(laid("side", true), by_hand("side below"));
  EXPECT_EQ(laid("side", false), by_hand("side seen"));
  EXPECT_EQ(laid("bed", false), by_hand("bed seen"));
  EXPECT_EQ(line("facing-brick").laid, by_hand("facing laid"));
  EXPECT_EQ(line("engineering-brick").laid, by_hand("engineering laid"));
  EXPECT_EQ(std::ceil(line("facing-brick").total), by_hand("facing needed"));
  EXPECT_EQ(std::ceil(line("engineering-brick").total), by_hand("engineering needed"));
  int holes = 0;
  for (const works::WallBricks& wall : bill().walls)
    holes += wall.weep_holes;
  EXPECT_EQ(holes, by_hand("weep holes"));
}

TEST(WorkedJob, StepsStandWhereTheyWereWorked) {
  const works::Expansion expansion = works::expand(job());
  const measure::FootingPlan& plan = expansion.footings.at(0).plan;
  EXPECT_NEAR(plan.concrete.value(), by_hand("concrete of the front strip"), 1e-9);
  ASSERT_EQ(plan.steps.size(), 2U);
  EXPECT_NEAR(plan.steps[0].bottom_at.value(), 0.975, 1e-9);
  EXPECT_NEAR(plan.steps[0].top_at.value(), 1.275, 1e-9);
  EXPECT_NEAR(plan.steps[1].bottom_at.value(), 3.225, 1e-9);
  EXPECT_NEAR(plan.steps[1].top_at.value(), 3.525, 1e-9);
}

TEST(WorkedJob, CoursesAgainstDampAndCopingsAgree) {
  EXPECT_NEAR(line("dpc").total, by_hand("damp-proof course 112 mm"), 1e-9);
  EXPECT_NEAR(line("dpc-225").total, by_hand("damp-proof course 225 mm"), 1e-9);
  EXPECT_EQ(line("coping").to_buy, by_hand("copings half-brick"));
  EXPECT_EQ(line("coping-215").to_buy, by_hand("copings one-brick"));
}

TEST(WorkedJob, TheMixesOfTheFrontStripAgree) {
  const works::Batch& batch = bill().batches.at(0);
  ASSERT_TRUE(batch.concrete);
  EXPECT_EQ(batch.mixes, by_hand("mixes"));
  EXPECT_NEAR(batch.last_mix, by_hand("last mix"), 1e-9);
  EXPECT_NEAR(batch.bags_a_mix, by_hand("bags a mix"), 1e-9);
  std::map<std::string, double> boxes;
  for (const works::Gauged& one : batch.mix)
    boxes[one.material] = one.boxes;
  EXPECT_NEAR(boxes["sharp-sand"], by_hand("boxes of sand"), 5e-4);
  EXPECT_NEAR(boxes["coarse-aggregate"], by_hand("boxes of aggregate"), 5e-4);
}

TEST(WorkedJob, SixtyShortIsCuredToTheBrick) {
  const auto stock = works::stock_of(job(), bill());
  ASSERT_EQ(stock.size(), 2U);
  EXPECT_EQ(stock[0].material, "facing-brick");
  EXPECT_EQ(stock[0].short_by, by_hand("short"));
  EXPECT_EQ(stock[1].spare, by_hand("engineering spare"));

  const works::CurePlan plan = works::cure(job(), "facing-brick", stock[0].short_by);
  ASSERT_EQ(plan.cures.size(), 3U);
  EXPECT_EQ(plan.cures[0].kind, works::Cure::Kind::share_out);
  EXPECT_EQ(plan.cures[0].part, "bed");
  EXPECT_EQ(plan.cures[0].courses, 1);
  EXPECT_EQ(plan.cures[0].frees, by_hand("share out frees"));
  EXPECT_EQ(plan.cures[0].instead, "engineering-brick");
  EXPECT_EQ(plan.cures[0].takes, by_hand("share out takes"));
  EXPECT_EQ(plan.cures[1].kind, works::Cure::Kind::shrink);
  EXPECT_EQ(plan.cures[1].part, "bed");
  EXPECT_EQ(plan.cures[1].frees, by_hand("bed one course lower frees"));
  EXPECT_EQ(plan.cures[2].part, "front");
  EXPECT_EQ(plan.cures[2].frees, by_hand("front one course lower frees"));
  EXPECT_EQ(plan.still_short, by_hand("still short"));
  // The job that is left takes no more than there is.
  for (const works::StockLine& left : works::stock_of(plan.job, works::bill_of(plan.job)))
    EXPECT_EQ(left.short_by, 0) << left.material;
}

}  // namespace
}  // namespace weatherstruck::files
