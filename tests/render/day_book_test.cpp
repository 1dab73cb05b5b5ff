#include "weatherstruck/render/day_book.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "works/progress_support.h"

namespace weatherstruck::render {
namespace {

using std::chrono::hours;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using works::entry;
using works::feb;

/// 10 February: 3 degrees and dry, but for 2.1 mm from 10 to 11 and frost from 7 to 8.
sky::Series tuesday() {
  sky::Series series;
  series.source = "a file";
  for (int h = 0; h < 24; ++h) {
    sky::Hour hour;
    hour.start = feb(10, h);
    hour.temperature = sky::Value<base::Celsius>{base::Celsius(h == 7 ? -1 : 3)};
    hour.rain = sky::Value<base::Millimetres>{base::Millimetres(h == 10 ? 2.1 : 0)};
    series.hours.push_back(hour);
  }
  return series;
}

/// Dug from 8 to 12 with an hour of rain, a break till 13, then two courses to 15:00 without more.
std::vector<works::Entry> a_day() {
  return {entry("a", feb(10, 8), works::Begin{"dig"}),
          entry("r", feb(10, 10, 15), works::StoodDown{"rain", feb(10, 10, 15), feb(10, 11, 15)}),
          entry("b", feb(10, 12), works::Done{"dig", works::Whole{}}),
          entry("c", feb(10, 13), works::Begin{"lay"}),
          entry("d", feb(10, 15), works::Done{"lay", works::Courses{2}}),
          entry("e", feb(10, 9), works::Expense{"cement", base::Money(3795, works::sterling()), "4711"}),
          entry("f", feb(10, 9, 5), works::Extra{"a gully", "Marged", base::Money(4000, works::sterling())}),
          entry("g", feb(10, 9, 10), works::Arrived{"facing-brick", 400}),
          entry("h", feb(10, 15, 30), works::CoverOn{"bed", trade::CoverKind::sheet}),
          entry("i", feb(10, 9, 20), works::Note{"gate is locked"})};
}

class DaysByTheBook : public testing::Test {
 protected:
  works::Job job_ = works::demo_job();
  works::TaskList list_ = works::small_list();
  std::vector<works::Entry> entries_ = works::effective(works::book_of(a_day())).entries;
  works::Progress progress_ = works::fold(a_day());
  sky::Series weather_ = tuesday();
  std::vector<PlanOfDay> plans_;
  std::vector<DayPhotograph> photographs_;

