#include "weatherstruck/desk/forecast_shelf.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <variant>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/feed/file_source.h"

namespace weatherstruck::desk {
namespace {

constexpr std::string_view of_file = "file";
constexpr int not_modified = 304;
/// An issue from before the trip covers the hours until the first one of the trip.
constexpr std::chrono::hours before_the_trip{24};
constexpr std::chrono::hours half_a_day{11};

std::string source_of(const std::string& url) {
  if (url.find("/points/") != std::string::npos) return "nws-points";
  return url.find("gridpoints") != std::string::npos ? "nws-grid" : "met-norway";
}
bool is_weather(const record::Forecast& forecast) {
  return forecast.source != "nws-points";
}

feed::ReadOptions reading(const works::Site& site) {
  feed::ReadOptions options;
  options.zone = site.zone;
  options.latitude = site.latitude;
  options.longitude = site.longitude;
  return options;
}

feed::ForecastPlace place_of(const works::Site& site) {
  return {site.latitude, site.longitude, site.altitude};
}

[[noreturn]] void refuse(const OpenJob& open, std::string found, std::string remedy) {
  throw base::InputError(open.source, {{"no-forecast", "--forecast", std::move(found),
                                        "a forecast for the site", std::move(remedy)}});
}

class Gatherer {
 public:
  Gatherer(Shelf& shelf, const OpenJob& open, const ForecastWish& wish, base::Instant now)
      : shelf_(shelf), open_(open), wish_(wish), now_(now), place_(place_key(open.job.site)) {}

  ForecastsAtHand gather(const std::function<ServicePorts()>& ports) {
    if (!wish_.files.empty()) {
      from_files();
    } else {
      ask(ports);
    }
    return std::move(out_);
  }

 private:
  void from_files() {
    std::vector<sky::Series> series = read_forecasts(wish_.files, open_.job.site);
    if (!open_.kept) {
      out_.issues = std::move(series);
      return;
    }
    for (const std::string& path : wish_.files)
      keep_file(path);
    from_record();
  }

  // A file given again is the issue that is there.
  void keep_file(const std::string& path) {
    const std::string bytes = feed::read_forecast_bytes(path);
    record::Store& store = shelf_.store();
    for (const record::Forecast& kept : store.forecasts_since(place_, base::Instant::min())) {
      if (kept.body == bytes) return;
    }
    record::NewForecast issue;
    issue.job = open_.kept->id;
    issue.place = place_;
    issue.source = of_file;
    issue.url = path;
    issue.body = bytes;
    issue.fetched_at = now_;
    store.put_forecast(issue);
  }

  void ask(const std::function<ServicePorts()>& ports) {
    RecordCache cache(shelf_.store(), place_);
    feed::FetchOptions options;
    options.offline = wish_.offline;
    options.reading = reading(open_.job.site);
    options.seed = wish_.seed;
    if (!wish_.offline) {
      const ServicePorts through = ports();
      options.addresses = through.addresses;
      take(feed::fetch_forecast(place_of(open_.job.site), options,
                                {through.http, cache, through.now, through.sleep}));
    }
    from_record();
    if (out_.issues.empty()) {
      refuse(open_, refusal_.empty() ? "none is kept for this place" : refusal_,
             "Try again with a signal, or give a saved forecast with --forecast FILE.");
    }
    if (!refusal_.empty()) out_.remarks.push_back(refusal_);
    if (wish_.offline || !refusal_.empty()) out_.remarks.push_back(age());
  }

  void take(const feed::FetchOutcome& outcome) {
    const auto say = [&](const std::vector<sky::SeriesNote>& notes) {
      for (const sky::SeriesNote& note : notes)
        out_.remarks.push_back(note.text);
    };
    if (const auto* fetched = std::get_if<feed::FetchedForecast>(&outcome)) {
      say(fetched->remarks);
    } else {
      std::vector<std::string> why;
      for (const sky::SeriesNote& note : std::get<feed::FetchRefused>(outcome).remarks)
        why.push_back(note.text);
      refusal_ = why.empty() ? "the service gave none" : why.back();
    }
  }

