#include "weatherstruck/works/me.h"

#include <array>
#include <string_view>
#include <utility>

#include "weatherstruck/works/check.h"

namespace weatherstruck::works {

Me usual_me(base::Zone home_zone) {
  Me me{"", "", "", "", "", std::move(home_zone), {}, {}, {}, {}};
  me.crew.push_back({"mason", true, 1.0});
  return me;
}

Job job_for(const Me& me) {
  Site site{0, 0, {}, me.home_zone, trade::Soil::garden, {}, {}};
  site.routes.push_back({"way-in", base::Metres(20), base::Metres(0), 0, base::Metres(0.9), {}});
  site.noisy = {{usual_noisy_weekday}, {usual_noisy_saturday}, {}};
  const base::Instant from{};
  Trip trip{from,           from + std::chrono::hours(72),
            base::Hours(1), base::Hours(1),
            me.home_zone,   me.working_day,
            me.longest_day};
  return {
      "job", "job", {}, std::move(site), std::move(trip), me.crew, me.kit, me.limits, me.practice, {}, {}, {},
      {},    {},    {}};
}

base::Faults faults_of(const Me& me) {
  Job probe = job_for(me);
  // Somebody has to lay bricks; a job without parts would not ask for him.
  probe.parts.emplace_back(Path{"way", base::Metres(1), base::Metres(1)});
  constexpr std::array<std::string_view, 5> his{"/crew", "/kit", "/limits", "/practice", "/trip"};
  base::Faults out;
  for (base::Fault& fault : check(probe).faults) {
    for (const std::string_view mine : his) {
      if (fault.place.rfind(mine, 0) != 0) continue;
      if (mine == "/trip") fault.place = "/hours" + fault.place.substr(mine.size());
      out.push_back(std::move(fault));
      break;
    }
  }
  return out;
}

}  // namespace weatherstruck::works
