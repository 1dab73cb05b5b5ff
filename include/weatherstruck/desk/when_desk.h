#pragma once
// When to go: past years brought in from files and kept, and a job's trip set off in each of them.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/desk/trip_desk.h"
#include "weatherstruck/programme/departures.h"

namespace weatherstruck::desk {

struct WhenAsk {
  std::vector<std::string> files;  ///< years to bring in first
  std::optional<base::LocalDay> from, to;
  int every = 14;  ///< days from one departure to the next, 1..60
};

/// The years that were gone by.
struct PastYears {
  std::string region;
  double kilometres = 0;  ///< from the site
  int first_year = 0;
  int last_year = 0;
  std::string attribution;
};

struct When {
  std::vector<programme::Departure> departures;  ///< the surest first; equal ones by day
  PastYears past;
  std::vector<std::string> brought;  ///< a sentence for each file that was kept
};

/// Without `from`: the first day from tomorrow on that is the weekday of the job's own leaving; without `to`:
/// a year from then. What was reckoned once of a kept job is looked up.
/// @throws base::InputError ("no-past-years", "few-years", "too-many-departures", and what reading the files
/// throws), record::RecordError
[[nodiscard]] When when_to_go(Shelf& shelf, const OpenJob& open, const WhenAsk& ask, base::Instant now,
                              const PlanMark& mark);

}  // namespace weatherstruck::desk
