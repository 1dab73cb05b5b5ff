#include "me_ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include "me_asking.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/answer_amounts.h"
#include "weatherstruck/works/answer_pieces.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::desk {

using works::Answer;
using works::Refused;

namespace {

/// Bricks that one mason at the norm lays in an hour.
double norm_bricks() {
  return 1.0 / trade::row_for(trade::Operation::lay_facing).hours_per_unit;
}

std::string squeezed(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == ':') {
      out += c;
    }
  }
  return out;
}

/// A row of a table of mixes, by its key, its title, or the parts in its title ("1:5").
template <class Row>
const Row* mix_named(std::span<const Row> rows, std::string_view said) {
  const std::string wanted = squeezed(said);
  for (const Row& row : rows) {
    if (wanted == squeezed(row.key) || wanted == squeezed(row.title)) return &row;
  }
  if (wanted.find(':') == std::string::npos) return nullptr;
  for (const Row& row : rows) {
    const std::string title(row.title);
    const std::size_t comma = title.find(", ");
    const std::string parts = comma == std::string::npos ? title : title.substr(comma + 2);
    if (wanted == squeezed(parts.substr(0, parts.find(' ')))) return &row;
  }
  return nullptr;
}

template <class Row>
std::string all_mixes(std::span<const Row> rows) {
  std::string out;
  for (const Row& row : rows)
    out += (out.empty() ? "" : "; ") + std::string(row.title);
  return out;
}

std::string or_none(const std::string& text) {
  return text.empty() ? "none" : text;
}

/// The towns of the United States by which the time zone database names zones.
bool keeps_american_time(const base::Zone& zone) {
  constexpr std::array<std::string_view, 12> towns{"New_York", "Detroit", "Chicago",   "Menominee",
                                                   "Denver",   "Boise",   "Phoenix",   "Los_Angeles",
                                                   "Juneau",   "Sitka",   "Anchorage", "Honolulu"};
  const std::string& name = zone.name();
  for (const std::string_view opening :
       {"US/", "America/Indiana/", "America/Kentucky/", "America/North_Dakota/"}) {
    if (name.rfind(opening, 0) == 0) return true;
  }
  const std::size_t slash = name.rfind('/');
  const std::string_view town = std::string_view(name).substr(slash == std::string::npos ? 0 : slash + 1);
  return std::find(towns.begin(), towns.end(), town) != towns.end();
}

/// "7 till 6", "7:00-21:00, 14 h", "at most 10 hours"; the hours are no more than the day is long.
struct SiteDay {
  works::DaySpan span;
  base::Hours most;
};

double length_of(works::DaySpan span) {
  return static_cast<double>((span.to - span.from).count()) / 60;
}

std::string day_text(const SiteDay& day) {
  return works::span_words(day.span) + ", at most " + base::plain_number(day.most.value(), 2) + " h";
}

Answer<SiteDay> day_answer(std::string_view text, const SiteDay& usual) {
  const Refused refused{
      "two times of a day, and the most hours of work if they are fewer, such as 7 till 6, or 7:00-21:00, 14 "
      "h"};
  const auto hours_in = [](std::string words) -> std::optional<base::Hours> {
    for (const std::string_view opening : {"at most ", "most ", "up to ", "no more than ", "max "}) {
      if (words.rfind(opening, 0) == 0) words = words.substr(opening.size());
    }
    const auto answer = works::hours_answer(words, 1, 16);
    const auto* hours = std::get_if<base::Hours>(&answer);
    return hours == nullptr ? std::nullopt : std::optional(*hours);
  };
  const auto trimmed = [](std::string_view part) {
    const std::size_t begin = part.find_first_not_of(' ');
    return begin == std::string_view::npos ? std::string() : std::string(part.substr(begin));
  };
  SiteDay out = usual;
  std::optional<base::Hours> most;
  std::string span_text(text);
  const std::size_t comma = span_text.rfind(',');
  if (comma != std::string::npos) {
    most = hours_in(trimmed(text.substr(comma + 1)));
    if (!most) return refused;
    span_text.resize(comma);
  }
  const auto span = works::span_answer(span_text);
  if (const auto* read = std::get_if<works::DaySpan>(&span)) {
    out.span = *read;
  } else {
    // Hours alone, the day as it was; with a comma it should have been a day.
    if (most) return refused;
    most = hours_in(span_text);
    if (!most) return refused;
  }
  const double longest = length_of(out.span);
  if (most && most->value() > longest + 1e-9)
    return Refused{"at most the " + base::plain_number(longest, 2) + " h of that day"};
  out.most = most ? *most : base::Hours(std::min(usual.most.value(), longest));
  if (out.most.value() < 1) return Refused{"a day of at least an hour"};
  return out;
}

