#include "weatherstruck/render/customer_sheet.h"

#include <algorithm>

#include "care_words.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/programme/after_trip.h"
#include "weatherstruck/render/piece_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/turn_words.h"
#include "weatherstruck/render/weather_words.h"
#include "weatherstruck/trade/covers.h"

namespace weatherstruck::render {
namespace {

using html::element;
using html::Html;
using html::line;
using programme::MayBear;

class Customer {
 public:
  explicit Customer(const TripFacts& facts)
      : facts_(facts), job_(facts.job), leaves_(care::leaves_at(facts)) {}

  CustomerSheet tell(const Caller& caller) {
    out_.title = "Looking after the new work";
    out_.job = job_.title + (job_.customer.name.empty() ? "" : ", for " + job_.customer.name);
    out_.leaves =
        "The mason leaves on " + base::day_and_time(to_quarter(job_.site.zone.to_local(leaves_))) + ".";
    out_.warning = warning(facts_);
    bearing();
    covers();
    frost();
    general();
    out_.left = care::left_undone(facts_);
    if (!caller.name.empty() || !caller.contact.empty()) {
      const std::string who = caller.name.empty() || caller.contact.empty()
                                  ? caller.name + caller.contact
                                  : caller.name + ", " + caller.contact;
      out_.call = "If anything moves, cracks, or comes uncovered and you are not sure, call " + who + ".";
    }
    out_.known = care::known(facts_);
    return std::move(out_);
  }

 private:
  void bearing() {
    for (const MayBear& may :
         programme::may_bear(job_, facts_.list, facts_.series, facts_.limits, facts_.plan)) {
      if (may.from && *may.from <= leaves_) continue;
      const std::string part = "The " + spoken(may.of);
      const std::string when = care::day_time(job_, may);
      switch (may.load) {
        case MayBear::Load::bricks:
          out_.keep_off.push_back(
              {part + ": concrete", "nothing on it until " + when, "a boot heel leaves no mark"});
          break;
        case MayBear::Load::feet:
          out_.keep_off.push_back({part, "keep feet off until " + when, "nothing rocks underfoot"});
          break;
        case MayBear::Load::soil:
          out_.keep_off.push_back(
              {part + ": brickwork", "nobody on it, nothing leaned or stacked against it until " + when, ""});
          if (care::to_fill(facts_, may.of))
            out_.fill.push_back({part, "to the top, or level with the ground, from " + when, ""});
          break;
        case MayBear::Load::soil_half:
          if (care::to_fill(facts_, may.of))
            out_.fill.push_back(
                {part, "to half height from " + when, "loose soil, put in, not trodden or tipped"});
          break;
        case MayBear::Load::roof:
          out_.keep_off.push_back({part + ": plates", "no weight on them until " + when, ""});
          break;
      }
    }
  }
  void covers() {
    struct Same {
      trade::CoverKind kind;
      base::Instant until;
      std::vector<Piece> pieces;
    };
    std::vector<Same> all;
    for (const auto& cover : facts_.plan.covers) {
      if (!cover.stays_on || cover.kind == trade::CoverKind::bare || cover.kind == trade::CoverKind::canopy)
        continue;
      auto same = std::find_if(all.begin(), all.end(), [&](const Same& other) {
        return other.kind == cover.kind &&
               care::day_time(job_, other.until) == care::day_time(job_, cover.span.to);
      });
      if (same == all.end()) same = all.insert(all.end(), {cover.kind, cover.span.to, {}});
      same->pieces.push_back(piece_under(facts_.list, cover));
    }
    for (const Same& same : all) {
      out_.covers.push_back({capital(together(same.pieces)),
                             capital(std::string(trade::row_for(same.kind).title)) + " stays on until " +
                                 care::day_time(job_, same.until) + "; then take it off and keep it dry",
                             ""});
    }
  }

  // Nights by what he calls one: from the end of a working day to the beginning of the next.
  void frost() {
    const base::Zone& zone = job_.site.zone;
    const auto& hours = job_.trip.working_day;
    const base::Instant end = facts_.series.empty() ? leaves_ : std::max(leaves_, facts_.series.end_time());
    const Units units = units_of(job_.limits.set);
    bool freezes = false;
    for (base::LocalDay day = zone.day_of(leaves_); zone.start_of(day) < end; day += std::chrono::days(1)) {
      const base::Instant from = std::max(leaves_, zone.to_instant_earliest(base::LocalTime(day) + hours.to));
      const base::Instant to =
          zone.to_instant_earliest(base::LocalTime(day + std::chrono::days(1)) + hours.from);
      if (to > end) break;
      const WeatherSum sum = sum_up(facts_.series, {from, to});
      if (!sum.low || sum.low->value() > 0) continue;
      freezes = true;
      out_.frost.push_back("The night of " + base::day_name(day) + ": down to " +
                           temperature(*sum.low, units));
    }
    if (end <= leaves_) {
      out_.frost.push_back("No forecast reaches beyond the day he leaves.");
      return;
    }
    const std::string reach = base::day_name(zone.day_of(end - std::chrono::seconds(1)));
    if (!freezes) out_.frost.push_back("None in the forecast, which reaches to " + reach + ".");
    if (!out_.covers.empty())
      out_.frost.push_back("Frost harms work that is still soft: leave the covers on until the day named.");
  }

