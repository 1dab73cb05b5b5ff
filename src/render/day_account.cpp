#include "weatherstruck/render/day_account.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/programme/buy_by.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/quantities_sheet.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/turn_words.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::render {
namespace {

using programme::Finding;
using programme::Move;
using std::chrono::days;

constexpr std::size_t most_in_full = 2;

base::Instant clock_on(const TripFacts& facts, base::LocalDay day, std::chrono::minutes clock) {
  return facts.job.site.zone.to_instant_earliest(base::LocalTime(day) + clock);
}

std::string sentence(std::string words) {
  if (!words.empty() && words.back() != '.') words += '.';
  return capital(std::move(words));
}

bool counts_on_the_sheet(const std::string& material) {
  const trade::Material* row = trade::find_material(material);
  return row != nullptr && (row->unit == "bricks" || material == "cement");
}

// In what it is spoken of: bags of cement, bricks.
std::string spoken_amount(const std::string& material, double value, bool up) {
  const double in = material == "cement" ? value / trade::cement_bag.value() : value;
  const double shown = std::max(0.0, up ? std::ceil(in - 1e-6) : std::floor(in + 1e-6));
  return whole(shown);
}
std::string unit_of(const std::string& material) {
  return material == "cement" ? std::string("bags of cement") : std::string(trade::material(material).title);
}

// The last hour to leave for the merchant so that it is there in time, to the quarter before, and his hours.
std::string buy_by(const TripFacts& facts, const TripDay& today, base::Instant wanted) {
  if (!facts.job.supplies.merchant) return "no merchant named";
  const auto trip = programme::last_trip_to_merchant(facts.job, facts.now, wanted);
  if (!trip) return "no merchant serves before that";
  const base::LocalTime leaves = facts.job.site.zone.to_local(trip->from);
  const auto day = std::chrono::floor<days>(leaves);
  const auto minute = std::chrono::floor<std::chrono::minutes>(leaves - day);
  const std::chrono::minutes quarter = minute - minute % std::chrono::minutes(15);
  return fmt::format("leave for the merchant by {}{}", day == today.day ? "" : render::weekday(day) + ' ',
                     base::clock_time(base::LocalTime(day) + quarter));
}

std::string when_of(const TripFacts& facts, const TripDay& day, const std::optional<base::Instant>& t) {
  return t ? quarter_from(day.day, facts.job.site.zone.to_local(*t)) : std::string();
}

}  // namespace

std::vector<std::string> night_lines(const TripFacts& facts, const TripDay& day) {
  std::vector<std::string> out;
  const auto& hours = facts.job.trip.working_day;
  const programme::Span night{clock_on(facts, day.day - days(1), hours.to),
                              clock_on(facts, day.day, hours.from)};
  const Units units = units_of(facts.job.limits.set);
  std::string weather;
  const WeatherSum sum = sum_up(facts.series, night);
  if (sum.low && sum.rain && night.from >= facts.job.trip.leave_home) {
    weather = "down to " + temperature(*sum.low, units) +
              (sum.rain->value() > 0 ? ", rain " + rain(*sum.rain, units) : std::string(", dry")) +
              (sum.gust ? ", gusts " + wind(*sum.gust) : std::string());
  }
  std::vector<std::string> also;
  bool any = false;
  for (const programme::Verdict& verdict : facts.verdicts) {
    any = true;
    if (verdict.finding == Finding::sound && verdict.harms.empty()) continue;
    if (out.size() >= most_in_full) {
      also.push_back(verdict.title);
      continue;
    }
    std::string words = fmt::format("{} {}",
                                    verdict.finding == Finding::make_good ? "make good"
                                    : verdict.finding == Finding::inspect ? "look at"
                                                                          : "see to the cover over",
                                    verdict.title);
    if (!verdict.harms.empty()) words += ": " + verdict.harms.front().text;
    words = sentence(std::move(words));
    if (!verdict.look.empty()) words += ' ' + sentence(verdict.look);
    if (verdict.finding == Finding::make_good && !verdict.make_good.empty())
      words += ' ' + sentence(verdict.make_good);
    out.push_back(std::move(words));
  }
  if (!also.empty()) out.push_back("Look at " + base::join_and(also) + " too.");
  if (any && out.empty()) weather += weather.empty() ? "nothing to look at" : "; nothing to look at";
  if (!weather.empty()) out.insert(out.begin(), weather);
  return out;
}

