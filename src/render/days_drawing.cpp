#include "weatherstruck/render/days_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "day_marks.h"
#include "day_strip.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using html::Attributes;
using html::element;
using html::Html;
using html::line;
using std::chrono::minutes;
using namespace mark;

// A stretch of one task, as it lies in its course.
struct Brick {
  char letter = '?';
  double from = 0;
  double to = 0;
  bool canopy = false;
  bool lights = false;
  [[nodiscard]] double middle() const { return (from + to) / 2; }
  [[nodiscard]] bool holds_letter() const { return to - from >= letter_width; }
};

// Bricks that do not overlap, and whether any stands under the canopy or has its letter above it.
struct Course {
  std::vector<Brick> bricks;
  [[nodiscard]] bool roofs() const {
    return std::any_of(bricks.begin(), bricks.end(), [](const Brick& b) { return b.canopy; });
  }
  [[nodiscard]] bool letters_above() const {
    return std::any_of(bricks.begin(), bricks.end(), [](const Brick& b) { return !b.holds_letter(); });
  }
};

/// Which marks were drawn, for the legend.
struct Used {
  std::string weather;
  bool half_light = false;
  bool dark = false;
  bool canopy = false;
  bool lights = false;
  bool alone = false;
};

class Drawer {
 public:
  Drawer(const TripFacts& facts, const std::vector<TripDay>& days)
      : facts_(facts), days_(days), zone_(facts.job.site.zone), strip_(strip_of(facts, days)) {}

  /// One day from `top` on. @return where it ends
  double draw(std::size_t at, double top, Html& out) {
    const TripDay& day = days_[at];
    const LightDay light = light_day(facts_.job, day.day);
    double y = top;
    Html shapes;
    hours(y, shapes);
    y += hour_row;
    const double grid_from = y;
    const double cell = (width - 2 * edge) / static_cast<double>(strip_.cells());
    std::string sky;
    std::vector<bool> alone;
    for (std::size_t i = 0; i < strip_.cells(); ++i) {
      const base::Instant middle = instant(day, i);
      sky += light_mark(light.light, middle);
      alone.push_back(left_alone_at(facts_, day, middle));
    }
    const auto spans = [&](const auto& row, const auto& draw_span) {
      for (std::size_t i = 0; i < row.size();) {
        std::size_t end = i;
        while (end < row.size() && row[end] == row[i])
          ++end;
        draw_span(row[i], edge + cell * static_cast<double>(i), cell * static_cast<double>(end - i));
        i = end;
      }
    };
    spans(sky, [&](char mark, double x, double w) {
      used_.dark = used_.dark || mark == ' ';
      used_.half_light = used_.half_light || mark == ':';
      shapes += light_shape(mark, x, y, w);
    });
    y += light_row;
    weather(day, y, shapes);
    y += weather_row;
    for (const Course& course : courses_of(day)) {
      if (course.letters_above()) y += letter_row;
      if (course.roofs()) y += roof;
      lay(course, y, shapes);
      y += brick + 2;
    }
    spans(alone, [&](bool waits, double x, double w) {
      if (!waits) return;
      used_.alone = true;
      shapes += hatched(x, y, w, joint);
    });
    if (std::find(alone.begin(), alone.end(), true) != alone.end()) y += joint + 1;
    out += grid(grid_from, y) + shapes;
    return y;
  }

  [[nodiscard]] const Used& used() const { return used_; }

 private:
  [[nodiscard]] base::Instant instant(const TripDay& day, std::size_t cell) const {
    const minutes clock = minutes(strip_.first_hour * 60) + strip_.cell * static_cast<long>(cell);
    return zone_.to_instant_earliest(base::LocalTime(day.day) + clock + strip_.cell / 2);
  }
  [[nodiscard]] double x_of(minutes into) const {
    const double whole = static_cast<double>((strip_.last_hour - strip_.first_hour) * 60);
    const double at = static_cast<double>(into.count() - strip_.first_hour * 60) / whole;
    return edge + std::clamp(at, 0.0, 1.0) * (width - 2 * edge);
  }
  [[nodiscard]] double x_of_hour(long hour) const { return x_of(minutes(hour * 60)); }
  /// Every second hour, or every third of a long day, so that numbers keep apart.
  [[nodiscard]] long step() const { return strip_.last_hour - strip_.first_hour > 16 ? 3 : 2; }

