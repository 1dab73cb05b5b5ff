#include "weatherstruck/render/hindrance_words.h"

#include <fmt/format.h>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::render {
namespace {

using programme::Hindrance;

std::string wait_words(works::Wait wait) {
  switch (wait) {
    case works::Wait::concrete_to_lay:
    case works::Wait::concrete_to_lay_box:
    case works::Wait::concrete_to_lay_high:
      return "the wait on the concrete of";
    case works::Wait::mortar_to_fill_half:
      return "the wait before half the fill of";
    case works::Wait::mortar_to_fill:
      return "the wait before the fill of";
    case works::Wait::mortar_to_point:
      return "the wait before pointing";
    case works::Wait::plate_to_strap:
      return "the wait before strapping the plates of";
    case works::Wait::bed_to_grout:
      return "the wait before grouting";
    case works::Wait::hours:
    case works::Wait::none:
      break;
  }
  return "the wait set for";
}

std::string hours_words(const works::Trip& trip) {
  const auto clock = [](std::chrono::minutes m) {
    return fmt::format("{:02}:{:02}", m.count() / 60, m.count() % 60);
  };
  return fmt::format("days from {} to {} of at most {} h", clock(trip.working_day.from),
                     clock(trip.working_day.to), base::plain_number(trip.longest_day.value(), 1));
}

std::string the(const works::Name& part) {
  return part.empty() ? std::string("the site") : "the " + works::spoken(part);
}

}  // namespace

std::string hindrance_words(const works::Job& job, const Hindrance& fact) {
  switch (fact.kind) {
    case Hindrance::Kind::rain:
      return "the rain of " + base::day_name(fact.day);
    case Hindrance::Kind::cold:
      return "the cold of the night to " + base::day_name(fact.day);
    case Hindrance::Kind::heat:
      return "the heat of " + base::day_name(fact.day);
    case Hindrance::Kind::wind:
      return "the wind of " + base::day_name(fact.day);
    case Hindrance::Kind::dark:
      return "the dark, without lights";
    case Hindrance::Kind::hours:
      return hours_words(job.trip);
    case Hindrance::Kind::quiet_hours:
      return "the quiet hours";
    case Hindrance::Kind::fixed_times:
      return "the fixed times";
    case Hindrance::Kind::delivery:
      return "the delivery after you come";
    case Hindrance::Kind::wait:
      return wait_words(fact.wait) + " " + the(fact.part);
    case Hindrance::Kind::striking:
      return "the joints of " + the(fact.part);
    case Hindrance::Kind::covers:
      return "no more covers than there are";
    case Hindrance::Kind::hands:
      return "one pair of hands";
    case Hindrance::Kind::part:
      return the(fact.part);
    case Hindrance::Kind::promise:
      return "the promised hour";
  }
  return {};
}

std::string without_words(const works::Job& job, const Hindrance& fact) {
  switch (fact.kind) {
    case Hindrance::Kind::dark:
      return "with lights";
    case Hindrance::Kind::hours:
      return "with days from 06:00 to 21:00 where it must be";
    case Hindrance::Kind::delivery:
      return "with the delivery there when you come";
    case Hindrance::Kind::striking:
      return "without striking or pointing " + the(fact.part);
    case Hindrance::Kind::covers:
      return job.limits.set == trade::LimitSet::us ? "with 200 sq ft more of each cover"
                                                   : "with 20 m2 more of each cover";
    case Hindrance::Kind::hands:
      return "with a second who lays bricks";
    case Hindrance::Kind::promise:
      return "with a later promise";
    default:
      return "without " + hindrance_words(job, fact);
  }
}

}  // namespace weatherstruck::render
