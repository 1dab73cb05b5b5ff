#include "weatherstruck/render/promise_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

using programme::Forbids;
using programme::Hindrance;
using testing::HasSubstr;

TEST(PromiseSheet, MarksEachThingAndSaysWhatIsProvedAndWhatIsNot) {
  const sample::Trip trip = sample::trip();
  programme::Promise promise;
  promise.together = {{{Hindrance::Kind::hands, {}, {}}, Forbids::Mark::needed, true, trip.job.trip.home_by},
                      {{Hindrance::Kind::quiet_hours, {}, {}}, Forbids::Mark::needed, false, {}},
                      {{Hindrance::Kind::dark, {}, {}}, Forbids::Mark::not_settled, false, {}}};
  promise.beside = {{Hindrance::Kind::delivery, {}, {}}};
  promise.plans = 20;
  const std::string open = promise_sheet(trip.facts(), &promise, Ink::plain);
  EXPECT_THAT(open, HasSubstr("one pair of hands         needed: with a second who lays bricks, home Tue"));
  EXPECT_THAT(open, HasSubstr("the quiet hours           needed, once what is not among them"));
  EXPECT_THAT(open, HasSubstr("the dark, without lights  not settled"));
  EXPECT_THAT(open, HasSubstr("that is not proved"));
  EXPECT_THAT(open, HasSubstr("no part of the work was found"));
  promise.proved = true;
  EXPECT_THAT(promise_sheet(trip.facts(), &promise, Ink::plain), testing::Not(HasSubstr("not proved")));
  EXPECT_LE(sample::widest(open), page_width);
}

TEST(PromiseSheet, TellsTheMostOfTheWorkThatIsHomeInTime) {
  const sample::Trip trip = sample::trip();
  programme::Promise promise;
  promise.instead = programme::Instead{{{works::Fallback::Kind::gravel_for_flags, "path", {}}},
                                       {"bed"},
                                       {trip.list.tasks[1].name},
                                       trip.job.trip.home_by};
  const std::string text = promise_sheet(trip.facts(), &promise, Ink::plain);
  EXPECT_THAT(text, HasSubstr("With gravel for flags on the path and without the bed: home"));
  EXPECT_THAT(text, HasSubstr("Left for another time"));
}

TEST(PromiseSheet, SaysThatNothingForbidsOneThatIsKept) {
  const sample::Trip trip = sample::trip();
  EXPECT_THAT(promise_sheet(trip.facts(), nullptr, Ink::plain), HasSubstr("nothing forbids it"));
  programme::Promise luck;
  luck.kept_after_all = trip.job.trip.home_by;
  EXPECT_THAT(promise_sheet(trip.facts(), &luck, Ink::plain), HasSubstr("another search found a plan"));
}

}  // namespace
}  // namespace weatherstruck::render
