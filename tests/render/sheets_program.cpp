// Writes the sheets of the demonstration as HTML, for tools that judge pages: usage: PROGRAM FOLDER
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>

#include "programme/demo_week.h"
#include "render/bill_support.h"
#include "render/tick_day.h"
#include "weatherstruck/programme/planner.h"
#include "weatherstruck/programme/turns.h"
#include "weatherstruck/render/as_built_sheet.h"
#include "weatherstruck/render/customer_sheet.h"
#include "weatherstruck/render/days_drawing.h"
#include "weatherstruck/render/invoice_html.h"
#include "weatherstruck/render/phone_sheet.h"
#include "weatherstruck/render/van_html.h"
#include "weatherstruck/trade/cautions.h"
#include "weatherstruck/works/expand.h"
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
  const render::TickDay day = render::tick_day();
  write(folder + "phone-ticks.html", render::phone_sheet(day.facts(), {1, {}}, {}));
  return 0;
}
