#include "weatherstruck/render/morning_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/light_table.h"
#include "weatherstruck/render/quantities_sheet.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::render {
namespace {

namespace limit = trade::limit;
using trade::Operation;

constexpr std::size_t label_width = 13;
// Beside a letter and the hours, with two spaces after each.
constexpr std::size_t words_room = page_width - 16;

bool lays_bricks(Operation operation) {
  return operation == Operation::lay_below || operation == Operation::lay_facing ||
         operation == Operation::lay_common;
}

// Mortar from the sand it takes; plates, copings and joints count too, concrete and sub-base do not.
base::CubicMetres mortar_in(const TripFacts& facts, const works::Task& task, double share) {
  if (task.operation == Operation::pour) return base::CubicMetres(0);
  const auto& practice = facts.job.practice;
  const auto& row =
      trade::row_for(task.operation == Operation::lay_below ? practice.mortar_below : practice.mortar);
  double sand = 0;
  for (const works::MaterialDraw& draw : task.materials) {
    if (draw.material == "building-sand" || draw.material == "sharp-sand") sand += draw.amount;
  }
  return base::CubicMetres(sand * share / row.sand_per_m3.value());
}

bool is_brick(const trade::Material& material) {
  return material.unit == "bricks";
}

std::string mixes_of(base::CubicMetres wet, base::CubicMetres mixer) {
  if (mixer.value() <= 0) return fmt::format("{:.2f} m3", wet.value());
  return count_of(std::lround(std::ceil(wet / mixer - 0.05)), "mix");
}

// One thing to do at a time of the day, for the lists of covers and canopy.
struct Deed {
  base::Instant at;
  std::string what;  ///< "hessian on"
  std::string on;    ///< "the north wall"
};

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : ", ") + word;
  return text;
}

// Deeds of one kind become one line, in the order of their first.
void deeds(Page& page, std::string_view label, std::vector<Deed> list, const base::Zone& zone) {
  std::stable_sort(list.begin(), list.end(), [](const Deed& a, const Deed& b) { return a.at < b.at; });
  std::vector<std::string> kinds;
  for (const Deed& deed : list) {
    if (std::find(kinds.begin(), kinds.end(), deed.what) == kinds.end()) kinds.push_back(deed.what);
  }
  bool first = true;
  for (const std::string& kind : kinds) {
    std::vector<std::string> at;
    std::string clock;
    for (const Deed& deed : list) {
      if (deed.what != kind) continue;
      const std::string when = quarter(zone.to_local(deed.at));
      at.push_back(when == clock ? deed.on : fmt::format("{} {}", when, deed.on));
      clock = when;
    }
    page.item(first ? label : "", fmt::format("{} {}", kind, joined(at)), label_width);
    first = false;
  }
}

class Sheet {
 public:
  Sheet(const TripFacts& facts, const MorningFacts& morning, Ink ink)
      : facts_(facts), morning_(morning), days_(trip_days(facts)), day_(days_.at(morning.day)), page_(ink) {}

  std::string str() {
    page_.title("Morning sheet, " + base::day_name(day_.day),
                fmt::format("day {} of {}", day_.number, days_.size()));
    page_.text(facts_.job.title);
    page_.text(warning(facts_));
    page_.gap();
    sky();
    page_.gap();
    tasks();
    page_.gap();
    alone();
    covers();
    canopy();
    if_it_turns();
    needs();
    page_.gap();
    tonight();
    course();
    cautions();
    return page_.str();
  }

 private:
  [[nodiscard]] base::LocalTime local(base::Instant t) const { return facts_.job.site.zone.to_local(t); }
  [[nodiscard]] bool today(base::Instant t) const { return day_.span.from <= t && t < day_.span.to; }

