#include "weatherstruck/desk/when_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "weatherstruck/base/digest.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_desk.h"
#include "weatherstruck/desk/workers.h"
#include "weatherstruck/feed/file_source.h"
#include "weatherstruck/files/departures_json.h"
#include "weatherstruck/files/past_bytes.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::desk {
namespace {

using base::LocalDay;
using std::chrono::days;

constexpr double near_enough =
    100;                        // km: as far as a station's rain and frost still say something (assumption)
constexpr int least_years = 3;  // fewer tell nothing
constexpr std::size_t most_departures = 60;
constexpr double millionths = 1e6;
constexpr days longest_history{50 * 365};

std::int64_t in_millionths(double degrees) {
  return std::llround(degrees * millionths);
}
double in_degrees(std::int64_t parts) {
  return static_cast<double>(parts) / millionths;
}

std::string place_name(double latitude, double longitude) {
  return fmt::format("{:.2f} {}, {:.2f} {}", std::abs(latitude), latitude < 0 ? 'S' : 'N',
                     std::abs(longitude), longitude < 0 ? 'W' : 'E');
}

int year_of(base::Instant t) {
  return static_cast<int>(std::chrono::year_month_day(std::chrono::floor<days>(t)).year());
}

[[noreturn]] void refuse(const char* code, std::string found, std::string allowed, std::string remedy) {
  throw base::InputError("past years",
                         {{code, "--past", std::move(found), std::move(allowed), std::move(remedy)}});
}

// Each file into the record.
std::vector<std::string> bring_in(record::Store& store, const std::vector<std::string>& files,
                                  const works::Site& site, base::Instant now) {
  feed::ReadOptions options;
  options.zone = site.zone;
  options.latitude = site.latitude;
  options.longitude = site.longitude;
  options.longest = longest_history;
  std::vector<std::string> said;
  for (const std::string& path : files) {
    const sky::Series series = feed::read_forecast_file(path, options);
    if (series.empty()) continue;
    const std::string region = place_name(series.latitude, series.longitude);
    store.put_past({region, in_millionths(series.latitude), in_millionths(series.longitude),
                    series.attribution, series.begin_time(), series.end_time(), files::pack_past(series),
                    now});
    said.push_back(fmt::format("{}: {} hours from {} to {} kept for {}.", path, series.hours.size(),
                               base::iso_utc(series.begin_time()).substr(0, 10),
                               base::iso_utc(series.end_time()).substr(0, 10), region));
  }
  return said;
}

constexpr const char* remedy =
    "Bring them in once: \"weatherstruck when JOB --past FILE\", an hourly history as CSV.";

// The region nearest to the site, and which rows are of it.
struct Found {
  PastYears past;
  base::Instant from, to;
  std::string rows;
};
Found nearest(const std::vector<record::Past>& all, const works::Site& site) {
  const auto away = [&](const record::NewPast& past) {
    return kilometres_between(site.latitude, site.longitude, in_degrees(past.latitude),
                              in_degrees(past.longitude));
  };
  const auto near = std::min_element(
      all.begin(), all.end(), [&](const auto& a, const auto& b) { return away(a.past) < away(b.past); });
  if (near == all.end())
    refuse("no-past-years", "no weather of past years is kept", "some years of it by the hour", remedy);
  if (away(near->past) > near_enough)
    refuse("no-past-years",
           fmt::format("the nearest kept is of {}, {:.0f} km away", near->past.region, away(near->past)),
           fmt::format("at most {:.0f} km", near_enough), remedy);
  Found found;
  found.past.region = near->past.region;
  found.past.kilometres = away(near->past);
  found.from = near->past.from;
  found.to = near->past.to;
  for (const record::Past& row : all) {
    if (row.past.region != near->past.region) continue;
    found.from = std::min(found.from, row.past.from);
    found.to = std::max(found.to, row.past.to);
    found.rows += fmt::format("{} ", static_cast<std::int64_t>(row.id));
    found.past.attribution = row.past.attribution;
  }
  found.past.first_year = year_of(found.from);
  found.past.last_year = year_of(found.to - std::chrono::hours(1));
  return found;
}

// All its hours as one series; where it was given twice the later row holds.
sky::Series hours_of(const Found& found, const std::vector<record::Past>& all) {
  sky::Series series;
  series.source = found.past.region;
  series.hours.resize(static_cast<std::size_t>((found.to - found.from) / std::chrono::hours(1)));
  for (std::size_t i = 0; i < series.hours.size(); ++i)
    series.hours[i].start = found.from + std::chrono::hours(static_cast<long>(i));
  for (const record::Past& row : all) {
    if (row.past.region != found.past.region) continue;
    series.latitude = in_degrees(row.past.latitude);
    series.longitude = in_degrees(row.past.longitude);
    auto hours = files::unpack_past(row.past.bytes, row.past.from);
    if (!hours) refuse("no-past-years", "what is kept of " + row.past.region + " cannot be read", "", remedy);
    const auto first = (row.past.from - found.from) / std::chrono::hours(1);
    std::move(hours->begin(), hours->end(), series.hours.begin() + first);
  }
  return series;
}

std::vector<LocalDay> days_asked(const works::Job& job, const WhenAsk& ask, base::Instant now) {
  const base::Zone& zone = job.site.zone;
  LocalDay from = zone.day_of(now) + days(1);
  if (ask.from) {
    from = *ask.from;
  } else {
    const std::chrono::weekday wanted(zone.day_of(job.trip.leave_home));
    from += wanted - std::chrono::weekday(from);
  }
  const LocalDay to = ask.to.value_or(from + days(363));
  std::vector<LocalDay> list;
  for (LocalDay day = from; day <= to && list.size() <= most_departures; day += days(ask.every))
    list.push_back(day);
  if (list.empty() || list.size() > most_departures) {
    throw base::InputError(
        "when", {{"too-many-departures", "--to",
                  list.empty() ? std::string("no day from --from to --to") : "more than 60 departures",
                  fmt::format("1 to {}", most_departures), "Put --from and --to nearer, or --every wider."}});
  }
  return list;
}

}  // namespace

