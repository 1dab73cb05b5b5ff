#include "trip_command.h"

#include <fmt/format.h>

#include <ostream>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/files/export.h"

namespace weatherstruck::app {

base::Instant moment_of(const Arguments& arguments, const Setting& setting, const works::Job& job) {
  if (!arguments.now) return setting.machine_now;
  files::MomentRead read = files::read_moment(*arguments.now, job.site.zone);
  if (read.moment) return *read.moment;
  base::Fault fault = read.fault.value_or(base::Fault{});
  fault.place = "--now";
  throw UsageError(base::to_text(fault));
}

ExitCode answer(const Arguments& arguments, const Setting& setting,
                const std::function<files::Json()>& document, const std::function<std::string()>& text) {
  setting.out << (arguments.json ? files::export_text(document()) : text());
  return ExitCode::ok;
}

ExitCode with_trip(const Arguments& arguments, const Setting& setting,
                   const std::function<ExitCode(const desk::PlannedTrip&)>& use) {
  desk::OpenJob open = desk::open_job(arguments.positionals.front(), setting.zones);
  const base::Instant now = moment_of(arguments, setting, open.job);
  std::vector<sky::Series> forecasts = desk::read_forecasts(arguments.forecasts, open.job.site);
  if (const auto refused = desk::refusal(open.job, desk::joined(forecasts), now)) {
    render::Page page;
    page.text(refused->text);
    setting.err << page.str();
    return refused->kind == desk::Refusal::Kind::forecast_over ? ExitCode::stale : ExitCode::failed;
  }
  const desk::PlannedTrip trip = desk::plan_trip(std::move(open), std::move(forecasts), now);
  const programme::PlanResult& result = trip.result;
  const base::Zone& zone = trip.open.job.site.zone;
  const ExitCode code = use(trip);
  if (code != ExitCode::ok) return code;
  if (!result.objections.empty()) {
    render::Page page;
    for (const programme::Objection& objection : result.objections) {
      page.text(fmt::format("{} {}{}{}", base::day_and_time(zone.to_local(objection.at)), objection.task,
                            objection.task.empty() ? "" : ": ", objection.text));
    }
    setting.err << page.str() << "The plan fails its own check. Do not follow it.\n";
    return ExitCode::failed;
  }
  // Work that need not be done may be left out; the sheet says which. The promise and the musts are what
  // counts.
  const bool musts = result.plan.all_musts_placed(trip.list);
  if (!result.plan.home || result.plan.in_hand.count() < 0 || !musts) {
    setting.err << (musts ? "Not home by the promise.\n" : "Work that must be done is left out.\n");
    return ExitCode::no_plan;
  }
  return ExitCode::ok;
}

}  // namespace weatherstruck::app
