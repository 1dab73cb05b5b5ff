#include "weatherstruck/desk/me_talk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "desk/talk_support.h"
#include "record/scratch.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::desk {
namespace {

const std::string answers_file = "fixtures/demo/me-answers.txt";

struct Asked {
  MeTalk talk;
  std::string said;
};

Asked ask(const std::string& input, const std::optional<files::MeDocument>& kept = {}) {
  static const files::SystemZones zones;
  std::istringstream in(input);
  std::ostringstream out;
  Talk talk(in, out, true);
  Asked result;
  result.talk = ask_me(talk, kept, zones);
  result.said = out.str();
  return result;
}

const std::vector<std::string>& answers() {
  static const std::vector<std::string> lines = lines_of_answers(answers_file);
  return lines;
}

TEST(AskedWhoHeIs, HisAnswersMakeHisDocument) {
  const Asked asked = ask(joined_lines(answers()));
  ASSERT_EQ(asked.talk.end, TalkEnd::through) << asked.said;
  const files::MeDocument& document = *asked.talk.document;
  const works::Me& me = document.me;
  EXPECT_EQ(me.name, "Tegwen Brickfield");
  EXPECT_EQ(me.home_zone.name(), "Europe/London");
  // 65 bricks an hour against the table's 50 (common practice, no source).
  EXPECT_EQ(me.crew.front().pace, 1.3);
  EXPECT_EQ(me.crew.size(), 1U);
  EXPECT_EQ(me.kit.mixer.value(), 0.09);
  EXPECT_EQ(me.kit.canopy->length.value(), 3);
  EXPECT_TRUE(me.kit.floodlights);
  EXPECT_EQ(me.kit.van_payload.value(), 1100);
  EXPECT_EQ(me.longest_day.value(), 14);
  ASSERT_TRUE(document.rates);
  EXPECT_EQ(document.rates->day_work->text(), "38.00 GBP");
  EXPECT_EQ(document.rates->tax.rate, 2000);
  EXPECT_EQ(document.rates->on_materials, 1000);
}

TEST(AskedWhoHeIs, ANewcomerNeedsNothingButHisName) {
  const Asked asked = ask("Tegwen\n" + std::string(40, '\n'));
  ASSERT_EQ(asked.talk.end, TalkEnd::through) << asked.said;
  EXPECT_TRUE(works::faults_of(asked.talk.document->me).empty());
  EXPECT_FALSE(asked.talk.document->rates);
}

std::string kept_of(const std::string& input) {
  const Asked asked = ask(input + std::string(30, '\n'));
  return asked.talk.document ? asked.said : "not through: " + asked.said;
}

TEST(AskedWhoHeIs, TheClockOfAnAmericanTownOffersAmericanLimits) {
  for (const auto& [town, rules] : {std::pair{"Los Angeles", "us"},
                                    {"New York", "us"},
                                    {"America/Indiana/Knox", "us"},
                                    {"Toronto", "uk"},
                                    {"London", "uk"},
                                    {"Dublin", "uk"}})
    EXPECT_THAT(kept_of(std::string("A\n\n\n") + town + "\n"),
                testing::HasSubstr(std::string("uk or us? [") + rules + "]"))
        << town;
}

TEST(AskedWhoHeIs, UnderAmericanLimitsAllIsInFeetAndPounds) {
  const std::string said = kept_of("A\n\n\nLos Angeles\n");
  EXPECT_THAT(said, testing::HasSubstr("at once [3 cu ft]"));
  EXPECT_THAT(said, testing::HasSubstr("[hessian 200 sq ft,\nsheeting 300 sq ft"));
  EXPECT_THAT(said, testing::HasSubstr("[2,200 lb, 200 cu ft]"));
  const Asked asked =
      ask("A\n\n\nLos Angeles\n\n\njust me\n6 cubic feet\nhessian one roll\n"
          "burlap 200, canopy 10 x 10\na ton, 8 x 5 x 5\n" +
          std::string(30, '\n'));
  ASSERT_TRUE(asked.talk.document) << asked.said;
  EXPECT_NEAR(asked.talk.document->me.kit.mixer.value(), 0.1699, 1e-4);
  EXPECT_NEAR(asked.talk.document->me.kit.hessian.value(), 18.58, 0.01);
  EXPECT_NEAR(asked.talk.document->me.kit.canopy->length.value(), 3.048, 1e-6);
  EXPECT_NEAR(asked.talk.document->me.kit.van_payload.value(), 907.18, 0.01);
  EXPECT_NEAR(asked.talk.document->me.kit.van_volume.value(), 5.66, 0.01);
  EXPECT_THAT(asked.said, testing::HasSubstr("6 cu ft (170 litres)."));
  EXPECT_THAT(asked.said, testing::HasSubstr("say what it covers"));
}

TEST(AskedWhoHeIs, TheMostHoursAreNoMoreThanTheDayIsLong) {
  const auto most = [](const std::string& day) {
    const Asked asked = ask("A\n\n\n\n\n\n\n\n\n\n" + day + "\n" + std::string(20, '\n'));
    return asked.talk.document->me.longest_day.value();
  };
  EXPECT_EQ(most("8 till 6"), 10);
  EXPECT_EQ(most("7:00-21:00"), 12) << "as is usual";
  EXPECT_EQ(most("7:00-21:00, 14 h"), 14);
  EXPECT_EQ(most("7:00-21:00, at most 9 hours"), 9);
  EXPECT_EQ(most("8 till 6, 12 h\n8 till 6, 9 h"), 9) << "asked again";
  EXPECT_EQ(most("half an hour"), 12) << "not understood, then as is usual";
}

TEST(AskedWhoHeIs, RatesOfADayAreTakenByTheHourAndSaidBack) {
  const Asked asked =
      ask("A\n\n\n\n\n400 a day\n\n\n\n\n\n\nyes\n\n220 a day\n45p\n" + std::string(20, '\n'));
  ASSERT_TRUE(asked.talk.document) << asked.said;
  EXPECT_EQ(asked.talk.document->me.crew.front().pace, 1);
  EXPECT_EQ(asked.talk.document->rates->day_work->text(), "27.50 GBP");
  EXPECT_THAT(asked.said, testing::HasSubstr("27.50 GBP an hour."));
  EXPECT_EQ(std::get<account::TravelByDistance>(asked.talk.document->rates->travel).per_unit.text(),
            "0.45 GBP");
}

TEST(AskedWhoHeIs, WhatHeNamesIsAskedAloneAndTheRestStays) {
  const files::MeDocument kept = *ask(joined_lines(answers())).talk.document;
  static const files::SystemZones zones;
  std::istringstream in("900 kg\n");
  std::ostringstream out;
  Talk talk(in, out, true);
  const auto topics = me_topics("change the van");
  const MeTalk changed = ask_me(talk, kept, zones, std::get<std::vector<std::string>>(topics));
  ASSERT_TRUE(changed.document) << out.str();
  files::MeDocument expected = kept;
  expected.me.kit.van_payload = base::Kilograms(900);
  EXPECT_EQ(files::write_me(*changed.document), files::write_me(expected));
  EXPECT_THAT(std::get<works::Refused>(me_topics("shed")).allowed, testing::HasSubstr("crew, mixer, covers"));
}

TEST(AskedWhoHeIs, AFewQuestionsAreEnough) {
  // Thirteen without the charges, which can wait.
  const std::string said = ask("Tegwen\n" + std::string(12, '\n')).said;
  EXPECT_EQ(std::count(said.begin(), said.end(), '>'), 13);
}

TEST(AskedWhoHeIs, EnterToEverythingKeepsWhatIsKept) {
  const files::MeDocument kept = *ask(joined_lines(answers())).talk.document;
  const Asked again = ask(std::string(60, '\n'), kept);
  ASSERT_EQ(again.talk.end, TalkEnd::through) << again.said;
  EXPECT_EQ(files::write_me(*again.talk.document), files::write_me(kept));
  std::string all(60, '\n');
  // The charges gone through as well.
  const std::size_t charges = 12;
  all.insert(charges, "yes");
  const Asked charged = ask(all, kept);
  ASSERT_EQ(charged.talk.end, TalkEnd::through) << charged.said;
  EXPECT_THAT(charged.said, testing::HasSubstr("Change what you charge? [no]\n> yes"));
  EXPECT_EQ(files::write_me(*charged.talk.document), files::write_me(kept));
}

TEST(AskedWhoHeIs, EveryTruncationAndQuitLeavesNothing) {
  for (std::size_t k = 0; k < answers().size(); ++k) {
    const std::vector<std::string> first(answers().begin(),
                                         answers().begin() + static_cast<std::ptrdiff_t>(k));
    const Asked cut = ask(joined_lines(first));
    EXPECT_EQ(cut.talk.end, TalkEnd::cut_off) << k;
    EXPECT_FALSE(cut.talk.document) << k;
    const Asked left = ask(joined_lines(first) + "quit\n");
    EXPECT_EQ(left.talk.end, TalkEnd::left) << k;
    EXPECT_FALSE(left.talk.document) << k;
  }
}

TEST(AskedWhoHeIs, BackAtEveryQuestionChangesNothing) {
  const std::string straight = files::write_me(*ask(joined_lines(answers())).talk.document);
  for (std::size_t k = 1; k < answers().size(); ++k) {
    std::vector<std::string> lines = answers();
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(k), {"back", lines[k - 1]});
    const Asked asked = ask(joined_lines(lines));
    ASSERT_EQ(asked.talk.end, TalkEnd::through) << k << asked.said;
    EXPECT_EQ(files::write_me(*asked.talk.document), straight) << k;
  }
}

