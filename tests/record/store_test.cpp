#include "weatherstruck/record/store.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "record/scratch.h"

namespace weatherstruck::record {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using Kind = RecordError::Kind;

class StoreTest : public testing::Test {
 protected:
  Scratch scratch_;
  Store store_{scratch_.file()};
};

using Rights = StoreTest;
using Person = StoreTest;
using Jobs = StoreTest;
using Book = StoreTest;
using Forecasts = StoreTest;
using Plans = StoreTest;
using Sheets = StoreTest;
using Invoices = StoreTest;
using Together = StoreTest;

TEST_F(Rights, FolderAndFilesAreForTheirOwnerOnly) {
  add_wall(store_);
  const std::string file = scratch_.file().string();
  EXPECT_EQ(rights(scratch_.file().parent_path()), 0700U);
  EXPECT_EQ(rights(file), 0600U);
  EXPECT_EQ(rights(file + "-wal"), 0600U);
  EXPECT_EQ(rights(file + "-shm"), 0600U);
}

TEST_F(Rights, ACopyIsPrivateAndWholeAndNeverWrittenOver) {
  const JobId job = add_wall(store_);
  store_.append(job, numbered_entry(1));
  const auto target = scratch_.folder() / "copy.db";
  store_.copy_to(target);
  EXPECT_EQ(rights(target), 0600U);
  EXPECT_THAT(Store(target).entries(job), SizeIs(1));
  EXPECT_EQ(kind_thrown([&] { store_.copy_to(target); }), Kind::conflict);
}

TEST_F(Person, TheNewestVersionHolds) {
  EXPECT_FALSE(store_.person());
  EXPECT_EQ(store_.put_person(R"({"crew":1})", 1, at_minute(0)), 1);
  EXPECT_EQ(store_.put_person(R"({"crew":2})", 2, at_minute(1)), 2);
  const Document person = store_.person().value();
  EXPECT_EQ(person.version, 2);
  EXPECT_EQ(person.text, R"({"crew":2})");
  EXPECT_EQ(person.schema_version, 2);
  EXPECT_EQ(person.made_at, at_minute(1));
}

TEST_F(Jobs, AreListedInTheOrderTheyWereAdded) {
  add_wall(store_);
  store_.add_job("pier", "// his own remark\n{}", 1, at_minute(1));
  EXPECT_THAT(store_.job_names(), ElementsAre("wall", "pier"));
  EXPECT_EQ(store_.job("pier").value().document.text, "// his own remark\n{}");
  EXPECT_FALSE(store_.job("step"));
}

TEST_F(Jobs, ADocumentReplacedIsKept) {
  const JobId job = add_wall(store_);
  EXPECT_EQ(store_.replace_job(job, R"({"longer":true})", 1, at_minute(9)), 2);
  EXPECT_EQ(store_.job("wall").value().document.version, 2);
  EXPECT_EQ(store_.job("wall").value().document.text, R"({"longer":true})");
  EXPECT_EQ(store_.job_version(job, 1).value().text, R"({"name":"wall"})");
  EXPECT_FALSE(store_.job_version(job, 3));
}

TEST_F(Jobs, ANameTakenIsAConflictAndLeavesNothing) {
  add_wall(store_);
  std::string text;
  EXPECT_EQ(kind_thrown([&] { store_.add_job("wall", "{}", 1, at_minute(1)); }, &text), Kind::conflict);
  EXPECT_THAT(text, HasSubstr("there is a job \"wall\" already"));
  EXPECT_EQ(kind_thrown([&] { store_.add_job("", "{}", 1, at_minute(1)); }), Kind::conflict);
  EXPECT_EQ(kind_thrown([&] { store_.add_job("pier", "", 1, at_minute(1)); }), Kind::conflict);
  EXPECT_EQ(kind_thrown([&] { store_.replace_job(JobId{9}, "{}", 1, at_minute(1)); }), Kind::conflict);
  EXPECT_THAT(store_.job_names(), ElementsAre("wall"));
  EXPECT_EQ(store_.job("wall").value().document.version, 1);
}

TEST_F(Book, KeepsEveryEntryAsItWasHandedIn) {
  const JobId job = add_wall(store_);
  for (std::int64_t number = 1; number <= 12; ++number) {
    const Appended appended = store_.append(job, numbered_entry(number));
    EXPECT_TRUE(appended.added);
    EXPECT_EQ(appended.entry.revision, number);
  }
  const std::vector<Entry> entries = store_.entries(job);
  ASSERT_THAT(entries, SizeIs(12));
  for (std::int64_t number = 1; number <= 12; ++number) {
    const Entry& entry = entries[static_cast<std::size_t>(number - 1)];
    const NewEntry handed_in = numbered_entry(number);
    EXPECT_EQ(entry.revision, number);
    EXPECT_EQ(entry.key, handed_in.key);
    EXPECT_EQ(entry.kind, handed_in.kind);
    EXPECT_EQ(entry.at, handed_in.at);
    EXPECT_EQ(entry.zone, handed_in.zone);
    EXPECT_EQ(entry.noted_at, handed_in.noted_at);
    EXPECT_EQ(entry.body, handed_in.body);
    EXPECT_FALSE(entry.corrects);
  }
  EXPECT_THAT(store_.entries(job, 10), SizeIs(2));
  EXPECT_EQ(store_.book_revision(job), 12);
}

TEST_F(Book, CountsEachJobByItself) {
  const JobId wall = add_wall(store_);
  const JobId pier = store_.add_job("pier", "{}", 1, at_minute(1));
  store_.append(wall, numbered_entry(1));
  store_.append(wall, numbered_entry(2));
  EXPECT_EQ(store_.append(pier, numbered_entry(1)).entry.revision, 1);
  EXPECT_EQ(store_.book_revision(wall), 2);
  EXPECT_EQ(store_.book_revision(pier), 1);
}

TEST_F(Book, AnEntrySentTwiceIsOneEntry) {
  const JobId job = add_wall(store_);
  NewEntry entry = numbered_entry(1);
  const EntryId first = store_.append(job, entry).entry.id;
  entry.noted_at += std::chrono::minutes(3);
  const Appended again = store_.append(job, entry);
  EXPECT_FALSE(again.added);
  EXPECT_EQ(again.entry.id, first);
  EXPECT_EQ(again.entry.noted_at, numbered_entry(1).noted_at);
  EXPECT_THAT(store_.entries(job), SizeIs(1));
}

TEST_F(Book, AKeyForAnotherEntryIsAConflict) {
  const JobId job = add_wall(store_);
  store_.append(job, numbered_entry(1));
  NewEntry other = numbered_entry(2);
  other.key = "key-1";
  EXPECT_EQ(kind_thrown([&] { store_.append(job, other); }), Kind::conflict);
  EXPECT_EQ(store_.book_revision(job), 1);
}

TEST_F(Book, ACorrectionNamesAnEntryOfTheSameJob) {
  const JobId wall = add_wall(store_);
  const JobId pier = store_.add_job("pier", "{}", 1, at_minute(1));
  const EntryId wrong = store_.append(wall, numbered_entry(1)).entry.id;
  NewEntry correction = numbered_entry(2);
  correction.corrects = wrong;
  EXPECT_EQ(kind_thrown([&] { store_.append(pier, correction); }), Kind::conflict);
  store_.append(wall, correction);
  EXPECT_EQ(store_.entries(wall).back().corrects, wrong);
  EXPECT_EQ(store_.entries(wall).front().body, numbered_entry(1).body);
}

TEST_F(Book, RefusesABodyThatIsNotJsonAndAJobThatIsNotThere) {
  const JobId job = add_wall(store_);
  NewEntry entry = numbered_entry(1);
  entry.body = "3 courses";
  EXPECT_EQ(kind_thrown([&] { store_.append(job, entry); }), Kind::conflict);
  EXPECT_EQ(kind_thrown([&] { store_.append(JobId{9}, numbered_entry(1)); }), Kind::conflict);
  EXPECT_EQ(store_.book_revision(job), 0);
}

NewForecast issue(const std::string& body, std::int64_t minute) {
  NewForecast forecast;
  forecast.place = "53.80,-1.55";
  forecast.source = "met-norway";
  forecast.url = "https://forecast.invalid/";
  forecast.status = 200;
  forecast.body = body;
  forecast.last_modified = "Mon, 09 Feb 2026 08:00:00 GMT";
  forecast.expires = at_minute(minute + 30);
  forecast.fetched_at = at_minute(minute);
  return forecast;
}

TEST_F(Forecasts, TheNewestIssueIsFoundByPlaceAndSource) {
  EXPECT_FALSE(store_.latest_forecast("53.80,-1.55", "met-norway"));
  store_.put_forecast(issue(std::string("ra\0in", 5), 0));
  const ForecastId second = store_.put_forecast(issue("dry", 40));
  const Forecast found = store_.latest_forecast("53.80,-1.55", "met-norway").value();
  EXPECT_EQ(found.id, second);
  EXPECT_EQ(found.body, "dry");
  EXPECT_EQ(found.expires, at_minute(70));
  EXPECT_EQ(found.last_modified, "Mon, 09 Feb 2026 08:00:00 GMT");
  EXPECT_FALSE(found.etag);
  EXPECT_EQ(store_.forecast(ForecastId{1}).value().body, std::string("ra\0in", 5));
  EXPECT_FALSE(store_.latest_forecast("53.80,-1.55", "file"));
  EXPECT_FALSE(store_.latest_forecast("53.81,-1.55", "met-norway"));
}

TEST_F(Forecasts, AnAnswerNotModifiedKeepsTheBodyAndMovesTheTimes) {
  const ForecastId first = store_.put_forecast(issue("rain", 0));
  NewForecast same = issue("", 40);
  same.status = 304;
  same.body.reset();
  same.last_modified.reset();
  same.confirms = first;
  const ForecastId confirmed = store_.put_forecast(same);
  const Forecast found = store_.latest_forecast("53.80,-1.55", "met-norway").value();
  EXPECT_EQ(found.id, first);
  EXPECT_EQ(found.body, "rain");
  EXPECT_EQ(found.expires, at_minute(70));
  EXPECT_EQ(found.fetched_at, at_minute(0));
  EXPECT_EQ(found.confirmed_at, at_minute(40));
  EXPECT_EQ(found.last_modified, "Mon, 09 Feb 2026 08:00:00 GMT");
  EXPECT_EQ(store_.forecast(confirmed).value().id, first);
  same.confirms = confirmed;
  EXPECT_EQ(kind_thrown([&] { store_.put_forecast(same); }), Kind::conflict);
}

TEST_F(Forecasts, ARefusalLeavesTheLastGoodOneInPlaceAndIsRemembered) {
  store_.put_forecast(issue("rain", 0));
  NewForecast refusal = issue("", 40);
  refusal.status = 429;
  refusal.body.reset();
  store_.put_forecast(refusal);
  EXPECT_EQ(store_.latest_forecast("53.80,-1.55", "met-norway").value().body, "rain");
  EXPECT_EQ(store_.latest_forecast("53.80,-1.55", "met-norway").value().expires, at_minute(30));
  const ForecastTry last = store_.last_try("53.80,-1.55", "met-norway").value();
  EXPECT_EQ(last.status, 429);
  EXPECT_EQ(last.expires, at_minute(70));
  EXPECT_FALSE(store_.last_try("53.80,-1.55", "file"));
}

TEST_F(Plans, ComeBackWithAllTheyStoodOn) {
  const JobId job = add_wall(store_);
  EXPECT_FALSE(store_.latest_plan(job));
  store_.put_person("{}", 1, at_minute(0));
  store_.append(job, numbered_entry(1));
  const NewPlan put = plan_for(store_, job);
  const PlanId id = store_.put_plan(put);
  const Plan plan = store_.latest_plan(job).value();
  EXPECT_EQ(plan.id, id);
  EXPECT_EQ(plan.job_version, 1);
  EXPECT_EQ(plan.person_version, 1);
  EXPECT_EQ(plan.book_revision, 1);
  EXPECT_EQ(plan.forecast, put.forecast);
  EXPECT_EQ(plan.program, "0.1.0");
  EXPECT_EQ(plan.zones, "2026a");
  EXPECT_EQ(plan.made_at, at_minute(2));
  EXPECT_EQ(plan.bytes, std::string("pl\0an", 5));
  EXPECT_FALSE(plan.stale.any());
}

TEST_F(Plans, GoStaleWithTheBook) {
  const JobId job = add_wall(store_);
  store_.put_plan(plan_for(store_, job));
  store_.append(job, numbered_entry(1));
  const Staleness stale = store_.latest_plan(job).value().stale;
  EXPECT_TRUE(stale.book && stale.any());
  EXPECT_FALSE(stale.forecast || stale.job || stale.person);
  store_.put_plan(plan_for(store_, job));
  EXPECT_FALSE(store_.latest_plan(job).value().stale.any());
}

TEST_F(Plans, GoStaleWithANewerForecastOfThePlaceOnly) {
  const JobId job = add_wall(store_);
  const NewPlan plan = plan_for(store_, job);
  store_.put_plan(plan);
  store_.put_forecast(issue("of another place", 5));
  NewForecast same;
  same.place = "wall";
  same.source = "file";
  same.status = 304;
  same.confirms = plan.forecast;
  const ForecastId confirmed = store_.put_forecast(same);
  EXPECT_FALSE(store_.latest_plan(job).value().stale.any()) << "what was confirmed has not moved";
  same.status = 503;
  same.confirms.reset();
  store_.put_forecast(same);
  EXPECT_FALSE(store_.latest_plan(job).value().stale.any()) << "a refusal tells nothing";
  same.status = 200;
  same.body = "dry";
  store_.put_forecast(same);
  Staleness stale = store_.latest_plan(job).value().stale;
  EXPECT_TRUE(stale.forecast);
  EXPECT_FALSE(stale.book || stale.job || stale.person);
  NewPlan on_confirmed = plan;
  on_confirmed.forecast = confirmed;
  store_.put_plan(on_confirmed);
  EXPECT_TRUE(store_.latest_plan(job).value().stale.forecast);
}

TEST_F(Plans, GoStaleWithTheDocumentAndWithThePerson) {
  const JobId job = add_wall(store_);
  store_.put_plan(plan_for(store_, job));
  store_.replace_job(job, "{}", 1, at_minute(3));
  EXPECT_TRUE(store_.latest_plan(job).value().stale.job);
  EXPECT_FALSE(store_.latest_plan(job).value().stale.person);
  store_.put_person("{}", 1, at_minute(4));
  EXPECT_TRUE(store_.latest_plan(job).value().stale.person);
}

TEST_F(Plans, MustStandOnWhatIsThere) {
  const JobId job = add_wall(store_);
  NewPlan plan = plan_for(store_, job);
  plan.forecast = ForecastId{99};
  EXPECT_EQ(kind_thrown([&] { store_.put_plan(plan); }), Kind::conflict);
  plan = plan_for(store_, job);
  plan.job_version = 2;
  EXPECT_EQ(kind_thrown([&] { store_.put_plan(plan); }), Kind::conflict);
  EXPECT_FALSE(store_.latest_plan(job));
}

TEST_F(Sheets, TheLastOfAKindComesBackAsItWasHandedOut) {
  const JobId job = add_wall(store_);
  const PlanId plan = store_.put_plan(plan_for(store_, job));
  store_.put_sheet({job, plan, "morning", at_minute(3), "Monday"});
  store_.put_sheet({job, plan, "morning", at_minute(4), "Tuesday"});
  store_.put_sheet({job, std::nullopt, "customer", at_minute(5), ""});
  EXPECT_EQ(store_.latest_sheet(job, "morning").value().bytes, "Tuesday");
  EXPECT_EQ(store_.latest_sheet(job, "morning").value().plan, plan);
  EXPECT_EQ(store_.latest_sheet(job, "customer").value().bytes, "");
  EXPECT_FALSE(store_.latest_sheet(job, "customer").value().plan);
  EXPECT_FALSE(store_.latest_sheet(job, "van"));
}

std::string with_number(std::int64_t number) {
  return "invoice " + std::to_string(number);
}

TEST_F(Invoices, AreNumberedInEachSeriesAndKeptAsIssued) {
  const JobId job = add_wall(store_);
  EXPECT_EQ(store_.issue_invoice({"2026", job, "a", 0, at_minute(1)}, with_number).number, 1);
  EXPECT_EQ(store_.issue_invoice({"2026", job, "b", 3, at_minute(2)}, with_number).number, 2);
  EXPECT_EQ(store_.issue_invoice({"2027", job, "c", 0, at_minute(3)}, with_number).number, 1);
  const Invoice second = store_.invoice("2026", 2).value();
  EXPECT_EQ(second.bytes, "invoice 2");
  EXPECT_EQ(second.key, "b");
  EXPECT_EQ(second.book_revision, 3);
  EXPECT_EQ(second.issued_at, at_minute(2));
  EXPECT_FALSE(store_.invoice("2026", 3));
  EXPECT_THAT(store_.invoices(job), SizeIs(3));
}

TEST_F(Invoices, ANumberIsFreeAgainWhenItsInvoiceCouldNotBeWritten) {
  const JobId job = add_wall(store_);
  store_.issue_invoice({"", job, "a", 0, at_minute(1)}, with_number);
  EXPECT_THROW(
      store_.issue_invoice({"", job, "b", 0, at_minute(2)},
                           [](std::int64_t) -> std::string { throw std::runtime_error("no address"); }),
      std::runtime_error);
  // One that was written and whose transaction then failed.
  EXPECT_THROW(store_.in_one([&] {
    EXPECT_EQ(store_.issue_invoice({"", job, "c", 0, at_minute(3)}, with_number).number, 2);
    throw std::runtime_error("no sheet");
  }),
               std::runtime_error);
  EXPECT_EQ(kind_thrown([&] {
              store_.issue_invoice({"", JobId{9}, "d", 0, at_minute(4)}, with_number);
            }),
            Kind::conflict);
  EXPECT_EQ(store_.issue_invoice({"", job, "e", 0, at_minute(5)}, with_number).number, 2);
  EXPECT_THAT(store_.invoices(job), SizeIs(2));
}

TEST_F(Invoices, AskedForTwiceIsIssuedOnce) {
  const JobId job = add_wall(store_);
  store_.issue_invoice({"", job, "a", 0, at_minute(1)}, with_number);
  const Invoice again =
      store_.issue_invoice({"", job, "a", 0, at_minute(9)}, [](std::int64_t) -> std::string {
        ADD_FAILURE() << "written again";
        return {};
      });
  EXPECT_EQ(again.number, 1);
  EXPECT_EQ(again.issued_at, at_minute(1));
}

TEST_F(Together, AllIsKeptOrNone) {
  const JobId job = add_wall(store_);
  store_.in_one([&] {
    store_.append(job, numbered_entry(1));
    store_.in_one([&] { store_.append(job, numbered_entry(2)); });
  });
  EXPECT_EQ(store_.book_revision(job), 2);
  EXPECT_THROW(store_.in_one([&] {
    store_.append(job, numbered_entry(3));
    throw std::runtime_error("changed his mind");
  }),
               std::runtime_error);
  EXPECT_EQ(store_.book_revision(job), 2);
}

TEST_F(Together, APartThatFailedSpoilsTheWholeEvenWhenCaught) {
  const JobId job = add_wall(store_);
  EXPECT_EQ(kind_thrown([&] {
              store_.in_one([&] {
                store_.append(job, numbered_entry(1));
                EXPECT_THROW(add_wall(store_), RecordError);
              });
            }),
            Kind::conflict);
  EXPECT_EQ(store_.book_revision(job), 0);
  store_.append(job, numbered_entry(1));
  EXPECT_EQ(store_.book_revision(job), 1);
}

}  // namespace
}  // namespace weatherstruck::record
