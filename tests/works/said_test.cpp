#include "weatherstruck/works/said.h"

#include <gtest/gtest.h>

#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/book_words.h"
#include "works/book_support.h"

namespace weatherstruck::works {
namespace {

using trade::CoverKind;

TEST(ShortTitle, LeavesOutTheAmounts) {
  Task task;
  task.title = "Pour the north footing of the shelter (0.25 m3, 4 mixes)";
  EXPECT_EQ(short_title(task), "Pour the north footing of the shelter");
}

TEST(Said, AmountsAreShort) {
  EXPECT_EQ(said(Whole{}), "all");
  EXPECT_EQ(said(Courses{1}), "1 course");
  EXPECT_EQ(said(Measured{0.4, ""}, "m3"), "0.4 m3");
  EXPECT_EQ(said(Share{base::Fraction(0.6)}), "60 %");
}

TEST(ShownBack, EachKindIsASentence) {
  const TaskList tasks = derive_tasks(demo_job());
  const base::Zone zone = winter_greenwich();
  const auto show = [&](const What& what) { return shown_back(what, feb(10, 14), tasks, zone, feb(10, 16)); };
  EXPECT_EQ(show(Begin{"path-flags"}), "Lay the flags of the path: begun at 14:00. Right?");
  EXPECT_EQ(show(Done{"path-flags", Share{base::Fraction(0.6)}}),
            "Lay the flags of the path: 60 % of it done at 14:00. Right?");
  EXPECT_EQ(show(StoodDown{"rain", feb(10, 14), feb(10, 15)}), "Stood down 14:00 to 15:00: rain. Right?");
  EXPECT_EQ(show(LevelRead{"bed-south-footing", base::Metres(2.4), base::Metres(-0.15)}),
            "Bed south footing, 2.4 m along: ground 150 mm below the mark. Right?");
  EXPECT_EQ(show(StockCount{"facing-brick", 60}), "60 facing bricks left at 14:00. Right?");
  EXPECT_EQ(show(Arrived{"cement", 75}), "75 kg of cement came at 14:00. Right?");
  EXPECT_EQ(show(Note{"dog"}), "Note at 14:00: dog");
  EXPECT_EQ(show(Expense{"sand", base::Money(3450, sterling()), std::nullopt}),
            "34.50 GBP spent on sand, no receipt named. Right?");
  EXPECT_EQ(show(Extra{"step", "her", std::nullopt}), "Extra: step, day work, agreed with her. Right?");
  EXPECT_EQ(show(CoverOn{"bed", CoverKind::hessian_and_sheet}),
            "Bed: covered with hessian under sheet at 14:00. Right?");
  EXPECT_EQ(show(CoverOff{"bed", std::nullopt}), "Bed: uncovered at 14:00. Right?");
  EXPECT_EQ(show(CanopyUp{"bed"}), "Canopy up over the bed at 14:00. Right?");
  EXPECT_EQ(show(CanopyDown{}), "Canopy down at 14:00. Right?");
  EXPECT_EQ(show(Thermometer{base::Celsius(-2)}), "-2 C at 14:00. Right?");
  EXPECT_EQ(show(Gauge{base::Millimetres(4), feb(9, 18)}),
            "4 mm in the gauge from Mon 9 Feb 18:00 to 14:00. Right?");
}

TEST(ExactLine, EveryKindOfEntryComesBackFromItsLine) {
  const Job job = demo_job();
  const TaskList tasks = derive_tasks(job);
  const BookWords words(job, tasks);
  const base::Instant at = feb(10, 14, 25);
  std::vector<What> kinds{
      Begin{"bed-dig"},
      Done{"bed-lay", Courses{3}},
      Done{"bed-lay", Courses{1}},
      Done{"bed-dig", Measured{0.123456789, "m3"}},
      Done{"path-flags", Share{base::Fraction(0.37)}},
      Done{"path-flags", Whole{}},
      StoodDown{"rain and sleet", at, feb(10, 15, 40)},
      StoodDown{"", at, feb(10, 15, 40)},
      LevelRead{"shelter-west-footing", base::Metres(1.05), base::Metres(-0.1025)},
      Note{"at 9, covered; and then: \"note\" 3 bricks left. Right?"},
      Expense{"sharp sand", base::Money(123456, *base::Currency::from_code("EUR")), "A-17"},
      Expense{"sand", base::Money(5, sterling()), std::nullopt},
      Extra{"step at the gate", "Mrs Penhallow", base::Money(8000, sterling())},
      Extra{"step", "", std::nullopt},
      CoverOff{"shelter", std::nullopt},
      CanopyUp{"bed"},
      CanopyDown{},
      Thermometer{base::Celsius(-2.5)},
      Gauge{base::Millimetres(4.2), feb(9, 18)}};
  for (const CoverKind kind :
       {CoverKind::hessian, CoverKind::sheet, CoverKind::hessian_and_sheet, CoverKind::mat}) {
    kinds.emplace_back(CoverOn{"shelter-north", kind});
    kinds.emplace_back(CoverOff{"bed", kind});
  }
  for (const trade::Material& row : trade::materials()) {
    kinds.emplace_back(StockCount{std::string(row.key), 12.25});
    kinds.emplace_back(Arrived{std::string(row.key), 3});
  }
  for (const Task& task : tasks.tasks) {
    kinds.emplace_back(Begin{task.name});
    kinds.emplace_back(Done{task.name, Measured{1.5, task.unit}});
  }
  for (const What& what : kinds) {
    const auto line = exact_line(what, at, job.site.zone);
    ASSERT_TRUE(line);
    const auto heard = words.read(*line, {feb(10, 16, 10), sterling(), {}});
    ASSERT_EQ(heard.size(), 1U) << *line;
    const auto* got = std::get_if<Understood>(&heard[0].reading);
    ASSERT_NE(got, nullptr) << *line;
    EXPECT_EQ(got->what, what) << *line;
    EXPECT_EQ(got->at, at) << *line;
    EXPECT_EQ(got->confidence, 1) << *line;
  }
  EXPECT_EQ(exact_line(Struck{}, at, job.site.zone), std::nullopt);
}

}  // namespace
}  // namespace weatherstruck::works
