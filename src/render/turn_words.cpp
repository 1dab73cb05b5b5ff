#include "weatherstruck/render/turn_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::render {
namespace {

using programme::Turn;
using std::chrono::minutes;

// More than that nobody keeps in his head.
constexpr std::size_t most_then = 3;
constexpr minutes same_home{20};

class Line {
 public:
  Line(const TripFacts& facts, const TripDay& day, const Turn& turn)
      : facts_(facts), day_(day), turn_(turn), zone_(facts.job.site.zone) {}

  std::string words() {
    std::vector<std::string> deeds;
    put(deeds, covers());
    put(deeds, then());
    put(deeds, leave());
    put(deeds, without());
    std::string text = head() + ": ";
    for (std::size_t i = 0; i < deeds.size(); ++i)
      text += (i == 0 ? "" : ", ") + deeds[i];
    return text + (deeds.empty() ? "" : "; ") + home() + '.';
  }

 private:
  static void put(std::vector<std::string>& list, std::string words) {
    if (!words.empty()) list.push_back(std::move(words));
  }
  [[nodiscard]] const DayTask* today(const works::Name& name) const {
    const auto task = std::find_if(day_.tasks.begin(), day_.tasks.end(),
                                   [&](const DayTask& t) { return facts_.list.tasks[t.task].name == name; });
    return task == day_.tasks.end() ? nullptr : &*task;
  }
  [[nodiscard]] std::string name_of(const works::Name& name) const {
    if (const DayTask* task = today(name)) return {task->letter};
    const works::Task* task = facts_.list.find(name);
    return task == nullptr ? name : inside(task->title);
  }
  // Names as they stand, letters next to each other drawn together.
  [[nodiscard]] std::string names_of(const std::vector<works::Name>& names) const {
    std::vector<std::string> words;
    std::vector<char> letters;
    const auto flush = [&] {
      if (!letters.empty()) words.push_back(letters_of(letters));
      letters.clear();
    };
    for (const works::Name& name : names) {
      if (const DayTask* task = today(name)) {
        letters.push_back(task->letter);
      } else {
        flush();
        words.push_back(name_of(name));
      }
    }
    flush();
    return base::join_and(words);
  }

  [[nodiscard]] std::string head() const {
    const std::string hour = base::clock_time(zone_.to_local(turn_.at));
    const Units units = units_of(facts_.job.limits.set);
    switch (turn_.kind) {
      case Turn::Kind::rain: {
        const bool heavy = turn_.rain.value() >= facts_.limits.at(trade::limit::rain_ground_stop);
        return fmt::format("{} {} to {}", heavy ? "Heavy rain" : "Steady rain", hour,
                           base::clock_time(zone_.to_local(turn_.until)));
      }
      case Turn::Kind::overrun:
        return fmt::format("{} not done by {}", name_of(turn_.task),
                           about(day_.day, zone_.to_local(turn_.at)));
      case Turn::Kind::canopy_down:
        return fmt::format("Gusts of {} from about {}, canopy down",
                           wind(facts_.limits.speed(trade::limit::canopy_gust)), hour);
      case Turn::Kind::short_of:
        return fmt::format("{} short when counted before {}",
                           capital(std::string(trade::material(turn_.material).title)), name_of(turn_.task));
      case Turn::Kind::frost:
        return "A colder night" + (turn_.low ? ", to " + temperature(*turn_.low, units) : std::string());
    }
    return {};
  }

  [[nodiscard]] std::string covers() const {
    std::vector<works::Name> begun;
    std::vector<Piece> others;
    std::string kind;
    for (const programme::PlannedCover& cover : turn_.covers) {
      kind = trade::row_for(cover.kind).title;
      const auto laid = std::find_if(day_.tasks.begin(), day_.tasks.end(), [&](const DayTask& t) {
        const works::Task& work = facts_.list.tasks[t.task];
        const bool concrete = work.fresh && work.fresh->kind == works::FreshWork::Kind::concrete;
        return work.fresh && work.part == cover.part && concrete == cover.concrete && t.start() < turn_.at;
      });
      if (laid != day_.tasks.end() && turn_.kind != Turn::Kind::frost) {
        begun.push_back(facts_.list.tasks[laid->task].name);
      } else {
        others.push_back(piece_under(facts_.list, cover));
      }
    }
    if (turn_.kind == Turn::Kind::frost && !others.empty()) return kind + " on " + together(others);
    std::vector<std::string> what;
    put(what, names_of(begun));
    put(what, together(others));
    return what.empty() ? std::string() : "cover " + base::join_and(what);
  }

