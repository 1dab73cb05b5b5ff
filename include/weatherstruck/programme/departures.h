#pragma once
// When to go: a job's trip set off on other days, in the weather of past years. docs/when.md says how, and
// what it does not show.
#include <cstdint>
#include <vector>

#include "weatherstruck/base/lanes.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::programme {

/// One day of setting off.
struct Departure {
  base::LocalDay day;
  int years = 0;  ///< whose weather was there for the whole of it
  int good = 0;   ///< of them: home by the promise, all done that must be, nothing spoilt
  /// On average over the years.
  double frost_nights = 0;  ///< of the trip's nights, 0 degrees or less
  double wet_hours = 0;     ///< of its working hours, 0.1 mm or more
  double light_hours = 0;   ///< of a working day, between dawn and dusk

  /// 0..1; 0 without a year.
  [[nodiscard]] double chance() const;
  /// Standard error of the chance, from the number of years alone (Agresti & Coull 1998). Never zero.
  [[nodiscard]] double error() const;
  friend bool operator==(const Departure&, const Departure&) = default;
};

struct DepartureRequest {
  const works::Job& job;  ///< its trip says how long, and at what hours
  const trade::LimitValues& limits;
  const sky::Series& past;           ///< hourly, years of it; gaps as hours without values
  std::vector<base::LocalDay> days;  ///< to set off
  std::uint64_t seed = 1;
  base::Lanes lanes{};  ///< days go side by side where there are several
};

/// For each day asked, in the order asked. No year is judged by an order of work that was found on it: of
/// orders found on some years each is judged by the one that did best in all the others; and what he goes by
/// each morning is that year's weather with the errors that forecasts make. Same request, same answer.
[[nodiscard]] std::vector<Departure> departures(const DepartureRequest& request);

/// The job with its trip, deliveries and appointments so many days later (earlier: negative), at the same
/// hours by the clock.
[[nodiscard]] works::Job moved_by_days(works::Job job, std::chrono::days by);

}  // namespace weatherstruck::programme
