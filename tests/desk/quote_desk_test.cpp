#include "weatherstruck/desk/quote_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

#include "account/bill_support.h"
#include "desk/code_of.h"
#include "record/scratch.h"
#include "weatherstruck/desk/file_text.h"
#include "weatherstruck/desk/invoice_desk.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::desk {
namespace {

using account::gbp;
using testing::ElementsAre;

const std::string demo = std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/";

class Quotes : public testing::Test {
 protected:
  void SetUp() override {
    (void)shelf_.add(text_of_file(demo + "job.json", "a job"), "job.json", zones_, at_);
  }
  OpenJob open() { return shelf_.open("valley-shelter", zones_); }
  [[nodiscard]] static QuoteRequest request(const works::Job& job) {
    account::Rates rates = account::usual_rates();
    rates.travel = account::TravelByTrip{gbp(9000)};
    for (const works::TotalLine& line : works::bill_of(job).totals)
      rates.prices.push_back({line.material, gbp(100), 1000});
    return {job, rates, account::a_seller(), buyer_of(job), account::day_of(2026, 2, 1)};
  }

  record::Scratch scratch_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  files::SystemZones zones_;
  base::Instant at_ = std::chrono::sys_days(std::chrono::year(2026) / 2 / 1) + std::chrono::hours(20);
};

TEST_F(Quotes, HoldForAsLongAsHeSays) {
  const OpenJob job = open();
  QuoteRequest ask = request(job.job);
  ask.rates.quote_days = 14;
  const Quoted quoted = quote(ask);
  ASSERT_TRUE(quoted.sheet);
  EXPECT_EQ(quoted.sheet->sums.dates.due, account::day_of(2026, 2, 15));
  EXPECT_FALSE(quoted.deposit);
  ask.rates.quote_days = 0;
  EXPECT_EQ(code_of([&] { (void)quote(ask); }), "out-of-range");
}

TEST_F(Quotes, TheUsualDepositIsAskedForUnlessAnotherIs) {
  const OpenJob job = open();
  QuoteRequest ask = request(job.job);
  ask.rates.usual_deposit = 2500;
  const Quoted usual = quote(ask);
  const base::Money price = account::lines_net(usual.sheet->sums);
  EXPECT_EQ(usual.deposit, account::deposit_with_tax(price, 2500, ask.rates.tax));
  ask.deposit = account::DepositAsk{0, gbp(60000)};
  EXPECT_EQ(quote(ask).deposit, gbp(60000));
}

TEST_F(Quotes, WhatIsAgreedIsTheJobsPriceAndOfferedAsItStands) {
  const OpenJob before = open();
  const Quoted offered = quote(request(before.job));
  const OpenJob after = agree(shelf_, before, offered, zones_, at_);
  EXPECT_EQ(after.kept->version, 2);
  EXPECT_EQ(after.job.price->fixed, account::lines_net(offered.sheet->sums));
  const Quoted again = quote(request(after.job));
  EXPECT_TRUE(again.offer.fixed);
  EXPECT_EQ(again.sheet->sums.total, offered.sheet->sums.total);
  EXPECT_EQ(code_of([&] { (void)agree(shelf_, after, again, zones_, at_); }), "agreed-already");
  EXPECT_EQ(code_of([&] { (void)agree(shelf_, before, offered, zones_, at_); }), "job-changed");
  EXPECT_EQ(open().kept->version, 2);
}

TEST_F(Quotes, AreNotAgreedWhileAnythingIsOpen) {
  const OpenJob job = open();
  QuoteRequest ask = request(job.job);
  ask.rates.prices.pop_back();
  EXPECT_EQ(code_of([&] { (void)agree(shelf_, job, quote(ask), zones_, at_); }), "open-question");
  QuoteRequest taxed = request(job.job);
  taxed.rates.materials_tax = account::tax_at(500);
  EXPECT_EQ(code_of([&] { (void)agree(shelf_, job, quote(taxed), zones_, at_); }), "several-taxes");
  works::Job by_the_hour = job.job;
  by_the_hour.price.emplace();
  by_the_hour.price->by_the_hour = true;
  const QuoteRequest hours = request(by_the_hour);
  EXPECT_EQ(code_of([&] { (void)agree(shelf_, job, quote(hours), zones_, at_); }), "by-the-hour");
  EXPECT_EQ(open().kept->version, 1);
}

TEST_F(Quotes, NothingWithAPriceIsNoSheet) {
  const OpenJob job = open();
  QuoteRequest ask = request(job.job);
  ask.rates = account::Rates{account::pounds()};
  ask.rates.tax = account::tax_at(2000);
  const Quoted quoted = quote(ask);
  EXPECT_FALSE(quoted.sheet);
  EXPECT_FALSE(quoted.offer.charges.questions.empty());
}

TEST_F(Quotes, WhatIsSaidOnceIsKept) {
  const OpenJob job = open();
  files::MeDocument me{works::usual_me(base::Zone::fixed("UTC", std::chrono::seconds(0))), {}};
  me.me.name = "Ifan Treharne";
  keep_me(shelf_, me, zones_, at_);
  QuoteRequest ask = request(job.job);
  ask.rates.not_included = {"Power"};
  ask.not_included = {"Power", "Water"};
  ask.deposit = account::DepositAsk{3000, {}};
  keep_for_quotes(shelf_, ask, zones_, at_);
  const account::Rates kept = *needed_me(shelf_, zones_).document.rates;
  EXPECT_EQ(kept.prices, ask.rates.prices);
  EXPECT_THAT(kept.not_included, ElementsAre("Power", "Water"));
  EXPECT_EQ(kept.usual_deposit, 3000);
}

}  // namespace
}  // namespace weatherstruck::desk
