#pragma once
// Day sheets: what was done on each day of the trip and when, in what weather, what stood still and the
// hour's rain or frost beside it, the morning's plan against what was done, people and hours, what came and
// what was spent. All from the entries of the site book that count, so that it does not hang on the order in
// which they were written. Together they are the record of the trip.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/works/book.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::render {

/// The plan that was in force when a day's work began.
struct PlanOfDay {
  base::LocalDay day;  ///< of the site
  programme::Plan plan;
};

/// A photograph that goes with an entry that counts.
struct DayPhotograph {
  base::Instant at;     ///< of the entry
  std::string of;       ///< what the entry says, "Cement, 37.95 GBP"
  std::string mark;     ///< by which its file is found, "3fa291c0"
  std::string sort;     ///< "JPEG, 2345 kB"
  std::string trouble;  ///< what is wrong with the file and what to do; empty: nothing
  bool costs = false;   ///< it shows what was spent
};

struct DayBookFacts {
  const works::Job& job;
  const works::TaskList& list;
  const works::Progress& progress;
  const std::vector<works::Entry>& entries;  ///< those that count, none later than `now`
  const sky::Series& weather;                ///< as it was, as far as that is known; may be empty
  const std::vector<PlanOfDay>& plans;
  base::Instant now;
  std::span<const DayPhotograph> photographs{};  ///< in the order kept
};

/// What is shown; all of it is for himself.
struct DayBookView {
  bool hours = true;  ///< person-hours, and the time that the book does not account for
  bool plan = true;   ///< the morning's plan against what was done
  bool costs = true;  ///< what was spent, and prices of extras
  bool notes = true;
  bool photographs = true;  ///< those of receipts only with the costs
};

struct WorkDone {
  base::Instant from;  ///< the same as `to` where nobody wrote down when it was begun
  base::Instant to;
  std::string title;
  std::string amount;                ///< "3 courses", "0.4 m3", "all of it"; empty: none was said
  std::optional<base::Hours> hours;  ///< person-hours; nullopt: not known, or not shown
};
/// One hour of the weather beside what it stopped.
struct HourBeside {
  base::Instant from;
  std::string weather;  ///< "rain 2.1 mm, 3 °C, gusts 35 mph"
};
struct Stopped {
  base::Instant from;
  base::Instant to;
  std::string cause;
  std::vector<HourBeside> hours;  ///< empty: no weather is kept of them
};

struct DaySheet {
  base::LocalDay day;
  std::string weather;  ///< of its working hours; empty: none is kept
  std::string people;   ///< "mason: 7 h 30 min at work between 07:15 and 16:30, ..."; empty: not shown
  std::vector<WorkDone> work;
  std::vector<Stopped> stopped;
  std::vector<std::string> against_plan;
  std::vector<std::string> came;    ///< deliveries and counts
  std::vector<std::string> covers;  ///< and the canopy
  std::vector<std::string> read;    ///< levels, thermometer, gauge
  std::vector<std::string> agreed;  ///< extras
  std::vector<std::string> spent;
  std::vector<std::string> notes;
  std::vector<std::string> photographs;
};

struct DayBook {
  std::string title;
  std::string job;
  std::vector<DaySheet> days;  ///< those of which the book says something, in order
  std::string known;           ///< whose forecast the weather is, in a sentence; empty: none is kept
};

/// @param only that day; nullopt: all
[[nodiscard]] DayBook day_book_of(const DayBookFacts& facts, const DayBookView& view,
                                  std::optional<base::LocalDay> only = {});
[[nodiscard]] std::string day_book_text(const DayBook& book, const base::Zone& zone, Ink ink);
/// A whole HTML document.
[[nodiscard]] std::string day_book_html(const DayBook& book, const base::Zone& zone);

}  // namespace weatherstruck::render
