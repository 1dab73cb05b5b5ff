#include "weatherstruck/render/morning_lines.h"
#include "weatherstruck/render/drying_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/basis_words.h"
#include "weatherstruck/render/day_account.h"
#include "weatherstruck/render/light_table.h"
#include "weatherstruck/render/outlook_words.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/strip_words.h"
#include "weatherstruck/render/turn_words.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::render {
namespace {

using std::chrono::days;
using std::chrono::minutes;

// Beside a letter and the hours, with two spaces after each.
constexpr std::size_t words_room = page_width - 16;
// One screen has no room for more.
constexpr std::size_t most_turns = 3;
constexpr std::size_t most_changes = 3;
// A change of the hours in hand that is told: less is the noise of planning again.
constexpr minutes told_change{30};

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : ", ") + word;
  return text;
}

// One thing to do at a time of the day.
struct Deed {
  base::Instant at;
  std::string what;  ///< "hessian under sheet on"
  Piece on;
};

// Deeds of one kind on the pieces of one thing, each at its own time.
struct Round {
  std::vector<std::string> times;  ///< rising
  std::vector<std::vector<Piece>> pieces;
};

std::string round_words(const Round& round) {
  if (round.times.size() == 1) return round.times.front() + ' ' + together(round.pieces.front());
  std::vector<Piece> all;
  for (const std::vector<Piece>& pieces : round.pieces)
    all.insert(all.end(), pieces.begin(), pieces.end());
  const bool whole = static_cast<int>(all.size()) == all.front().of_kind && all.size() > 2;
  // Each as it comes: the tasks above it say when each is done.
  if (whole)
    return fmt::format("{} to {} {}, one by one", round.times.front(), round.times.back(), together(all));
  std::vector<std::string> words;
  for (std::size_t i = 0; i < round.times.size(); ++i)
    words.push_back(round.times[i] + ' ' + together(round.pieces[i]));
  return joined(words);
}

// A sentence for each kind of deed, in the order of their first.
std::vector<std::string> deed_lines(std::vector<Deed> list, const base::Zone& zone) {
  std::stable_sort(list.begin(), list.end(), [](const Deed& a, const Deed& b) { return a.at < b.at; });
  std::vector<std::string> kinds;
  for (const Deed& deed : list) {
    if (std::find(kinds.begin(), kinds.end(), deed.what) == kinds.end()) kinds.push_back(deed.what);
  }
  std::vector<std::string> out;
  for (const std::string& kind : kinds) {
    std::vector<Round> rounds;
    for (const Deed& deed : list) {
      if (deed.what != kind) continue;
      auto round = std::find_if(rounds.begin(), rounds.end(), [&](const Round& r) {
        const Piece& first = r.pieces.front().front();
        return first.thing == deed.on.thing && first.whole == deed.on.whole;
      });
      if (round == rounds.end()) round = rounds.insert(rounds.end(), Round{});
      const std::string when = quarter(zone.to_local(deed.at));
      if (round->times.empty() || round->times.back() != when) {
        round->times.push_back(when);
        round->pieces.emplace_back();
      }
      round->pieces.back().push_back(deed.on);
    }
    std::vector<std::string> words;
    for (const Round& round : rounds)
      words.push_back(round_words(round));
    out.push_back(kind + ": " + joined(words));
  }
  return out;
}

class Teller {
 public:
  Teller(const TripFacts& facts, const MorningFacts& morning)
      : facts_(facts),
        morning_(morning),
        zone_(facts.job.site.zone),
        units_(units_of(facts.job.limits.set)),
        days_(trip_days(facts)),
        day_(days_.at(morning.day)) {}

  MorningLines tell() {
    out_.title = "Morning sheet, " + base::day_name(day_.day);
    out_.which = fmt::format("day {} of {}", day_.number, days_.size());
    out_.job = facts_.job.title;
    out_.warning = warning(facts_);
    light();
    weather();
    tonight();
    say(MorningPart::last_night, "Last night", night_lines(facts_, day_));
    tasks();
    say(MorningPart::leave, "Leave", left_alone(facts_, day_, false));
    covers();
    canopy();
    say(MorningPart::turns, "If", turn_lines(facts_, day_, day_.span.from, most_turns));
    needs();
    say(MorningPart::stock, "Stock", stock_lines(facts_, day_));
    by_tonight();
    home();
    say(MorningPart::left_out, "Left out", pieces_and_tasks(facts_, facts_.plan.left_out, day_.span.from));
    say(MorningPart::changed, "Changed", change_lines(facts_, day_, most_changes));
    say(MorningPart::stands_on, "Stands on",
        basis_line(facts_.series, zone_, {facts_.job.trip.leave_home, facts_.now, facts_.job.trip.home_by}));
    say(MorningPart::mind, "Mind", facts_.remarks);
    for (const trade::CautionRow* row : morning_.cautions)
      say(MorningPart::caution, "Caution", std::string(row->text));
    return std::move(out_);
  }

