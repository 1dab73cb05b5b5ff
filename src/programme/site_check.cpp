#include "weatherstruck/programme/site_check.h"

#include "site_check_view.h"

namespace weatherstruck::programme {

std::vector<Objection> check_on_site(const works::Job& job, const works::TaskList& list,
                                     const sky::Series& weather, const trade::LimitValues& limits,
                                     const Plan& plan) {
  const site::View view(job, list, weather, limits, plan);
  std::vector<Objection> out;
  site::check_runs(view, out);
  site::check_people(view, out);
  site::check_trip(view, out);
  if (view.has_weather() && (view.has_wind() || plan.canopy.empty())) {
    site::check_limits(view, out);
    site::check_links(view, out);
    site::check_canopy(view, out);
    site::check_fresh(view, out);
  } else {
    site::object(out, "no-weather", "", job.trip.leave_home,
                 view.has_weather()
                     ? "no wind or gust in any hour; a canopy cannot be judged without"
                     : "no temperature or no rain in any hour; a plan cannot be judged without");
  }
  site::check_covers(view, out);
  site::check_stuff(view, out);
  return out;
}

}  // namespace weatherstruck::programme
