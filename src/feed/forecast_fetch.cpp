#include "weatherstruck/feed/forecast_fetch.h"

#include <algorithm>
#include <exception>
#include <functional>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/mosmix_stations.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;

// The name under which a reader's faults appear.
constexpr const char* what_is_read = "forecast";

// As far as a station's weather still says something of the site; the limit of past years too (assumption).
constexpr double far_from_the_site = 100;

// What no hour has; nullopt where a plan can be made by it.
std::optional<std::string> lacks(const sky::Series& series) {
  const auto none = [&](auto layer) {
    return std::none_of(series.hours.begin(), series.hours.end(),
                        [&](const sky::Hour& hour) { return (hour.*layer).has_value(); });
  };
  if (none(&sky::Hour::temperature)) return "it gives no temperature at all";
  if (none(&sky::Hour::rain)) return "it gives no rain at all, dry or wet";
  if (none(&sky::Hour::wind)) return "it gives no wind at all";
  return std::nullopt;
}

enum class Wanted { forecast, readings };

// The first fault of a body as a forecast; nullopt where it is one.
std::optional<std::string> fault_in_forecast(std::string_view body, const ReadOptions& options,
                                             Wanted wanted) {
  if (body.find_first_not_of(" \t\r\n") == std::string_view::npos) return "it is empty";
  try {
    const sky::Series series = read_forecast(what_is_read, body, options);
    if (wanted == Wanted::forecast) return lacks(series);
  } catch (const base::InputError& error) {
    // What to do about it is for whoever wrote it.
    const base::Fault& fault = error.faults().front();
    return fault.place.empty() ? fault.found : fault.place + ": " + fault.found;
  }
  return std::nullopt;
}

std::optional<std::string> fault_in_stations(std::string_view body) {
  if (read_nws_station(body)) return std::nullopt;
  return "it names no station";
}

std::optional<std::string> fault_in_points(std::string_view body) {
  if (read_nws_points(body)) return std::nullopt;
  return "it does not name a square of the service's grid";
}

// How far an address got.
struct Held {
  std::optional<CachedAnswer> stored;
  bool answered = false;  ///< a new body came, or the old one was confirmed
  bool fresh = false;     ///< a new body came
  bool not_here = false;
  bool stands_in = false;  ///< the stored body serves for want of a newer one
  std::optional<FetchTrouble> trouble;
};

class Fetcher {
 public:
  Fetcher(const ForecastPlace& place, const FetchOptions& options, const FetchPorts& ports)
      : place_(place), options_(options), ports_(ports), random_(options.seed) {}

  FetchOutcome run() {
    const ForecastService of_place = service_for(place_);
    switch (options_.service ? options_.service->service : of_place) {
      case ForecastService::nws:
        if (auto outcome = by_nws()) return *std::move(outcome);
        break;
      case ForecastService::mosmix:
        return by_mosmix();
      case ForecastService::open_meteo:
        return by_open_meteo();
      case ForecastService::met_norway:
        break;
    }
    return by_met_norway();
  }

 private:
  FetchOutcome by_met_norway() {
    const HttpRequest request = met_norway_request(place_, options_.addresses);
    if (!place_.altitude) {
      remark(
          "no-altitude",
          "The site's altitude is not known: MET Norway's temperatures are for the ground round about. Give "
          "it to have them for the site.");
    }
    return outcome_of(ForecastService::met_norway, of_forecast(ForecastService::met_norway, request));
  }

  FetchOutcome by_mosmix() {
    std::string station = options_.service->station;
    if (station.empty()) {
      const NearStation near = nearest_mosmix_station(place_.latitude, place_.longitude);
      if (near.kilometres > far_from_the_site) {
        return FetchRefused{
            {"no-station",
             fmt::format(
                 "Of the stations of the Deutscher Wetterdienst known here the nearest, {}, is {:.0f} km "
                 "away.",
                 near.station.name, near.kilometres),
             "Name a nearer one by its number: mosmix:NUMBER."},
            std::move(remarks_)};
      }
      station = std::string(near.station.number);
    }
    FetchOutcome out =
        outcome_of(ForecastService::mosmix,
                   of_forecast(ForecastService::mosmix, mosmix_request(station, options_.addresses)));
    if (auto* got = std::get_if<FetchedForecast>(&out)) {
      got->remarks.push_back(
          {"station", fmt::format("MOSMIX is the forecast of station {}, {:.0f} km from the site.", station,
                                  great_circle_km(place_.latitude, place_.longitude, got->series.latitude,
                                                  got->series.longitude))});
    }
    return out;
  }