TEST(AskedWhoHeIs, QuestionsFitTheirWidthAndTheScreen) {
  const std::string said = ask(joined_lines(answers())).said;
  std::istringstream lines(said);
  for (std::string line; std::getline(lines, line);)
    EXPECT_LE(base::display_width(line), 80U) << line;
}

TEST(TownClock, IsFoundByItsTown) {
  const files::SystemZones zones;
  const auto zone = [&](std::string_view text) {
    const auto answer = zone_answer(text, zones);
    const auto* found = std::get_if<base::Zone>(&answer);
    return found == nullptr ? std::string("refused") : found->name();
  };
  EXPECT_EQ(zone("London"), "Europe/London");
  EXPECT_EQ(zone("new york"), "America/New_York");
  EXPECT_EQ(zone("Europe/Dublin"), "Europe/Dublin");
  EXPECT_EQ(zone("europe/dublin"), "Europe/Dublin");
  EXPECT_EQ(zone("Hafod"), "refused");
  EXPECT_EQ(zone("../../etc/passwd"), "refused");
  EXPECT_EQ(zone(""), "refused");
}

TEST(KeptMe, ComesBackAsItWasKept) {
  const record::Scratch scratch;
  const files::SystemZones zones;
  Shelf shelf([&] { return scratch.file(); });
  EXPECT_FALSE(kept_me(shelf, zones));
  EXPECT_THROW((void)needed_me(shelf, zones), base::InputError);
  const files::MeDocument document = *ask(joined_lines(answers())).talk.document;
  keep_me(shelf, document, zones, record::at_minute(0));
  const auto kept = kept_me(shelf, zones);
  ASSERT_TRUE(kept);
  EXPECT_EQ(kept->version, 1);
  EXPECT_EQ(files::write_me(kept->document), files::write_me(document));
}

RC_GTEST_PROP(AskedWhoHeIsAnything, EndsWithASoundDocumentOrNone, ()) {
  const auto lines = *rc::gen::container<std::vector<std::string>>(
      rc::gen::oneOf(rc::gen::arbitrary<std::string>(),
                     rc::gen::element<std::string>("", "", "", "back", "?", "yes", "none", "3 x 3", "20",
                                                   "us", "London", "7-9", "1e9", "quit")));
  const Asked asked = ask(joined_lines(lines) + std::string(30, '\n'));
  if (asked.talk.document) RC_ASSERT(works::faults_of(asked.talk.document->me).empty());
  RC_ASSERT((asked.talk.end == TalkEnd::through) == asked.talk.document.has_value());
}

}  // namespace
}  // namespace weatherstruck::desk