  // Common practice, no source.
  void general() {
    if (!out_.covers.empty())
      out_.general.emplace_back(
          "If wind lifts a cover, lay it back as it was and weigh its edges down; it must not flap against "
          "the work.");
    if (!out_.keep_off.empty())
      out_.general.emplace_back(
          "Keep children and animals away: wet cement burns skin before it is felt. Wash it off at once.");
    out_.general.emplace_back(
        "Do not wash the work down, and keep hoses and dripping gutters off it until it is dry.");
  }

  const TripFacts& facts_;
  const works::Job& job_;
  base::Instant leaves_;
  CustomerSheet out_;
};

std::string with_test(const CareLine& care) {
  return care.when + (care.test.empty() ? "" : " (" + care.test + ")") + ".";
}

Html table_of(const std::vector<CareLine>& lines) {
  Html out;
  for (const CareLine& care : lines)
    out += line(element("dt", care.what)) + line(element("dd", capital(with_test(care))));
  return out.empty() ? out : line(element("dl", line(Html()) + out));
}

// Wider first column than on other sheets: what is spoken of is said in full.
constexpr std::string_view style = R"css(
.call { font-weight: 800; font-size: 1.2rem; margin-top: 1.5rem; }
@media (min-width: 40rem), print { dl { grid-template-columns: 13rem 1fr; } }
@media print { .call { font-size: 12pt; } body { font-size: 11.5pt; } dl { grid-template-columns: 50mm 1fr; } }
)css";

}  // namespace

CustomerSheet customer_sheet_of(const TripFacts& facts, const Caller& caller) {
  return Customer(facts).tell(caller);
}

std::string customer_text(const CustomerSheet& sheet, Ink ink) {
  Page page(ink);
  page.title(sheet.title);
  page.text(sheet.job);
  page.text(sheet.leaves);
  page.text(sheet.warning);
  const auto lines = [&page](const std::string& heading, const std::vector<CareLine>& all) {
    if (all.empty()) return;
    page.heading(heading);
    for (const CareLine& care : all) {
      page.text(care.what, 2);
      page.text(capital(with_test(care)), 4);
    }
  };
  const auto words = [&page](const std::string& heading, const std::vector<std::string>& all) {
    if (all.empty()) return;
    page.heading(heading);
    for (const std::string& one : all)
      page.text(one, 2);
  };
  lines("Keep off", sheet.keep_off);
  lines("Covers", sheet.covers);
  lines("Filling", sheet.fill);
  words("Frost to come", sheet.frost);
  words("All of it", sheet.general);
  words("Not done yet", sheet.left);
  page.gap();
  page.text(sheet.call);
  page.text(sheet.known);
  return page.str();
}

std::string customer_html(const CustomerSheet& sheet) {
  Html head = line(Html()) + line(element("h1", sheet.title)) + line(element("p", sheet.job)) +
              line(element("p", sheet.leaves));
  if (!sheet.warning.empty()) head += line(element("p", {{"class", "warning"}}, sheet.warning));
  Html parts = care::section("keep-off", "Keep off", table_of(sheet.keep_off));
  parts += care::section("covers", "Covers", table_of(sheet.covers));
  parts += care::section("filling", "Filling", table_of(sheet.fill));
  parts += care::section("frost", "Frost to come", care::bullets(sheet.frost));
  parts += care::section("all", "All of it", care::bullets(sheet.general));
  parts += care::section("left", "Not done yet", care::bullets(sheet.left));
  if (!sheet.call.empty()) parts += line(element("p", {{"class", "call"}}, sheet.call));
  Html body = line(element("header", head)) + line(element("main", line(Html()) + parts));
  body += line(element("footer", element("p", {{"class", "small"}}, sheet.known)));
  return html::document({sheet.title + ": " + sheet.job, body, style, {}});
}

}  // namespace weatherstruck::render
