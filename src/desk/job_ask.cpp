#include "job_ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/check.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::desk {

using base::Hours;
using base::Instant;
using base::Metres;
using works::Answer;
using works::Refused;

namespace {

/// The first fault about the trip, as a refusal.
std::optional<Refused> wrong_with_trip(const works::Job& job) {
  for (const auto& fault : works::check(job).faults) {
    if (fault.place.rfind("/trip", 0) == 0) return Refused{fault.expected, fault.remedy};
  }
  return {};
}

/// Hours by which the sun stands otherwise than a clock says, 0 to 12.
double hours_apart(double longitude, const base::Zone& zone, Instant at) {
  const double clock = static_cast<double>(zone.offset_at(at).count()) / 3600.0;
  return std::abs(std::remainder(longitude / 15.0 - clock, 24.0));
}

/// " morning" or " evening" for "am", "6am", "in the evening"; nullopt for what says more than that.
std::optional<std::string> half_of_day(std::string_view said) {
  std::string word;
  for (const char c : said) {
    if (c >= 'A' && c <= 'Z') word += static_cast<char>(c - 'A' + 'a');
    if (c >= 'a' && c <= 'z') word += c;
  }
  for (const std::string_view opening : {"inthe", "the"}) {
    if (word.rfind(opening, 0) == 0) word.erase(0, opening.size());
  }
  if (word == "am" || word == "morning") return " morning";
  if (word == "pm" || word == "evening" || word == "afternoon" || word == "night") return " evening";
  return {};
}

/// As many whole words of it as are quickly typed.
works::Name short_name(const works::Name& name) {
  constexpr std::size_t enough = 18;
  if (name.size() <= enough) return name;
  const std::size_t dash = name.rfind('-', enough);
  return name.substr(0, dash == std::string::npos || dash < 3 ? enough : dash);
}

/// Where in the world a longitude lies, in rough words.
std::string_view part_of_the_world(const works::Place& place) {
  if (place.longitude < -30) return place.latitude > 15 ? "North America" : "South America";
  if (place.longitude < 25) return place.latitude > 35 ? "Europe" : "Africa";
  if (place.longitude < 60)
    return place.latitude > 35 ? "eastern Europe or western Asia" : "Africa or Arabia";
  if (place.latitude < -10) return "Australia or the sea about it";
  return place.longitude < 95 ? "the middle of Asia" : "eastern Asia";
}

// A clock keeps within two hours and a half of the sun; Spain and western China come closest to that.
constexpr double farthest_from_the_sun = 2.5;
// A town named for a place keeps its clock; beyond this it is another place's.
constexpr double not_its_clock = 3;
/// Nobody lodges for less: common practice, no source.
constexpr double lodges_from_hours = 1.5;

}  // namespace

Metres usual_clear_width(works::Measure measure) {
  return Metres(measure == works::Measure::feet ? 3 * works::foot : 0.9);
}

