// The clauses that carry free text, or that give what was counted or read off.
#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string_view>
#include <tuple>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/clause_reader.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {
namespace {

/// Without one of these at its front.
std::string without_lead(std::string text, std::initializer_list<std::string_view> leads) {
  for (const std::string_view lead : leads) {
    if (text.size() > lead.size() && std::string_view(text).substr(0, lead.size()) == lead &&
        text[lead.size()] == ' ') {
      return text.substr(lead.size() + 1);
    }
  }
  return text;
}

double fahrenheit_in_celsius(double degrees) {
  return (degrees - 32) / 1.8;
}

}  // namespace

std::string ClauseReader::take_text(std::size_t i) {
  std::size_t last = i;
  while (last < words_.size() && !words_.text(last).empty() && !words_.is(last, {","}))
    ++last;
  if (last == i) return "";
  const std::size_t begin = words_.at(i).begin;
  std::string text = words_.source().substr(begin, words_.at(last - 1).end - begin);
  words_.use(i, last - i);
  return text;
}

void ClauseReader::take_last_time() {
  for (std::size_t i = words_.size(); i-- > 1;) {
    if (!words_.is(i, {"at"})) continue;
    WordList tail(std::string_view(words_.source()).substr(words_.at(i).begin));
    ClockTimes times = clock_.take(tail, ClockUse::work);
    if (times.at && tail.left_over().empty()) {
      times_.at = std::move(times.at);
      words_.use(i, words_.size() - i);
    }
    return;
  }
}

Reading ClauseReader::note() {
  // "note at TIME: text"; without the colon the words belong to the text.
  std::size_t text_from = words_.at(0).end;
  for (std::size_t i = 1; i < words_.size() && i <= 6 && words_.is(1, {"at"}); ++i) {
    if (!words_.is(i, {":"})) continue;
    WordList head(std::string_view(words_.source())
                      .substr(words_.at(1).begin, words_.at(i).begin - words_.at(1).begin));
    ClockTimes times = clock_.take(head, ClockUse::work);
    if (times.at && head.left_over().empty()) {
      times_.at = std::move(times.at);
      text_from = words_.at(i).end;
    }
    break;
  }
  std::string text = words_.source().substr(text_from);
  const std::size_t first = text.find_first_not_of(" \t:,");
  text = first == std::string::npos ? "" : text.substr(first);
  text.erase(text.find_last_not_of(" \t\r") + 1);
  if (text.empty()) return Question{"What is to be noted?", {}};
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(Note{std::move(text)}, std::get<ClockRead>(at));
}

Reading ClauseReader::extra() {
  words_.use(0);
  take_last_time();
  std::string who;
  if (const auto agreed = words_.find({"agreed"})) {
    words_.use(*agreed);
    const std::size_t next = words_.is(*agreed + 1, {"with", "by"}) ? *agreed + 2 : *agreed + 1;
    words_.use(*agreed + 1, next - *agreed - 1);
    who = take_text(next);
  }
  bool day_work = words_.take({"daywork"});
  for (std::size_t i = 0; i + 1 < words_.size() && !day_work; ++i) {
    if (!words_.is(i, {"day"}) || !words_.is(i + 1, {"work"})) continue;
    words_.use(i, 2);
    day_work = true;
  }
  const MoneyRead price = take_money(words_, around_.currency, false);
  std::string what = without_lead(words_.unused_source(), {"of"});
  if (what.empty()) return Question{"What is the extra?", {}};
  if (!price.fault.empty()) return Question{price.fault + ". What was agreed?", {}};
  if (price.more_than_one || (price.money && day_work))
    return Question{"What is its price: one sum, or day work?", {}};
  if (!price.money && !day_work) return Question{"What is its price, or is it day work?", {"day work"}};
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(Extra{std::move(what), std::move(who), price.money}, std::get<ClockRead>(at));
}

