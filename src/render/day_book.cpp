#include "weatherstruck/render/day_book.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <set>
#include <tuple>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::render {
namespace {

using base::Instant;
using std::chrono::seconds;

constexpr std::size_t most_hours_beside = 48;

/// A stretch of the clock, without what overlaps counted twice.
seconds covered(std::vector<programme::Span> spans) {
  std::sort(spans.begin(), spans.end(), [](const auto& a, const auto& b) { return a.from < b.from; });
  seconds sum{0};
  Instant until = Instant::min();
  for (const programme::Span& span : spans) {
    const Instant from = std::max(span.from, until);
    if (span.to > from) sum += span.to - from;
    until = std::max(until, span.to);
  }
  return sum;
}

class Builder {
 public:
  Builder(const DayBookFacts& facts, const DayBookView& view) : facts_(facts), view_(view) {}

  DayBook tell(std::optional<base::LocalDay> only) {
    DayBook book;
    book.title = only ? "Day sheet" : "Record of the trip";
    book.job =
        facts_.job.title + (facts_.job.customer.name.empty() ? "" : ", for " + facts_.job.customer.name);
    for (const base::LocalDay day : days()) {
      if (!only || *only == day) book.days.push_back(sheet(day));
    }
    if (!facts_.weather.empty()) {
      book.known =
          "Weather of each hour: what was measured on site, else the last forecast kept for it" +
          (facts_.weather.attribution.empty() ? std::string(".") : ". " + facts_.weather.attribution);
    }
    return book;
  }

 private:
  [[nodiscard]] base::LocalDay day_of(Instant at) const { return facts_.job.site.zone.day_of(at); }
  [[nodiscard]] std::string clock(Instant at) const {
    return base::iso_local(facts_.job.site.zone.to_local(at)).substr(11, 5);
  }

  [[nodiscard]] std::set<base::LocalDay> days() const {
    std::set<base::LocalDay> out;
    for (const works::Entry& entry : facts_.entries)
      out.insert(day_of(entry.at));
    return out;
  }