  // What ends every trip is not told as work.
  [[nodiscard]] bool leaving(const works::Name& name) const {
    const works::Task* task = facts_.list.find(name);
    return task != nullptr &&
           (task->operation == trade::Operation::drive || task->operation == trade::Operation::load_out ||
            task->operation == trade::Operation::clear_up);
  }

  // In what order it goes on, unless that is the plan's with something missing.
  [[nodiscard]] std::string then() const {
    std::vector<works::Name> turned;
    std::vector<works::Name> planned;
    std::vector<works::Name> under;
    for (const Turn::Deed& deed : turn_.then) {
      if (leaving(deed.task) || (deed.task == turn_.task && turn_.kind == Turn::Kind::overrun)) continue;
      (deed.under_canopy && !turn_.canopy.empty() ? under : turned).push_back(deed.task);
    }
    const std::string sheltered = under.empty() ? std::string() : names_of(under) + " under the canopy";
    if (turned.empty() && sheltered.empty()) return turn_.stops.empty() ? "nothing more that day" : "";
    for (const DayTask& task : day_.tasks) {
      const works::Name& name = facts_.list.tasks[task.task].name;
      if (task.finish() > turn_.at && std::find(turned.begin(), turned.end(), name) != turned.end())
        planned.push_back(name);
    }
    std::vector<std::string> words;
    if (turned != planned) {
      if (turned.size() > most_then) turned.resize(most_then);
      words.push_back(names_of(turned));
    }
    put(words, sheltered);
    return words.empty() ? std::string() : "then " + base::join_and(words);
  }

  [[nodiscard]] std::string leave() const {
    std::vector<works::Name> all;
    std::vector<works::Name> rest;
    std::vector<std::string> parts;
    for (const works::Name& name : turn_.stops) {
      const auto deed = std::find_if(turn_.then.begin(), turn_.then.end(),
                                     [&](const Turn::Deed& d) { return d.task == name; });
      const bool out = std::find(turn_.left_out.begin(), turn_.left_out.end(), name) != turn_.left_out.end();
      if (out || leaving(name)) continue;
      if (deed == turn_.then.end()) {
        const DayTask* task = today(name);
        (task != nullptr && task->start() < turn_.at ? rest : all).push_back(name);
      } else if (deed->courses_after > 0) {
        const DayTask* task = today(name);
        parts.push_back(fmt::format("{} of {}", count_of(deed->courses_after, "course"), name_of(name)));
        if (task != nullptr && task->begun_before) parts.back() += " in all";
      } else {
        parts.push_back(name_of(name) + " in part");
      }
    }
    std::vector<std::string> words;
    if (!parts.empty()) words.push_back("only " + base::join_and(parts));
    std::vector<std::string> left;
    if (!rest.empty()) left.push_back("the rest of " + names_of(rest));
    if (!all.empty()) left.push_back(names_of(all));
    if (!left.empty()) words.push_back("leave " + base::join_and(left) + " for later");
    std::string text;
    for (const std::string& w : words)
      text += (text.empty() ? "" : ", ") + w;
    return text;
  }

  [[nodiscard]] std::string without() const {
    if (turn_.left_out.empty()) return {};
    return "drop " + pieces_and_tasks(facts_, turn_.left_out, turn_.at);
  }