  void hours(double y, Html& out) const {
    for (long hour = strip_.first_hour; hour <= strip_.last_hour; hour += step()) {
      const double x = x_of_hour(hour);
      const bool last = x > width - 12;
      const bool first = hour == strip_.first_hour;
      out += words_at(first ? x - 2 : (last ? x + 2 : x), y + 10.5, fmt::format("{:02}", hour),
                      first ? "start" : (last ? "end" : "middle"), 12);
    }
  }
  [[nodiscard]] Html grid(double from, double to) const {
    std::string d;
    for (long hour = strip_.first_hour; hour <= strip_.last_hour; hour += step())
      d += fmt::format("M{} {}V{}", number(x_of_hour(hour)), number(from), number(to));
    return shape("path", {{"d", d}, {"fill", "none"}, {"stroke", "#999"}, {"stroke-width", "0.5"}});
  }
  // A mark for each hour, the worse where it holds two: more would run into each other.
  void weather(const TripDay& day, double y, Html& out) {
    const auto an_hour = static_cast<std::size_t>(60 / strip_.cell.count());
    constexpr std::string_view worst_first = "Rrfw? ";
    for (std::size_t i = 0; i < strip_.cells(); i += an_hour) {
      char mark = ' ';
      for (std::size_t part = i; part < std::min(i + an_hour, strip_.cells()); ++part) {
        const char here = weather_mark(facts_, instant(day, part));
        if (worst_first.find(here) < worst_first.find(mark)) mark = here;
      }
      if (mark == ' ') continue;
      if (used_.weather.find(mark) == std::string::npos) used_.weather += mark;
      const long hour = strip_.first_hour + static_cast<long>(i / an_hour);
      out += weather_shape(mark, (x_of_hour(hour) + x_of_hour(hour + 1)) / 2, y);
    }
  }

  [[nodiscard]] std::vector<Course> courses_of(const TripDay& day) {
    struct Timed {
      Brick brick;
      programme::Span span;
    };
    std::vector<Timed> all;
    for (const DayTask& task : day.tasks) {
      for (const programme::PlannedRun& run : task.runs) {
        const bool lights = run.floodlit && facts_.list.tasks[task.task].outdoors;
        all.push_back({{task.letter, x_of(into_day(day, run.span.from, zone_)),
                        x_of(into_day(day, run.span.to, zone_)), run.under_canopy, lights},
                       run.span});
        used_.canopy = used_.canopy || run.under_canopy;
        used_.lights = used_.lights || lights;
      }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Timed& a, const Timed& b) { return a.span.from < b.span.from; });
    std::vector<Course> courses;
    std::vector<base::Instant> busy_until;
    for (const Timed& timed : all) {
      std::size_t lane = 0;
      while (lane < courses.size() && busy_until[lane] > timed.span.from)
        ++lane;
      if (lane == courses.size()) {
        courses.emplace_back();
        busy_until.emplace_back();
      }
      courses[lane].bricks.push_back(timed.brick);
      busy_until[lane] = timed.span.to;
    }
    return courses;
  }

  static void lay(const Course& course, double y, Html& out) {
    const std::vector<double> letters = letters_of(course);
    for (std::size_t i = 0; i < course.bricks.size(); ++i) {
      const Brick& one = course.bricks[i];
      const double w = std::max(one.to - one.from, 2.0);
      if (!one.holds_letter()) {
        const double above = y - (course.roofs() ? roof : 0);
        out += path(fmt::format("M{} {}V{}L{} {}", number(one.middle()), number(y), number(above),
                                number(letters[i]), number(above - 3)),
                    0.8);
        out += words_at(letters[i], above - 4, std::string(1, one.letter), "middle", 13, true);
      }
      out += rectangle(one.from, y, w, brick, "#fff", ink);
      if (one.canopy) out += roofed(one.from, y - 0.5, w);
      if (one.lights) out += studded(one.from, y + brick - 2.6, w);
      if (one.holds_letter()) {
        out += words_at(one.middle(), y + (one.lights ? 13 : 15), std::string(1, one.letter), "middle", 14,
                        true);
      }
    }
  }
  // Where the letters above the bricks stand: over their brick, pushed along where it is narrow.
  static std::vector<double> letters_of(const Course& course) {
    std::vector<double> at(course.bricks.size(), 0);
    double free_from = letter_width / 2;
    for (std::size_t i = 0; i < at.size(); ++i) {
      if (course.bricks[i].holds_letter()) continue;
      at[i] = std::max(course.bricks[i].middle(), free_from);
      free_from = at[i] + letter_width;
    }
    double free_to = width - letter_width / 2;
    for (std::size_t i = at.size(); i-- > 0;) {
      if (course.bricks[i].holds_letter()) continue;
      at[i] = std::min(at[i], free_to);
      free_to = at[i] - letter_width;
    }
    return at;
  }

  const TripFacts& facts_;
  const std::vector<TripDay>& days_;
  const base::Zone& zone_;
  Strip strip_;
  Used used_;
};

