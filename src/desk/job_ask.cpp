#include "job_ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <set>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/check.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::desk {
namespace {

using base::Hours;
using base::Instant;
using base::Metres;
using works::Answer;
using works::Refused;

/// The first fault about the trip, as a refusal.
std::optional<Refused> wrong_with_trip(const works::Job& job) {
  for (const auto& fault : works::check(job).faults) {
    if (fault.place.rfind("/trip", 0) == 0) return Refused{fault.expected, fault.remedy};
  }
  return {};
}

struct Brought {
  std::string_view word;
  std::vector<std::string_view> materials;
};
/// What a merchant brings, in the words he is told it by.
const std::vector<Brought>& brought() {
  static const std::vector<Brought> table{
      {"bricks", {"facing-brick", "engineering-brick-a", "engineering-brick", "common-brick"}},
      {"cement", {"cement", "lime", "hydraulic-lime"}},
      {"sand", {"building-sand", "sharp-sand"}},
      {"aggregate", {"coarse-aggregate", "ballast"}},
      {"sub-base", {"sub-base"}},
      {"gravel", {"gravel"}},
      {"flags", {"flag-450", "flag-600", "flag-600x450", "flag-900x600"}},
      {"topsoil", {"topsoil"}}};
  return table;
}

/// Words between commas and "and", small letters.
std::vector<std::string> listed(std::string_view text) {
  std::vector<std::string> out(1);
  for (const char c : text) {
    if (c == ',' || c == ';') {
      out.emplace_back();
    } else {
      out.back() += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  std::vector<std::string> words;
  for (std::string& piece : out) {
    for (std::size_t at = piece.find(" and "); at != std::string::npos; at = piece.find(" and ")) {
      words.push_back(piece.substr(0, at));
      piece = piece.substr(at + 5);
    }
    words.push_back(piece);
  }
  std::vector<std::string> trimmed;
  for (std::string& word : words) {
    if (word.rfind("and ", 0) == 0) word = word.substr(4);
    if (word.rfind(" and ", 0) == 0) word = word.substr(5);
    const std::size_t begin = word.find_first_not_of(" \t");
    if (begin == std::string::npos) continue;
    trimmed.push_back(word.substr(begin, word.find_last_not_of(" \t") - begin + 1));
  }
  return trimmed;
}

}  // namespace

void ask_trip(Talk& talk, works::Job& job, Instant now) {
  works::Trip& trip = job.trip;
  const auto& zone = trip.home_zone;
  trip.leave_home = talk.ask<Instant>(
      {"leave", "When do you leave home?", "",
       "Day and time by the clock of home, such as Mon 5:00 or 12 Feb 6am. A weekday is the next one."},
      [&](auto said) { return works::moment_answer(said, zone, now); });
  trip.home_by = talk.ask<Instant>(
      {"home-by", "When did you promise to be home?", "",
       "Day and time, such as Thu 21:00. The plan works back from it."},
      [&](auto said) { return works::moment_answer(said, zone, trip.leave_home); }, std::optional<Instant>(),
      [&](const Instant& home_by) {
        works::Job probe = job;
        probe.trip.home_by = home_by;
        return wrong_with_trip(probe);
      });
}

JobAsk::JobAsk(Talk& talk, const files::MeDocument& me, Instant now, const std::vector<std::string>& taken,
               const files::ZoneSource& zones)
    : talk_(talk),
      me_(me),
      now_(now),
      taken_(taken),
      zones_(zones),
      measure_(me.me.limits.set == trade::LimitSet::us ? works::Measure::feet : works::Measure::metric),
      job_(works::job_for(me.me)) {}

works::Job JobAsk::run() {
  head();
  place();
  base();
  beds();
  rest_of_parts();
  way_in();
  hours();
  supplies();
  waiting();
  price();
  return std::move(job_);
}

void JobAsk::head() {
  talk_.heading("The job");
  job_.title = talk_.ask<std::string>(
      {"title", "What is the job?", "", "As you would say it: Shed base and a raised bed, say."},
      [](auto said) { return works::text_answer(said, 120); });
  works::Name usual = works::name_from(job_.title);
  const auto is_taken = [&](const works::Name& name) {
    return std::find(taken_.begin(), taken_.end(), name) != taken_.end();
  };
  for (int n = 2; is_taken(usual); ++n)
    usual = works::name_from(job_.title).substr(0, 36) + "-" + std::to_string(n);
  job_.name = talk_.ask<std::string>(
      {"name", "A short name to call it by", usual,
       "Small letters, digits and dashes; other commands take it."},
      [&](auto said) -> Answer<std::string> {
        auto text = works::text_answer(said, 120);
        if (std::holds_alternative<Refused>(text)) return text;
        works::Name name = works::name_from(said);
        if (is_taken(name)) return Refused{"another name", "A job \"" + name + "\" is kept already."};
        return name;
      },
      usual);
  const std::string customer = talk_.ask<std::string>(
      {"customer", "Who is it for? Name, comma, address", "none",
       "It stands on the customer's sheet and the invoice."},
      [](auto said) { return works::optional_text_answer(said, 400); }, std::string());
  const std::size_t comma = customer.find(',');
  job_.customer.name = customer.substr(0, comma).substr(0, 120);
  if (comma != std::string::npos) {
    const std::size_t begin = customer.find_first_not_of(" ,", comma);
    if (begin != std::string::npos) job_.customer.address = customer.substr(begin, 300);
  }
}

void JobAsk::place() {
  const auto place = talk_.ask<works::Place>(
      {"place", "Where is it? Degrees north and east", "",
       "Hold a finger on the spot on your phone's map: it shows two numbers, such as 51.9 -3.4. West of "
       "Greenwich the second is negative, or write 51.9N 3.4W. Light and weather are worked out from it."},
      works::place_answer);
  job_.site.latitude = place.latitude;
  job_.site.longitude = place.longitude;
  // A clock keeps within two hours and a half of the sun; Spain and western China come closest to that.
  constexpr double farthest_hours = 2.5;
  const double clock = static_cast<double>(job_.site.zone.offset_at(now_).count()) / 3600.0;
  if (std::abs(place.longitude / 15.0 - clock) > farthest_hours) {
    job_.site.zone =
        talk_.ask<base::Zone>({"site-clock", "That is far from home. Which town's clock is kept there?", "",
                               "A town of that time zone, such as New York. If the place is wrong, go back."},
                              [&](auto said) { return zone_answer(said, zones_); });
  }
  job_.trip.drive_out =
      talk_.ask<Hours>({"drive", "Hours at the wheel to get there, one way", "",
                        "Rests not counted; the plan adds them. Such as 2 h, 2:30 or 45 min."},
                       [](auto said) { return works::hours_answer(said, 0, 24); });
  job_.trip.drive_back = job_.trip.drive_out;
  ask_trip(talk_, job_, now_);
}

void JobAsk::way_in() {
  talk_.heading("The way in");
  works::Route& route = job_.site.routes.front();
  route.name = "way-in";
  route.length = length("way", "Barrowing in: how far from the kerb to the work?", {1, 2000}, Metres(20),
                        "Along the way the barrow goes.");
  route.rise = talk_.ask<Metres>(
      {"way-climb", "How far does it climb?", "level",
       "From kerb to work, such as 3 m; 2 m down where it falls."},
      [this](auto said) { return works::fall_answer(said, 30, "up", "down", measure_); }, Metres(0));
  route.steps = count("way-steps", "Steps on the way", 0, 200, "step", 0, "Stairs that the barrow meets.");
  route.narrowest = length("way-narrowest", "Its narrowest place", {0.3, 10}, Metres(0.9),
                           "A gate or a passage. Where no barrow passes, buckets are reckoned with.");
  for (const works::Part& part : job_.parts) {
    if (!std::holds_alternative<works::Path>(part)) continue;
    const works::Name& name = works::name_of(part);
    if (talk_.ask<bool>({"way-shut", fmt::format("Is the {} laid on that way, so that it shuts it?", name),
                         "no", "Then what has to be wheeled in goes first."},
                        works::yes_no_answer, false))
      route.shut_by.push_back(name);
  }
}

void JobAsk::hours() {
  job_.site.noisy = talk_.ask<works::NoisyHours>(
      {"quiet", "When may mixer and disc cutter run?", works::noisy_words(job_.site.noisy),
       "The hours usual with councils stand in the brackets. Write 7:30-19:00 for Monday to Friday, and "
       "7:30-19:00, Sat 8-13, Sun none for more."},
      [this](auto said) { return works::noisy_answer(said, job_.site.noisy); }, job_.site.noisy);
}

void JobAsk::supplies() {
  talk_.heading("Who brings what");
  const auto away = talk_.ask<std::optional<Hours>>(
      {"merchant", "Drive from the site to a builders' merchant, one way", "none near",
       "What runs short is fetched there, in the hours it serves. Such as 25 min."},
      [](auto said) -> Answer<std::optional<Hours>> {
        if (works::says_none(said)) return std::optional<Hours>();
        auto answer = works::hours_answer(said, 0, 12);
        if (auto* refused = std::get_if<Refused>(&answer)) return Refused{refused->allowed + ", or none"};
        return std::optional(std::get<Hours>(answer));
      },
      std::optional<Hours>());
  if (away)
    job_.supplies.merchant =
        works::Merchant{*away, me_.me.merchant_monday_to_friday, me_.me.merchant_saturday};

  const works::Bill bill = works::bill_of(job_);
  std::vector<std::string> words;
  for (const Brought& one : brought()) {
    for (const works::TotalLine& line : bill.totals) {
      const bool of_it =
          std::find(one.materials.begin(), one.materials.end(), line.material) != one.materials.end();
      if (of_it && line.bought > 0 && (words.empty() || words.back() != one.word))
        words.emplace_back(one.word);
    }
  }
  if (words.empty()) return;
  talk_.say(fmt::format("All told it takes {}; the van carries {}.", render::mass(bill.mass),
                        render::mass(job_.kit.van_payload)));
  const bool heavy = bill.mass > job_.kit.van_payload;
  const std::string all = base::join_and(words);
  const auto chosen = talk_.ask<std::vector<std::string>>(
      {"delivered", "What is delivered to the kerb?", heavy ? "all of it" : "nothing",
       "Of " + all + ": those that a merchant brings, in whole packs and bags. The rest rides in the van."},
      [&](auto said) -> Answer<std::vector<std::string>> {
        if (works::says_none(said)) return std::vector<std::string>();
        std::vector<std::string> out;
        for (const std::string& word : listed(said)) {
          if (word == "all" || word == "all of it" || word == "everything") {
            out = words;
          } else if (std::find(words.begin(), words.end(), word) != words.end()) {
            out.push_back(word);
          } else {
            return Refused{"some of " + all + "; all, or nothing"};
          }
        }
        return out;
      },
      heavy ? words : std::vector<std::string>());
  if (chosen.empty()) return;
  const auto& zone = job_.site.zone;
  const auto there =
      job_.trip.leave_home + std::chrono::seconds(std::lround(job_.trip.drive_out.value() * 3600));
  // The next half hour from then, no sooner than merchants set out.
  const auto local = zone.to_local(there);
  auto usual_local = std::chrono::ceil<std::chrono::duration<std::int64_t, std::ratio<1800>>>(local);
  const auto day = std::chrono::floor<std::chrono::days>(local);
  const auto opens = day + me_.me.merchant_monday_to_friday.front().from + std::chrono::minutes(30);
  auto usual_time = std::max(base::LocalTime(usual_local), base::LocalTime(opens));
  const Instant usual = zone.to_instant_earliest(usual_time);
  const Instant at = talk_.ask<Instant>(
      {"delivered-at", "When does it stand on the kerb?", base::day_and_time(usual_time),
       "Day and time by the clock of the site, such as Mon 7:45."},
      [&](auto said) -> Answer<Instant> {
        auto answer = works::moment_answer(said, zone, job_.trip.leave_home);
        const auto* moment = std::get_if<Instant>(&answer);
        if (moment != nullptr && *moment >= job_.trip.home_by)
          return Refused{"a time within the trip", "You are home again by then."};
        return answer;
      },
      usual < job_.trip.home_by ? usual : job_.trip.leave_home);
  const auto deliver = [&](const works::Bill& of) {
    job_.supplies.deliveries.clear();
    for (const Brought& one : brought()) {
      if (std::find(chosen.begin(), chosen.end(), one.word) == chosen.end()) continue;
      for (const works::TotalLine& line : of.totals) {
        const auto at_all = std::find(one.materials.begin(), one.materials.end(), line.material);
        if (at_all != one.materials.end() && line.bought > 0)
          job_.supplies.deliveries.push_back({line.material, line.bought, at});
      }
    }
  };
  // What a lorry brings is bought in other packs than what rides in the van, so it is reckoned again.
  deliver(bill);
  deliver(works::bill_of(job_));
}

void JobAsk::waiting() {
  if (job_.parts.size() < 2) return;
  talk_.heading("If it turns");
  std::vector<std::string> names;
  for (const works::Part& part : job_.parts)
    names.push_back(works::name_of(part));
  const std::string all = base::join_and(names);
  const auto chosen = talk_.ask<std::vector<std::string>>(
      {"may-wait", "If time runs out, what may be left for another trip?", "nothing",
       "Of " + all + ", the one that goes first first."},
      [&](auto said) -> Answer<std::vector<std::string>> {
        if (works::says_none(said)) return std::vector<std::string>();
        std::vector<std::string> out;
        for (std::string word : listed(said)) {
          if (word.rfind("the ", 0) == 0) word = word.substr(4);
          std::replace(word.begin(), word.end(), ' ', '-');
          if (std::find(names.begin(), names.end(), word) == names.end() ||
              std::find(out.begin(), out.end(), word) != out.end())
            return Refused{"some of " + all + ", each once; or nothing"};
          out.push_back(word);
        }
        return out;
      },
      std::vector<std::string>());
  // What he names first goes first; the document lists parts in their own order.
  for (const std::string& name : names) {
    const auto at = std::find(chosen.begin(), chosen.end(), name);
    if (at == chosen.end()) continue;
    job_.importance.push_back(
        {name, at == chosen.begin() ? works::Importance::may : works::Importance::should});
  }
  for (const works::Part& part : job_.parts) {
    const auto* path = std::get_if<works::Path>(&part);
    if (path == nullptr || path->surface != trade::Surface::flags) continue;
    if (std::find(chosen.begin(), chosen.end(), path->name) == chosen.end()) continue;
    const auto currency =
        me_.rates ? me_.rates->currency
                  : *base::Currency::from_code(me_.me.limits.set == trade::LimitSet::us ? "USD" : "GBP");
    using Less = std::optional<base::Money>;
    const Less less = talk_.ask<Less>(
        {"gravel", "Gravel for the flags instead: how much less would it be?", "no gravel",
         "What comes off the bill if the path is laid in gravel, such as 120."},
        [currency](auto said) -> Answer<Less> {
          if (works::says_none(said)) return Less();
          auto answer = works::money_answer(said, currency);
          if (auto* refused = std::get_if<Refused>(&answer)) return Refused{refused->allowed + ", or no"};
          return Less(std::get<base::Money>(answer));
        },
        std::optional<Less>(Less()));
    if (less) job_.fallbacks.push_back({works::Fallback::Kind::gravel_for_flags, path->name, less});
  }
}

void JobAsk::price() {
  if (!me_.rates) return;
  const auto currency = me_.rates->currency;
  using Agreed = std::optional<base::Money>;
  const Agreed agreed = talk_.ask<Agreed>(
      {"price", "The price agreed, before tax", "none yet",
       "For the job as it stands. It can be said later."},
      [currency](auto said) -> Answer<Agreed> {
        if (works::says_none(said)) return Agreed();
        auto answer = works::money_answer(said, currency);
        if (auto* refused = std::get_if<Refused>(&answer)) return Refused{refused->allowed + ", or none"};
        const auto& value = std::get<base::Money>(answer);
        return value.minor() == 0 ? Agreed() : Agreed(value);
      },
      std::optional<Agreed>(Agreed()));
  if (!agreed) return;
  job_.price.emplace();
  job_.price->fixed = agreed;
}

}  // namespace weatherstruck::desk