void ask_trip(Talk& talk, works::Job& job, Instant now) {
  works::Trip& trip = job.trip;
  const auto& zone = trip.home_zone;
  const bool american = job.limits.set == trade::LimitSet::us;
  // Nobody sets out between four in the afternoon and four in the morning without saying so.
  const works::TimeWays leaving{american, 4, true};
  trip.leave_home =
      talk.ask<Instant>({"leave", "When do you leave home?", "",
                         "Day and time by the clock of home, such as Mon 5:00, Monday at half seven or 12 "
                         "Feb 6am. A weekday is the "
                         "next one."},
                        [&](auto said) { return works::moment_answer(said, zone, now, leaving); });
  talk.say(fmt::format("Leave {}.", base::day_and_time(zone.to_local(trip.leave_home))));
  const works::TimeWays being_home{american, {}, false, zone.day_of(now)};
  std::string open_hour;  // "Fri 6", which could be in the morning or in the evening
  trip.home_by = talk.ask<Instant>(
      {"home-by", "When did you promise to be home?", "",
       "Day and time, such as Thu 21:00 or Thu 9pm. The plan works back from it."},
      [&](std::string_view said) -> Answer<Instant> {
        // "6pm", "evening": the half of the day for the hour just said.
        if (const auto half = half_of_day(said); half && !open_hour.empty()) {
          auto both = works::moment_answer(open_hour + *half, zone, trip.leave_home, being_home);
          if (std::holds_alternative<Instant>(both)) return both;
        }
        auto answer = works::moment_answer(said, zone, trip.leave_home, being_home);
        const bool refused = std::holds_alternative<Refused>(answer);
        const auto evening =
            works::moment_answer(std::string(said) + " evening", zone, trip.leave_home, being_home);
        open_hour = refused && std::holds_alternative<Instant>(evening) ? std::string(said) : std::string();
        return answer;
      },
      std::optional<Instant>(),
      [&](const Instant& home_by) {
        works::Job probe = job;
        probe.trip.home_by = home_by;
        return wrong_with_trip(probe);
      },
      [&](const Instant& home_by) { return base::day_and_time(zone.to_local(home_by)); });
  talk.say(fmt::format("Home by {}.", base::day_and_time(zone.to_local(trip.home_by))));
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
  parts();
  extras();
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
  works::Name usual = short_name(works::name_from(job_.title));
  const auto is_taken = [&](const works::Name& name) {
    return std::find(taken_.begin(), taken_.end(), name) != taken_.end();
  };
  for (int n = 2; is_taken(usual); ++n)
    usual = short_name(works::name_from(job_.title)) + "-" + std::to_string(n);
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
  const base::Zone& home = job_.trip.home_zone;
  const auto place = talk_.ask<works::Place>(
      {"place", "Where is it? The two numbers of your phone's map", "",
       "Hold a finger on the spot on your phone's map: it shows two numbers, such as 51.9 -3.4. West of "
       "Greenwich the second is negative, or write 51.9N 3.4W. Light and weather are worked out from it."},
      [&](std::string_view said) -> Answer<works::Place> {
        auto answer = works::place_answer(said);
        const auto* at = std::get_if<works::Place>(&answer);
        const bool lettered = said.find_first_of("eEwW+") != std::string_view::npos;
        if (at != nullptr && !lettered && at->longitude > 0 &&
            hours_apart(at->longitude, home, now_) <= farthest_from_the_sun &&
            hours_apart(-at->longitude, home, now_) <= farthest_from_the_sun) {
          // By the clock of home it could be either.
          return Refused{works::place_text({at->latitude, -at->longitude}) + " or " + works::place_text(*at),
                         "West or east of Greenwich?"};
        }
        if (at == nullptr || lettered || hours_apart(at->longitude, home, now_) <= farthest_from_the_sun ||
            hours_apart(-at->longitude, home, now_) > farthest_from_the_sun)
          return answer;
        const works::Place mirrored{at->latitude, -at->longitude};
        return Refused{works::place_text(mirrored) + ", or " + works::place_text(*at) + " if that is meant",
                       fmt::format("That is in {}, some {:.0f} hours of sun from home: west is minus.",
                                   part_of_the_world(*at), hours_apart(at->longitude, home, now_))};
      });
  job_.site.latitude = place.latitude;
  job_.site.longitude = place.longitude;
  if (hours_apart(place.longitude, job_.site.zone, now_) > farthest_from_the_sun) {
    talk_.say(fmt::format("That is far from home, in {}.", part_of_the_world(place)));
    job_.site.zone = talk_.ask<base::Zone>(
        {"site-clock", "Which town's clock is kept there?", "",
         "A town of that time zone, such as New York. If the place is wrong, go back."},
        [&](auto said) { return zone_answer(said, zones_); }, std::optional<base::Zone>(),
        [&](const base::Zone& zone) -> std::optional<Refused> {
          const double apart = hours_apart(place.longitude, zone, now_);
          if (apart <= not_its_clock) return {};
          return Refused{"a town near there, or back to put the place right",
                         fmt::format("{} keeps a clock {:.0f} hours from the sun at {}; west is minus.",
                                     zone.name(), apart, works::place_text(place))};
        });
  }
  job_.trip.drive_out = talk_.ask<Hours>(
      {"drive", "Hours at the wheel to get there, one way", "",
       "Rests not counted; the plan adds them. Such as 2 h, 2:30, 45 min or an hour and a half."},
      [](auto said) { return works::hours_answer(said, 0, 24); });
  job_.trip.drive_back = job_.trip.drive_out;
  ask_trip(talk_, job_, now_);
  days();
}

// The plan knows no drive home in the evening; so near, it is taken that he drives, and the days are cut to
// what the drives leave of them.
bool fit_days(works::Job& job) {
  works::Trip& trip = job.trip;
  const base::Zone& home = trip.home_zone;
  const double drive = trip.drive_out.value();
  const bool nights = home.day_of(trip.leave_home) != home.day_of(trip.home_by);
  if (!nights || drive <= 0 || drive >= lodges_from_hours) return false;
  const auto there = home.to_local(trip.leave_home) - home.day_of(trip.leave_home) +
                     std::chrono::seconds(std::lround(drive * 3600));
  const auto first = std::chrono::ceil<std::chrono::minutes>(there);
  if (first > trip.working_day.from && first + std::chrono::hours(1) <= trip.working_day.to)
    trip.working_day.from = first;
  const double red_line = works::limits_of(job).values.hours(trade::limit::day_red_line).value();
  const double span = static_cast<double>((trip.working_day.to - trip.working_day.from).count()) / 60;
  trip.longest_day = Hours(std::max(1.0, std::min({trip.longest_day.value(), span, red_line - 2 * drive})));
  return true;
}

void JobAsk::days() {
  if (!fit_days(job_)) return;
  talk_.say(fmt::format(
      "So near, it is taken that you drive home each evening: on site {}, at most {} h of work a "
      "day.",
      works::span_words(job_.trip.working_day), base::plain_number(job_.trip.longest_day.value(), 2)));
}

}  // namespace weatherstruck::desk
