#include "weatherstruck/render/now_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/light_table.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/strip_words.h"
#include "weatherstruck/render/turn_words.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::render {
namespace {

using std::chrono::hours;

constexpr std::size_t label_width = 13;
constexpr std::size_t most_next = 3;
constexpr std::size_t most_turns = 3;

struct Item {
  std::string label;
  std::string words;
  bool needed = true;  ///< false: goes where the sheet would be too long, last first
};

class Now {
 public:
  explicit Now(const TripFacts& facts) : facts_(facts), zone_(facts.job.site.zone), days_(trip_days(facts)) {
    for (const TripDay& day : days_) {
      if (day.span.from <= facts.now && facts.now < day.span.to) day_ = &day;
    }
  }

  std::string str(Ink ink) {
    if (day_ == nullptr) {
      Page page(ink);
      page.title("Now, " + base::day_and_time(zone_.to_local(facts_.now)));
      page.text(facts_.now < facts_.job.trip.leave_home ? "The trip has not begun." : "The trip is over.");
      return page.str();
    }
    under_way();
    next();
    light();
    dry();
    turns();
    covers();
    strips();
    in_hand();
    std::string text = laid_out(ink);
    while (static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) > now_lines) {
      const auto spare =
          std::find_if(items_.rbegin(), items_.rend(), [](const Item& item) { return !item.needed; });
      if (spare == items_.rend()) break;
      items_.erase(std::next(spare).base());
      text = laid_out(ink);
    }
    return text;
  }

 private:
  [[nodiscard]] std::string clock(base::Instant t) const { return quarter(zone_.to_local(t)); }

  [[nodiscard]] std::string laid_out(Ink ink) const {
    Page page(ink);
    page.title("Now, " + base::day_and_time(zone_.to_local(facts_.now)),
               fmt::format("day {} of {}", day_->number, days_.size()));
    page.text(warning(facts_));
    std::string last;
    for (const Item& item : items_) {
      page.item(item.label == last ? "" : item.label, item.words, label_width);
      last = item.label;
    }
    return page.str();
  }

  // By the book where somebody is logged at it, else by the plan.
  [[nodiscard]] bool is_under_way(const DayTask& task) const {
    if (facts_.progress != nullptr) {
      const works::TaskProgress* done = facts_.progress->find(facts_.list.tasks[task.task].name);
      const bool open = done != nullptr && !done->runs.empty() && done->runs.back().open;
      if (open) return true;
      if (done != nullptr && done->finished) return false;
    }
    return std::any_of(task.runs.begin(), task.runs.end(), [&](const programme::PlannedRun& run) {
      return run.span.from <= facts_.now && facts_.now < run.span.to;
    });
  }

  void under_way() {
    bool any = false;
    for (const DayTask& task : day_->tasks) {
      if (!is_under_way(task)) continue;
      const base::Instant until = std::max(task.finish(), facts_.now);
      items_.push_back(
          {"Under way", fmt::format("{}  {}, to about {}", task.letter, titled(task), clock(until))});
      any = true;
    }
    if (!any) items_.push_back({"Under way", "nothing"});
  }
  [[nodiscard]] std::string titled(const DayTask& task) const {
    std::string words = without_sizes(facts_.list.tasks[task.task].title);
    if (const std::string part = portion(facts_, task); !part.empty()) words += ", " + part;
    return words;
  }

  void next() {
    std::size_t told = 0;
    for (const DayTask& task : day_->tasks) {
      const auto run = std::find_if(task.runs.begin(), task.runs.end(), [&](const programme::PlannedRun& r) {
        return r.span.from >= facts_.now;
      });
      if (run == task.runs.end() || is_under_way(task)) continue;
      if (told++ == most_next) break;
      items_.push_back(
          {"Next", fmt::format("{}  {} {}", task.letter, clock(run->span.from), titled(task)), told == 1});
    }
    if (told == 0) items_.push_back({"Next", "nothing more today"});
  }