  void sky() {
    const works::Job& job = facts_.job;
    const base::Zone& zone = job.site.zone;
    const Units units = units_of(job.limits.set);
    const LightDay light = light_day(job, day_.day);
    using State = sky::LightBand::State;
    if (light.light.civil.state == State::rises_or_sets && light.light.dawn() && light.light.dusk()) {
      std::string words =
          fmt::format("{} to {}", quarter(local(*light.light.dawn())), quarter(local(*light.light.dusk())));
      if (light.light.sunrise() && light.light.sunset()) {
        words += fmt::format(", sun {} to {}", quarter(local(*light.light.sunrise())),
                             quarter(local(*light.light.sunset())));
      }
      page_.item("Light", words, label_width);
    } else {
      page_.item("Light", light.light.civil.state == State::always ? "all day and night" : "none all day",
                 label_width);
    }
    const programme::Span working{
        zone.to_instant_earliest(base::LocalTime(day_.day) + job.trip.working_day.from),
        zone.to_instant_earliest(base::LocalTime(day_.day) + job.trip.working_day.to)};
    page_.item("Weather", weather_line(facts_.series, working, zone, units), label_width);
    const base::LocalDay next = day_.day + std::chrono::days(1);
    const programme::Span night{working.to,
                                zone.to_instant_earliest(base::LocalTime(next) + job.trip.working_day.from)};
    const WeatherSum sum = sum_up(facts_.series, night);
    if (day_.number < static_cast<int>(days_.size()) && sum.low) {
      std::string words = fmt::format("down to {}", temperature(*sum.low, units));
      if (sum.low->value() <= 0) words += ", frost";
      if (sum.rain && sum.rain->value() > 0) words += ", rain " + rain(*sum.rain, units);
      if (sum.gust) words += ", gusts " + wind(*sum.gust);
      page_.item("Tonight", words, label_width);
    }
  }

  void tasks() {
    if (day_.tasks.empty()) {
      page_.item("To do", "nothing planned today", label_width);
      return;
    }
    Table table({{"", Table::Kind::left}, {"", Table::Kind::left}, {"", Table::Kind::wrapped}});
    for (const DayTask& task : day_.tasks)
      table.add(
          {std::string(1, task.letter), hours_of(facts_, task).front(), words_in(facts_, task, words_room)});
    page_.table(table, 0);
  }

  void alone() {
    bool first = true;
    for (const std::string& words : left_alone(facts_, day_, false)) {
      page_.item(first ? "Leave" : "", words, label_width);
      first = false;
    }
  }

  void covers() {
    std::vector<Deed> list;
    for (const auto& cover : facts_.plan.covers) {
      if (cover.kind == trade::CoverKind::bare || cover.kind == trade::CoverKind::canopy) continue;
      const std::string title(trade::row_for(cover.kind).title);
      if (today(cover.span.from)) {
        list.push_back({cover.span.from, title + " on:", spoken(cover.title)});
      }
      if (today(cover.span.to) && !cover.stays_on)
        list.push_back({cover.span.to, title + " off:", spoken(cover.title)});
    }
    deeds(page_, "Cover", std::move(list), facts_.job.site.zone);
  }

  void canopy() {
    bool first = true;
    for (const auto& sitting : facts_.plan.canopy) {
      if (!today(sitting.pitch_from) && !today(sitting.struck_by)) continue;
      page_.item(
          first ? "Canopy" : "",
          fmt::format("{} up over the {}, down by {}", quarter_from(day_.day, local(sitting.pitch_from)),
                      spoken(sitting.part), quarter_from(day_.day, local(sitting.struck_by))),
          label_width);
      first = false;
    }
  }

