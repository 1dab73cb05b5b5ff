#include "weatherstruck/render/phone_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "render/tick_day.h"
#include "weatherstruck/works/book_words.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;
using testing::Not;
using works::What;

std::string page() {
  const TickDay day = tick_day();
  return phone_sheet(day.facts(), {1, {&trade::row_for(trade::Hazard::wet_cement)}}, {"log it"});
}

using Read = std::vector<std::pair<What, base::Instant>>;

Read read_back(const std::string& text) {
  const TickDay day = tick_day();
  const works::BookWords words(day.job, day.list);
  Read out;
  for (const works::Heard& heard :
       words.read(text, {TickDay::at(20), *base::Currency::from_code("GBP"), {}})) {
    const auto* understood = std::get_if<works::Understood>(&heard.reading);
    EXPECT_NE(understood, nullptr) << heard.words;
    if (understood == nullptr) continue;
    EXPECT_EQ(understood->confidence, 1) << heard.words;
    out.emplace_back(understood->what, understood->at);
  }
  return out;
}

std::string fixture() {
  std::ifstream file(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/tests/render/phone_ticks.txt");
  return {std::istreambuf_iterator<char>(file), {}};
}

// The text was made by the sheet itself, in a browser, from the ticks that tests/tools/check_sheets.mjs
// makes; what each of them means is written out here.
TEST(PhoneSheet, TicksComeBackFromTheirTextWithoutLoss) {
  using Day = TickDay;
  const Read expected{
      {works::CoverOff{"shelter-north-footing", trade::CoverKind::hessian_and_sheet}, Day::at(8, 10)},
      {works::Begin{"bed-dig"}, Day::at(6, 55)},
      {works::Done{"bed-dig", works::Whole{}}, Day::at(8, 10)},
      {works::Done{"shelter-below", works::Courses{1}}, Day::at(11, 30)},
      {works::Done{"shelter-below", works::Courses{1}}, Day::at(11, 29)},
      {works::Done{"shelter-below", works::Courses{1}}, Day::at(11, 28)},
      {works::Done{"shelter-below", works::Courses{1}}, Day::at(11, 27)},
      {works::Done{"steps-build", works::Courses{1}}, Day::at(11, 30)},
      {works::CanopyUp{"shelter"}, Day::at(11, 30)},
      {works::CanopyDown{}, Day::at(13, 15)},
      {works::CoverOn{"bed", trade::CoverKind::mat}, Day::at(13, 15)},
      {works::Done{"bed-dig", works::Measured{0.25, "m3"}}, Day::at(13, 15)},
      {works::StoodDown{"rain", Day::at(13, 20), Day::at(14, 5)}, Day::at(13, 20)},
      {works::Note{"Gate latch broken, at 9 \"she\" knows; 3 courses left"}, Day::at(13, 15)}};
  const Read got = read_back(fixture());
  EXPECT_THAT(got, testing::UnorderedElementsAreArray(expected));
}

// The key of an entry is made from what it says and when: equal lines would be taken for one sent twice.
TEST(PhoneSheet, NoTwoTicksAreTheSameEntry) {
  const Read got = read_back(fixture());
  for (std::size_t i = 0; i < got.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j)
      EXPECT_NE(got[i], got[j]);
  }
}

TEST(PhoneSheet, EveryBoxIsALineThatTheBookReads) {
  const std::string html = page();
  const std::string mark = "data-before=\"";
  int boxes = 0;
  for (std::size_t at = html.find("data-key=\""); at != std::string::npos;
       at = html.find("data-key=\"", at + 1)) {
    const std::size_t from = html.find(mark, at) + mark.size();
    const std::string line = html.substr(from, html.find('"', from) - from) + "2026-02-10T12:00";
    EXPECT_EQ(read_back(line).size(), 1U) << line;
    ++boxes;
  }
  // Two for each of five tasks, 4 + 6 courses and 3 steps, a cover off and one on, canopy up and down.
  EXPECT_EQ(boxes, 2 * 5 + 4 + 6 + 3 + 2 + 2);
}

TEST(PhoneSheet, SaysWhatTheMorningSheetSays) {
  const TickDay day = tick_day();
  const MorningFacts morning{1, {&trade::row_for(trade::Hazard::wet_cement)}};
  const std::string html = phone_sheet(day.facts(), morning, {});
  for (const MorningLines::Section& section : morning_lines(day.facts(), morning).sections) {
    for (const std::string& sentence : section.sentences)
      EXPECT_THAT(html, HasSubstr(sentence.substr(1, sentence.find_first_of("0123456789'\"") - 1)));
    for (const MorningLines::Row& row : section.rows)
      EXPECT_THAT(html, HasSubstr(row.time));
  }
}

// 75 mm a course, BS EN 771-1 bricks of 65 mm with joints of 10 mm; sqrt(3^2 + 1.8^2) = 3.499 m.
TEST(PhoneSheet, HasSizesDiagonalsAndGauge) {
  const std::string html = page();
  EXPECT_THAT(html, HasSubstr("Outside 3 x 1.8&nbsp;m, diagonal 3.499&nbsp;m"));
  EXPECT_THAT(html, HasSubstr("<b>1</b> 75&nbsp;mm"));
  EXPECT_THAT(html, HasSubstr("<b>8</b> 600&nbsp;mm"));
  EXPECT_THAT(html, Not(HasSubstr("<b>9</b>")));
}

TEST(PhoneSheet, TextFromOutsideStaysText) {
  TickDay day = tick_day();
  day.job.title = "\"><script>alert(1)</script>";
  day.series.attribution = "<img src=x>";
  const std::string html = phone_sheet(day.facts(), {1, {}}, {"</p><b>"});
  EXPECT_THAT(html, Not(HasSubstr("<script>alert")));
  EXPECT_THAT(html, Not(HasSubstr("<img")));
  EXPECT_THAT(html, HasSubstr("&lt;/p&gt;&lt;b&gt;"));
  EXPECT_THAT(html, HasSubstr("content=\"default-src 'none'; base-uri 'none'; form-action 'none'; "));
}

TEST(PhoneSheet, HeadsAPlanThatFailsItsCheck) {
  const TickDay day = tick_day();
  TripFacts facts = day.facts();
  facts.sound = false;
  EXPECT_THAT(phone_sheet(facts, {1, {}}, {}), HasSubstr("DO NOT FOLLOW IT"));
}

TEST(PhoneSheet, OfADayThatTheTripDoesNotHaveIsRefused) {
  const TickDay day = tick_day();
  EXPECT_THROW(static_cast<void>(phone_sheet(day.facts(), {9, {}}, {})), std::out_of_range);
}

}  // namespace
}  // namespace weatherstruck::render
