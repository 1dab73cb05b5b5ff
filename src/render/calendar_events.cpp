#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "weatherstruck/programme/buy_by.h"
#include "weatherstruck/render/calendar.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::render {
namespace {

using std::chrono::minutes;

// How long before each thing he is told. Common practice, no source: time to finish the course in hand and
// walk over; to wash down; to load.
constexpr minutes before_cover{20};
constexpr minutes before_canopy{20};
constexpr minutes before_merchant{30};
constexpr minutes before_leaving{60};
// What a cover or canopy fills in a day's view, where the plan gives a moment only.
constexpr minutes shown_at_least{15};

class Maker {
 public:
  explicit Maker(const TripFacts& facts) : facts_(facts) {}

  std::vector<CalendarEvent> run() {
    work();
    covers();
    canopy();
    stock();
    leaving();
    std::stable_sort(events_.begin(), events_.end(), [](const CalendarEvent& a, const CalendarEvent& b) {
      return a.from != b.from ? a.from < b.from : a.key < b.key;
    });
    return std::move(events_);
  }

 private:
  void add(CalendarEvent event) {
    event.to = std::max(event.to, event.from + shown_at_least);
    if (event.to > facts_.now) events_.push_back(std::move(event));
  }

  void work() {
    for (const TripDay& day : trip_days(facts_)) {
      for (const DayTask& on_day : day.tasks) {
        const works::Task& task = facts_.list.tasks[on_day.task];
        if (task.operation == trade::Operation::drive) continue;
        const bool merchant = task.operation == trade::Operation::fetch;
        CalendarEvent event{merchant ? "merchant/" + task.name : "work/" + task.name,
                            merchant ? EventKind::merchant : EventKind::work,
                            on_day.start(),
                            on_day.finish(),
                            task.title,
                            portion(facts_, on_day),
                            merchant ? before_merchant : minutes(0)};
        if (on_day.runs.size() > 1) {
          std::string hours;
          for (const std::string& stretch : hours_of(facts_, on_day))
            hours += (hours.empty() ? "" : ", ") + stretch;
          event.note += (event.note.empty() ? "" : "; ") + hours;
        }
        add(std::move(event));
      }
    }
  }

  void covers() {
    for (const programme::PlannedCover& cover : facts_.plan.covers) {
      const std::string with(trade::row_for(cover.kind).title);
      add({"cover/" + cover.part, EventKind::cover, cover.span.from, cover.span.from,
           "Cover " + cover.title + ": " + with, fmt::format("{:.1f} m2", cover.area.value()), before_cover});
      if (cover.stays_on) continue;
      add({"uncover/" + cover.part, EventKind::cover, cover.span.to, cover.span.to,
           "The cover over " + cover.title + " may come off", with, minutes(0)});
    }
  }

  void canopy() {
    for (const programme::CanopySitting& sitting : facts_.plan.canopy) {
      const std::string over = spoken(sitting.part);
      add({"canopy/" + sitting.part, EventKind::canopy, sitting.pitch_from, sitting.over.from,
           "Pitch the canopy over the " + over, "", before_canopy});
      add({"strike/" + sitting.part, EventKind::canopy, sitting.over.to, sitting.struck_by,
           "Strike the canopy over the " + over, "", before_canopy});
    }
  }

  /// The last trip to the merchant before a counted stock runs out.
  void stock() {
    if (facts_.progress == nullptr) return;
    for (const works::Stock& counted : facts_.progress->stock) {
      if (!counted.left || counted.needed <= *counted.left) continue;
      const trade::Material* row = trade::find_material(counted.material);
      const auto wanted =
          programme::runs_out(facts_.list, facts_.plan, counted.material, *counted.left, facts_.now);
      if (row == nullptr || !wanted) continue;
      const auto trip = programme::last_trip_to_merchant(facts_.job, facts_.now, *wanted);
      if (!trip) continue;
      add({"stock/" + counted.material, EventKind::merchant, trip->from, trip->to,
           fmt::format("Last trip to the merchant for {}", row->title), "leave by then, or work stops",
           before_merchant});
    }
  }

  void leaving() {
    const programme::Plan& plan = facts_.plan;
    if (!plan.leaves_site || !plan.home) return;
    add({"leave", EventKind::leaving, *plan.leaves_site, *plan.home, "Leave for home", facts_.job.title,
         before_leaving});
  }

  const TripFacts& facts_;
  std::vector<CalendarEvent> events_;
};

}  // namespace

std::string_view word_of(EventKind kind) {
  switch (kind) {
    case EventKind::work:
      return "work";
    case EventKind::cover:
      return "cover";
    case EventKind::canopy:
      return "canopy";
    case EventKind::merchant:
      return "merchant";
    case EventKind::leaving:
      return "leaving";
  }
  throw std::invalid_argument("no such kind of event");
}

std::vector<CalendarEvent> calendar_events(const TripFacts& facts) {
  return Maker(facts).run();
}

}  // namespace weatherstruck::render