struct Mixes {
  const trade::MortarRow* mortar;
  const trade::ConcreteRow* concrete;
};

/// "1:5", "mortar M4, concrete C20/25".
Answer<Mixes> mixes_answer(std::string_view text, const Mixes& usual) {
  const Refused refused{"mortar " + all_mixes(trade::mortars()) + "; concrete " +
                        all_mixes(trade::concretes())};
  Mixes out = usual;
  const std::vector<std::string> pieces = works::pieces_of(text);
  if (pieces.empty()) return refused;
  for (std::string piece : pieces) {
    for (const std::string_view word : {"mortar ", "concrete "}) {
      if (piece.rfind(word, 0) == 0) piece = piece.substr(word.size());
    }
    if (const auto* mortar = mix_named(trade::mortars(), piece)) {
      if (out.mortar != usual.mortar && out.mortar != mortar) return refused;
      out.mortar = mortar;
    } else if (const auto* concrete = mix_named(trade::concretes(), piece)) {
      if (out.concrete != usual.concrete && out.concrete != concrete) return refused;
      out.concrete = concrete;
    } else {
      return refused;
    }
  }
  return out;
}

}  // namespace

files::MeDocument MeAsking::run() {
  who();
  pace();
  kit();
  hours();
  mixes();
  charges();
  return std::move(out_);
}

void MeAsking::who() {
  works::Me& me = out_.me;
  const base::Zone before = me.home_zone;
  talk_.heading("Who you are");
  me.name = talk_.ask<std::string>(
      {"name", "Your name, or that of your firm, as an invoice bears it", me.name,
       "It stands on invoices and on what is handed to the customer."},
      [](auto said) { return works::text_answer(said, 120); },
      me.name.empty() ? std::nullopt : std::optional(me.name));
  me.address =
      text("address", "Your address, commas between its lines", me.address, 300, "It stands on invoices.");
  me.contact = talk_.ask<std::string>(
      {"contact", "A mail address for the weather services", or_none(me.contact),
       "Public weather services ask who is calling, so that they can write if something goes wrong. "
       "Without one no forecast is fetched; saved ones can still be read."},
      mail_answer, me.contact);
  if (me.contact.empty())
    talk_.say("Without one no forecast can be fetched; \"weatherstruck me\" takes it later.");
  me.home_zone = talk_.ask<base::Zone>(
      {"clock", "Your time zone", me.home_zone.name(),
       "A town of your time zone, such as London, Dublin or New York. Times of leaving and of being home are "
       "by that clock."},
      [this](auto said) { return zone_answer(said, zones_); }, me.home_zone);
  limits(before);
}

void MeAsking::limits(const base::Zone& zone_before) {
  works::Me& me = out_.me;
  // What is kept holds, unless he has moved.
  const bool by_clock = !kept_ || zone_before.name() != me.home_zone.name();
  if (by_clock) me.limits.set = keeps_american_time(me.home_zone) ? trade::LimitSet::us : trade::LimitSet::uk;
  me.limits.set = talk_.ask<trade::LimitSet>(
      {"rules", "Whose limits for cold, rain and wind: uk or us?",
       me.limits.set == trade::LimitSet::us ? "us" : "uk",
       "uk goes by British building practice, with metres and kilograms; us by American, with feet and "
       "pounds."},
      [](auto said) -> Answer<trade::LimitSet> {
        const std::string word = squeezed(said);
        if (word == "uk" || word == "british") return trade::LimitSet::uk;
        if (word == "us" || word == "usa" || word == "american") return trade::LimitSet::us;
        return Refused{"uk or us"};
      },
      me.limits.set);
  measure_ = works::measure_of(me.limits.set);
}

void MeAsking::pace() {
  works::Me& me = out_.me;
  const double norm = norm_bricks();
  const double usual = me.crew.front().pace * norm;
  const double bricks = talk_.ask<double>(
      {"bricks", "Facing bricks you lay in an hour, alone, on short walls", base::plain_number(usual, 0),
       fmt::format(
           "Mixing, carrying from the stack and a steady day counted in, not your best hour; or those of "
           "a day, such as 400 a day. The norm is {} an hour; all other work is taken to be as much "
           "quicker or slower.",
           base::plain_number(norm, 0))},
      [&](auto said) { return works::bricks_answer(said, std::ceil(norm * 0.2), norm * 3); }, usual);
  if (bricks != usual) talk_.say(fmt::format("{} an hour.", base::plain_number(bricks, 1)));
  me.crew.front().pace = std::round(bricks / norm * 1000) / 1000;
  mate();
}

