#include "trip_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <ostream>
#include <thread>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/desk/forecast_shelf.h"
#include "weatherstruck/feed/curl_client.h"
#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/me_json.h"

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

namespace {

void say(const Setting& setting, const std::string& text) {
  render::Page page;
  page.text(text);
  setting.err << page.str();
}

// What the forecast services want to be told: a way to reach whoever asks.
std::string contact(const Setting& setting) {
  const std::optional<record::Document> person = setting.shelf.store().person();
  std::string contact;
  if (person) {
    const files::MeRead read = files::read_me(person->text, setting.zones);
    if (read.document) contact = read.document->me.contact;
  }
  if (contact.empty()) {
    // Who was never asked is asked everything; who left it out may give it alone.
    const std::string how = person ? "Give yours once: \"weatherstruck me --contact name@example.org\""
                                   : "Say first who you are, once: \"weatherstruck me\"";
    throw base::InputError("the forecast service",
                           {{"no-contact", "", "", "",
                             "The weather services want a mail address of whoever asks. " + how +
                                 ". Until then go by a saved forecast, --forecast FILE, or by the last one "
                                 "kept, --offline."}});
  }
  return contact;
}

}  // namespace

desk::ForecastsAtHand forecasts_of(const Arguments& arguments, const Setting& setting,
                                   const desk::OpenJob& open, base::Instant now) {
  const Network& network = setting.network;
  const auto began = std::chrono::steady_clock::now();
  std::optional<feed::CurlClient> client;
  bool told = false;
  const auto ports = [&]() -> desk::ServicePorts {
    feed::ServiceAddresses addresses = feed::addresses_under(network.address, "WEATHERSTRUCK_SERVICE");
    const feed::HttpDoors doors{feed::on_this_machine(network.address), network.ca_file};
    client.emplace(feed::user_agent(setting.version, contact(setting)), network.limits, doors);
    if (!network.address.empty()) {
      say(setting, fmt::format("Forecasts come from {} (WEATHERSTRUCK_SERVICE), not from the service itself.",
                               addresses.met_norway));
    }
    return {*client, std::move(addresses),
            [&, began] {
              return setting.machine_now + (network.passed ? network.passed()
                                                           : std::chrono::floor<std::chrono::seconds>(
                                                                 std::chrono::steady_clock::now() - began));
            },
            [&](std::chrono::milliseconds pause) {
              if (!std::exchange(told, true))
                say(setting, "No forecast yet: it is asked for again, for a minute at most.");
              setting.err.flush();
              if (network.sleep) return network.sleep(pause);
              std::this_thread::sleep_for(pause);
            }};
  };
  // The wait between tries should differ from user to user, and is the same for the same moment.
  desk::ForecastWish wish{arguments.forecasts, arguments.offline, now < setting.machine_now,
                          static_cast<std::uint64_t>(now.time_since_epoch().count())};
  wish.service = feed::read_choice(arguments.service);
  wish.beside = arguments.beside;
  wish.open_meteo_key = network.open_meteo_key;
  desk::ForecastsAtHand forecasts = desk::forecasts_for(setting.shelf, open, wish, ports, now);
  for (const std::string& sentence : forecasts.news)
    say(setting, sentence);
  return forecasts;
}

namespace {

int count_of(const Arguments& arguments, const std::string& option, int least, int most, int otherwise) {
  const auto text = arguments.value(option);
  if (!text) return otherwise;
  const auto number = base::parse_number(*text);
  if (!number || *number < least || *number > most || *number != static_cast<int>(*number))
    throw UsageError(
        fmt::format("{}: found \"{}\"; allowed: a whole number from {} to {}.", option, *text, least, most));
  return static_cast<int>(*number);
}

}  // namespace

std::optional<desk::Budget> budget_of(const Arguments& arguments) {
  if (!arguments.has("--schedules") && !arguments.has("--weathers")) return std::nullopt;
  const desk::Budget usual;
  return desk::Budget{count_of(arguments, "--schedules", 100, 1'000'000, usual.schedules),
                      count_of(arguments, "--weathers", 20, 1000, usual.weathers)};
}

ExitCode on_trip(const Arguments& arguments, const Setting& setting,
                 const std::function<ExitCode(desk::PlannedTrip&)>& use) {
  desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  const base::Instant now = moment_of(arguments, setting, open.job);
  desk::ForecastsAtHand forecasts = forecasts_of(arguments, setting, open, now);
  if (const auto refused = desk::refusal(open.job, desk::joined(forecasts.issues), now)) {
    say(setting, refused->text);
    return refused->kind == desk::Refusal::Kind::forecast_over ? ExitCode::stale : ExitCode::failed;
  }
  const std::optional<sky::Series> beside = std::move(forecasts.beside);
  const std::optional<desk::Budget> budget = budget_of(arguments);
  desk::PlannedTrip trip =
      open.kept ? desk::plan_kept(setting.shelf, std::move(open), std::move(forecasts), now,
                                  {arguments.seed, setting.version, setting.zones.version(), budget})
                : desk::plan_trip(std::move(open), std::move(forecasts), now, arguments.seed,
                                  budget.value_or(desk::Budget{}));
  if (beside) desk::hold_beside(trip, *beside);
  return use(trip);
}

namespace {

// What stands against the plan, said and as an exit code.
ExitCode judged(const Setting& setting, const desk::PlannedTrip& trip) {
  const programme::PlanResult& result = trip.result;
  const base::Zone& zone = trip.open.job.site.zone;
  if (!result.objections.empty()) {
    render::Page page;
    // One thing gone wrong draws many after it.
    constexpr std::size_t most_told = 5;
    for (std::size_t i = 0; i < std::min(most_told, result.objections.size()); ++i) {
      const programme::Objection& objection = result.objections[i];
      page.text(fmt::format("{} {}{}{}", base::day_and_time(zone.to_local(objection.at)), objection.task,
                            objection.task.empty() ? "" : ": ", objection.text));
    }
    if (result.objections.size() > most_told)
      page.text(fmt::format("And {} more of the kind.", result.objections.size() - most_told));
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

}  // namespace

ExitCode with_trip(const Arguments& arguments, const Setting& setting,
                   const std::function<ExitCode(desk::PlannedTrip&)>& use) {
  return on_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
    const ExitCode code = use(trip);
    return code == ExitCode::ok ? judged(setting, trip) : code;
  });
}

}  // namespace weatherstruck::app
