// A week is logged twice, once in order and once late, out of order and corrected. What it comes to is the
// same to the byte: day sheets, own pace, invoice.
#include "weatherstruck/desk/day_book_desk.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>

#include "account/bill_support.h"
#include "record/scratch.h"
#include "weatherstruck/desk/file_text.h"
#include "weatherstruck/desk/forecast_shelf.h"
#include "weatherstruck/desk/invoice_desk.h"
#include "weatherstruck/desk/pace_desk.h"
#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/files/day_book_json.h"
#include "weatherstruck/files/invoice_json.h"
#include "weatherstruck/files/pace_json.h"
#include "weatherstruck/files/plan_json.h"
#include "weatherstruck/works/task_list.h"
#include "works/book_support.h"

namespace weatherstruck::desk {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

using testing::HasSubstr;
using testing::Not;
using works::entry;
using works::Entry;
using works::feb;

std::string demo(const std::string& file) {
  return text_of_file(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/fixtures/demo/" + file, "a fixture", 1 << 24);
}

/// The whole of the groundwork and what follows, task after task, at a quarter more than the norm; from the
/// Monday, and no more than eight hours a day.
std::vector<Entry> work_in_order(const works::TaskList& list) {
  std::vector<Entry> book;
  base::Instant at = feb(9, 8);
  int number = 0;
  for (const works::Task& task : list.tasks) {
    const bool moves = task.operation == trade::Operation::drive || task.only_if.has_value();
    if (moves || task.amount <= 0 || number >= 14) continue;
    const double length = 1.25 * (task.hours + task.set_up).value() / 1.3;
    const base::Instant to = at + minutes(std::max(20L, std::lround(length * 60)));
    book.push_back(entry("begin-" + task.name, at, works::Begin{task.name}));
    book.push_back(entry("done-" + task.name, to, works::Done{task.name, works::Whole{}}));
    ++number;
    at = to + minutes(5);
    const base::Instant midnight = std::chrono::floor<std::chrono::days>(at);
    if (at - midnight > hours(15)) at = midnight + hours(24 + 8);
  }
  return book;
}

std::vector<Entry> in_order(const works::TaskList& list) {
  std::vector<Entry> book = work_in_order(list);
  book.push_back(entry("rain", feb(9, 11), works::StoodDown{"rain", feb(9, 11), feb(9, 12, 30)}));
  book.push_back(entry("bricks", feb(9, 9, 10), works::Arrived{"facing-brick", 400}));
  book.push_back(entry("cement", feb(9, 7, 40), works::Expense{"cement", account::gbp(3795), "4711"}));
  book.push_back(entry("sand", feb(10, 7, 40), works::Expense{"sand", account::gbp(2210), "4712"}));
  book.push_back(entry("drain", feb(10, 12, 1), works::Extra{"a gully", "Marged", account::gbp(4000)}));
  book.push_back(entry("sheet", feb(9, 17), works::CoverOn{"bed", trade::CoverKind::sheet}));
  book.push_back(entry("off", feb(10, 8, 2), works::CoverOff{"bed", std::nullopt}));
  book.push_back(entry("cold", feb(10, 7), works::Thermometer{base::Celsius(-1.5)}));
  book.push_back(entry("gate", feb(10, 9, 3), works::Note{"gate is locked at five"}));
  std::stable_sort(book.begin(), book.end(), [](const Entry& a, const Entry& b) { return a.at < b.at; });
  return book;
}

/// The same, told on the last evening from the last to the first, every third at first wrong by an hour, and
/// one thing told that never was.
std::vector<Entry> anyhow(std::vector<Entry> right) {
  std::reverse(right.begin(), right.end());
  std::vector<Entry> book;
  base::Instant noted = feb(20, 18);
  const auto put = [&](Entry one) {
    noted += minutes(1);
    one.noted_at = noted;
    book.push_back(std::move(one));
  };
  int number = 0;
  for (Entry& one : right) {
    const bool moves =
        std::holds_alternative<works::Begin>(one.what) || std::holds_alternative<works::Done>(one.what);
    if (++number % 3 == 0 && moves) {
      Entry wrong = one;
      wrong.at -= hours(1);
      wrong.key += "-wrong";
      put(wrong);
      one.corrects = wrong.key;
    }
    put(one);
  }
  put(entry("never", feb(10, 10), works::Note{"said of another job"}));
  put(entry("struck", feb(10, 10), works::Struck{}, "never"));
  return book;
}

class Told {
 public:
  Told() {
    past_ = shelf_.add(demo("job.json"), "past", zones_, feb(1, 8));
    std::string later = demo("job.json");
    for (const auto& [from, to] :
         std::vector<std::pair<std::string, std::string>>{{"\"" + past_->job.name + "\"", "\"next\""},
                                                          {"2026-02-09T", "2026-03-09T"},
                                                          {"2026-02-12T", "2026-03-12T"}}) {
      for (std::size_t at = later.find(from); at != std::string::npos; at = later.find(from, at + to.size()))
        later.replace(at, from.size(), to);
    }
    (void)shelf_.add(later, "next", zones_, feb(1, 9));
    record::NewForecast forecast;
    forecast.job = past_->kept->id;
    forecast.place = place_key(past_->job.site);
    forecast.source = "file";
    forecast.url = "forecast-day1.json";
    forecast.body = demo("forecast-day1.json");
    forecast.fetched_at = feb(9, 4);
    forecast_ = shelf_.store().put_forecast(forecast);
  }
  [[nodiscard]] works::TaskList list() const { return works::derive_tasks(past_->job); }

  void tell(const std::vector<Entry>& book) {
    std::map<std::string, record::EntryId> ids;
    shelf_.store().in_one([&] {
      for (const Entry& one : book)
        put(one, ids);
    });
  }
  void put(const Entry& one, std::map<std::string, record::EntryId>& ids) {
    std::optional<record::EntryId> corrects;
    if (one.corrects) corrects = ids.at(*one.corrects);
    ids[one.key] = shelf_.store()
                       .append(past_->kept->id, {one.key, files::kind_of(one.what), one.at, "Europe/London",
                                                 one.noted_at, files::body_of(one.what).dump(), corrects})
                       .entry.id;
  }
  /// Keeps a plan that has one task of the list all of Monday: one that is done then, or one that is not.
  void plan_at(base::Instant made, int which) {
    const works::TaskList tasks = list();
    files::KeptPlan kept;
    kept.now = made;
    for (const works::Task& task : tasks.tasks) {
      programme::PlannedTask planned;
      planned.task = task.name;
      const bool meant = which == 0 ? task.name == "unload" : task.name == tasks.tasks.back().name;
      if (meant) planned.runs.push_back({{feb(9, 8), feb(9, 9)}, 1.0});
      kept.plan.tasks.push_back(planned);
    }
    record::NewPlan row;
    row.job = past_->kept->id;
    row.job_version = 1;
    row.book_revision = 0;
    row.forecast = forecast_;
    row.program = "1";
    row.zones = "1";
    row.made_at = made;
    row.bytes = files::write_plan(kept);
    (void)shelf_.store().put_plan(row);
  }
  [[nodiscard]] std::string days(const render::DayBookView& view = {}) {
    const OpenJob open = shelf_.open(past_->job.name, zones_);
    const KeptDays kept = kept_days(shelf_, open, feb(21, 8));
    const render::DayBook book = render::day_book_of(kept.facts(), view);
    const base::Zone& zone = open.job.site.zone;
    return render::day_book_text(book, zone, render::Ink::plain) + render::day_book_html(book, zone) +
           files::day_book_json(book).dump(2);
  }
  [[nodiscard]] std::string pace() {
    const OpenJob next = shelf_.open("next", zones_);
    std::string text = files::paces_json(own_paces(shelf_.store(), zones_, feb(28, 8))).dump(2);
    for (const works::Task& task : works::derive_tasks(next.job).tasks)
      text += fmt::format("{} {}\n", task.name, task.hours.value());
    return text;
  }
  [[nodiscard]] std::string invoice() {
    const OpenJob open = shelf_.open(past_->job.name, zones_);
    const works::Standing standing = works::standing_of(open.job, open.book, feb(21, 8));
    account::Terms terms{account::usual_rates()};
    terms.by_the_hour = true;
    terms.materials = account::Cover::on_top;
    terms.travel = account::Cover::in_the_price;
    const BillRequest request{standing.job,
                              standing.list,
                              standing.progress,
                              1,
                              terms,
                              account::a_seller(),
                              account::a_buyer(),
                              "2026",
                              account::day_of(2026, 2, 21),
                              false};
    (void)issue_invoice(shelf_.store(), open.kept->id, "bill", request, feb(21, 8));
    return shelf_.store().invoice("2026", 1)->bytes;
  }

 private:
  record::Scratch scratch_;
  files::SystemZones zones_;
  Shelf shelf_{[this] { return scratch_.file(); }};
  std::optional<OpenJob> past_;
  record::ForecastId forecast_{};
};

TEST(WeekTwice, DaySheetsPaceAndInvoiceAgreeToTheByte) {
  Told once;
  const std::vector<Entry> book = in_order(once.list());
  once.tell(book);
  Told again;
  const std::vector<Entry> late = anyhow(book);
  EXPECT_GT(late.size(), book.size() + 5) << "there is something to correct";
  again.tell(late);
  const std::string days = once.days();
  EXPECT_EQ(again.days(), days);
  EXPECT_EQ(again.days({false, false, false, false}), once.days({false, false, false, false}));
  const std::string pace = once.pace();
  EXPECT_EQ(again.pace(), pace);
  const std::string invoice = once.invoice();
  EXPECT_EQ(again.invoice(), invoice);
  // And they say something.
  EXPECT_THAT(days, HasSubstr("stood down: rain"));
  EXPECT_THAT(days, HasSubstr("Cement, 37.95 GBP, receipt 4711"));
  EXPECT_THAT(pace, HasSubstr("\"entries\""));
  EXPECT_THAT(invoice, HasSubstr("A gully"));
}

// The plan of a day is the one that was there when its work began, not one made at noon.
TEST(KeptDays, TakeTheWeatherAndThePlanThatWereKept) {
  Told once;
  once.tell(in_order(once.list()));
  EXPECT_THAT(once.days(), Not(HasSubstr("as it was planned")));
  once.plan_at(feb(9, 7), 0);
  once.plan_at(feb(9, 12), 1);
  const std::string days = once.days();
  EXPECT_THAT(days, HasSubstr("1 task finished as the morning's plan had it"));
  EXPECT_THAT(days, Not(HasSubstr("Not finished, as it was planned")));
}

// Half the book is not the whole of it: the comparison above can fail.
TEST(WeekTwice, AnotherWeekIsAnother) {
  Told once;
  std::vector<Entry> book = in_order(once.list());
  once.tell(book);
  Told other;
  for (Entry& one : book) {
    if (std::holds_alternative<works::Done>(one.what)) one.at += minutes(4);
  }
  other.tell(book);
  EXPECT_NE(other.days(), once.days());
  EXPECT_NE(other.pace(), once.pace());
}

}  // namespace
}  // namespace weatherstruck::desk