  [[nodiscard]] DayBook told(const DayBookView& view = {}, std::optional<base::LocalDay> only = {}) const {
    return day_book_of({job_, list_, progress_, entries_, weather_, plans_, feb(12, 20), photographs_}, view,
                       only);
  }
  [[nodiscard]] std::string text(const DayBookView& view = {}) const {
    return day_book_text(told(view), job_.site.zone, Ink::plain);
  }
};

TEST_F(DaysByTheBook, SayWhatWasDoneWhenAndForHowLong) {
  const DayBook book = told();
  ASSERT_EQ(book.days.size(), 1U);
  const DaySheet& day = book.days[0];
  ASSERT_EQ(day.work.size(), 2U);
  EXPECT_EQ(day.work[0].title, "Dig the trench");
  EXPECT_EQ(day.work[0].amount, "all of it");
  EXPECT_EQ(*day.work[0].hours, base::Hours(3)) << "an hour of the four was rain";
  EXPECT_EQ(day.work[1].amount, "2 courses");
  // From 8 to 15 are 7 h; at work 3 h and 2 h, an hour stood down: one is left.
  EXPECT_EQ(day.people,
            "mason: 5 h at work between 08:00 and 15:00; 1 h of breaks and what the book does not tell");
  EXPECT_THAT(day.came, ElementsAre("09:10 came: 400 facing bricks"));
  EXPECT_THAT(day.spent, ElementsAre("Cement, 37.95 GBP, receipt 4711"));
  EXPECT_THAT(day.agreed, ElementsAre("A gully, agreed with Marged, 40.00 GBP"));
  EXPECT_THAT(day.notes, ElementsAre("09:20 gate is locked"));
}

TEST_F(DaysByTheBook, PutTheHoursWeatherBesideWhatStoodStill) {
  const DaySheet day = told().days.at(0);
  ASSERT_EQ(day.stopped.size(), 1U);
  ASSERT_EQ(day.stopped[0].hours.size(), 2U);
  EXPECT_EQ(day.stopped[0].hours[0].weather, "rain 2.1 mm, 3 °C");
  EXPECT_EQ(day.stopped[0].hours[1].weather, "no rain, 3 °C")
      << "he can see that he waited longer than it rained";
  EXPECT_THAT(text(), HasSubstr("10:15-11:15  stood down: rain"));
  weather_ = {};
  EXPECT_THAT(told().days.at(0).stopped[0].hours, IsEmpty());
  EXPECT_EQ(told().days.at(0).weather, "");
}

TEST_F(DaysByTheBook, HoldTheMorningsPlanAgainstWhatWasDone) {
  programme::Plan plan;
  for (const char* name : {"dig", "lay", "point"}) {
    programme::PlannedTask task;
    task.task = name;
    plan.tasks.push_back(task);
  }
  plan.tasks[1].runs = {{{feb(10, 8), feb(10, 16)}}};
  plan.tasks[0].runs = {{{feb(11, 8), feb(11, 9)}}};
  plans_ = {{job_.site.zone.day_of(feb(10, 8)), plan}};
  EXPECT_THAT(told().days.at(0).against_plan,
              ElementsAre("Not finished, as it was planned: Lay courses 1 to 4",
                          "Finished, planned for another day or not at all: Dig the trench"));
  plans_[0].plan.tasks[0].runs = {{{feb(10, 7), feb(10, 8)}}};
  EXPECT_EQ(told().days.at(0).against_plan.at(0), "1 task finished as the morning's plan had it");
}

TEST_F(DaysByTheBook, TellAllThatWasMissedInOneLineAndNothingOfDriving) {
  list_.tasks[0].operation = trade::Operation::drive;
  programme::Plan plan;
  for (const char* name : {"dig", "lay", "point"}) {
    programme::PlannedTask task;
    task.task = name;
    task.runs = {{{feb(10, 8), feb(10, 16)}}};
    plan.tasks.push_back(task);
  }
  plans_ = {{job_.site.zone.day_of(feb(10, 8)), plan}};
  progress_ = works::fold({entry("c", feb(10, 13), works::Begin{"lay"})});
  const std::vector<std::string> against = told().days.at(0).against_plan;
  ASSERT_EQ(against.size(), 1U);
  EXPECT_THAT(against[0], testing::StartsWith("Not finished, as it was planned: Lay courses 1 to 4; "));
  EXPECT_THAT(against[0], Not(HasSubstr("Dig the trench")));
}

TEST_F(DaysByTheBook, ShowTheCustomerNoMoreThanIsChosen) {
  const std::string seen = text({false, false, false, false, false});
  for (const char* kept : {"37.95", "40.00", "locked", "3 h", "breaks"})
    EXPECT_THAT(seen, Not(HasSubstr(kept)));
  for (const char* shown : {"Dig the trench: all of it", "rain 2.1 mm", "400 facing bricks", "A gully"})
    EXPECT_THAT(seen, HasSubstr(shown));
  EXPECT_THAT(text({true, false, false, false, false}), HasSubstr("(3 h)"));
}

TEST_F(DaysByTheBook, NameThePhotographsAndSayWhichAreLost) {
  photographs_ = {{feb(10, 9, 20), "the gate", "99aa00bb", "PNG, 9 kB", "its file is missing", false},
                  {feb(10, 9), "Cement, 37.95 GBP", "3fa291c0", "JPEG, 120 kB", "", true},
                  {feb(11, 9), "of another day", "00000000", "PDF, 1 kB", "", false}};
  EXPECT_THAT(told().days.at(0).photographs,
              ElementsAre("09:00 Cement, 37.95 GBP: 3fa291c0 (JPEG, 120 kB)",
                          "09:20 the gate: 99aa00bb (PNG, 9 kB); its file is missing"));
  EXPECT_THAT(text(), HasSubstr("Photographs"));
  EXPECT_THAT(day_book_html(told(), job_.site.zone), HasSubstr("<h3>Photographs</h3>"));
  EXPECT_THAT(told({false, false, false, false, true}).days.at(0).photographs,
              ElementsAre("09:20 the gate: 99aa00bb (PNG, 9 kB); its file is missing"))
      << "a receipt shows what was spent";
  EXPECT_THAT(text({false, false, true, false, false}), Not(HasSubstr("Photographs")));
}

TEST_F(DaysByTheBook, OneDayIsShownByItself) {
  EXPECT_EQ(told({}, job_.site.zone.day_of(feb(10, 12))).title, "Day sheet");
  const DayBook none = told({}, job_.site.zone.day_of(feb(11, 12)));
  EXPECT_THAT(none.days, IsEmpty());
  EXPECT_THAT(day_book_text(none, job_.site.zone, Ink::plain),
              HasSubstr("The site book says nothing of it."));
}

TEST_F(DaysByTheBook, ThePageHoldsWhatTheTextDoes) {
  const std::string page = day_book_html(told(), job_.site.zone);
  for (const char* words :
       {"<!DOCTYPE html>", "Tue 10 Feb 2026</h2>", "<dt>08:00-12:00</dt>", "<dd>Dig the trench: all of it",
        "<h3>Stood down</h3>", "<li>09:20 gate is locked</li>"})
    EXPECT_THAT(page, HasSubstr(words));
}

}  // namespace
}  // namespace weatherstruck::render