void MeAsking::mate() {
  enum class Mate { none, labours, lays };
  works::Me& me = out_.me;
  const bool several = me.crew.size() > 2;
  const Mate usual = me.crew.size() < 2           ? Mate::none
                     : me.crew.back().lays_bricks ? Mate::lays
                                                  : Mate::labours;
  constexpr std::array<std::string_view, 3> words{"nobody", "a labourer", "a bricklayer"};
  const std::string shown = several ? "as kept" : std::string(words[static_cast<std::size_t>(usual)]);
  const auto chosen = talk_.ask<std::optional<Mate>>(
      {"mate", "Who comes with you: nobody, a labourer, or a bricklayer?", shown,
       "A labourer digs, mixes, carries and covers; a bricklayer lays as well. Both at the norm."},
      [](auto said) -> Answer<std::optional<Mate>> {
        const std::string word = squeezed(said);
        constexpr std::array<std::string_view, 8> alone{"alone",  "justme",  "onlyme",   "me",
                                                        "myself", "onmyown", "bymyself", "solo"};
        if (works::says_none(said) || std::find(alone.begin(), alone.end(), word) != alone.end())
          return std::optional(Mate::none);
        for (const std::string_view labours :
             {"labourer", "alabourer", "laborer", "alaborer", "mate", "amate"}) {
          if (word == labours) return std::optional(Mate::labours);
        }
        // "My lad, labouring", "a lad who labours".
        if (word.find("labour") != std::string::npos || word.find("labor") != std::string::npos)
          return std::optional(Mate::labours);
        for (const std::string_view lays : {"bricklayer", "abricklayer", "mason", "amason"}) {
          if (word == lays) return std::optional(Mate::lays);
        }
        return Refused{"nobody, a labourer, or a bricklayer"};
      },
      std::optional<Mate>());
  if (!chosen) return;  // as it was
  me.crew.resize(1);
  if (*chosen != Mate::none) me.crew.push_back({"mate", *chosen == Mate::lays, 1.0});
}

void MeAsking::hours() {
  works::Me& me = out_.me;
  talk_.heading("Your days on site");
  const SiteDay usual{me.working_day,
                      base::Hours(std::min(me.longest_day.value(), length_of(me.working_day)))};
  const SiteDay day = talk_.ask<SiteDay>(
      {"day", "Earliest start, latest stop on site, and most hours of work", day_text(usual),
       "The plan lays no work outside the two times; light, weather and quiet hours narrow them. Such as 7 "
       "till 6, "
       "or 7:00-21:00, 14 h. Driving is counted apart; work and wheel together over 13 h are told as a "
       "danger."},
      [&](auto said) { return day_answer(said, usual); }, usual);
  me.working_day = day.span;
  me.longest_day = day.most;
  if (day_text(day) != day_text(usual)) talk_.say(render::capital(day_text(day)) + " of work.");
}

void MeAsking::mixes() {
  works::Practice& practice = out_.me.practice;
  const Mixes usual{&trade::row_for(practice.mortar), &trade::row_for(practice.concrete)};
  const Mixes chosen = talk_.ask<Mixes>(
      {"mixes", "Your usual mortar above ground, and concrete for footings",
       fmt::format("{}; {}", usual.mortar->title, usual.concrete->title),
       "By parts, such as 1:5, or by class; one of them or both. Mortar: " + all_mixes(trade::mortars()) +
           ". Concrete: " + all_mixes(trade::concretes()) + "."},
      [&](auto said) { return mixes_answer(said, usual); }, usual);
  practice.mortar = chosen.mortar->mortar;
  practice.concrete = chosen.concrete->mix;
}

std::string MeAsking::text(std::string key, std::string words, const std::string& usual, std::size_t longest,
                           std::string help) {
  return talk_.ask<std::string>(
      {std::move(key), std::move(words), or_none(usual), std::move(help)},
      [longest](auto said) { return works::optional_text_answer(said, longest); }, usual);
}

int MeAsking::percent(std::string key, std::string words, int usual, int most, std::string help) {
  return talk_.ask<int>(
      {std::move(key), std::move(words), usual == 0 ? "none" : account::percent_text(usual), std::move(help)},
      [most](auto said) -> Answer<int> {
        std::string without(said);
        without.erase(std::remove(without.begin(), without.end(), '%'), without.end());
        const auto number = works::amount_answer(without, 0, most / 100.0, {}, "per cent from 0 to 100");
        if (const auto* refused = std::get_if<Refused>(&number)) return *refused;
        return static_cast<int>(std::lround(std::get<double>(number) * 100));
      },
      usual);
}

void MeAsking::say_back(bool changed, const std::string& his, const std::string& other) {
  if (changed) talk_.say(his + " (" + other + ").");
}

files::MeDocument ask_about_him(Talk& talk, const files::MeDocument& usual, bool kept,
                                const files::ZoneSource& zones) {
  return MeAsking(talk, usual, kept, zones).run();
}

}  // namespace weatherstruck::desk
