// What is told about the days in words, under any drawing of them.
#include <fmt/format.h>

#include "day_strip.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/basis_words.h"
#include "weatherstruck/render/late_words.h"
#include "weatherstruck/render/outlook_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::render {

std::vector<Said> care_of(const TripFacts& facts, const TripDay& day) {
  std::vector<Said> out;
  const base::Zone& zone = facts.job.site.zone;
  const auto today = [&](base::Instant t) { return day.span.from <= t && t < day.span.to; };
  bool first = true;
  const auto item = [&](std::string_view label, const std::string& words) {
    out.push_back({first ? std::string(label) : "", words});
    first = false;
  };
  for (const std::string& words : left_alone(facts, day, true))
    item("leave", words);
  first = true;
  for (const auto& cover : facts.plan.covers) {
    if (!today(cover.span.from) || cover.kind == trade::CoverKind::bare ||
        cover.kind == trade::CoverKind::canopy) {
      continue;
    }
    item("cover",
         fmt::format("{} {}: {}{}", quarter(zone.to_local(cover.span.from)), spoken(cover.title),
                     trade::row_for(cover.kind).title, cover.stays_on ? ", stays on after the trip" : ""));
  }
  first = true;
  for (const auto& sitting : facts.plan.canopy) {
    if (!today(sitting.pitch_from)) continue;
    item("canopy",
         fmt::format("pitch {} over the {}, down by {}", quarter(zone.to_local(sitting.pitch_from)),
                     spoken(sitting.part), quarter_from(day.day, zone.to_local(sitting.struck_by))));
  }
  return out;
}

std::vector<Said> ending_of(const TripFacts& facts, const programme::Late* because) {
  std::vector<Said> out;
  const auto say = [&](const std::string& label, const std::string& words) { out.push_back({label, words}); };
  const programme::Plan& plan = facts.plan;
  const base::Zone& zone = facts.job.site.zone;
  const base::Zone& home_zone = facts.job.trip.home_zone;
  const std::string promise = base::day_and_time(home_zone.to_local(facts.job.trip.home_by));
  if (plan.home) {
    const std::string arrives =
        base::day_name(home_zone.day_of(*plan.home)) + ' ' + quarter(home_zone.to_local(*plan.home));
    const bool late = plan.in_hand.count() < 0;
    say("Home", fmt::format("about {}; promised {}: {} {}", arrives, promise,
                            duration(late ? -plan.in_hand : plan.in_hand), late ? "late" : "in hand"));
    if (plan.soonest_home) {
      // Down to the quarter: told sooner than it is it stays true, and never stands after his own hour.
      using Quarters = std::chrono::duration<long, std::ratio<900>>;
      const base::LocalTime soonest(
          std::chrono::floor<Quarters>(home_zone.to_local(*plan.soonest_home).time_since_epoch()));
      say("", fmt::format("By this forecast nobody who does what must be done can be home before {}.",
                          base::day_and_time(soonest)));
    }
  } else {
    say("Home", fmt::format("no way found to be home; promised {}", promise));
  }
  if (because != nullptr) {
    const LateWords words = late_words(facts, *because);
    say("Decides", words.because);
    if (!words.cure.empty()) say("Cure", words.cure);
  }
  bool first = true;
  for (const std::string& words : outlook_sentences(facts)) {
    say(first ? "Chance" : "", words);
    first = false;
  }
  first = true;
  for (const works::Name& name : plan.left_out) {
    const works::Task* task = facts.list.find(name);
    say(first ? "Left out" : "", task != nullptr ? task->title : name);
    first = false;
  }
  const std::string basis =
      basis_line(facts.series, zone, {facts.job.trip.leave_home, facts.now, facts.job.trip.home_by});
  if (!basis.empty()) say("Stands on", basis);
  first = true;
  const auto taken = [&](const std::string& words) {
    say(first ? "Taken so" : "", words);
    first = false;
  };
  for (const std::string& words : plan.assumptions)
    taken(words);
  for (const std::string& words : facts.remarks)
    taken(words);
  return out;
}

std::string weather_of(const TripFacts& facts, const TripDay& day) {
  const base::Zone& zone = facts.job.site.zone;
  // The hours on site are those he plans by; the night is told where it freezes.
  const auto& hours = facts.job.trip.working_day;
  const programme::Span working{zone.to_instant_earliest(base::LocalTime(day.day) + hours.from),
                                zone.to_instant_earliest(base::LocalTime(day.day) + hours.to)};
  return capital(weather_line(facts.series, working, zone, units_of(facts.job.limits.set))) + ".";
}

}  // namespace weatherstruck::render