  [[nodiscard]] std::string age() const {
    const base::Instant issued = out_.issues.back().issued.value_or(now_);
    const auto hours = std::chrono::duration_cast<std::chrono::hours>(now_ - issued).count();
    return fmt::format("The last forecast kept is used, of {}{}.",
                       base::day_and_time(open_.job.site.zone.to_local(issued)),
                       hours > 0 ? fmt::format(", {} h old", hours) : "");
  }

  // Whatever is kept for the place and reaches into the trip, the newest last. Of issues that came within
  // half a day of a newer one only the newer is read: the hours between are in the one before them.
  void from_record() {
    record::Store& store = shelf_.store();
    const base::Instant since = open_.job.trip.leave_home - before_the_trip;
    std::vector<record::Forecast> kept = store.forecasts_since(place_, since);
    if (std::none_of(kept.begin(), kept.end(), is_weather))
      kept = store.forecasts_since(place_, base::Instant::min());
    std::optional<base::Instant> newer;
    for (auto issue = kept.rbegin(); issue != kept.rend(); ++issue) {
      if (!is_weather(*issue) || issue->fetched_at > now_) continue;
      const bool file = issue->source == of_file;
      if (newer && !file && *newer - issue->fetched_at < half_a_day) continue;
      sky::Series series = feed::read_forecast(issue->url, issue->body, reading(open_.job.site));
      if (!series.issued) series.issued = issue->fetched_at;
      if (!out_.newest) out_.newest = issue->id;
      if (!file) newer = issue->fetched_at;
      out_.issues.push_back(std::move(series));
    }
    std::reverse(out_.issues.begin(), out_.issues.end());
  }

  Shelf& shelf_;
  const OpenJob& open_;
  const ForecastWish& wish_;
  base::Instant now_;
  std::string place_;
  std::string refusal_;
  ForecastsAtHand out_;
};

}  // namespace

std::string place_key(const works::Site& site) {
  return fmt::format("{:.4f},{:.4f}", site.latitude, site.longitude);
}

std::optional<feed::CachedAnswer> RecordCache::get(const std::string& url) {
  const std::string source = source_of(url);
  const std::optional<record::ForecastTry> last = store_.last_try(place_, source);
  if (!last) return std::nullopt;
  feed::CachedAnswer answer;
  answer.url = url;
  answer.status = last->status;
  answer.expires = last->expires.value_or(last->fetched_at);
  answer.fetched_at = last->fetched_at;
  if (const std::optional<record::Forecast> issue = store_.latest_forecast(place_, source)) {
    if (issue->url != url) return std::nullopt;  // of another square, or another service's address
    answer.body = issue->body;
    answer.last_modified = issue->last_modified.value_or("");
    answer.fetched_at = issue->confirmed_at;
  }
  return answer;
}

void RecordCache::put(const feed::CachedAnswer& answer) {
  const std::string source = source_of(answer.url);
  const std::optional<record::Forecast> issue = store_.latest_forecast(place_, source);
  const bool same = issue && issue->url == answer.url && issue->body == answer.body;
  record::NewForecast row;
  row.place = place_;
  row.source = source;
  row.url = answer.url;
  row.status = answer.status;
  row.expires = answer.expires;
  row.fetched_at = answer.fetched_at;
  if (!answer.last_modified.empty()) row.last_modified = answer.last_modified;
  const bool good = answer.status == not_modified || (answer.status >= 200 && answer.status < 300);
  if (same && good) {
    row.confirms = issue->id;
  } else if (!same && !answer.body.empty()) {
    row.body = answer.body;
  }
  store_.put_forecast(row);
}

ForecastsAtHand forecasts_for(Shelf& shelf, const OpenJob& open, const ForecastWish& wish,
                              const std::function<ServicePorts()>& ports, base::Instant now) {
  return Gatherer(shelf, open, wish, now).gather(ports);
}

}  // namespace weatherstruck::desk
