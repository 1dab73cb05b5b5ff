// The same week told in other orders, late, twice and with mistakes put right: one progress.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "works/progress_support.h"

namespace weatherstruck::works {
namespace {

using trade::CoverKind;

/// All that a reader of the progress sees, but for the keys that entries happen to have.
void expect_same(const Progress& a, const Progress& b) {
  EXPECT_EQ(a.tasks, b.tasks);
  EXPECT_EQ(a.covers, b.covers);
  EXPECT_EQ(a.canopy, b.canopy);
  EXPECT_EQ(a.stock, b.stock);
  EXPECT_EQ(a.walls, b.walls);
  EXPECT_EQ(a.stood_down, b.stood_down);
  EXPECT_EQ(a.temperatures, b.temperatures);
  EXPECT_EQ(a.rain, b.rain);
  EXPECT_EQ(a.expenses, b.expenses);
  EXPECT_EQ(a.extras, b.extras);
  EXPECT_EQ(a.notes, b.notes);
  EXPECT_EQ(codes_of(a), codes_of(b));
}

std::vector<Entry> week() {
  return {entry("1", feb(9, 9), Begin{"dig"}),
          entry("2", feb(9, 11), Done{"dig", Measured{1.5, "m3"}}),
          entry("3", feb(9, 11), StoodDown{"rain", feb(9, 11), feb(9, 13)}),
          entry("4", feb(9, 13), Begin{"dig"}),
          entry("5", feb(9, 14), Done{"dig", Whole{}}),
          entry("6", feb(9, 16), CoverOn{"bed", CoverKind::hessian_and_sheet}),
          entry("7", feb(10, 6), Thermometer{base::Celsius(-2)}),
          entry("8", feb(10, 7), Gauge{base::Millimetres(4), feb(9, 18)}),
          entry("9", feb(10, 8), CoverOff{"bed", std::nullopt}),
          entry("10", feb(10, 8, 30), StockCount{"facing-brick", 60}),
          entry("11", feb(10, 9), Begin{"lay"}),
          entry("12", feb(10, 12), Done{"lay", Courses{2}}),
          entry("13", feb(10, 15), Done{"lay", Courses{2}}),
          entry("14", feb(10, 15), Extra{"step", "her", base::Money(8000, sterling())}),
          entry("15", feb(10, 16), CanopyUp{"bed"}),
          entry("16", feb(11, 9), Begin{"point"}),
          entry("17", feb(11, 10), Done{"point", Share{base::Fraction(0.5)}}),
          entry("18", feb(11, 16), CanopyDown{})};
}

TEST(Progress, AWeekWithLateEntriesAndCorrectionsIsTheSameWeek) {
  std::vector<Entry> muddled;
  for (const Entry& told : week()) {
    // Every third was wrong at first, every fifth came a day late.
    if (std::stoi(told.key) % 3 == 0) {
      muddled.push_back(entry(told.key + "-wrong", told.at, Done{"dig", Share{base::Fraction(0.01)}}));
      muddled.push_back(entry(told.key + "-wrong-again", told.at, Note{"no"}, told.key + "-wrong"));
      Entry right = late(told, told.at + std::chrono::hours(30));
      right.corrects = told.key + "-wrong-again";
      muddled.push_back(right);
    } else {
      muddled.push_back(std::stoi(told.key) % 5 == 0 ? late(told, told.at + std::chrono::hours(24)) : told);
    }
  }
  muddled.push_back(entry("no", feb(10, 10), Begin{"roof"}));
  muddled.push_back(entry("never", feb(10, 11), Struck{}, "no"));
  std::reverse(muddled.begin(), muddled.end());
  const Progress straight = fold(week());
  EXPECT_EQ(state_of(straight, "lay").done, 100);
  EXPECT_DOUBLE_EQ(state_of(straight, "dig").worked.value(), 3);
  EXPECT_DOUBLE_EQ(state_of(straight, "lay").worked.value(), 6);
  expect_same(straight, fold(muddled));
}

RC_GTEST_PROP(ProgressProperties, OrderOfArrivalAndRepeatsDoNotMatter, ()) {
  std::vector<Entry> entries = week();
  const Progress once = fold(entries);
  for (std::size_t i = entries.size(); i > 1; --i)
    std::swap(entries[i - 1], entries[*rc::gen::inRange<std::size_t>(0, i)]);
  entries.push_back(entries[*rc::gen::inRange<std::size_t>(0, entries.size())]);
  const Progress again = fold(entries);
  RC_ASSERT(once.tasks == again.tasks);
  RC_ASSERT(once.covers == again.covers);
  RC_ASSERT(once.stock == again.stock);
  RC_ASSERT(once.remarks == again.remarks);
}

RC_GTEST_PROP(ProgressProperties, DoneStaysWithinTheWholeAndHoursWithinTheDay, ()) {
  std::vector<Entry> entries;
  const auto count = *rc::gen::inRange(0, 25);
  const std::vector<Name> names{"dig", "lay", "point", "roof"};
  for (int i = 0; i < count; ++i) {
    const auto at = feb(10, *rc::gen::inRange(0, 24), *rc::gen::inRange(0, 60));
    const Name name = *rc::gen::elementOf(names);
    const int kind = *rc::gen::inRange(0, 4);
    What what = Begin{name};
    if (kind == 1) what = Done{name, Courses{*rc::gen::inRange(1, 5)}};
    if (kind == 2) what = Done{name, Measured{*rc::gen::inRange(1, 100) / 10.0, ""}};
    if (kind == 3) what = Done{name, Share{base::Fraction(*rc::gen::inRange(0, 11) / 10.0)}};
    entries.push_back(entry("k" + std::to_string(i), at, what));
  }
  const Progress progress = fold(entries);
  double hours = 0;
  for (const TaskProgress& task : progress.tasks) {
    RC_ASSERT(task.done >= 0 && task.done <= task.amount);
    RC_ASSERT(task.finished.has_value() == (task.done == task.amount));
    for (const Run& run : task.runs)
      RC_ASSERT(run.from <= run.to && run.worked.value() >= 0);
    hours += task.worked.value();
  }
  RC_ASSERT(hours <= 24 + 1e-9);
}

}  // namespace
}  // namespace weatherstruck::works
