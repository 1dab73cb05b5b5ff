#include "weatherstruck/render/days.h"

#include <fmt/format.h>

#include <algorithm>

#include "day_strip.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/light_table.h"

namespace weatherstruck::render {
namespace {

using std::chrono::minutes;

constexpr std::size_t label_width = 13;
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
    alone += left_alone_at(facts, day, middle) ? '/' : ' ';
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
  const std::vector<TripDay> days = trip_days(facts);
  const Strip strip = strip_of(facts, days);
  Page page(ink);
  page.title("Days", facts.job.title);
  page.text(warning(facts));
  Drawn drawn;
  for (const TripDay& day : days) {
    page.heading(fmt::format("{}, day {} of {}", base::day_name(day.day), day.number, days.size()));
    page.text(weather_of(facts, day), 2);
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
    for (const Said& said : care_of(facts, day))
      page.item(said.label.empty() ? "" : "  " + said.label, said.words, label_width);
  }
  page.gap();
  for (const Said& said : ending_of(facts, late))
    page.item(said.label, said.words, label_width);
  page.gap();
  page.text(fmt::format("Each mark is {} minutes. Light: blank dark, : half light, . day. {}",
                        strip.cell.count(), legend(drawn)));
  return page.str();
}

}  // namespace weatherstruck::render
