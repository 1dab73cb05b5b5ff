#include "weatherstruck/render/days.h"

#include <fmt/format.h>

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/basis_words.h"
#include "weatherstruck/render/late_words.h"
#include "weatherstruck/render/light_table.h"
#include "weatherstruck/render/outlook_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::render {
namespace {

namespace limit = trade::limit;
using std::chrono::minutes;

constexpr std::size_t label_width = 13;
constexpr long most_hours_by_quarters = 16;

// The stretch of the clock that every day of the trip is drawn over.
struct Strip {
  long first_hour = 24;
  long last_hour = 0;
  minutes cell{15};
  [[nodiscard]] std::size_t cells() const {
    return static_cast<std::size_t>((last_hour - first_hour) * 60 / cell.count());
  }
};

// Wall-clock time into the day; 24 h at its end even where the day is shorter or longer.
minutes into_day(const TripDay& day, base::Instant t, const base::Zone& zone) {
  if (t >= day.span.to) return std::chrono::hours(24);
  if (t <= day.span.from) return minutes(0);
  return std::chrono::duration_cast<minutes>(zone.time_of_day(t));
}

Strip strip_of(const TripFacts& facts, const std::vector<TripDay>& days) {
  Strip strip;
  for (const TripDay& day : days) {
    for (const DayTask& task : day.tasks) {
      strip.first_hour =
          std::min(strip.first_hour, into_day(day, task.start(), facts.job.site.zone).count() / 60);
      strip.last_hour =
          std::max(strip.last_hour, (into_day(day, task.finish(), facts.job.site.zone).count() + 59) / 60);
    }
  }
  if (strip.first_hour >= strip.last_hour) strip = {6, 18, minutes(15)};
  if (strip.last_hour - strip.first_hour > most_hours_by_quarters) strip.cell = minutes(30);
  return strip;
}

bool within(const std::vector<sky::LightSpan>& spans, base::Instant at) {
  return std::any_of(spans.begin(), spans.end(),
                     [&](const sky::LightSpan& s) { return s.from <= at && at < s.to; });
}

char light_mark(const sky::DayLight& light, base::Instant at) {
  if (within(light.sun.spans, at)) return '.';
  return within(light.civil.spans, at) ? ':' : ' ';
}

char weather_mark(const TripFacts& facts, base::Instant at) {
  const sky::Hour* hour = facts.series.at(at);
  if (hour == nullptr || !hour->rain || !hour->temperature) return '?';
  const double rain = hour->rain->value.value();
  if (rain >= facts.limits.at(limit::rain_facework_stop)) return 'R';
  if (rain > 0) return 'r';
  if (hour->temperature->value.value() <= 0) return 'f';
  const bool blows = hour->gust && hour->gust->value >= facts.limits.speed(limit::canopy_gust);
  return facts.job.kit.canopy && blows ? 'w' : ' ';
}

char work_mark(const programme::PlannedRun& run, bool outdoors) {
  if (run.under_canopy) return '^';
  if (run.floodlit && outdoors) return 'o';
  return '=';
}

struct Lane {
  std::string marks;
  std::size_t used = 0;
  base::Instant busy_until{};
};

std::vector<std::string> lanes_of(const TripFacts& facts, const TripDay& day, const Strip& strip) {
  const base::Zone& zone = facts.job.site.zone;
  const std::size_t cells = strip.cells();
  struct Brick {
    programme::PlannedRun run;
    char letter;
    bool outdoors;
  };
  std::vector<Brick> bricks;
  for (const DayTask& task : day.tasks) {
    for (const programme::PlannedRun& run : task.runs)
      bricks.push_back({run, task.letter, facts.list.tasks[task.task].outdoors});
  }
  std::stable_sort(bricks.begin(), bricks.end(),
                   [](const Brick& a, const Brick& b) { return a.run.span.from < b.run.span.from; });
  const auto cell_of = [&](base::Instant t) {
    const long minute = into_day(day, t, zone).count() - strip.first_hour * 60 + strip.cell.count() / 2;
    return std::min(cells, static_cast<std::size_t>(std::max(0L, minute / strip.cell.count())));
  };
  std::vector<Lane> lanes;
  for (const Brick& brick : bricks) {
    auto lane = std::find_if(lanes.begin(), lanes.end(),
                             [&](const Lane& l) { return l.busy_until <= brick.run.span.from; });
    if (lane == lanes.end()) lane = lanes.insert(lanes.end(), Lane{std::string(cells, ' '), 0, {}});
    // Tasks shorter than a cell still get their letter, pushed along if need be.
    const std::size_t begin = std::max(lane->used, cell_of(brick.run.span.from));
    const std::size_t end = std::max(begin + 1, cell_of(brick.run.span.to));
    for (std::size_t i = begin; i < std::min(end, cells); ++i)
      lane->marks[i] = i == begin ? brick.letter : work_mark(brick.run, brick.outdoors);
    lane->used = end;
    lane->busy_until = brick.run.span.to;
  }
  std::vector<std::string> out;
  for (const Lane& lane : lanes)
    out.push_back(lane.marks);
  return out;
}

std::string labelled(std::string_view label, const std::string& marks) {
  std::string line = base::pad(std::string("  ") + std::string(label), label_width) + marks;
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

std::vector<std::string> draw(const TripFacts& facts, const TripDay& day, const Strip& strip) {
  const base::Zone& zone = facts.job.site.zone;
  const LightDay light = light_day(facts.job, day.day);
  std::string hours;
  std::string sky;
  std::string weather;
  std::string alone;
  const std::size_t an_hour = static_cast<std::size_t>(60 / strip.cell.count());
  for (std::size_t i = 0; i < strip.cells(); ++i) {
    const minutes clock = minutes(strip.first_hour * 60) + strip.cell * static_cast<long>(i);
    const base::Instant middle = zone.to_instant_earliest(base::LocalTime(day.day) + clock + strip.cell / 2);
    sky += light_mark(light.light, middle);
    weather += weather_mark(facts, middle);
    // What lies untouched from end to end of the day is told in words; a row full of strokes says nothing.
    const bool waits = std::any_of(facts.plan.waits.begin(), facts.plan.waits.end(), [&](const auto& wait) {
      const bool all_day = wait.span.from <= day.span.from && wait.span.to >= day.span.to;
      return !all_day && wait.span.from <= middle && middle < wait.span.to;
    });
    alone += waits ? '/' : ' ';
    if (i % an_hour == 0) {
      hours += base::pad(fmt::format("{:02}", strip.first_hour + static_cast<long>(i / an_hour)), an_hour);
    }
  }
  std::vector<std::string> rows{labelled("", hours), labelled("light", sky)};
  if (weather.find_first_not_of(' ') != std::string::npos) rows.push_back(labelled("weather", weather));
  bool first = true;
  for (const std::string& lane : lanes_of(facts, day, strip)) {
    rows.push_back(labelled(first ? "work" : "and", lane));
    first = false;
  }
  if (alone.find('/') != std::string::npos) rows.push_back(labelled("left alone", alone));
  return rows;
}

void tasks_of(Page& page, const TripFacts& facts, const TripDay& day) {
  Table table({{"", Table::Kind::left}, {"", Table::Kind::left}, {"", Table::Kind::wrapped}});
  for (const DayTask& task : day.tasks)
    table.add({std::string(1, task.letter), hours_of(facts, task).front(), words_for(facts, task)});
  page.table(table);
}

void care_of(Page& page, const TripFacts& facts, const TripDay& day) {
  const base::Zone& zone = facts.job.site.zone;
  const auto today = [&](base::Instant t) { return day.span.from <= t && t < day.span.to; };
  constexpr std::size_t at = label_width;
  bool first = true;
  const auto item = [&](std::string_view label, const std::string& words) {
    page.item(first ? "  " + std::string(label) : "", words, at);
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
}

void ending(Page& page, const TripFacts& facts, const programme::Late* because) {
  const programme::Plan& plan = facts.plan;
  const base::Zone& zone = facts.job.site.zone;
  page.gap();
  const base::Zone& home_zone = facts.job.trip.home_zone;
  const std::string promise = base::day_and_time(home_zone.to_local(facts.job.trip.home_by));
  if (plan.home) {
    const std::string arrives =
        base::day_name(home_zone.day_of(*plan.home)) + ' ' + quarter(home_zone.to_local(*plan.home));
    const bool late = plan.in_hand.count() < 0;
    page.item("Home",
              fmt::format("about {}; promised {}: {} {}", arrives, promise,
                          duration(late ? -plan.in_hand : plan.in_hand), late ? "late" : "in hand"),
              label_width);
    if (plan.soonest_home) {
      // Down to the quarter: told sooner than it is it stays true, and never stands after his own hour.
      using Quarters = std::chrono::duration<long, std::ratio<900>>;
      const base::LocalTime soonest(
          std::chrono::floor<Quarters>(home_zone.to_local(*plan.soonest_home).time_since_epoch()));
      page.item("",
                fmt::format("By this forecast nobody who does what must be done can be home before {}.",
                            base::day_and_time(soonest)),
                label_width);
    }
  } else {
    page.item("Home", fmt::format("no way found to be home; promised {}", promise), label_width);
  }
  if (because != nullptr) {
    const LateWords words = late_words(facts, *because);
    page.item("Decides", words.because, label_width);
    if (!words.cure.empty()) page.item("Cure", words.cure, label_width);
  }
  bool first = true;
  for (const std::string& words : outlook_sentences(facts)) {
    page.item(first ? "Chance" : "", words, label_width);
    first = false;
  }
  first = true;
  for (const works::Name& name : plan.left_out) {
    const works::Task* task = facts.list.find(name);
    page.item(first ? "Left out" : "", task != nullptr ? task->title : name, label_width);
    first = false;
  }
  const std::string basis =
      basis_line(facts.series, zone, {facts.job.trip.leave_home, facts.now, facts.job.trip.home_by});
  if (!basis.empty()) page.item("Stands on", basis, label_width);
  first = true;
  const auto taken = [&](const std::string& words) {
    page.item(first ? "Taken so" : "", words, label_width);
    first = false;
  };
  for (const std::string& words : plan.assumptions)
    taken(words);
  for (const std::string& words : facts.remarks)
    taken(words);
}

}  // namespace

namespace {

/// The marks of all days, for what their legend has to tell.
struct Drawn {
  std::string weather;
  std::string work;  ///< and the other rows
};

std::string legend(const Drawn& drawn) {
  std::string weather;
  for (const auto& [mark, words] : {std::pair{'r', "r wet"},
                                    {'R', "R too wet for facework"},
                                    {'f', "f frost"},
                                    {'w', "w gusts too strong for the canopy"},
                                    {'?', "? not given"}}) {
    if (drawn.weather.find(mark) != std::string::npos)
      weather += (weather.empty() ? "Weather: " : ", ") + std::string(words);
  }
  if (!weather.empty()) weather += ". ";
  std::string work = "Work: a letter begins a task, = goes on with it";
  if (drawn.work.find('^') != std::string::npos) work += ", ^ under the canopy";
  // A letter of a task may be an o as well; then it is told without need.
  if (drawn.work.find('o') != std::string::npos) work += ", o under lights";
  work += '.';
  if (drawn.work.find('/') != std::string::npos) work += " / something fresh is left alone.";
  return weather + work;
}

}  // namespace

std::vector<std::string> course_of(const TripFacts& facts, const std::vector<TripDay>& days,
                                   std::size_t day) {
  return draw(facts, days.at(day), strip_of(facts, days));
}

std::string days_sheet(const TripFacts& facts, Ink ink, const programme::Late* late) {
  const base::Zone& zone = facts.job.site.zone;
  const Units units = units_of(facts.job.limits.set);
  const std::vector<TripDay> days = trip_days(facts);
  const Strip strip = strip_of(facts, days);
  Page page(ink);
  page.title("Days", facts.job.title);
  page.text(warning(facts));
  Drawn drawn;
  for (const TripDay& day : days) {
    page.heading(fmt::format("{}, day {} of {}", base::day_name(day.day), day.number, days.size()));
    // The hours on site are those he plans by; the night is told where it freezes.
    const auto& hours = facts.job.trip.working_day;
    const programme::Span working{zone.to_instant_earliest(base::LocalTime(day.day) + hours.from),
                                  zone.to_instant_earliest(base::LocalTime(day.day) + hours.to)};
    page.text(capital(weather_line(facts.series, working, zone, units)) + ".", 2);
    if (day.tasks.empty()) {
      page.text("Nothing planned.", 2);
      continue;
    }
    page.gap();
    for (const std::string& row : draw(facts, day, strip)) {
      page.exact(row);
      const bool weather = row.rfind("  weather", 0) == 0;
      (weather ? drawn.weather : drawn.work) += row.substr(std::min(row.size(), label_width));
    }
    page.gap();
    tasks_of(page, facts, day);
    care_of(page, facts, day);
  }
  ending(page, facts, late);
  page.gap();
  page.text(fmt::format("Each mark is {} minutes. Light: blank dark, : half light, . day. {}",
                        strip.cell.count(), legend(drawn)));
  return page.str();
}

}  // namespace weatherstruck::render