struct Entry {
  Html mark;  ///< within 34 x 18
  std::string words;
};

std::vector<Entry> entries_of(const Used& used) {
  std::vector<Entry> out;
  out.push_back({rectangle(2, 3, 30, 13, "#fff", ink) + words_at(17, 14, "a", "middle", 13, true),
                 "a task, by its letter"});
  if (used.canopy) {
    out.push_back({rectangle(2, 7, 30, 10, "#fff", ink) + roofed(2, 6.5, 30), "under the canopy"});
  }
  if (used.lights) out.push_back({rectangle(2, 3, 30, 13, "#fff", ink) + studded(2, 12, 30), "under lights"});
  if (used.alone) out.push_back({hatched(2, 5, 30, joint), "something fresh is left alone"});
  if (used.dark) out.push_back({light_shape(' ', 2, 7, 30), "dark"});
  if (used.half_light) out.push_back({light_shape(':', 2, 7, 30), "half light"});
  for (const auto& [mark, words] : {std::pair{'r', "wet"},
                                    {'R', "too wet for facework"},
                                    {'f', "frost"},
                                    {'w', "gusts too strong for the canopy"},
                                    {'?', "not given"}}) {
    if (used.weather.find(mark) != std::string::npos) out.push_back({weather_shape(mark, 17, 3), words});
  }
  return out;
}

std::string heading_of(const std::vector<TripDay>& days, const TripDay& day) {
  return fmt::format("{}, day {} of {}", base::day_name(day.day), day.number, days.size());
}

// One sentence for those who hear the page: the table beside it says the rest.
std::string described(const std::vector<TripDay>& days, const TripDay& day) {
  return fmt::format("{}: {} {}; hours in the table", heading_of(days, day), day.tasks.size(),
                     day.tasks.size() == 1 ? "task" : "tasks");
}

Html svg(double height, const std::string& label, const std::string& kind, const Html& inside,
         double w = width) {
  return element("svg",
                 {{"class", kind},
                  {"viewBox", fmt::format("0 0 {} {}", number(w), number(height))},
                  {"role", "img", !label.empty()},
                  {"aria-label", label, !label.empty()},
                  {"aria-hidden", "true", label.empty()}},
                 inside);
}

// What a drawing by itself shows, in words.
std::string in_words(const TripFacts& facts, const std::vector<TripDay>& days) {
  std::string out;
  for (const TripDay& day : days) {
    out += heading_of(days, day) + ". " + weather_of(facts, day);
    for (const DayTask& task : day.tasks)
      out += fmt::format(" {}, {}: {}.", task.letter, hours_of(facts, task).front(), words_for(facts, task));
    for (const Said& said : care_of(facts, day))
      out += " " + (said.label.empty() ? capital(said.words) : capital(said.label) + " " + said.words) + ".";
    out += "\n";
  }
  return out;
}

}  // namespace

html::Html day_course(const TripFacts& facts, const std::vector<TripDay>& days, std::size_t day) {
  Drawer drawer(facts, days);
  Html inside;
  const double height = drawer.draw(day, 0, inside);
  return line(svg(height, described(days, days.at(day)), "course", inside));
}

