#include "weatherstruck/feed/forecast_fetch.h"

#include <exception>
#include <functional>
#include <utility>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;

// The name under which a reader's faults appear.
constexpr const char* what_is_read = "forecast";

// The first fault of a body as a forecast; nullopt where it is one.
std::optional<std::string> fault_in_forecast(std::string_view body, const ReadOptions& options) {
  if (body.find_first_not_of(" \t\r\n") == std::string_view::npos) return "it is empty";
  try {
    (void)read_forecast(what_is_read, body, options);
  } catch (const base::InputError& error) {
    // What to do about it is for whoever wrote it.
    const base::Fault& fault = error.faults().front();
    return fault.place.empty() ? fault.found : fault.place + ": " + fault.found;
  }
  return std::nullopt;
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
    if (service_for(place_) == ForecastService::nws) {
      if (auto outcome = by_nws()) return *std::move(outcome);
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

  // Nothing where the place is not the service's after all.
  std::optional<FetchOutcome> by_nws() {
    const HttpRequest points = nws_points_request(place_, options_.addresses);
    const Held mapping = of_points(points, false);
    if (is_outside(mapping)) return std::nullopt;
    const auto square = square_of(mapping);
    if (!square) return FetchRefused{mapping.trouble.value_or(nothing_stored()), std::move(remarks_)};
    Held grid = of_forecast(ForecastService::nws, nws_grid_request(*square, options_.addresses));
    if (grid.not_here && !mapping.fresh) {
      // The service may have drawn its squares anew.
      const Held now_mapped = of_points(points, true);
      if (is_outside(now_mapped)) return std::nullopt;
      const auto moved = square_of(now_mapped);
      if (moved && *moved != *square) {
        grid = of_forecast(ForecastService::nws, nws_grid_request(*moved, options_.addresses));
      }
    }
    return outcome_of(ForecastService::nws, std::move(grid));
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

  Held of_forecast(ForecastService service, const HttpRequest& request) {
    const auto fault_in = [this](std::string_view body) { return fault_in_forecast(body, options_.reading); };
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
    Held out = follow(service, request, stored, step, fault_in);
    out.stands_in = stands_in || out.trouble;
    return out;
  }

  Held follow(ForecastService service, HttpRequest request, std::optional<CachedAnswer> stored,
              const Step& step, std::function<std::optional<std::string>(std::string_view)> fault_in) {
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
    Asked asked{service, request.url, out.stored, 1, std::move(fault_in)};
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
