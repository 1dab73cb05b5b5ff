// Writes the sheets of the demonstration as HTML, for tools that judge pages: usage: PROGRAM FOLDER
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>

#include "programme/demo_week.h"
#include "render/bill_support.h"
#include "render/tick_day.h"
#include "weatherstruck/account/quote.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/programme/turns.h"
#include "weatherstruck/render/as_built_sheet.h"
#include "weatherstruck/render/customer_sheet.h"
#include "weatherstruck/render/day_book.h"
#include "weatherstruck/render/days_drawing.h"
#include "weatherstruck/render/invoice_html.h"
#include "weatherstruck/render/phone_sheet.h"
#include "weatherstruck/render/quote_sheet.h"
#include "weatherstruck/render/van_html.h"
#include "weatherstruck/trade/cautions.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/progress.h"
#include "works/book_support.h"
#include "works/demo_job.h"

using namespace weatherstruck;

namespace {

void write(const std::string& path, const std::string& bytes) {
  std::ofstream file(path, std::ios::binary);
  file << bytes;
  if (!file.flush()) throw std::runtime_error("cannot write " + path);
}

std::string van() {
  render::VanFacts facts{"A base & a <bed>", {}, {}, base::Kilograms(1000), base::CubicMetres(6), {}, true};
  facts.items.push_back({"mixer", base::Kilograms(60), base::CubicMetres(0.5), 1, 0});
  facts.items.push_back({"cement", base::Kilograms(250), base::CubicMetres(0.2), 10, 1});
  facts.plan = measure::plan_van(facts.items, facts.payload, facts.room);
  facts.brought.push_back({"facing bricks", "1000 bricks", "delivered Mon 9 Feb 08:30"});
  return render::van_html(facts);
}

/// Two days of work with a line of every kind, the second in rain.
std::vector<works::Entry> two_days() {
  using works::entry;
  using works::feb;
  const auto pounds = [](std::int64_t pence) { return base::Money(pence, works::sterling()); };
  return {
      entry("a", feb(9, 7, 40), works::Begin{"set-out"}),
      entry("b", feb(9, 9), works::Done{"set-out", works::Whole{}}),
      entry("c", feb(9, 9, 5), works::Begin{"bed-dig"}),
      entry("d", feb(9, 7, 45), works::Arrived{"facing-brick", 1000}),
      entry("e", feb(9, 12, 10), works::Done{"bed-dig", works::Whole{}}),
      entry("f", feb(9, 12, 20), works::Expense{"two bags of cement & a <line>", pounds(1280), "4711"}),
      entry("g", feb(9, 13), works::Begin{"bed-pour"}),
      entry("h", feb(9, 15, 30), works::Done{"bed-pour", works::Whole{}}),
      entry("i", feb(9, 16), works::CoverOn{"bed", trade::CoverKind::hessian_and_sheet}),
      entry("j", feb(9, 16, 20),
            works::Note{"Roots of the old pear tree in the north-east corner, cut back by hand"}),
      entry("k", feb(10, 8), works::Thermometer{base::Celsius(1)}),
      entry("l", feb(10, 8, 10), works::Begin{"bed-lay"}),
      entry("m", feb(10, 13, 15), works::StoodDown{"rain", feb(10, 11), feb(10, 13, 15)}),
      entry("n", feb(10, 14), works::Gauge{base::Millimetres(4), feb(10, 8)}),
      entry("o", feb(10, 14, 10),
            works::Extra{"a gully under the path", "Marged Penhallow-Rees", pounds(4000)}),
      entry("p", feb(10, 16, 10), works::Done{"bed-lay", works::Courses{3}}),
  };
}

void site_book(const std::string& folder, const render::TripFacts& facts, const programme::Plan& plan) {
  const base::Zone& zone = facts.job.site.zone;
  const base::Instant now = works::feb(10, 19);
  const std::vector<works::Entry> entries = works::effective(works::book_of(two_days())).entries;
  const works::Progress progress = works::progress_of(facts.job, facts.list, works::book_of(two_days()), now);
  const std::vector<render::PlanOfDay> plans{{zone.day_of(works::feb(9, 8)), plan}, {zone.day_of(now), plan}};
  const render::DayBookFacts kept{facts.job, facts.list, progress, entries, facts.series, plans, now};
  write(folder + "record.html", render::day_book_html(render::day_book_of(kept, {}), zone));
  write(folder + "record-for-customer.html",
        render::day_book_html(render::day_book_of(kept, {false, false, false, false}), zone));
  write(folder + "day.html", render::day_book_html(render::day_book_of(kept, {}, zone.day_of(now)), zone));
  write(folder + "day-empty.html",
        render::day_book_html(render::day_book_of(kept, {}, zone.day_of(works::feb(12, 8))), zone));
}

/// Reckoned, with two taxes and every sort of line.
std::string quotation(const works::Job& job, const works::TaskList& list) {
  const works::Bill bill = works::bill_of(job);
  account::Rates rates{works::sterling()};
  rates.day_work = render::sample::gbp(3800);
  rates.travel = account::TravelByTrip{render::sample::gbp(8500)};
  rates.tax = account::tax_at(2000);
  rates.materials_tax = account::tax_at(500);
  rates.on_materials = 1000;
  for (const works::TotalLine& line : bill.totals)
    rates.prices.push_back({line.material, render::sample::gbp(640), 25'000});
  const account::Terms terms = account::terms_of(rates, job.price);
  const account::Offer offer = account::offer_of(terms, job, list, bill);
  const account::Invoice sums =
      account::make_invoice(offer.charges, job.title, render::sample::mason_bill().seller,
                            {"Marged & Co <x>", "Ty'r Odyn, Nant-y-Glaw"}, {},
                            {render::sample::february(1), render::sample::february(28), {}, {}});
  const works::Expansion expansion = works::expand(job);
  const std::vector<std::string> not_included{"Power and water, which you provide"};
  return render::quote_html(render::quote_sheet_of(
      {job, expansion, bill, terms, offer, sums, not_included, render::sample::gbp(80000)}));
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::cerr << "usage: " << words[0] << " FOLDER\n";
    return 2;
  }
  const std::string folder = std::string(words[1]) + "/";
  const works::Job job = works::demo_job();
  const works::TaskList list = works::derive_tasks(job);
  const sky::Series series = programme::demo_week();
  const trade::LimitValues limits = works::limits_of(job).values;
  const base::Instant now = job.trip.leave_home;
  const programme::PlanResult made = programme::make_plan({job, list, series, limits, now});
  render::TripFacts facts{job, list, series, limits, made.plan, now, {}, made.objections.empty()};
  const auto days = render::trip_days(facts);
  for (std::size_t day = 0; day < days.size(); ++day) {
    facts.turns = programme::turns_of({job, list, series, limits, made.plan, now, days[day].day});
    render::MorningFacts morning{
        day, trade::choose_cautions(render::caution_facts(facts, days[day], base::Metres(0.5)), limits)};
    write(folder + "phone-" + std::to_string(day + 1) + ".html",
          render::phone_sheet(facts, morning, {"weatherstruck log valley-shelter --text ticks.txt"}));
  }
  write(folder + "days.html", render::days_html(facts));
  write(folder + "days.svg", render::days_svg(facts));
  write(folder + "invoice.html", render::invoice_html(render::sample::mason_bill()));
  facts.now = made.plan.leaves_site.value_or(job.trip.home_by);
  const render::CustomerSheet customer =
      render::customer_sheet_of(facts, {"Rhys Vaughan", "rhys@vaughan-walling.example"});
  write(folder + "customer.html", render::customer_html(customer));
  write(folder + "customer.txt", render::customer_text(customer, render::Ink::plain));
  const render::AsBuiltSheet built = render::as_built_sheet_of(facts);
  write(folder + "as-built.html", render::as_built_html(built));
  write(folder + "as-built.txt", render::as_built_text(built, render::Ink::plain));
  write(folder + "van.html", van());
  write(folder + "quote.html", quotation(job, list));
  site_book(folder, facts, made.plan);
  const render::TickDay day = render::tick_day();
  write(folder + "phone-ticks.html", render::phone_sheet(day.facts(), {1, {}}, {}));
  return 0;
}