  // Which of today's tasks stand still at which rain, lightest first.
  void if_it_turns() {
    struct Stop {
      double rate;
      std::string letters;
    };
    std::vector<Stop> stops;
    std::string goes_on;
    const auto put = [](std::string& letters, char letter) {
      letters += letters.empty() ? "" : " ";
      letters += letter;
    };
    for (const DayTask& task : day_.tasks) {
      const works::Task& work = facts_.list.tasks[task.task];
      const auto& row = trade::row_for(work.operation);
      if (!work.outdoors) continue;
      if (row.rain_stop.empty()) {
        put(goes_on, task.letter);
        continue;
      }
      const double rate = facts_.limits.at(row.rain_stop);
      auto stop = std::find_if(stops.begin(), stops.end(), [&](const Stop& s) { return s.rate == rate; });
      if (stop == stops.end()) stop = stops.insert(stops.end(), Stop{rate, {}});
      put(stop->letters, task.letter);
    }
    std::sort(stops.begin(), stops.end(), [](const Stop& a, const Stop& b) { return a.rate < b.rate; });
    if (stops.empty()) return;
    std::string words;
    for (std::size_t i = 0; i < stops.size(); ++i) {
      const std::string all = goes_on.empty() ? "everything" : "all but " + goes_on;
      words += fmt::format("{}{} {}", hourly(stops[i].rate), i == 0 ? " in an hour stops" : "",
                           i + 1 == stops.size() ? all : stops[i].letters + ", ");
    }
    page_.item("If it rains", words + ". Cover what is fresh first.", label_width);
  }

  // As the table of limits has it; inches where the reader uses them.
  [[nodiscard]] std::string hourly(double millimetres) const {
    const Units units = units_of(facts_.job.limits.set);
    return units == Units::us ? rain(base::Millimetres(millimetres), units)
                              : base::plain_number(millimetres, 1) + " mm";
  }

  void needs() {
    const DayNeeds needs = needs_of(facts_, day_);
    std::vector<std::string> words;
    for (const DayNeeds::Line& line : needs.bricks) {
      words.push_back(
          fmt::format("{} {}", whole(std::ceil(line.amount)), trade::material(line.material).title));
    }
    if (needs.concrete.value() > 0)
      words.push_back(mixes_of(needs.concrete, facts_.job.kit.mixer) + " of concrete");
    if (needs.mortar.value() > 0)
      words.push_back(mixes_of(needs.mortar, facts_.job.kit.mixer) + " of mortar");
    for (const DayNeeds::Line& line : needs.other) {
      if (line.material != "cement") continue;
      const double bags = line.amount / trade::cement_bag.value();
      words.push_back(bags < 0.95 ? std::string("part of a bag of cement")
                                  : count_of(std::lround(std::ceil(bags - 0.05)), "bag") + " of cement");
    }
    if (!words.empty()) page_.item("Needs", joined(words), label_width);
  }

  void tonight() {
    std::string done;
    std::vector<std::string> parts;
    for (const DayTask& task : day_.tasks) {
      if (!task.goes_on) {
        done += (done.empty() ? "" : " ") + std::string(1, task.letter);
      } else if (const std::string part = portion(facts_, task); !part.empty()) {
        parts.push_back(fmt::format("{} {}", task.letter, part));
      }
    }
    std::string words;
    if (!done.empty()) words = done + " done";
    if (!parts.empty()) words += (words.empty() ? "" : "; ") + joined(parts);
    if (!words.empty()) page_.item("By tonight", words, label_width);
  }

  void course() {
    const programme::Plan& plan = facts_.plan;
    const base::Zone& home = facts_.job.trip.home_zone;
    const std::string promise = base::day_and_time(home.to_local(facts_.job.trip.home_by));
    if (plan.home) {
      const bool late = plan.in_hand.count() < 0;
      page_.item(
          "In hand",
          fmt::format("{}{}: home about {} {}, promised {}", duration(late ? -plan.in_hand : plan.in_hand),
                      late ? " late" : "", base::day_name(home.day_of(*plan.home)),
                      quarter(home.to_local(*plan.home)), promise),
          label_width);
    } else {
      page_.item("In hand", "nothing: no way found to be home by " + promise, label_width);
    }
    if (!plan.left_out.empty()) {
      page_.item("Left out",
                 fmt::format("{}, see the plan", count_of(static_cast<long>(plan.left_out.size()), "task")),
                 label_width);
    }
    bool first = true;
    for (const std::string& remark : facts_.remarks) {
      page_.item(first ? "Mind" : "", remark, label_width);
      first = false;
    }
  }

  void cautions() {
    bool first = true;
    for (const trade::CautionRow* row : morning_.cautions) {
      page_.item(first ? "Caution" : "", row->text, label_width);
      first = false;
    }
  }

