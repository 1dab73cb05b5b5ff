#include "weatherstruck/files/day_book_json.h"

#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

Json work_json(const render::WorkDone& done) {
  Json out = {{"from", base::iso_utc(done.from)},
              {"to", base::iso_utc(done.to)},
              {"what", done.title},
              {"amount", done.amount}};
  if (done.hours) out["hours"] = done.hours->value();
  return out;
}

Json stopped_json(const render::Stopped& stopped) {
  Json out = {{"from", base::iso_utc(stopped.from)},
              {"to", base::iso_utc(stopped.to)},
              {"cause", stopped.cause},
              {"hours", Json::array()}};
  for (const render::HourBeside& hour : stopped.hours)
    out["hours"].push_back({{"from", base::iso_utc(hour.from)}, {"weather", hour.weather}});
  return out;
}

}  // namespace

Json day_book_json(const render::DayBook& book) {
  Json out = {{"title", book.title}, {"job", book.job}, {"days", Json::array()}};
  for (const render::DaySheet& day : book.days) {
    Json one = {{"day", base::iso_local(base::LocalTime(day.day)).substr(0, 10)},
                {"weather", day.weather},
                {"people", day.people},
                {"work", Json::array()},
                {"stood_down", Json::array()},
                {"against_plan", day.against_plan},
                {"material", day.came},
                {"covers", day.covers},
                {"read", day.read},
                {"extras", day.agreed},
                {"spent", day.spent},
                {"notes", day.notes},
                {"photographs", day.photographs}};
    for (const render::WorkDone& done : day.work)
      one["work"].push_back(work_json(done));
    for (const render::Stopped& stopped : day.stopped)
      one["stood_down"].push_back(stopped_json(stopped));
    out["days"].push_back(std::move(one));
  }
  out["known"] = book.known;
  return out;
}

}  // namespace weatherstruck::files
