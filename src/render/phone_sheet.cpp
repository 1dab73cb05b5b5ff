#include "weatherstruck/render/phone_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "phone_ticks.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/measure/setting_out.h"
#include "weatherstruck/render/days_drawing.h"
#include "weatherstruck/render/html.h"
#include "weatherstruck/render/part_sizes.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/works/expand.h"

namespace weatherstruck::render {
namespace {

using html::Attributes;
using html::element;
using html::flag;
using html::Html;
using html::line;
using html::single;
using html::text;

std::string iso_day(base::LocalDay day) {
  return base::iso_local(base::LocalTime(day)).substr(0, 10);
}

// A letter that opens a sentence names a task and stays small.
std::string sentence(const std::string& words) {
  return words.size() > 1 && (words[1] == ' ' || words[1] == ',' || words[1] == ':') ? words : capital(words);
}

class Sheet {
 public:
  Sheet(const TripFacts& facts, const MorningFacts& morning, const PhoneFacts& phone)
      : facts_(facts),
        phone_(phone),
        zone_(facts.job.site.zone),
        days_(trip_days(facts)),
        day_(days_.at(morning.day)),
        at_(morning.day),
        lines_(morning_lines(facts, morning)) {}

  std::string write() {
    Html parts = section(
        "sky", "Sky",
        told({MorningPart::light, MorningPart::weather, MorningPart::tonight, MorningPart::last_night}));
    parts += section("to-do", "To do", tasks());
    parts += section("cover", "Leave and cover", care());
    parts += section("turns", "If it turns", turns());
    parts += section("stock", "Stock", told({MorningPart::needs, MorningPart::stock}));
    parts += section(
        "tonight", "By tonight",
        told({MorningPart::by_tonight, MorningPart::home, MorningPart::left_out, MorningPart::changed}));
    parts += section("mind", "Mind", told({MorningPart::stands_on, MorningPart::mind, MorningPart::caution}));
    parts += section("gauge", "Sizes and gauge", gauge());
    parts += section("days", "Days", days());
    parts += section("hand-back", "What you ticked", hand_back());
    const Attributes about{{"id", "sheet"},
                           {"data-day", iso_day(day_.day)},
                           {"data-store", "weatherstruck " + facts_.job.name + " " + iso_day(day_.day)}};
    Html body = line(element("header", head() + contents()));
    body += line(element("main", about, line(Html()) + parts));
    body += line(element("footer", line(Html()) + foot()));
    const std::string style = std::string(phone::style()) + std::string(course_style());
    return html::document({base::day_name(day_.day) + ": " + facts_.job.title, body, style, phone::script()});
  }

 private:
  Html section(const std::string& id, const std::string& title, const Html& inside) {
    if (inside.empty()) return {};
    titles_.emplace_back(id, title);
    return line(element("section", {{"id", id}, {"aria-labelledby", id + "-title"}},
                        line(Html()) + line(element("h2", {{"id", id + "-title"}}, title)) + inside));
  }

  [[nodiscard]] std::string moment(base::Instant t) const { return base::day_and_time(zone_.to_local(t)); }

  [[nodiscard]] Html head() const {
    Html out = line(Html()) + line(element("h1", base::day_name(day_.day)));
    out += line(element("p", capital(lines_.which) + ": " + facts_.job.title));
    if (!lines_.warning.empty()) out += line(element("p", {{"class", "warning"}}, lines_.warning));
    return out;
  }
  [[nodiscard]] Html contents() const {
    Html items;
    for (const auto& [id, title] : titles_)
      items += line(element("li", element("a", {{"href", "#" + id}}, title)));
    return line(element("nav", {{"aria-label", "On this sheet"}}, element("ul", line(Html()) + items)));
  }
  [[nodiscard]] Html foot() const {
    std::string words = "Made " + moment(facts_.now) + ".";
    if (!facts_.series.source.empty()) {
      words += " Forecast: " + facts_.series.source;
      if (facts_.series.issued) words += ", issued " + moment(*facts_.series.issued);
      words += ", reaches to " + moment(facts_.plan.forecast_until) + ".";
    }
    Html out = line(element("p", {{"class", "small"}}, words));
    if (!facts_.series.attribution.empty())
      out += line(element("p", {{"class", "small"}}, facts_.series.attribution));
    return out;
  }

  /// Sections of the morning sheet as a list of labels and what they say.
  [[nodiscard]] Html told(const std::vector<MorningPart>& parts) const {
    Html out;
    for (const MorningPart part : parts) {
      const MorningLines::Section* said = lines_.find(part);
      if (said == nullptr) continue;
      out += line(element("dt", said->label));
      for (const std::string& words : said->sentences)
        out += line(element("dd", sentence(words)));
    }
    return out.empty() ? out : line(element("dl", line(Html()) + out));
  }

  [[nodiscard]] std::string planned_clock(base::Instant t) const {
    const base::Instant within = std::clamp(t, day_.span.from, day_.span.to - std::chrono::minutes(1));
    return base::clock_time(zone_.to_local(within));
  }