  void light() {
    const LightDay light = light_day(facts_.job, day_->day);
    const auto dusk = light.light.dusk();
    const auto dawn = light.light.dawn();
    std::string words;
    if (dawn && facts_.now < *dawn) {
      words = "dark until " + clock(*dawn) + (dusk ? ", then light to " + clock(*dusk) : std::string());
    } else if (dusk && facts_.now < *dusk) {
      words = fmt::format("{} left, to {}", duration(*dusk - facts_.now), clock(*dusk));
    } else if (dusk) {
      words = "dark since " + clock(*dusk);
    }
    if (!words.empty()) items_.push_back({"Light", words});
  }

  // From the hour that is now: how long it stays as it is.
  void dry() {
    const sky::Hour* hour = facts_.series.at(facts_.now);
    if (hour == nullptr || !hour->rain) {
      items_.push_back({"Dry", "not known: no forecast for this hour"});
      return;
    }
    const bool wet = hour->rain->value.value() > 0;
    base::Instant t = hour->start;
    while (t < day_->span.to) {
      const sky::Hour* at = facts_.series.at(t);
      if (at == nullptr || !at->rain || (at->rain->value.value() > 0) != wet) break;
      t += hours(1);
    }
    const bool to_the_end = t >= day_->span.to;
    const std::string until = base::clock_time(zone_.to_local(t));
    if (wet) {
      items_.push_back({"Dry", to_the_end ? std::string("not again today by the forecast")
                                          : "from about " + until + " by the forecast"});
    } else {
      items_.push_back({"Dry", to_the_end ? std::string("to the end of the day by the forecast")
                                          : fmt::format("until about {} by the forecast, {}", until,
                                                        duration(t - facts_.now))});
    }
  }

  void turns() {
    bool first = true;
    for (const std::string& line : turn_lines(facts_, *day_, facts_.now, most_turns)) {
      items_.push_back({"If", line, first});
      first = false;
    }
  }

  void covers() {
    for (const programme::PlannedCover& cover : facts_.plan.covers) {
      if (cover.span.from < facts_.now || cover.span.from >= day_->span.to) continue;
      if (cover.kind == trade::CoverKind::bare || cover.kind == trade::CoverKind::canopy) continue;
      items_.push_back({"Cover",
                        fmt::format("{} {} on {}", clock(cover.span.from), trade::row_for(cover.kind).title,
                                    piece_under(facts_.list, cover).words()),
                        false});
    }
  }

  // The night that comes, for strips that are poured.
  void strips() {
    const works::DaySpan& working = facts_.job.trip.working_day;
    const base::Instant evening = zone_.to_instant_earliest(base::LocalTime(day_->day) + working.to);
    const base::Instant morning =
        zone_.to_instant_earliest(base::LocalTime(day_->day + std::chrono::days(1)) + working.from);
    bool first = true;
    for (const std::string& line : strip_lines(facts_, {std::max(evening, facts_.now), morning})) {
      items_.push_back({"Frost", line, first});
      first = false;
    }
  }

  void in_hand() {
    const base::Zone& home = facts_.job.trip.home_zone;
    if (!facts_.plan.home) {
      items_.push_back({"In hand", "nothing: no way found to be home in time"});
      return;
    }
    const bool late = facts_.plan.in_hand.count() < 0;
    items_.push_back(
        {"In hand",
         fmt::format("{}{}: home about {}", duration(late ? -facts_.plan.in_hand : facts_.plan.in_hand),
                     late ? " late" : "",
                     quarter_from(home.day_of(facts_.now), home.to_local(*facts_.plan.home)))});
  }

  const TripFacts& facts_;
  const base::Zone& zone_;
  std::vector<TripDay> days_;
  const TripDay* day_ = nullptr;
  std::vector<Item> items_;
};

}  // namespace

std::string now_sheet(const TripFacts& facts, Ink ink) {
  return Now(facts).str(ink);
}

}  // namespace weatherstruck::render