html::Html course_legend(const TripFacts& facts, const std::vector<TripDay>& days) {
  Drawer drawer(facts, days);
  Html ignored;
  for (std::size_t day = 0; day < days.size(); ++day)
    drawer.draw(day, 0, ignored);
  Html items;
  for (const Entry& entry : entries_of(drawer.used()))
    items += line(element("li", svg(18, "", "mark", entry.mark, 34) + element("span", entry.words)));
  return line(element("ul", {{"class", "marks"}}, line(Html()) + items));
}

std::string_view course_style() {
  return R"css(
svg.course { display: block; width: 100%; height: auto; margin: .5rem 0 .6rem; font-family: inherit; }
.by-letter { font-weight: 800; }
ul.marks { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .2rem 1.2rem; }
ul.marks li { display: flex; align-items: center; gap: .5rem; }
svg.mark { width: 2.1rem; height: 1.1rem; flex: none; font-family: inherit; }
table + dl { margin-top: .6rem; }
@media print { svg.course { width: 72%; } table + dl { margin-top: 1.5mm; } }
)css";
}

html::Html day_table(const TripFacts& facts, const TripDay& day, const std::string& title) {
  Html rows;
  for (const DayTask& task : day.tasks) {
    rows += line(
        element("tr", element("th", {{"scope", "row"}, {"class", "by-letter"}}, std::string(1, task.letter)) +
                          element("td", {{"class", "time"}}, hours_of(facts, task).front()) +
                          element("td", words_for(facts, task))));
  }
  Html head;
  for (const char* column : {"", "Time", "Work"}) {
    head += *column == '\0' ? element("td", Html()) : element("th", {{"scope", "col"}}, column);
  }
  return line(element(
      "table", {{"aria-label", title}},
      line(Html()) + line(element("thead", element("tr", head))) + element("tbody", line(Html()) + rows)));
}

std::string days_svg(const TripFacts& facts) {
  const std::vector<TripDay> days = trip_days(facts);
  Drawer drawer(facts, days);
  Html inside;
  constexpr double title_height = 24;
  double y = title_height;
  inside += words_at(edge, 16, facts.job.title, "start", 14, true);
  for (std::size_t day = 0; day < days.size(); ++day) {
    y += 16;
    inside += words_at(edge, y, heading_of(days, days[day]), "start", 13, true);
    y += 5;
    if (days[day].tasks.empty()) {
      y += 15;
      inside += words_at(edge, y, "Nothing planned.", "start", 12);
    } else {
      y = drawer.draw(day, y, inside);
    }
    y += 6;
  }
  for (const Entry& entry : entries_of(drawer.used())) {
    inside += line(element("g", {{"transform", fmt::format("translate({} {})", number(edge), number(y))}},
                           entry.mark + words_at(40, 13, entry.words, "start", 12)));
    y += 18;
  }
  for (const Said& said : ending_of(facts, nullptr)) {
    if (said.label != "Home") continue;
    y += 16;
    inside += words_at(edge, y, "Home " + said.words, "start", 12, true);
    y += 6;
  }
  const Html root = element("svg",
                            {{"xmlns", "http://www.w3.org/2000/svg"},
                             {"viewBox", fmt::format("0 0 {} {}", number(width), number(y))},
                             {"width", number(width * 2)},
                             {"height", number(y * 2)},
                             {"font-family", "Liberation Sans, Arial, sans-serif"},
                             {"role", "img"},
                             {"aria-labelledby", "days-title days-words"}},
                            line(Html()) + line(element("title", {{"id", "days-title"}}, facts.job.title)) +
                                line(element("desc", {{"id", "days-words"}}, in_words(facts, days))) +
                                line(rectangle(0, 0, width, y, "#fff", 0)) + inside + line(Html()));
  std::string bytes = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + root.str() + "\n";
  // XML knows the space that does not break by its number only.
  constexpr std::string_view named = "&nbsp;";
  for (std::size_t at = bytes.find(named); at != std::string::npos; at = bytes.find(named, at))
    bytes.replace(at, named.size(), "&#160;");
  return bytes;
}

}  // namespace weatherstruck::render