std::vector<std::string> change_lines(const TripFacts& facts, const TripDay& day, std::size_t most) {
  std::vector<std::string> out;
  for (const Move& move : facts.moves) {
    if (move.kind == Move::Kind::home || out.size() >= most) continue;
    std::string words = inside(move.title);
    if (move.with.size() == 1) {
      const works::Task* other = facts.list.find(move.with.front());
      if (other != nullptr) words += " and " + inside(other->title);
    } else if (move.with.size() > 1) {
      words += fmt::format(" and {} more", move.with.size());
    }
    switch (move.kind) {
      case Move::Kind::left_out:
        words += " left out";
        break;
      case Move::Kind::taken_in:
        words += " taken in" + (move.to ? ", " + when_of(facts, day, move.to) : std::string());
        break;
      case Move::Kind::other_way:
        words += ": " + move.way;
        break;
      case Move::Kind::home:
      case Move::Kind::later:
      case Move::Kind::earlier:
        words +=
            fmt::format(" {} instead of {}", when_of(facts, day, move.to), when_of(facts, day, move.from));
        break;
    }
    out.push_back(capital(words) + (move.text.empty() ? "" : ": " + move.text));
  }
  return out;
}

std::vector<std::string> stock_lines(const TripFacts& facts, const TripDay& day) {
  if (facts.progress == nullptr) return {};
  std::vector<std::string> counted;
  std::vector<std::string> out;
  for (const works::Stock& stock : facts.progress->stock) {
    if (!stock.left || stock.needed <= 0) continue;
    const double missing = stock.needed - *stock.left;
    if (missing <= 1e-9) {
      if (counts_on_the_sheet(stock.material)) {
        counted.push_back(
            fmt::format("{} {} left, {} needed", spoken_amount(stock.material, *stock.left, false),
                        unit_of(stock.material), spoken_amount(stock.material, stock.needed, true)));
      }
      continue;
    }
    const trade::Material* row = trade::find_material(stock.material);
    if (row == nullptr) continue;
    std::string words = counts_on_the_sheet(stock.material)
                            ? fmt::format("short of {} {}", spoken_amount(stock.material, missing, true),
                                          unit_of(stock.material))
                            : fmt::format("short of {} of {}", amount(missing, row->unit), row->title);
    if (const auto out_at =
            programme::runs_out(facts.list, facts.plan, stock.material, stock.left.value_or(0), facts.now)) {
      words += fmt::format(", wanted {}; {}", when_of(facts, day, out_at), buy_by(facts, day, *out_at));
    }
    out.push_back(capital(words));
    if (row->unit != "bricks") continue;
    const works::CurePlan cure = works::cure(facts.job, stock.material, std::ceil(missing - 1e-6),
                                             works::laid_so_far(facts.list, *facts.progress));
    if (!cure.cures.empty()) out.push_back("Or: " + cure_lines(cure).front());
  }
  if (!counted.empty()) {
    std::string all;
    for (const std::string& words : counted)
      all += (all.empty() ? "" : "; ") + words;
    out.push_back(all);
  }
  return out;
}

std::string latest_line(const TripFacts& facts, const TripDay& day) {
  if (facts.plan.in_hand.count() <= 0) return {};
  const DayTask* last = nullptr;
  for (const DayTask& task : day.tasks) {
    const works::Task& work = facts.list.tasks[task.task];
    if (work.fresh && work.importance == works::Importance::must && task.start() >= facts.now) last = &task;
  }
  if (last == nullptr) return {};
  const auto length = last->finish() - last->start();
  const base::Instant stops = clock_on(facts, day.day, facts.job.trip.working_day.to);
  const base::Instant latest = std::min(last->start() + facts.plan.in_hand, stops - length);
  if (latest <= last->start()) return fmt::format("{} begun on time", last->letter);
  const base::LocalTime local = facts.job.site.zone.to_local(latest);
  constexpr std::chrono::minutes half(30);
  const base::LocalTime shown(
      std::chrono::floor<std::chrono::duration<long, std::ratio<1800>>>(local.time_since_epoch()));
  if (facts.job.site.zone.to_local(last->start()) + half > shown)
    return fmt::format("{} begun on time", last->letter);
  return fmt::format("{} begun by about {}", last->letter, base::clock_time(shown));
}

}  // namespace weatherstruck::render