 private:
  [[nodiscard]] base::LocalTime local(base::Instant t) const { return zone_.to_local(t); }
  [[nodiscard]] bool today(base::Instant t) const { return day_.span.from <= t && t < day_.span.to; }

  MorningLines::Section& section(MorningPart part, std::string_view label) {
    if (out_.sections.empty() || out_.sections.back().part != part)
      out_.sections.push_back({part, std::string(label), {}, {}});
    return out_.sections.back();
  }
  void say(MorningPart part, std::string_view label, std::string sentence) {
    if (!sentence.empty()) section(part, label).sentences.push_back(std::move(sentence));
  }
  void say(MorningPart part, std::string_view label, const std::vector<std::string>& sentences) {
    for (const std::string& sentence : sentences)
      say(part, label, sentence);
  }

  void light() {
    const LightDay light = light_day(facts_.job, day_.day);
    using State = sky::LightBand::State;
    if (light.light.civil.state != State::rises_or_sets || !light.light.dawn() || !light.light.dusk()) {
      say(MorningPart::light, "Light",
          std::string(light.light.civil.state == State::always ? "all day and night" : "none all day"));
      return;
    }
    std::string words =
        fmt::format("{} to {}", quarter(local(*light.light.dawn())), quarter(local(*light.light.dusk())));
    if (light.light.sunrise() && light.light.sunset()) {
      words += fmt::format(", sun {} to {}", quarter(local(*light.light.sunrise())),
                           quarter(local(*light.light.sunset())));
    }
    say(MorningPart::light, "Light", std::move(words));
  }

  [[nodiscard]] programme::Span working() const {
    const auto& hours = facts_.job.trip.working_day;
    return {zone_.to_instant_earliest(base::LocalTime(day_.day) + hours.from),
            zone_.to_instant_earliest(base::LocalTime(day_.day) + hours.to)};
  }

  void weather() {
    say(MorningPart::weather, "Weather", weather_line(facts_.series, working(), zone_, units_));
  }

  void tonight() {
    const base::LocalDay next = day_.day + days(1);
    const programme::Span night{
        working().to, zone_.to_instant_earliest(base::LocalTime(next) + facts_.job.trip.working_day.from)};
    const WeatherSum sum = sum_up(facts_.series, night);
    if (day_.number >= static_cast<int>(days_.size()) || !sum.low) return;
    std::string words = fmt::format("down to {}", temperature(*sum.low, units_));
    if (sum.low->value() <= 0) words += ", frost";
    if (sum.rain && sum.rain->value() > 0) words += ", rain " + rain(*sum.rain, units_);
    if (sum.gust) words += ", gusts " + wind(*sum.gust);
    say(MorningPart::tonight, "Tonight", std::move(words));
    say(MorningPart::tonight, "Tonight", strip_lines(facts_, night));
  }

  void tasks() {
    if (day_.tasks.empty()) {
      say(MorningPart::tasks, "To do", std::string("nothing planned today"));
      return;
    }
    for (const DayTask& task : day_.tasks) {
      section(MorningPart::tasks, "")
          .rows.push_back({task.letter, hours_of(facts_, task).front(), words_for(facts_, task),
                           words_in(facts_, task, words_room), facts_.list.tasks[task.task].name});
    }
  }

  void covers() {
    std::vector<Deed> list;
    for (const auto& cover : facts_.plan.covers) {
      if (cover.kind == trade::CoverKind::bare || cover.kind == trade::CoverKind::canopy) continue;
      const std::string title(trade::row_for(cover.kind).title);
      const Piece piece = piece_under(facts_.list, cover);
      if (today(cover.span.from)) list.push_back({cover.span.from, title + " on", piece});
      if (today(cover.span.to) && !cover.stays_on) list.push_back({cover.span.to, title + " off", piece});
    }
    say(MorningPart::cover, "Cover", deed_lines(std::move(list), zone_));
    say(MorningPart::cover, "Cover", drying_lines(facts_, day_));
  }