  FetchOutcome by_open_meteo() {
    if (options_.open_meteo_key.empty() && !options_.offline) {
      return FetchRefused{
          {"no-key", "Open-Meteo's free service is not for trade use, and no key of your own is given.",
           "Put your key into the environment as WEATHERSTRUCK_OPEN_METEO_KEY, or ask another "
           "service."},
          std::move(remarks_)};
    }
    // Nobody is asked offline, so no key is sent.
    const std::string key = options_.open_meteo_key.empty() ? "none" : options_.open_meteo_key;
    return outcome_of(
        ForecastService::open_meteo,
        of_forecast(ForecastService::open_meteo, open_meteo_request(place_, key, options_.addresses)));
  }

  // What the night was, by the nearest station. It is a help: the forecast stands without.
  void readings_near(const GridSquare& square) {
    const HttpRequest request = nws_stations_request(square, options_.addresses);
    const auto stored = ports_.cache.get(request.url);
    const Held list = follow(ForecastService::nws, request, stored,
                             next_mapping_step(stored, ports_.now(), options_.offline), &fault_in_stations);
    const auto station = list.stored ? read_nws_station(list.stored->body) : std::nullopt;
    std::optional<FetchTrouble> trouble = list.trouble;
    if (station) {
      trouble = of_forecast(ForecastService::nws,
                            nws_observations_request(*station, *options_.observed_from, options_.addresses),
                            Wanted::readings)
                    .trouble;
    }
    if (trouble) remark("no-readings", "No readings of a station for the hours gone by: " + trouble->found);
  }

  // Nothing where the place is not the service's after all.
  std::optional<FetchOutcome> by_nws() {
    const HttpRequest points = nws_points_request(place_, options_.addresses);
    const Held mapping = of_points(points, false);
    if (is_outside(mapping)) return std::nullopt;
    auto square = square_of(mapping);
    if (!square) return FetchRefused{mapping.trouble.value_or(nothing_stored()), std::move(remarks_)};
    Held grid = of_forecast(ForecastService::nws, nws_grid_request(*square, options_.addresses));
    if (grid.not_here && !mapping.fresh) {
      // The service may have drawn its squares anew.
      const Held now_mapped = of_points(points, true);
      if (is_outside(now_mapped)) return std::nullopt;
      const auto moved = square_of(now_mapped);
      if (moved && *moved != *square) {
        grid = of_forecast(ForecastService::nws, nws_grid_request(*moved, options_.addresses));
        square = moved;
      }
    }
    FetchOutcome out = outcome_of(ForecastService::nws, std::move(grid));
    auto* got = std::get_if<FetchedForecast>(&out);
    if (got != nullptr && options_.observed_from && !options_.offline && answered_well(*got)) {
      readings_near(*square);
      std::move(remarks_.begin(), remarks_.end(), std::back_inserter(got->remarks));
    }
    return out;
  }

  // A service that is down is not asked for more.
  static bool answered_well(const FetchedForecast& got) {
    return std::none_of(got.remarks.begin(), got.remarks.end(),
                        [](const sky::SeriesNote& note) { return note.code == "last-good"; });
  }

  bool is_outside(const Held& mapping) {
    const bool outside =
        mapping.not_here || (mapping.stored && mapping.stored->body.empty() && mapping.stored->status == 404);
    if (outside) {
      remark(
          "other-service",
          "The place lies outside what the US National Weather Service covers: MET Norway has the forecast.");
    }
    return outside;
  }

  static std::optional<GridSquare> square_of(const Held& mapping) {
    return mapping.stored ? read_nws_points(mapping.stored->body) : std::nullopt;
  }

  Held of_points(const HttpRequest& request, bool in_doubt) {
    const auto stored = ports_.cache.get(request.url);
    const Instant now = ports_.now();
    const Step step = in_doubt ? next_step(stored, now, options_.offline)
                               : next_mapping_step(stored, now, options_.offline);
    Held out = follow(ForecastService::nws, request, stored, step, &fault_in_points);
    if (out.not_here && out.stored && !out.stored->body.empty()) {
      // A square that is no more must not be found again.
      out.stored->body.clear();
      out.stored->last_modified.clear();
      keep(*out.stored);
    }
    return out;
  }

  Held of_forecast(ForecastService service, const HttpRequest& request, Wanted wanted = Wanted::forecast) {
    const auto fault_in = [this, wanted](std::string_view body) {
      return fault_in_forecast(body, options_.reading, wanted);
    };
    auto stored = ports_.cache.get(request.url);
    if (stored && !stored->body.empty() && fault_in(stored->body)) {
      remark("damaged", "The stored forecast cannot be read any more and was passed over.");
      stored->body.clear();
      stored->last_modified.clear();
      // Its expiry went with it, unless that is a rest the service asked for.
      if (stored->status >= 200 && stored->status <= 304) stored.reset();
    }
    const Step step = next_step(stored, ports_.now(), options_.offline);
    const bool stands_in = step.kind == StepKind::keep && !step.note.code.empty();
    if (stands_in) remarks_.push_back(step.note);
    const bool rarely = service == ForecastService::mosmix || wanted == Wanted::readings;
    Held out = follow(service, request, stored, step, fault_in, rarely);
    out.stands_in = stands_in || out.trouble;
    return out;
  }

