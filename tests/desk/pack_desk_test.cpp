#include "weatherstruck/desk/pack_desk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "record/scratch.h"
#include "weatherstruck/desk/forecast_shelf.h"
#include "weatherstruck/desk/invoice_desk.h"

namespace weatherstruck::desk {
namespace {

using record::at_minute;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class PackDesk : public testing::Test {
 protected:
  void SetUp() override {
    std::ifstream in(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/job.json");
    const std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    home_.add(text, "job.json", zones_, at_minute(0));
    const OpenJob open = home_.open("valley-shelter", zones_);
    record::NewForecast forecast;  // as a service's answer is kept: for the place, not for the job
    forecast.place = place_key(open.job.site);
    forecast.source = "met-norway";
    forecast.body = "{}";
    forecast.fetched_at = at_minute(1);
    home_.store().put_forecast(forecast);
    home_.store().issue_invoice({"2026", open.kept->id, "k", 0, at_minute(9)},
                                [](std::int64_t) { return std::string("{}"); });
    packed_ = pack_job(home_, open, "0.1.0", at_minute(10)).bytes;
  }

  record::Scratch at_home_;
  record::Scratch in_the_van_;
  Shelf home_{[this] { return at_home_.file(); }};
  Shelf van_{[this] { return in_the_van_.file(); }};
  files::SystemZones zones_;
  std::string packed_;
};

TEST_F(PackDesk, AJobTakenToTheVanIsTheJob) {
  const record::Unpacked done = unpack_job(van_, packed_, "shelter.packed", zones_, at_minute(20));
  EXPECT_TRUE(done.fresh);
  EXPECT_EQ(done.added, (record::PackedRows{1, 0, 1, 0, 0, 1}));
  const OpenJob there = van_.open("valley-shelter", zones_);
  EXPECT_EQ(there.document, home_.open("valley-shelter", zones_).document);
  EXPECT_EQ(pack_job(van_, there, "0.1.0", at_minute(10)).bytes, packed_);
}

TEST_F(PackDesk, ItsSeriesIsNumberedWhereItWasBegun) {
  unpack_job(van_, packed_, "shelter.packed", zones_, at_minute(20));
  const record::JobId job = van_.open("valley-shelter", zones_).kept->id;
  CreditRequest credit;
  credit.series = credit.own_series = "2026";
  credit.number = 1;
  try {
    (void)issue_credit(van_.store(), job, "key", credit, at_minute(30));
    FAIL() << "a number was given twice";
  } catch (const base::InputError& error) {
    ASSERT_THAT(error.faults(), SizeIs(1));
    EXPECT_EQ(error.faults().front().code, "series-elsewhere");
    EXPECT_THAT(error.faults().front().remedy, HasSubstr("--series 2026-b"));
  }
  EXPECT_THAT(van_.store().invoices(job), SizeIs(1));
}

TEST_F(PackDesk, AJobWhoseDocumentCannotBeReadIsNotBroughtIn) {
  record::Store& store = home_.store();
  const record::JobId job = store.add_job("odd", "no job at all", 1, at_minute(0));
  const std::string odd = store.pack(job, "", "0.1.0", at_minute(10)).bytes;
  EXPECT_THROW(unpack_job(van_, odd, "odd.packed", zones_, at_minute(20)), base::InputError);
  EXPECT_THAT(van_.names(), IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::desk