  void canopy() {
    for (const auto& sitting : facts_.plan.canopy) {
      if (!today(sitting.pitch_from) && !today(sitting.struck_by)) continue;
      say(MorningPart::canopy, "Canopy",
          fmt::format("{} up over the {}, down by {}", quarter_from(day_.day, local(sitting.pitch_from)),
                      spoken(sitting.part), quarter_from(day_.day, local(sitting.struck_by))));
    }
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
      words.push_back(mixes_of(needs.mortar, facts_.job.kit.mixer) + " of mortar" +
                      lots_of_mortar(facts_, day_));
    for (const DayNeeds::Line& line : needs.other) {
      if (line.material != "cement") continue;
      const double bags = line.amount / trade::cement_bag.value();
      words.push_back(bags < 0.95 ? std::string("part of a bag of cement")
                                  : count_of(std::lround(std::ceil(bags - 0.05)), "bag") + " of cement");
    }
    say(MorningPart::needs, "Needs", joined(words));
  }

  void by_tonight() {
    std::vector<char> done;
    std::vector<std::string> parts;
    for (const DayTask& task : day_.tasks) {
      if (!task.goes_on) {
        done.push_back(task.letter);
      } else if (const std::string part = portion(facts_, task); !part.empty()) {
        parts.push_back(fmt::format("{} {}", task.letter, part));
      }
    }
    std::string words;
    if (!done.empty()) {
      words = done.size() == day_.tasks.size() ? std::string("all of it") : letters_of(done);
      words += " done";
    }
    if (!parts.empty()) words += (words.empty() ? "" : "; ") + joined(parts);
    if (const std::string latest = latest_line(facts_, day_); !latest.empty())
      words += (words.empty() ? "" : "; ") + latest;
    say(MorningPart::by_tonight, "By tonight", std::move(words));
  }

  void home() {
    const programme::Plan& plan = facts_.plan;
    const base::Zone& home = facts_.job.trip.home_zone;
    const auto said = [&](base::Instant t) { return quarter_from(day_.day, home.to_local(t)); };
    const std::string promise = said(facts_.job.trip.home_by);
    if (!plan.home) {
      say(MorningPart::home, "In hand", "nothing: no way found to be home by " + promise);
      return;
    }
    say(MorningPart::home, "In hand",
        fmt::format("{}{}: home about {}, promised {}", hand_words(plan.in_hand),
                    facts_.before == nullptr ? std::string() : yesterdays(*facts_.before), said(*plan.home),
                    home.day_of(*plan.home) == home.day_of(facts_.job.trip.home_by)
                        ? quarter(home.to_local(facts_.job.trip.home_by))
                        : promise) +
            chance());
  }
  [[nodiscard]] std::string chance() const {
    const std::string words = chance_words(facts_);
    return words.empty() ? words : "; home in time with all sound: " + words;
  }
  static std::string hand_words(std::chrono::seconds in_hand) {
    const bool late = in_hand.count() < 0;
    return duration(late ? -in_hand : in_hand) + (late ? " late" : "");
  }
  [[nodiscard]] std::string yesterdays(const programme::Plan& before) const {
    if (!before.home) return " (yesterday none)";
    const auto moved = facts_.plan.in_hand - before.in_hand;
    if (moved < told_change && -moved < told_change) return " (as yesterday)";
    return fmt::format(" (yesterday {})", hand_words(before.in_hand));
  }

  const TripFacts& facts_;
  const MorningFacts& morning_;
  const base::Zone& zone_;
  Units units_;
  std::vector<TripDay> days_;
  const TripDay& day_;
  MorningLines out_;
};

}  // namespace

const MorningLines::Section* MorningLines::find(MorningPart part) const {
  const auto found = std::find_if(sections.begin(), sections.end(),
                                  [&](const Section& section) { return section.part == part; });
  return found == sections.end() ? nullptr : &*found;
}

MorningLines morning_lines(const TripFacts& facts, const MorningFacts& morning) {
  return Teller(facts, morning).tell();
}

}  // namespace weatherstruck::render
