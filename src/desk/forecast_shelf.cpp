#include "weatherstruck/desk/forecast_shelf.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <variant>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/feed/file_source.h"
#include "weatherstruck/sky/basis.h"

namespace weatherstruck::desk {
namespace {

constexpr std::string_view of_file = "file";
constexpr std::string_view of_points = "nws-points";
constexpr std::string_view of_stations = "nws-stations";
constexpr std::string_view of_readings = "nws-observations";
constexpr int not_modified = 304;
constexpr int not_found = 404;
/// An issue from before the trip covers the hours until the first one of the trip.
constexpr std::chrono::hours before_the_trip{24};
constexpr std::chrono::hours half_a_day{11};

std::string source_of(const std::string& url) {
  if (url.find("/weatherapi/") != std::string::npos) return "met-norway";
  if (url.find("/mos/MOSMIX") != std::string::npos) return "mosmix";
  if (url.find("/v1/forecast") != std::string::npos) return "open-meteo";
  if (url.find("/points/") != std::string::npos) return std::string(of_points);
  if (url.ends_with("/stations")) return std::string(of_stations);
  if (url.find("/observations") != std::string::npos) return std::string(of_readings);
  return url.find("gridpoints") != std::string::npos ? "nws-grid" : "met-norway";
}
bool is_weather(const record::Forecast& forecast) {
  return forecast.source != of_points && forecast.source != of_stations;
}

// Scheme and host.
std::string_view origin_of(std::string_view url) {
  const auto scheme = url.find("://");
  return scheme == std::string_view::npos ? url : url.substr(0, url.find('/', scheme + 3));
}

// Answers to who asks and how often, not to what is asked.
bool turned_away(const record::ForecastTry& last, const std::string& url) {
  return (last.status == 401 || last.status == 403 || last.status == 429) &&
         origin_of(last.url) == origin_of(url);
}

// What goes with a forecast on a sheet every time; the other notes are of the exchange.
bool is_of_forecast(const sky::SeriesNote& note) {
  return note.code == "no-altitude" || note.code == "other-service" || note.code == "station";
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

class Gatherer {
 public:
  Gatherer(Shelf& shelf, const OpenJob& open, const ForecastWish& wish, base::Instant now)
      : shelf_(shelf),
        open_(open),
        wish_(wish),
        now_(now),
        until_(now),
        place_(place_key(open.job.site, wish.files.empty() ? wish.service : std::nullopt)) {}

  ForecastsAtHand gather(const std::function<ServicePorts()>& ports) {
    if (!wish_.files.empty()) {
      from_files();
    } else {
      ask(ports);
    }
    beside(ports);
    return std::move(out_);
  }

 private:
  void from_files() {
    std::vector<sky::Series> series = read_forecasts(wish_.files, open_.job.site);
    for (const sky::Series& one : series) {
      for (const sky::SeriesNote& note : one.notes) {
        if (note.code != far_away) continue;
        out_.remarks.push_back(note.text);
        out_.news.push_back(note.text + " Check that it is the right file.");
      }
    }
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
    if (!wish_.offline && !wish_.past) {
      RecordCache cache(shelf_.store(), place_);
      feed::FetchOptions options = asking(wish_.service);
      if (now_ > open_.job.trip.leave_home)
        options.observed_from = std::chrono::floor<std::chrono::days>(now_) - std::chrono::days(1);
      const ServicePorts& through = reach(ports);
      options.addresses = through.addresses;
      take(feed::fetch_forecast(place_of(open_.job.site), options,
                                {through.http, cache, through.now, through.sleep}));
      until_ = std::max(now_, through.now());  // fetching takes its time
    }
    from_record();
    if (out_.issues.empty()) refuse();
    if (wish_.past && !wish_.offline)
      out_.news.emplace_back("The moment that --now names is past: nobody was asked.");
    if (refusal_) out_.news.push_back(refusal_->found + " " + refusal_->remedy);
    if (wish_.offline || wish_.past || refusal_) say_age(age());
  }

  [[nodiscard]] feed::FetchOptions asking(const std::optional<feed::ServiceChoice>& service) const {
    feed::FetchOptions options;
    options.reading = reading(open_.job.site);
    options.seed = wish_.seed;
    options.service = service;
    options.open_meteo_key = wish_.open_meteo_key;
    return options;
  }

  const ServicePorts& reach(const std::function<ServicePorts()>& ports) {
    if (!through_) through_.emplace(ports());
    return *through_;
  }

  void beside_as_kept(const std::string& place) {
    std::vector<record::Forecast> kept = shelf_.store().forecasts_since(place, base::Instant::min());
    for (auto issue = kept.rbegin(); issue != kept.rend(); ++issue) {
      if (!is_weather(*issue) || issue->fetched_at > now_) continue;
      try {
        out_.beside = feed::read_forecast(issue->url, issue->body, reading(open_.job.site));
      } catch (const base::InputError&) {
        continue;  // as after a disk's fault
      }
      if (!out_.beside->issued) out_.beside->issued = issue->fetched_at;
      return;
    }
    out_.news.emplace_back("No second forecast: nobody was asked, and none of it is kept.");
  }

  // Whatever becomes of it, the plan goes on; only a file that is none is a mistake to be put right.
  void beside(const std::function<ServicePorts()>& ports) {
    if (wish_.beside.empty()) return;
    const works::Site& site = open_.job.site;
    const auto choice = feed::read_choice(wish_.beside);
    if (!choice) {
      std::vector<sky::Series> read = read_forecasts({wish_.beside}, site);
      for (const sky::SeriesNote& note : read.front().notes) {
        if (note.code == far_away) out_.news.push_back(note.text + " Check that it is the right file.");
      }
      out_.beside = std::move(read.front());
      return;
    }
    if (wish_.offline || wish_.past) return beside_as_kept(place_key(site, choice));
    RecordCache cache(shelf_.store(), place_key(site, choice));
    feed::FetchOptions options = asking(choice);
    const ServicePorts& through = reach(ports);
    options.addresses = through.addresses;
    feed::FetchOutcome outcome =
        feed::fetch_forecast(place_of(site), options, {through.http, cache, through.now, through.sleep});
    if (const auto* refused = std::get_if<feed::FetchRefused>(&outcome)) {
      out_.news.push_back("No second forecast: " + refused->trouble.found + " " + refused->trouble.remedy);
      return;
    }
    auto& got = std::get<feed::FetchedForecast>(outcome);
    for (const sky::SeriesNote& note : got.remarks) {
      if (note.code == "last-good" || note.code == "station") out_.news.push_back("Beside it: " + note.text);
    }
    out_.beside = std::move(got.series);
    if (!out_.beside->issued) out_.beside->issued = std::min(got.fetched_at, now_);
  }

  // On the sheet, and to whoever has just been told why.
  void say_age(std::string sentence) {
    if (!out_.news.empty()) out_.news.back() += " " + sentence;
    out_.remarks.push_back(std::move(sentence));
    out_.age_said = true;
  }

  [[noreturn]] void refuse() {
    base::Fault fault{"no-forecast", "--forecast", "none is kept for this place", "a forecast for the site",
                      "Try again with a signal, or give a saved forecast with --forecast FILE."};
    if (wish_.past) {
      fault.found = "none was kept for this place at the moment that --now names";
      fault.remedy = "Leave --now out, or give a saved forecast with --forecast FILE.";
    } else if (refusal_) {
      fault.found = refusal_->found.substr(0, refusal_->found.find_last_not_of('.') + 1);
      fault.remedy = refusal_->remedy + " A saved forecast is given with --forecast FILE.";
    }
    throw base::InputError(open_.source, {std::move(fault)});
  }

  void take(const feed::FetchOutcome& outcome) {
    const auto* refused = std::get_if<feed::FetchRefused>(&outcome);
    if (refused != nullptr) refusal_ = refused->trouble;
    for (const sky::SeriesNote& note :
         refused != nullptr ? refused->remarks : std::get<feed::FetchedForecast>(outcome).remarks) {
      if (note.code == "last-good") {
        say_age(note.text);
      } else {
        (is_of_forecast(note) ? out_.remarks : out_.news).push_back(note.text);
      }
    }
  }

  [[nodiscard]] std::string age() const {
    base::Instant issued = base::Instant::min();
    for (const sky::Series& issue : out_.issues) {
      if (!sky::only_readings(issue)) issued = std::max(issued, issue.issued.value_or(now_));
    }
    if (issued == base::Instant::min()) issued = out_.issues.back().issued.value_or(now_);
    return fmt::format("The last forecast kept is used, of {}, {} old.",
                       base::day_and_time(open_.job.site.zone.to_local(issued)),
                       feed::age_in_words(now_ - issued));
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
    std::optional<base::Instant> newer_readings;
    for (auto issue = kept.rbegin(); issue != kept.rend(); ++issue) {
      if (!is_weather(*issue) || issue->fetched_at > until_) continue;
      const bool file = issue->source == of_file;
      const bool readings = issue->source == of_readings;
      std::optional<base::Instant>& later = readings ? newer_readings : newer;
      if (later && !file && *later - issue->fetched_at < half_a_day) continue;
      sky::Series series;
      try {
        series = feed::read_forecast(issue->url, issue->body, reading(open_.job.site));
      } catch (const base::InputError&) {
        // As after a disk's fault, or from a release that read more.
        out_.news.push_back(fmt::format("The forecast kept {} cannot be read any more and was passed over.",
                                        base::day_and_time(open_.job.site.zone.to_local(issue->fetched_at))));
        continue;
      }
      if (!series.issued) series.issued = std::min(issue->fetched_at, now_);
      if (!out_.newest) out_.newest = issue->id;
      if (!file) later = issue->fetched_at;
      out_.issues.push_back(std::move(series));
    }
    std::reverse(out_.issues.begin(), out_.issues.end());
  }

  Shelf& shelf_;
  const OpenJob& open_;
  const ForecastWish& wish_;
  base::Instant now_;
  base::Instant until_;  ///< what came later was not known
  std::string place_;
  std::optional<ServicePorts> through_;
  std::optional<feed::FetchTrouble> refusal_;
  ForecastsAtHand out_;
};

}  // namespace

std::string place_key(const works::Site& site, const std::optional<feed::ServiceChoice>& service) {
  std::string key = fmt::format("{:.4f},{:.4f}", site.latitude, site.longitude);
  if (service) key += ' ' + feed::words_of(*service);
  return key;
}

std::optional<feed::CachedAnswer> RecordCache::get(const std::string& url) {
  const std::string source = source_of(url);
  const std::optional<record::ForecastTry> last = store_.last_try(place_, source);
  if (!last) return std::nullopt;
  const bool of_it = last->url == url || turned_away(*last, url);
  std::optional<record::Forecast> issue = store_.latest_forecast(place_, source);
  if (issue && issue->url != url) issue.reset();  // of another square, altitude or address
  // A square looked up and not found any more must not come back; a forecast outlives its 404.
  if (issue && source == of_points && last->url == url && last->status == not_found) issue.reset();
  if (!of_it && !issue) return std::nullopt;
  feed::CachedAnswer answer{url,         "", "", last->expires.value_or(last->fetched_at), last->fetched_at,
                            last->status};
  if (issue) {
    answer.body = issue->body;
    answer.last_modified = issue->last_modified.value_or("");
    answer.fetched_at = issue->confirmed_at;
    if (!of_it) {
      answer.expires = issue->expires.value_or(issue->confirmed_at);
      answer.status = 200;
    }
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
