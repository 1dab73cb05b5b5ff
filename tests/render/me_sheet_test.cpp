#include "weatherstruck/render/me_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "works/demo_job.h"

namespace weatherstruck::render {
namespace {

using testing::HasSubstr;

works::Me somebody() {
  works::Me me = works::usual_me(works::winter_greenwich());
  me.name = "Tegwen Brickfield";
  return me;
}

TEST(MeSheet, TellsWhatIsKept) {
  works::Me me = somebody();
  me.contact = "post@brickfield.example";
  me.crew.front().pace = 1.3;
  me.crew.push_back({"mate", false, 1});
  me.kit.hessian = base::SquareMetres(20);
  me.kit.canopy = works::Canopy{base::Metres(3), base::Metres(3)};
  account::Rates rates{.currency = *base::Currency::from_code("GBP"), .day_work = {}};
  rates.day_work = base::Money(3800, rates.currency);
  rates.travel = account::TravelByDistance{base::Money(45, rates.currency)};
  rates.tax = account::tax_at(2000);
  const std::string text = me_sheet(me, rates, Ink::plain);
  EXPECT_THAT(text, HasSubstr("mason, 1.3 of the norm; mate, labours"));
  EXPECT_THAT(text, HasSubstr("20 m2 of hessian"));
  EXPECT_THAT(text, HasSubstr("canopy 3 x 3 m"));
  EXPECT_THAT(text, HasSubstr("38.00 GBP an hour; travel 0.45 GBP a mile"));
  EXPECT_THAT(text, testing::ContainsRegex("VAT[ \n]+20 %"));
}

TEST(MeSheet, IsInFeetAndPoundsUnderAmericanLimits) {
  works::Me me = somebody();
  me.limits.set = trade::LimitSet::us;
  me.kit.mixer = base::CubicMetres(0.1699);
  me.kit.hessian = base::SquareMetres(18.58);
  me.kit.van_payload = base::Kilograms(907.18);
  const std::string text = me_sheet(me, {}, Ink::plain);
  EXPECT_THAT(text, HasSubstr("mixer of 6 cu ft; 200 sq ft of hessian"));
  EXPECT_THAT(text, HasSubstr("2,000 lb, 212 cu ft"));
}

TEST(MeSheet, SaysWhatIsMissingAndWhatFollows) {
  const std::string text = me_sheet(somebody(), {}, Ink::plain);
  EXPECT_THAT(text, HasSubstr("none: no forecast can be fetched"));
  EXPECT_THAT(text, HasSubstr("not said yet"));
}

}  // namespace
}  // namespace weatherstruck::render