  [[nodiscard]] std::string home() const {
    const base::Zone& zone = facts_.job.trip.home_zone;
    const auto said = [&](base::Instant t) {
      return quarter_from(zone.day_of(facts_.now), zone.to_local(t));
    };
    if (!turn_.home) return "no way found to be home by " + said(facts_.job.trip.home_by);
    const bool late = turn_.in_hand.count() < 0;
    if (facts_.plan.home && *turn_.home <= *facts_.plan.home + same_home)
      return fmt::format("home still {}{}", said(*facts_.plan.home), late ? ", late" : "");
    return fmt::format("home {}{}", said(*turn_.home), late ? ", late" : "");
  }

  const TripFacts& facts_;
  const TripDay& day_;
  const Turn& turn_;
  const base::Zone& zone_;
};

// "Strip 11.7 m2 of turf" without the amount.
std::string without_amount(const std::string& title) {
  for (const std::string_view unit : {" m3 of ", " m2 of ", " m of "}) {
    const std::size_t end = title.find(unit);
    const std::size_t begin = end == std::string::npos ? end : title.rfind(' ', end - 1);
    if (begin != std::string::npos) return title.substr(0, begin + 1) + title.substr(end + unit.size());
  }
  return title;
}

}  // namespace

std::string inside(const std::string& title) {
  std::string words = without_amount(without_sizes(title));
  if (!words.empty()) words[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(words[0])));
  return words;
}

std::string pieces_and_tasks(const TripFacts& facts, const std::vector<works::Name>& tasks,
                             base::Instant done) {
  const auto among = [&](const works::Name& name) {
    return std::find(tasks.begin(), tasks.end(), name) != tasks.end();
  };
  std::vector<std::string> words;
  std::vector<works::Name> told;
  for (const works::Name& name : tasks) {
    const works::Task* task = facts.list.find(name);
    if (task == nullptr || std::find(told.begin(), told.end(), task->of) != told.end()) continue;
    int all = 0;
    bool whole = true;
    for (std::size_t i = 0; i < facts.list.tasks.size(); ++i) {
      const programme::PlannedTask& planned = facts.plan.tasks[i];
      if (facts.list.tasks[i].of != task->of) continue;
      all += among(facts.list.tasks[i].name) ? 1 : 0;
      const bool settled = !planned.present || (planned.placed() && planned.finish() <= done);
      whole = whole && (settled || among(facts.list.tasks[i].name));
    }
    if (task->of.empty() || (!whole && all == 1)) {
      words.push_back(inside(task->title));
      continue;
    }
    told.push_back(task->of);
    words.push_back(whole ? "the " + spoken(task->of)
                          : fmt::format("{} tasks of the {}", all, spoken(task->of)));
  }
  return base::join_and(words);
}

std::string letters_of(const std::vector<char>& letters) {
  std::string text;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    std::size_t end = i;
    while (end + 1 < letters.size() && letters[end + 1] == letters[end] + 1)
      ++end;
    text += (text.empty() ? "" : " ") + std::string(1, letters[i]);
    if (end >= i + 2) {
      text += std::string(" to ") + letters[end];
      i = end;
    }
  }
  return text;
}

std::string turn_line(const TripFacts& facts, const TripDay& day, const Turn& turn) {
  return Line(facts, day, turn).words();
}

std::vector<std::string> turn_lines(const TripFacts& facts, const TripDay& day, base::Instant from,
                                    std::size_t most) {
  std::vector<const Turn*> turns;
  for (const Turn& turn : facts.turns) {
    if (turn.at >= day.span.from && turn.at < day.span.to && turn.at >= from) turns.push_back(&turn);
  }
  for (std::size_t i = 1; i < turns.size() && turns.size() > most; ++i) {
    if (turns[i]->kind == Turn::Kind::rain && turns[i - 1]->kind == Turn::Kind::rain)
      turns.erase(turns.begin() + static_cast<std::ptrdiff_t>(i));
  }
  if (turns.size() > most) turns.resize(most);
  std::vector<std::string> lines;
  for (const Turn* turn : turns)
    lines.push_back(turn_line(facts, day, *turn));
  return lines;
}

}  // namespace weatherstruck::render