Reading ClauseReader::expense() {
  words_.use(0);
  take_last_time();
  std::optional<std::string> receipt;
  if (const auto place = words_.find({"receipt"})) {
    const bool none = *place > 0 && words_.is(*place - 1, {"no"});
    if (none) words_.use(*place - 1);
    words_.use(*place);
    std::size_t next = *place + 1;
    if (words_.is(next, {"number"})) {
      words_.use(next);
      ++next;
    }
    const std::string text = none ? "" : take_text(next);
    if (!text.empty()) receipt = text;
  }
  const MoneyRead money = take_money(words_, around_.currency, true);
  if (!money.fault.empty()) return Question{money.fault + ". What did it cost?", {}};
  if (!money.money || money.money->minor() == 0) return Question{"What did it cost, as one sum?", {}};
  std::string what = without_lead(words_.unused_source(), {"on", "for"});
  if (what.size() > 4 && what.substr(what.size() - 4) == " for") what.resize(what.size() - 4);
  if (what.empty() || what == "on" || what == "for") return Question{"What was it spent on?", {}};
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(Expense{std::move(what), *money.money, std::move(receipt)}, std::get<ClockRead>(at));
}

Reading ClauseReader::stood_down() {
  std::string cause;
  for (std::size_t i = 0; i + 1 < words_.size(); ++i) {
    const bool rained = words_.is(i, {"rained"}) && words_.is(i + 1, {"off"});
    if (!rained && !(words_.is(i, {"stood"}) && words_.is(i + 1, {"down"}))) continue;
    words_.use(i, 2);
    if (rained) cause = "rain";
    break;
  }
  times_ = clock_.take(words_, ClockUse::work);
  const std::string rest = without_lead(words_.unused_source(), {"because of", "due to", "for", "with"});
  if (!rest.empty()) cause = rest;
  if (times_.span) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.span))
      return Question{doubt->text, doubt->candidates};
    const auto& [from, to] = std::get<std::pair<ClockRead, ClockRead>>(*times_.span);
    return understood(StoodDown{cause, from.at, to.at}, from);
  }
  if (times_.since) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.since))
      return Question{doubt->text, doubt->candidates};
    const auto& from = std::get<ClockRead>(*times_.since);
    if (from.at >= clock_.now()) return Question{"From when to when?", {}};
    until_now_ = true;
    return understood(StoodDown{cause, from.at, clock_.now()}, from);
  }
  return Question{"Stood down from when to when?", {}};
}

Reading ClauseReader::stock(bool arrived) {
  times_ = clock_.take(words_, ClockUse::work);
  while (words_.take({"counted", "left", "remaining", "delivered", "arrived", "came", "fetched", "still"})) {
  }
  const auto counted = take_counted(words_);
  if (!counted) return Question{"How many, as one number?", {}};
  // The exact form names unit and key: "60 bricks of facing-brick".
  std::vector<std::string> left = words_.left_over();
  if (left.size() == 2) {
    const trade::Material* row = trade::find_material(left.back());
    if (row != nullptr && row->unit == left.front()) left.erase(left.begin());
  }
  if (left.empty()) return Question{"Of what?", {}};
  const auto material = one_of(names_.material(left), "material");
  if (const auto* reading = std::get_if<Reading>(&material)) return *reading;
  const Name& key = std::get<Name>(material);
  const auto amount = in_table_unit(*counted, key);
  const trade::Material& row = trade::material(key);
  if (!amount) {
    return Question{"How much is that in " + std::string(row.unit) + " of " + std::string(row.title) +
                        ", or in \"" + std::string(row.pack) + "\"?",
                    {}};
  }
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  if (!arrived) return understood(StockCount{key, *amount}, std::get<ClockRead>(at));
  if (*amount <= 0) return Question{"How much of it came?", {}};
  return understood(Arrived{key, *amount}, std::get<ClockRead>(at));
}

Reading ClauseReader::gauge() {
  times_ = clock_.take(words_, ClockUse::weather);
  words_.take({"gauge"});
  while (words_.take({"mm", "millimetres", "rain", "gauge", "fell", "fallen", "rained", "it"})) {
  }
  std::optional<double> value;
  for (std::size_t i = 0; i < words_.size(); ++i) {
    if (!words_.number(i)) continue;
    if (value) return Question{"How many millimetres, as one number?", {}};
    value = words_.number(i);
    words_.use(i);
  }
  if (!value) return Question{"How many millimetres are in the gauge?", {}};
  ClockRead at{clock_.now(), 1, false};
  ClockRead since;
  if (times_.span) {
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.span))
      return Question{doubt->text, doubt->candidates};
    std::tie(since, at) = std::get<std::pair<ClockRead, ClockRead>>(*times_.span);
  } else {
    if (!times_.since) return Question{"Since when was the rain caught?", {}};
    if (const auto* doubt = std::get_if<ClockDoubt>(&*times_.since))
      return Question{doubt->text, doubt->candidates};
    const auto read_at = moment();
    if (const auto* doubt = std::get_if<Reading>(&read_at)) return *doubt;
    since = std::get<ClockRead>(*times_.since);
    at = std::get<ClockRead>(read_at);
  }
  if (since.at >= at.at) return Question{"Since when was the rain caught?", {}};
  return settled(Gauge{base::Millimetres(*value), since.at},
                 {at.at, at.confidence * since.confidence, at.said});
}