  const TripFacts& facts_;
  const MorningFacts& morning_;
  std::vector<TripDay> days_;
  const TripDay& day_;
  Page page_;
};

}  // namespace

DayNeeds needs_of(const TripFacts& facts, const TripDay& day) {
  DayNeeds needs;
  const auto add = [](std::vector<DayNeeds::Line>& lines, const std::string& material, double amount) {
    const auto line =
        std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.material == material; });
    if (line == lines.end()) {
      lines.push_back({material, amount});
    } else {
      line->amount += amount;
    }
  };
  for (const DayTask& task : day.tasks) {
    const works::Task& work = facts.list.tasks[task.task];
    if (work.operation == Operation::wheel_in || work.operation == Operation::fetch) continue;
    for (const works::MaterialDraw& draw : work.materials) {
      const trade::Material* row = trade::find_material(draw.material);
      if (row == nullptr) continue;
      add(is_brick(*row) ? needs.bricks : needs.other, draw.material, draw.amount * task.share);
    }
    if (work.operation == Operation::pour) {
      needs.concrete +=
          base::CubicMetres(work.amount * task.share * (1.0 + facts.job.practice.concrete_waste));
    }
    needs.mortar += mortar_in(facts, work, task.share);
  }
  const auto place = [](const DayNeeds::Line& line) { return trade::find_material(line.material); };
  for (auto* lines : {&needs.bricks, &needs.other}) {
    // Rows of one table: their addresses are their order.
    std::stable_sort(lines->begin(), lines->end(),
                     [&](const auto& a, const auto& b) { return place(a) < place(b); });
  }
  return needs;
}

trade::DayFacts caution_facts(const TripFacts& facts, const TripDay& day, base::Metres deepest_trench) {
  trade::DayFacts out;
  std::optional<base::Instant> first_dig;
  const auto digs = [](Operation o) { return o == Operation::dig || o == Operation::strip_turf; };
  for (std::size_t i = 0; i < facts.plan.tasks.size(); ++i) {
    if (!facts.plan.tasks[i].placed() || !digs(facts.list.tasks[i].operation)) continue;
    first_dig = std::min(first_dig.value_or(facts.plan.tasks[i].start()), facts.plan.tasks[i].start());
  }
  bool mixes = false;
  bool lights = false;
  base::Hours busy{0};
  for (const DayTask& task : day.tasks) {
    const works::Task& work = facts.list.tasks[task.task];
    out.operations.push_back(work.operation);
    if (digs(work.operation) || work.operation == Operation::pour || lays_bricks(work.operation)) {
      out.deepest_trench = std::max(out.deepest_trench, deepest_trench);
    }
    out.cuts = out.cuts || trade::row_for(work.operation).noise == trade::Noise::cutter;
    mixes = mixes || trade::row_for(work.operation).noise == trade::Noise::mixer;
    for (const auto& run : task.runs) {
      lights = lights || run.floodlit;
      const base::Hours length(static_cast<double>((run.span.to - run.span.from).count()) / 3600.0);
      busy += length;
      if (work.operation == Operation::drive) out.drive += length;
    }
  }
  out.work_and_drive = busy;
  out.first_digging = first_dig && day.span.from <= *first_dig && *first_dig < day.span.to;
  for (const auto& sitting : facts.plan.canopy)
    out.canopy_up = out.canopy_up || (sitting.over.from < day.span.to && sitting.over.to > day.span.from);
  const WeatherSum sum = sum_up(facts.series, day.span);
  if (sum.gust) out.highest_gust = *sum.gust;
  if (sum.low) out.lowest_air = *sum.low;
  out.power_tools_wet = (mixes || lights) && sum.rain && sum.rain->value() > 0;
  out.alone = facts.job.crew.size() == 1;
  return out;
}

std::string morning_sheet(const TripFacts& facts, const MorningFacts& morning, Ink ink) {
  return Sheet(facts, morning, ink).str();
}

}  // namespace weatherstruck::render