  DaySheet sheet(base::LocalDay day) {
    DaySheet out{day, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
    const base::Zone& zone = facts_.job.site.zone;
    const programme::Span hours{
        zone.to_instant_earliest(base::LocalTime(day) + facts_.job.trip.working_day.from),
        zone.to_instant_earliest(base::LocalTime(day) + facts_.job.trip.working_day.to)};
    const bool known = !facts_.weather.empty() && facts_.weather.begin_time() < hours.to &&
                       hours.from < facts_.weather.end_time();
    if (known) out.weather = weather_line(facts_.weather, hours, zone, units_of(facts_.job.limits.set));
    work(day, out);
    for (const works::Entry* entry : in_order(day))
      std::visit([&](const auto& what) { say(what, entry->at, out); }, entry->what);
    if (view_.photographs) photographs(day, out);
    if (view_.hours) out.people = people(day, out);
    if (view_.plan) against_plan(day, out);
    return out;
  }

  /// Of one moment by what they say: when they were written has nothing to do with it.
  [[nodiscard]] std::vector<const works::Entry*> in_order(base::LocalDay day) const {
    std::vector<std::pair<std::string, const works::Entry*>> said;
    for (const works::Entry& entry : facts_.entries) {
      if (day_of(entry.at) != day) continue;
      const auto words = works::exact_line(entry.what, entry.at, facts_.job.site.zone);
      said.emplace_back(base::iso_utc(entry.at) + words.value_or(""), &entry);
    }
    std::stable_sort(said.begin(), said.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<const works::Entry*> out;
    out.reserve(said.size());
    for (const auto& [words, entry] : said)
      out.push_back(entry);
    return out;
  }

  void work(base::LocalDay day, DaySheet& out) const {
    for (const works::TaskProgress& state : facts_.progress.tasks) {
      const works::Task* task = facts_.list.find(state.task);
      if (task == nullptr) continue;
      const std::string title = works::short_title(*task);
      std::vector<const works::Entry*> told;
      for (const works::Run& run : state.runs) {
        if (day_of(run.from) != day) continue;
        WorkDone done{run.from, run.to, title, {}, {}};
        if (view_.hours) done.hours = run.worked;
        done.amount = amounts(*task, run, told);
        out.work.push_back(std::move(done));
      }
      for (const works::Entry& entry : facts_.entries) {
        const auto* done = std::get_if<works::Done>(&entry.what);
        if (done == nullptr || done->task != state.task || day_of(entry.at) != day ||
            std::find(told.begin(), told.end(), &entry) != told.end())
          continue;
        out.work.push_back({entry.at, entry.at, title, amount(*task, *done), {}});
      }
    }
    std::stable_sort(out.work.begin(), out.work.end(),
                     [](const WorkDone& a, const WorkDone& b) { return a.from < b.from; });
  }

  static std::string amount(const works::Task& task, const works::Done& done) {
    if (std::holds_alternative<works::Whole>(done.amount)) return "all of it";
    return works::said(done.amount, task.unit);
  }
  /// What the entries say that ended this run.
  std::string amounts(const works::Task& task, const works::Run& run,
                      std::vector<const works::Entry*>& told) const {
    std::vector<std::string> words;
    for (const works::Entry& entry : facts_.entries) {
      const auto* done = std::get_if<works::Done>(&entry.what);
      if (done == nullptr || done->task != task.name || entry.at != run.to) continue;
      told.push_back(&entry);
      words.push_back(amount(task, *done));
    }
    return base::join_and(words);
  }

  void say(const works::StoodDown& what, Instant /*at*/, DaySheet& out) const {
    Stopped stopped{what.from, what.to, what.cause, {}};
    for (Instant hour = std::chrono::floor<std::chrono::hours>(what.from);
         hour < what.to && stopped.hours.size() < most_hours_beside; hour += std::chrono::hours(1)) {
      if (std::string words = beside(hour); !words.empty()) stopped.hours.push_back({hour, std::move(words)});
    }
    out.stopped.push_back(std::move(stopped));
  }
  [[nodiscard]] std::string beside(Instant at) const {
    const sky::Hour* hour = facts_.weather.empty() ? nullptr : facts_.weather.at(at);
    if (hour == nullptr) return {};
    const Units units = units_of(facts_.job.limits.set);
    std::vector<std::string> words;
    if (hour->rain && hour->rain->value.value() > 0)
      words.push_back("rain " + rain(hour->rain->value, units));
    if (hour->rain && hour->rain->value.value() <= 0) words.emplace_back("no rain");
    if (hour->temperature) {
      const bool frost = hour->temperature->value.value() < 0;
      words.push_back((frost ? "frost, " : "") + temperature(hour->temperature->value, units));
    }
    if (hour->gust) words.push_back("gusts " + wind(hour->gust->value));
    return fmt::format("{}", fmt::join(words, ", "));
  }

  static std::string material(const std::string& key, double amount) {
    const trade::Material* row = trade::find_material(key);
    const std::string unit =
        row == nullptr || row->unit == "each" || row->title.find(row->unit) != std::string::npos
            ? std::string()
            : std::string(row->unit) + " of ";
    return base::plain_number(amount, 2) + " " + unit + (row == nullptr ? key : std::string(row->title));
  }
  void say(const works::Arrived& what, Instant at, DaySheet& out) const {
    out.came.push_back(clock(at) + " came: " + material(what.material, what.amount));
  }
  void say(const works::StockCount& what, Instant at, DaySheet& out) const {
    out.came.push_back(clock(at) + " counted: " + material(what.material, what.amount));
  }
  void say(const works::CoverOn& what, Instant at, DaySheet& out) const {
    out.covers.push_back(
        fmt::format("{} {} on the {}", clock(at), trade::row_for(what.kind).title, works::spoken(what.part)));
  }
  void say(const works::CoverOff& what, Instant at, DaySheet& out) const {
    const std::string cover = what.kind ? std::string(trade::row_for(*what.kind).title) : "covers";
    out.covers.push_back(fmt::format("{} {} off the {}", clock(at), cover, works::spoken(what.part)));
  }
  void say(const works::CanopyUp& what, Instant at, DaySheet& out) const {
    out.covers.push_back(fmt::format("{} canopy over the {}", clock(at), works::spoken(what.part)));
  }
  void say(const works::CanopyDown& /*what*/, Instant at, DaySheet& out) const {
    out.covers.push_back(clock(at) + " canopy down");
  }
  void say(const works::Thermometer& what, Instant at, DaySheet& out) const {
    out.read.push_back(
        fmt::format("{} {} in the air", clock(at), temperature(what.air, units_of(facts_.job.limits.set))));
  }
  void say(const works::Gauge& what, Instant at, DaySheet& out) const {
    const std::string since = day_of(what.since) == day_of(at)
                                  ? clock(what.since)
                                  : base::day_and_time(facts_.job.site.zone.to_local(what.since));
    out.read.push_back(fmt::format("{} {} in the gauge since {}", clock(at),
                                   rain(what.rain, units_of(facts_.job.limits.set)), since));
  }
  void say(const works::LevelRead& what, Instant at, DaySheet& out) const {
    out.read.push_back(fmt::format("{} level of the {}, {} m along: {} m", clock(at),
                                   works::spoken(what.part), base::plain_number(what.along.value(), 2),
                                   base::plain_number(what.level.value(), 3)));
  }
  void say(const works::Extra& what, Instant /*at*/, DaySheet& out) const {
    std::string words = capital(what.what);
    words += what.agreed_by.empty() ? ", agreed with nobody named" : ", agreed with " + what.agreed_by;
    if (view_.costs) words += what.price ? ", " + what.price->text() : ", by the hour";
    out.agreed.push_back(std::move(words));
  }
  void say(const works::Expense& what, Instant /*at*/, DaySheet& out) const {
    if (!view_.costs) return;
    out.spent.push_back(fmt::format("{}, {}, {}", capital(what.what), what.money.text(),
                                    what.receipt ? "receipt " + *what.receipt : "no receipt"));
  }
  void say(const works::Note& what, Instant at, DaySheet& out) const {
    if (view_.notes) out.notes.push_back(clock(at) + " " + what.text);
  }
  void say(const works::Begin& /*what*/, Instant /*at*/, DaySheet& /*out*/) const {}
  void say(const works::Done& /*what*/, Instant /*at*/, DaySheet& /*out*/) const {}
  void say(const works::Struck& /*what*/, Instant /*at*/, DaySheet& /*out*/) const {}

  void photographs(base::LocalDay day, DaySheet& out) const {
    std::vector<const DayPhotograph*> shown;
    for (const DayPhotograph& photograph : facts_.photographs) {
      if (day_of(photograph.at) == day && (view_.costs || !photograph.costs)) shown.push_back(&photograph);
    }
    std::stable_sort(shown.begin(), shown.end(), [](const DayPhotograph* a, const DayPhotograph* b) {
      return std::tie(a->at, a->of, a->mark) < std::tie(b->at, b->of, b->mark);
    });
    for (const DayPhotograph* one : shown)
      out.photographs.push_back(fmt::format("{} {}: {} ({}){}", clock(one->at), one->of, one->mark, one->sort,
                                            one->trouble.empty() ? "" : "; " + one->trouble));
  }

  [[nodiscard]] std::string people(base::LocalDay day, const DaySheet& out) const {
    std::vector<programme::Span> at_work;
    base::Hours worked(0);
    for (const works::TaskProgress& state : facts_.progress.tasks) {
      for (const works::Run& run : state.runs) {
        if (day_of(run.from) != day) continue;
        at_work.push_back({run.from, run.to});
        worked += run.worked;
      }
    }
    if (at_work.empty()) return {};
    std::vector<std::string> names;
    for (const works::Person& person : facts_.job.crew)
      names.push_back(person.name);
    Instant first = at_work.front().from;
    Instant last = at_work.front().to;
    for (const programme::Span& span : at_work) {
      first = std::min(first, span.from);
      last = std::max(last, span.to);
    }
    std::vector<programme::Span> told = at_work;
    for (const Stopped& stopped : out.stopped)
      told.push_back({std::max(first, stopped.from), std::min(last, stopped.to)});
    const auto minutes = [](base::Hours hours) {
      return duration_minutes(seconds(std::llround(hours.value() * 60) * 60));
    };
    std::string words = fmt::format("{}: {} at work between {} and {}", base::join_and(names),
                                    minutes(worked), clock(first), clock(last));
    if (names.size() > 1) words += ", hours of all together";
    const seconds silent = (last - first) - covered(told);
    if (silent >= std::chrono::minutes(1))
      words += fmt::format("; {} of breaks and what the book does not tell", duration_minutes(silent));
    return words;
  }

  void against_plan(base::LocalDay day, DaySheet& out) const {
    const auto plan = std::find_if(facts_.plans.begin(), facts_.plans.end(),
                                   [&](const PlanOfDay& one) { return one.day == day; });
    if (plan == facts_.plans.end()) return;
    const Instant end = facts_.job.site.zone.end_of(day);
    const auto title = [&](const works::Name& name) {
      const works::Task* task = facts_.list.find(name);
      return task == nullptr ? name : works::short_title(*task);
    };
    std::vector<std::string> missed;
    std::set<works::Name> planned;
    long kept = 0;
    for (const programme::PlannedTask& task : plan->plan.tasks) {
      const works::Task* known = facts_.list.find(task.task);
      // Nobody logs that he drove: he was there.
      if (!task.placed() || known == nullptr || known->operation == trade::Operation::drive) continue;
      const bool today =
          std::any_of(task.runs.begin(), task.runs.end(),
                      [&](const programme::PlannedRun& run) { return day_of(run.span.from) == day; });
      if (!today) continue;
      planned.insert(task.task);
      if (day_of(task.finish()) != day) continue;
      const works::TaskProgress* state = facts_.progress.find(task.task);
      const bool done = state != nullptr && state->finished && *state->finished <= end;
      kept += done ? 1 : 0;
      if (!done) missed.push_back(title(task.task));
    }
    std::vector<std::string> besides;
    for (const works::TaskProgress& state : facts_.progress.tasks) {
      const bool finished_today = state.finished && !state.taken && day_of(*state.finished) == day;
      if (finished_today && planned.count(state.task) == 0) besides.push_back(title(state.task));
    }
    if (kept > 0)
      out.against_plan.push_back(count_of(kept, "task") + " finished as the morning's plan had it");
    const auto tell = [&](const std::string& what, const std::vector<std::string>& titles) {
      std::string words;
      for (const std::string& one : titles)
        words += (words.empty() ? "" : "; ") + one;
      if (!words.empty()) out.against_plan.push_back(what + words);
    };
    tell("Not finished, as it was planned: ", missed);
    tell("Finished, planned for another day or not at all: ", besides);
  }

  const DayBookFacts& facts_;
  DayBookView view_;
};

}  // namespace

DayBook day_book_of(const DayBookFacts& facts, const DayBookView& view, std::optional<base::LocalDay> only) {
  return Builder(facts, view).tell(only);
}

}  // namespace weatherstruck::render