When when_to_go(Shelf& shelf, const OpenJob& open, const WhenAsk& ask, base::Instant now,
                const PlanMark& mark) {
  record::Store& store = shelf.store();
  When out;
  out.brought = bring_in(store, ask.files, open.job.site, now);
  const Found found = nearest(store.pasts(false), open.job.site);
  out.past = found.past;
  const std::vector<LocalDay> asked = days_asked(open.job, ask, now);
  std::string all = fmt::format("when 1\n{}\n{}\n{}\n{}\n{}\n", mark.program, mark.zones, mark.seed,
                                found.rows, open.document);
  for (const LocalDay day : asked)
    all += base::iso_local(base::LocalTime(day)) + '\n';
  for (const auto& [operation, pace] : open.job.practice.own_pace.all())
    all += fmt::format("{} {} {}\n", trade::row_for(operation).key, pace.times, pace.sigma);
  const base::Sha256 hash = base::sha256(all);
  const std::string key = "when " + base::base64(std::string(hash.begin(), hash.end()));
  if (const auto kept = store.reckoned(key)) {
    if (auto read = files::read_departures(*kept)) {
      out.departures = std::move(*read);
      return out;
    }
  }
  const sky::Series past = hours_of(found, store.pasts(true));
  out.departures = programme::departures({open.job, open.limits, past, asked, mark.seed, all_workers()});
  const int most =
      std::max_element(out.departures.begin(), out.departures.end(), [](const auto& a, const auto& b) {
        return a.years < b.years;
      })->years;
  if (most < least_years) {
    refuse("few-years", fmt::format("{} hold {} whole years of such a trip", found.past.region, most),
           fmt::format("at least {}", least_years), "Bring in more years.");
  }
  std::stable_sort(out.departures.begin(), out.departures.end(),
                   [](const auto& a, const auto& b) { return a.chance() > b.chance(); });
  store.keep_reckoned(key, files::departures_json(out.departures).dump(), now);
  return out;
}

}  // namespace weatherstruck::desk
