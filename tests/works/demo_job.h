#pragma once
// A job invented for the tests and the demonstration: nobody's garden, nobody's order.
#include <chrono>

#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

inline base::Zone winter_greenwich() {
  return base::Zone("Europe/London", std::chrono::seconds(0), "GMT", {});
}

/// A potting shelter's dwarf walls with plates, a long bed, three steps and a flagged path on a slope in a
/// Welsh valley in February; one mason, four days.
inline Job demo_job() {
  using namespace std::chrono_literals;
  using base::Hours;
  using base::Metres;
  const auto day = [](unsigned d) {
    return std::chrono::sys_days(
        std::chrono::year_month_day(std::chrono::year(2026), std::chrono::February, std::chrono::day(d)));
  };
  const base::Zone zone = winter_greenwich();
  const DaySpan weekday{7h + 30min, 19h};
  Route side{"side-gate", Metres(38), Metres(3), 0, Metres(0.75), {"path"}};
  Job job{
      .name = "valley-shelter",
      .title = "Potting shelter base, long bed, steps and path",
      .customer = {"Marged Penhallow-Rees", "Ty'r Odyn, Nant-y-Glaw"},
      .site = {.latitude = 52.06,
               .longitude = -3.61,
               .altitude = Metres(180),
               .zone = zone,
               .soil = trade::Soil::garden,
               .routes = {side},
               .noisy = {.monday_to_friday = {weekday}, .saturday = {{8h, 13h}}, .sunday = {}}},
      .trip = {.leave_home = day(9) + 5h,
               .home_by = day(12) + 21h,
               .drive_out = Hours(2),
               .drive_back = Hours(2),
               .home_zone = zone,
               .working_day = {7h, 21h},
               .longest_day = Hours(14)},
      .crew = {{"mason", true, 1.3}},
      .kit = {},
      .limits = {},
      .practice = {},
      .parts = {},
      .importance = {},
      .tasks = {},
      .supplies = {},
      .fixed = {},
      .fallbacks = {},
  };
  job.kit.hessian = base::SquareMetres(20);
  job.kit.sheet = base::SquareMetres(30);
  job.kit.canopy = Canopy{Metres(3), Metres(3)};
  job.kit.floodlights = true;
  job.kit.van_payload = base::Kilograms(1100);

  Base shelter;
  shelter.name = "shelter";
  shelter.length = Metres(3.0);
  shelter.width = Metres(1.8);
  shelter.drop_along_length = Metres(0.15);
  shelter.courses = 6;
  shelter.courses_below = 2;
  shelter.door_side = Side::south;
  shelter.door_width = Metres(0.9);
  job.parts.emplace_back(shelter);

  Bed bed;
  bed.name = "bed";
  bed.length = Metres(3.0);
  bed.width = Metres(0.9);
  bed.courses = 3;
  bed.drop = Metres(0.15);
  job.parts.emplace_back(bed);

  Steps steps;
  steps.name = "steps";
  steps.count = 3;
  steps.width = Metres(0.9);
  job.parts.emplace_back(steps);

  Path path;
  path.name = "path";
  path.length = Metres(6);
  path.width = Metres(0.75);
  job.parts.emplace_back(path);

  job.importance = {{"steps", Importance::should}, {"path", Importance::may}};
  job.fallbacks = {
      {Fallback::Kind::gravel_for_flags, "path", base::Money(12000, *base::Currency::from_code("GBP"))}};
  const auto kerb = day(9) + 7h + 45min;
  job.supplies.deliveries = {{"facing-brick", 1000, kerb},     {"cement", 700, kerb},
                             {"engineering-brick", 400, kerb}, {"sharp-sand", 1.59, kerb},
                             {"coarse-aggregate", 1.56, kerb}, {"building-sand", 0.6, kerb},
                             {"sub-base", 0.88, kerb}};
  job.supplies.merchant = Merchant{Hours(25 / 60.0), {{7h + 30min, 17h}}, {{8h, 12h}}};
  return job;
}

}  // namespace weatherstruck::works