  [[nodiscard]] Html box(const phone::Tick& tick, const std::string& aria) const {
    const Html input = single("input", {{"type", "checkbox"},
                                        {"data-key", tick.key},
                                        {"data-before", tick.line.before},
                                        {"data-after", tick.line.after, !tick.line.after.empty()},
                                        {"data-words", tick.words},
                                        {"data-plan", planned_clock(tick.plan)},
                                        {"aria-label", aria, !aria.empty()}});
    return line(
        element("label", {{"class", "tick"}},
                input + element("span", text(tick.label) + element("span", {flag("data-time")}, ""))));
  }

  [[nodiscard]] Html tasks() const {
    const MorningLines::Section* said = lines_.find(MorningPart::tasks);
    if (said == nullptr) return {};
    Html out;
    for (const std::string& words : said->sentences)
      out += line(element("p", sentence(words)));
    Html items;
    for (const MorningLines::Row& row : said->rows) {
      const auto task = std::find_if(day_.tasks.begin(), day_.tasks.end(), [&](const DayTask& it) {
        return it.letter == row.letter && facts_.list.tasks[it.task].name == row.task;
      });
      Html inside = line(element(
          "legend", element("span", {{"class", "letter"}}, std::string(1, row.letter)) +
                        element("span", {{"class", "legend-time time"}}, row.time) + text(" " + row.words)));
      if (task != day_.tasks.end()) inside += boxes(phone::ticks_of(facts_, days_, at_, *task), *task);
      items += line(element("li", element("fieldset", line(Html()) + inside)));
    }
    if (!day_.tasks.empty()) out += day_course(facts_, days_, at_);
    if (!items.empty()) out += line(element("ol", {{"class", "tasks"}}, line(Html()) + items));
    return out;
  }

  [[nodiscard]] Html boxes(const phone::TaskTicks& ticks, const DayTask& task) const {
    Html out =
        line(element("div", {{"class", "ticks"}}, line(Html()) + box(ticks.begun, "") + box(ticks.all, "")));
    if (!ticks.courses.empty()) {
      Html row = line(element("p", {{"class", "row-label"}}, ticks.course_word + " up, each as it is done"));
      for (const phone::Tick& course : ticks.courses)
        row += box(course, ticks.course_word == "Steps" ? "Step " + course.label : "Course " + course.label);
      out += line(element("div", {{"class", "ticks courses"}}, line(Html()) + row));
    }
    if (ticks.unit) {
      const std::string id = "part-" + std::string(1, task.letter);
      const Html field =
          element("label", {{"for", id}}, "How much, in " + *ticks.unit) +
          single("input", {{"type", "text"}, {"id", id}, {"inputmode", "decimal"}, {"autocomplete", "off"}});
      const Html button =
          element("button",
                  {{"type", "button"},
                   {"data-amount", id},
                   {"data-before", ticks.amount_before},
                   {"data-between", ticks.amount_after},
                   {"data-unit", *ticks.unit},
                   {"data-words", ticks.all.words.substr(0, ticks.all.words.rfind(": ")) + ": "},
                   {"data-plan", planned_clock(task.finish())}},
                  "Add");
      out += line(element("details", {{"class", "scripted"}, flag("hidden")},
                          element("summary", "Only part of it") +
                              element("div", {{"class", "part"}}, element("div", field) + button)));
    }
    return out;
  }

  [[nodiscard]] Html care() const {
    Html out = told({MorningPart::leave});
    const auto with_boxes = [&](MorningPart part, const std::vector<phone::CareTick>& ticks) {
      out += told({part});
      Html items;
      for (const phone::CareTick& care : ticks) {
        phone::Tick tick = care.tick;
        tick.label = care.what;
        items += line(element("li", box(tick, "")));
      }
      if (!items.empty()) out += line(element("ul", {{"class", "care"}}, line(Html()) + items));
    };
    with_boxes(MorningPart::cover, phone::cover_ticks(facts_, day_));
    with_boxes(MorningPart::canopy, phone::canopy_ticks(facts_, day_));
    return out;
  }

  [[nodiscard]] Html turns() const {
    const MorningLines::Section* said = lines_.find(MorningPart::turns);
    if (said == nullptr) return {};
    Html items;
    for (const std::string& words : said->sentences)
      items += line(element("li", sentence(words)));
    return line(element("ul", line(Html()) + items));
  }

  [[nodiscard]] Html gauge() const {
    const works::Expansion expansion = works::expand(facts_.job);
    Html out;
    int most = 0;
    for (const PartSizes& part : part_sizes(facts_.job, expansion)) {
      most = std::max(most, part.most_courses());
      out += line(element("dt", capital(part.title)));
      for (const std::string& size : part.sizes)
        out += line(element("dd", capital(size)));
      if (!part.corners.empty()) {
        std::vector<std::string> corners;
        for (const CornerCourses& corner : part.corners)
          corners.push_back(fmt::format("{} {}", corner.which, corner.courses));
        out += line(element("dd", "Courses on the concrete: " + base::join_and(corners)));
      }
      for (const std::string& opening : part.openings)
        out += line(element("dd", "Opening, " + opening));
    }
    if (out.empty()) return out;
    out = line(element("dl", line(Html()) + out));
    if (most == 0) return out;
    Html marks;
    int course = 0;
    for (const base::Metres top : measure::gauge_marks(most)) {
      ++course;
      marks += line(element(
          "li", element("b", std::to_string(course)) + text(fmt::format(" {:.0f} mm", top.value() * 1000))));
    }
    out += line(element("h3", "Top of each course above its concrete"));
    return out + line(element("ol", {{"class", "gauge"}}, line(Html()) + marks));
  }

