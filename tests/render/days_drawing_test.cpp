#include "weatherstruck/render/days_drawing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using sample::at;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t found = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size()))
    ++found;
  return found;
}

std::string course(const sample::Trip& trip, std::size_t day = 0) {
  const TripFacts facts = trip.facts();
  return day_course(facts, trip_days(facts), day).str();
}

// Every letter drawn, and where it stands.
struct Letter {
  double x = 0;
  double y = 0;
  std::string text;
};
std::vector<Letter> letters(const std::string& svg) {
  static const std::regex mark(
      R"re(<text x="([-0-9.]+)" y="([-0-9.]+)" text-anchor="middle" font-size="1[34]" font-weight="700" fill="#111">(.)</text>)re");
  std::vector<Letter> found;
  for (auto it = std::sregex_iterator(svg.begin(), svg.end(), mark); it != std::sregex_iterator(); ++it)
    found.push_back({std::stod((*it)[1]), std::stod((*it)[2]), (*it)[3]});
  return found;
}

TEST(DaysDrawing, HasABrickWithALetterForEveryStretchOfWork) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const std::vector<TripDay> days = trip_days(facts);
  for (std::size_t day = 0; day < days.size(); ++day) {
    std::multiset<std::string> wanted;
    for (const DayTask& task : days[day].tasks) {
      for (std::size_t run = 0; run < task.runs.size(); ++run)
        wanted.insert(std::string(1, task.letter));
    }
    std::multiset<std::string> drawn;
    for (const Letter& letter : letters(course(trip, day)))
      drawn.insert(letter.text);
    EXPECT_EQ(drawn, wanted) << day;
  }
}

TEST(DaysDrawing, IsBlackAndWhiteAndSaysNothingByAColour) {
  const std::string svg = days_svg(sample::trip().facts());
  static const std::regex colour("(?:fill|stroke)=\"(#[0-9a-f]+|[a-z]+)\"");
  for (auto it = std::sregex_iterator(svg.begin(), svg.end(), colour); it != std::sregex_iterator(); ++it) {
    // The lines of the hours alone are grey, and they mean nothing that the numbers do not say.
    EXPECT_THAT((*it)[1].str(), testing::AnyOf("#111", "#fff", "#999", "none"));
  }
}

TEST(DaysDrawing, LettersOfShortTasksStandApartAndWithinTheDrawing) {
  sample::Trip trip = sample::trip();
  // Eight tasks of ten minutes, one behind the other, at the end of the strip.
  const works::Task task = trip.list.tasks.front();
  const programme::PlannedTask planned = trip.plan.tasks.front();
  for (int i = 0; i < 8; ++i) {
    trip.list.tasks.push_back(task);
    trip.list.tasks.back().name = "short-" + std::to_string(i);
    trip.plan.tasks.push_back(planned);
    trip.plan.tasks.back().task = trip.list.tasks.back().name;
    trip.plan.tasks.back().runs.resize(1);
    trip.plan.tasks.back().runs[0].span = {at(10, 20, 10 * (i % 6) + (i / 6) * 60),
                                           at(10, 20, 10 * (i % 6) + (i / 6) * 60 + 10)};
  }
  std::vector<Letter> above = letters(course(trip, 1));
  ASSERT_GE(above.size(), 8U);
  for (const Letter& one : above) {
    EXPECT_GE(one.x, 4) << one.text;
    EXPECT_LE(one.x, 324) << one.text;
    for (const Letter& other : above) {
      if (&one == &other || one.y != other.y) continue;
      EXPECT_GE(std::abs(one.x - other.x), 8) << one.text << " on " << other.text;
    }
  }
}

TEST(DaysDrawing, ShowsCanopyLightsWeatherAndWhatIsLeftAloneByShapesAndTellsTheirSense) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const std::string legend = course_legend(facts, trip_days(facts)).str();
  EXPECT_THAT(legend, AllOf(HasSubstr("a task, by its letter"), HasSubstr("under the canopy"),
                            HasSubstr("something fresh is left alone"), HasSubstr("too wet for facework"),
                            HasSubstr("half light")));
  EXPECT_THAT(legend, Not(HasSubstr("frost"))) << "nothing that is not drawn";
  EXPECT_EQ(count(legend, "<li>"), count(legend, "<svg "));
}

TEST(DaysDrawing, AFrostIsToldOnceItIsDrawn) {
  sample::Trip trip = sample::trip();
  for (sky::Hour& hour : trip.series.hours) {
    if (hour.temperature) hour.temperature->value = base::Celsius(-1);
    if (hour.rain) hour.rain->value = base::Millimetres(0);
  }
  const TripFacts facts = trip.facts();
  EXPECT_THAT(course_legend(facts, trip_days(facts)).str(), HasSubstr("frost"));
}

TEST(DaysDrawing, TheTableBesideItSaysEveryTaskWithItsHours) {
  const sample::Trip trip = sample::trip();
  const TripFacts facts = trip.facts();
  const std::vector<TripDay> days = trip_days(facts);
  const std::string table = day_table(facts, days[0], "Mon").str();
  EXPECT_EQ(count(table, "<tr>"), days[0].tasks.size() + 1);
  EXPECT_THAT(table, AllOf(HasSubstr("14:00-15:30"), HasSubstr("Pour the footing of the wall")));
}

TEST(DaysDrawing, ByItselfItIsAFileWithItsWordsInIt) {
  sample::Trip trip = sample::trip();
  trip.job.title = "Base & <bed>";
  const std::string svg = days_svg(trip.facts());
  EXPECT_THAT(svg, testing::StartsWith("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns="));
  EXPECT_THAT(svg, AllOf(HasSubstr("Base &amp; &lt;bed&gt;"), HasSubstr("<desc id=\"days-words\">"),
                         HasSubstr("14:00-15:30: Pour the footing of the wall"), Not(HasSubstr("&nbsp;"))));
  EXPECT_EQ(days_svg(trip.facts()), svg);
  // A row of hours for every day, and no part of a number that another machine would write otherwise.
  EXPECT_FALSE(std::regex_search(svg, std::regex("[0-9]\\.[0-9]{2}|e-[0-9]|nan|inf\"")));
}

TEST(DaysDrawing, ThePageHasEveryDayOnceAndHowItEnds) {
  const sample::Trip trip = sample::trip();
  const std::string page = days_html(trip.facts());
  EXPECT_EQ(count(page, "class=\"course\""), 2U);
  EXPECT_THAT(page, AllOf(HasSubstr("Mon 9 Feb, day 1 of 2"), HasSubstr("hessian under sheet"),
                          HasSubstr("promised Tue 10 Feb 20:00: 7&nbsp;h in hand")));
}

}  // namespace
}  // namespace weatherstruck::render
