// The way in, the hours of noise, and who brings what.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <vector>

#include "job_ask.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/job_recap.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/length_words.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::desk {

using base::Hours;
using base::Instant;
using base::Metres;
using works::Answer;
using works::Refused;

namespace {

struct Brought {
  std::string_view word;
  std::vector<std::string_view> materials;
};
/// What else he may call them.
std::string_view brought_called(std::string_view said) {
  constexpr auto also = std::to_array<std::pair<std::string_view, std::string_view>>(
      {{"brick", "bricks"},     {"facings", "bricks"},      {"sands", "sand"},
       {"soft sand", "sand"},   {"sharp sand", "sand"},     {"building sand", "sand"},
       {"lime", "cement"},      {"stone", "aggregate"},     {"stones", "aggregate"},
       {"20 mm", "aggregate"},  {"hardcore", "sub-base"},   {"hard core", "sub-base"},
       {"mot", "sub-base"},     {"mot type 1", "sub-base"}, {"type 1", "sub-base"},
       {"subbase", "sub-base"}, {"sub base", "sub-base"},   {"shingle", "gravel"},
       {"chippings", "gravel"}, {"slabs", "flags"},         {"flagstones", "flags"},
       {"paving", "flags"},     {"paving slabs", "flags"},  {"soil", "topsoil"},
       {"top soil", "topsoil"}});
  for (const auto& [word, is] : also) {
    if (said == word) return is;
  }
  return said;
}

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

}  // namespace

void JobAsk::way_in() {
  talk_.heading("The way in");
  const bool feet = measure_ == works::Measure::feet;
  works::WayIn usual{Metres(feet ? 60 * works::foot : 20.0), Metres(0), 0, usual_clear_width(measure_)};
  if (const auto before = talk_.said_before("way")) {
    const auto read = works::way_in_answer(*before, usual, measure_);
    if (const auto* said = std::get_if<works::WayIn>(&read)) usual = *said;
  }
  const works::WayIn way = talk_.ask<works::WayIn>(
      {"way", "Barrowing in from the kerb: how far, climb, steps, narrowest", way_in_text(usual, measure_),
       std::string(
           "Along the way the barrow goes; the climb from kerb to work; the narrowest place, a gate or a "
           "passage. Where no barrow passes, buckets are reckoned with. Say those that differ, such as ") +
           (feet ? "100 ft, 10 ft up, 30 in wide." : "38 m, 3 m up, 750 mm wide.")},
      [&](auto said) { return works::way_in_answer(said, usual, measure_); }, usual, {},
      [this](const works::WayIn& said) { return way_in_text(said, measure_); });
  works::Route& route = job_.site.routes.front();
  route.name = "way-in";
  route.length = way.length;
  route.rise = way.rise;
  route.steps = way.steps;
  route.narrowest = way.narrowest;
  if (way_in_text(way, measure_) != way_in_text(usual, measure_))
    talk_.say(way_in_text(way, measure_) + " (" + way_in_text(way, other_than(measure_)) + ").");
  for (const works::Part& part : job_.parts) {
    if (!std::holds_alternative<works::Path>(part)) continue;
    const works::Name& name = works::name_of(part);
    if (talk_.ask<bool>(
            {"way-shut:" + name, fmt::format("Is the {} laid on that way, so that it shuts it?", name), "no",
             "Then what has to be wheeled in goes first."},
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

void JobAsk::merchant() {
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
}

void JobAsk::supplies() {
  talk_.heading("Who brings what");
  merchant();
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
  talk_.say(fmt::format("All told it takes {} with waste; the van carries {}.",
                        mass_text(render::mass_used(bill), measure_),
                        mass_text(job_.kit.van_payload, measure_)));
  const bool heavy = bill.mass > job_.kit.van_payload;
  const std::string all = base::join_and(words);
  const auto chosen = talk_.ask<std::vector<std::string>>(
      {"delivered", "What is delivered to the kerb?", heavy ? "all of it" : "nothing",
       "Of " + all + ": those that a merchant brings, in whole packs and bags. The rest rides in the van."},
      [&](auto said) -> Answer<std::vector<std::string>> {
        if (works::says_none(said)) return std::vector<std::string>();
        std::vector<std::string> out;
        bool but = false;  // "all but the cement", "everything except flags"
        const auto put = [&](std::string_view word) {
          const auto at = std::find(out.begin(), out.end(), word);
          const bool needed = std::find(words.begin(), words.end(), word) != words.end();
          if (but && at != out.end()) out.erase(at);
          if (!but && needed && at == out.end()) out.emplace_back(word);
          return needed;
        };
        for (const std::string& piece : works::pieces_of(said)) {
          std::string word = piece;
          for (const std::string_view everything : {"all", "the lot", "everything", "the rest"}) {
            if (but || (word + ' ').rfind(std::string(everything) + ' ', 0) != 0) continue;
            out = words;
            // What follows "but" is left off; other words behind it say no more: "all from the merchant".
            for (const std::string_view except : {" but ", " except ", " bar "}) {
              const std::size_t at = word.find(except);
              if (at == std::string::npos) continue;
              but = true;
              word.erase(0, at + except.size());
            }
            break;
          }
          if (!but && out == words) continue;
          for (const std::string_view opening : {"for ", "the ", "my "}) {
            if (word.rfind(opening, 0) == 0) word.erase(0, opening.size());
          }
          // Ballast is sand and aggregate in one.
          const bool ballast = word == "ballast" && put("aggregate");
          if (ballast) put("sand");
          if (ballast || put(brought_called(word))) continue;
          return Refused{"some of " + all + "; all, or nothing"};
        }
        return out;
      },
      heavy ? words : std::vector<std::string>());
  if (chosen.empty()) return;
  const auto& zone = job_.site.zone;
  const bool american = measure_ == works::Measure::feet;
  const auto there =
      job_.trip.leave_home + std::chrono::seconds(std::lround(job_.trip.drive_out.value() * 3600));
  // The next half hour from then, no sooner than merchants set out.
  const auto local = zone.to_local(there);
  auto usual_local = std::chrono::ceil<std::chrono::duration<std::int64_t, std::ratio<1800>>>(local);
  const auto day = std::chrono::floor<std::chrono::days>(local);
  const auto opens = day + me_.me.merchant_monday_to_friday.front().from + std::chrono::minutes(30);
  auto usual_time = std::max(base::LocalTime(usual_local), base::LocalTime(opens));
  const Instant usual = zone.to_instant_earliest(usual_time);
  const works::TimeWays coming{american, 6, false, zone.day_of(now_)};
  const Instant at = talk_.ask<Instant>(
      {"delivered-at", "When does it stand on the kerb?", base::day_and_time(usual_time),
       "Day and time by the clock of the site, such as Mon 7:45."},
      [&](auto said) -> Answer<Instant> {
        auto answer = works::moment_answer(said, zone, job_.trip.leave_home, coming);
        const auto* moment = std::get_if<Instant>(&answer);
        if (moment != nullptr && *moment >= job_.trip.home_by)
          return Refused{"a time within the trip", "You are home again by then."};
        return answer;
      },
      usual < job_.trip.home_by ? usual : job_.trip.leave_home, {},
      [&](const Instant& moment) { return base::day_and_time(zone.to_local(moment)); });
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

}  // namespace weatherstruck::desk