bool ClauseReader::is_thermometer() const {
  for (std::size_t i = 0; i < words_.size(); ++i) {
    if (words_.is(i, {"thermometer", "temperature"})) return true;
    if (!words_.number(i)) continue;
    const bool minus = i > 0 && words_.is(i - 1, {"minus", "-"});
    const bool degrees =
        words_.is(i + 1, {"degrees", "degree", "\xc2\xb0", "c", "f", "celsius", "fahrenheit"});
    const bool below = words_.is(i + 1, {"below"}) && !words_.is(i + 2, {"ground"});
    if (minus || degrees || below) return true;
  }
  return false;
}

Reading ClauseReader::thermometer() {
  times_ = clock_.take(words_, ClockUse::weather);
  std::optional<double> value;
  for (std::size_t i = 0; i < words_.size(); ++i) {
    if (!words_.number(i)) continue;
    if (value) return Question{"How many degrees, as one number?", {}};
    value = words_.number(i);
    const bool minus = i > 0 && words_.is(i - 1, {"minus", "-"});
    if (minus) {
      value = -*value;
      words_.use(i - 1);
    }
    words_.use(i);
  }
  if (!value) return Question{"How many degrees were they?", {}};
  while (words_.take({"degrees", "degree", "\xc2\xb0", "thermometer", "temperature", "air", "outside", "it",
                      "reads", "read", "says"})) {
  }
  if (words_.take({"below"}) || words_.take({"frost"})) value = -std::abs(*value);
  words_.take({"zero", "freezing"});
  const bool celsius = words_.take({"c", "celsius"});
  if (words_.take({"f", "fahrenheit"})) {
    value = fahrenheit_in_celsius(*value);
  } else if (!celsius && job_.limits.set == trade::LimitSet::us) {
    return Question{"Fahrenheit or Celsius?", {"F", "C"}};
  }
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return settled(Thermometer{base::Celsius(*value)}, std::get<ClockRead>(at));
}

Reading ClauseReader::level() {
  words_.use(0);
  std::vector<double> lengths;
  for (std::size_t i = 0; i < words_.size(); ++i) {
    const auto number = words_.number(i);
    if (!number) continue;
    const bool mm = words_.is(i + 1, {"mm", "millimetres"});
    const bool cm = words_.is(i + 1, {"cm"});
    if (!mm && !cm && !words_.is(i + 1, {"m", "metres", "metre"})) {
      return Question{"In metres or millimetres? Say it like \"level bed-north-footing 1.2 m: -0.15 m\".",
                      {}};
    }
    double length = *number / (mm ? 1000 : (cm ? 100 : 1));
    const bool minus = i > 0 && words_.is(i - 1, {"minus", "-"});
    if (minus) words_.use(i - 1);
    const bool lower =
        words_.is(i + 2, {"down", "below", "lower"}) || (i > 0 && words_.is(i - 1, {"down", "below"}));
    if (lower || minus) length = -length;
    words_.use(i, 2);
    lengths.push_back(length);
  }
  while (words_.take({"down", "below", "lower", "up", "above", "higher", "along", "mark", "is", "reads"})) {
  }
  if (lengths.size() != 2 || lengths.front() < 0) {
    return Question{"How far along, and how high? Say it like \"level bed-north-footing 1.2 m: -0.15 m\".",
                    {}};
  }
  const std::vector<std::string> left = words_.left_over();
  if (left.empty()) return Question{"Of which footing?", {}};
  const auto footing = one_of(names_.footing(left), "footing");
  if (const auto* reading = std::get_if<Reading>(&footing)) return *reading;
  const auto at = moment();
  if (const auto* doubt = std::get_if<Reading>(&at)) return *doubt;
  return understood(LevelRead{std::get<Name>(footing), base::Metres(lengths[0]), base::Metres(lengths[1])},
                    std::get<ClockRead>(at));
}

}  // namespace weatherstruck::works
