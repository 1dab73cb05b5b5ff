#pragma once
// A small job planned by hand: a strip of concrete, a dwarf wall on it, plates, and soil behind; one mason,
// four days of February in Wales, mild and dry. Invented. Tests break it in one place at a time.
#include <chrono>
#include <set>
#include <string>
#include <vector>

#include <gmock/gmock.h>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/programme/site_check.h"
#include "weatherstruck/sky/series.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// Day of February 2026 (the 9th is a Monday) and time of day, UTC.
[[nodiscard]] base::Instant feb(unsigned day, int hour, int minute = 0);

struct SiteByHand {
  works::Job job;
  works::TaskList list;
  sky::Series weather;
  Plan plan;
  trade::ColdRule cold_rule = trade::ColdRule::nbs;

  [[nodiscard]] std::vector<Objection> check() const;
  /// Codes of all objections, each once.
  [[nodiscard]] std::set<std::string> codes() const;
  /// All objections, a line each, for a failing test to show.
  [[nodiscard]] std::string said() const;
  [[nodiscard]] works::Task& task(const std::string& name);
  [[nodiscard]] PlannedTask& planned(const std::string& name);
  /// One run of the whole.
  void place(const std::string& name, base::Instant from, base::Instant to);
  void link(const std::string& from, const std::string& to, works::Wait wait = works::Wait::none);
  /// Sets something in every hour of [from, to).
  template <class Change>
  void hours(base::Instant from, base::Instant to, Change change) {
    for (sky::Hour& hour : weather.hours) {
      if (hour.start >= from && hour.start < to) change(hour);
    }
  }
  void rain(base::Instant from, base::Instant to, double mm_per_hour);
  void temperature(base::Instant from, base::Instant to, double celsius);
  void gust(base::Instant from, base::Instant to, double metres_per_second);
  /// Takes a cover of the plan off the list.
  void uncover(std::size_t index);
};

/// The sound plan.
[[nodiscard]] SiteByHand sound_site();
/// The same with the canopy over the wall on Tuesday morning, and the mate to pitch it.
[[nodiscard]] SiteByHand under_canopy();
/// Places the drive home there and says so.
void drives_home(SiteByHand& site, base::Instant from, base::Instant to);

/// This code and no other.
#define EXPECT_ONLY(site, code) EXPECT_THAT((site).codes(), ::testing::ElementsAre(code)) << (site).said()
#define EXPECT_SOUND(site) EXPECT_THAT((site).codes(), ::testing::IsEmpty()) << (site).said()

}  // namespace weatherstruck::programme