  [[nodiscard]] programme::Span working(const TripDay& day) const {
    const auto& hours = facts_.job.trip.working_day;
    return {zone_.to_instant_earliest(base::LocalTime(day.day) + hours.from),
            zone_.to_instant_earliest(base::LocalTime(day.day) + hours.to)};
  }

  [[nodiscard]] Html days() const {
    Html out;
    for (std::size_t i = at_ + 1; i < days_.size(); ++i) {
      const TripDay& day = days_[i];
      const std::string title =
          fmt::format("{}, day {} of {}", base::day_name(day.day), day.number, days_.size());
      Html inside = line(element("h3", title));
      const std::string weather =
          weather_line(facts_.series, working(day), zone_, units_of(facts_.job.limits.set));
      inside += line(element("p", capital(weather) + "."));
      inside += day.tasks.empty() ? line(element("p", "Nothing planned."))
                                  : day_course(facts_, days_, i) + day_table(facts_, day, title);
      out += line(element("div", line(Html()) + inside));
    }
    if (out.empty()) return out;
    out += line(element("h3", "The marks")) + course_legend(facts_, days_);
    return line(element("div", {{"class", "days"}}, line(Html()) + out));
  }
  [[nodiscard]] Html hand_back() const {
    const phone::NoteLine note = phone::note_line();
    const phone::StoodDownLine stood = phone::stood_down_line();
    Html out =
        line(element("noscript", element("p",
                                         "This phone runs no script here: the boxes can be ticked, but "
                                         "they are not kept and make no text.")));
    Html live = line(element("p", {{"id", "nothing"}}, "Nothing is ticked yet."));
    live +=
        line(element("p", {{"class", "warning"}, {"id", "unkept"}, flag("hidden")},
                     "This phone does not keep the ticks. Hand the text over before you leave the page."));
    live += line(element("ol", {{"id", "list"}}, ""));

    Html full = line(element("label", {{"for", "text"}}, "The text for the laptop"));
    full += line(
        element("textarea", {{"id", "text"}, {"rows", "4"}, flag("readonly"), {"spellcheck", "false"}}, ""));
    if (!phone_.take_in.empty())
      full += line(element("p", {{"class", "small"}}, "On the laptop: " + phone_.take_in));
    full += line(element("div", {{"class", "ticks"}},
                         element("button", {{"type", "button"}, {"id", "share"}, flag("hidden")}, "Send") +
                             element("button", {{"type", "button"}, {"id", "copy"}}, "Copy")));
    live += line(element("div", {{"id", "full"}, flag("hidden")}, line(Html()) + full));
    live += line(element("p", {{"id", "status"}, {"role", "status"}}, ""));

    live += line(element("h3", "Stood down"));
    const auto time_field = [](const std::string& id, const std::string& label) {
      return element(
          "div", element("label", {{"for", id}}, label) + single("input", {{"type", "time"}, {"id", id}}));
    };
    Html causes;
    for (const char* cause : {"rain", "frost", "wind", "heat", "dark", "no material"})
      causes += element("option", cause);
    live += line(element("div", {{"class", "part"}},
                         line(Html()) + line(time_field("stood-from", "From")) +
                             line(time_field("stood-to", "Until")) +
                             line(element("div", element("label", {{"for", "stood-cause"}}, "Because of") +
                                                     element("select", {{"id", "stood-cause"}}, causes))) +
                             line(element("button",
                                          {{"type", "button"},
                                           {"id", "put-stood"},
                                           {"data-before", stood.before},
                                           {"data-to", stood.to},
                                           {"data-cause", stood.cause}},
                                          "Add"))));
    live += line(element("h3", "A note"));
    live += line(element("div", {{"class", "part"}},
                         element("div", {{"class", "wide"}},
                                 element("label", {{"for", "note"}}, "What you want to remember") +
                                     single("input", {{"type", "text"}, {"id", "note"}})) +
                             element("button",
                                     {{"type", "button"},
                                      {"id", "put-note"},
                                      {"data-before", note.before},
                                      {"data-between", note.between}},
                                     "Add")));
    return out + line(element("div", {{"class", "scripted"}, flag("hidden")}, line(Html()) + live));
  }

  const TripFacts& facts_;
  const PhoneFacts& phone_;
  const base::Zone& zone_;
  std::vector<TripDay> days_;
  const TripDay& day_;
  std::size_t at_;
  MorningLines lines_;
  std::vector<std::pair<std::string, std::string>> titles_;
};

}  // namespace

std::string phone_sheet(const TripFacts& facts, const MorningFacts& morning, const PhoneFacts& phone) {
  return Sheet(facts, morning, phone).write();
}

}  // namespace weatherstruck::render