  Held follow(ForecastService service, HttpRequest request, std::optional<CachedAnswer> stored,
              const Step& step, std::function<std::optional<std::string>(std::string_view)> fault_in,
              bool rarely = false) {
    Held out;
    out.stored = std::move(stored);
    if (step.kind != StepKind::ask) {
      if (step.kind == StepKind::refuse) {
        out.trouble = nothing_stored(step.note.text);
        if (step.note.code == "not-yet") out.trouble->remedy = "Wait, or give a saved forecast.";
      }
      return out;
    }
    request.if_modified_since = step.if_modified_since;
    Asked asked{service, request.url, out.stored, 1, std::move(fault_in), rarely};
    const Instant began = ports_.now();
    while (true) {
      // First the answer, then the clock: what the answer says of time counts from when it came.
      const HttpAnswer answer = ports_.http.get(request);
      const Taken taken = take_answer(asked, answer, ports_.now(), random_);
      if (taken.store) {
        keep(*taken.store);
        out.stored = taken.store;
      }
      out.trouble = taken.trouble;
      out.not_here = taken.verdict == Verdict::not_here;
      out.fresh = taken.verdict == Verdict::fresh;
      out.answered = out.fresh || taken.verdict == Verdict::unchanged;
      if (taken.note) remarks_.push_back(*taken.note);
      if (taken.verdict != Verdict::retry) return out;
      const auto waited = std::chrono::duration_cast<std::chrono::milliseconds>(ports_.now() - began);
      if (waited + taken.wait > FetchRules::longest_wait) return out;
      ports_.sleep(taken.wait);
      ++asked.tries;
      asked.stored = out.stored;
    }
  }

  void keep(const CachedAnswer& answer) {
    try {
      ports_.cache.put(answer);
    } catch (const std::exception& error) {
      // The forecast in hand is worth more than the fault of the disk, which is told all the same.
      remark("not-kept", std::string("The answer could not be stored: ") + error.what() +
                             ". Make room or check who may write there; it will be fetched again.");
    }
  }

  FetchOutcome outcome_of(ForecastService service, Held held) {
    const bool has_body = held.stored && !held.stored->body.empty();
    if (!has_body) return FetchRefused{held.trouble.value_or(nothing_stored()), std::move(remarks_)};
    const Instant now = ports_.now();
    FetchedForecast out;
    out.series = read_forecast(what_is_read, held.stored->body, options_.reading);
    out.age = now - held.stored->fetched_at;
    if (!held.answered && out.series.end_time() <= now) {
      const FetchTrouble trouble = held.trouble.value_or(FetchTrouble{
          "ended", "Nobody was asked.", "Fetch one where there is a signal, or give a saved forecast."});
      return FetchRefused{
          {"ended", trouble.found + " The last good forecast, " + age_in_words(out.age) + " old, has ended.",
           trouble.remedy},
          std::move(remarks_)};
    }
    if (held.trouble) remark(held.trouble->code, held.trouble->found + " " + held.trouble->remedy);
    if (held.stands_in) {
      remark("last-good", "The last good forecast stands in; it is " + age_in_words(out.age) + " old.");
    }
    out.body = std::move(held.stored->body);
    out.service = service;
    out.from_cache = !held.fresh;
    out.fetched_at = held.stored->fetched_at;
    out.remarks = std::move(remarks_);
    return out;
  }

  [[nodiscard]] static FetchTrouble nothing_stored(std::string why = {}) {
    if (why.empty()) why = "No forecast of this place is stored.";
    return {"no-forecast", std::move(why), "Fetch one where there is a signal, or give a saved forecast."};
  }

  void remark(std::string code, std::string text) { remarks_.push_back({std::move(code), std::move(text)}); }

  const ForecastPlace& place_;
  const FetchOptions& options_;
  const FetchPorts& ports_;
  base::Random random_;
  std::vector<sky::SeriesNote> remarks_;
};

}  // namespace

FetchOutcome fetch_forecast(const ForecastPlace& place, const FetchOptions& options,
                            const FetchPorts& ports) {
  return Fetcher(place, options, ports).run();
}

}  // namespace weatherstruck::feed
