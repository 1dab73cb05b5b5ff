#include "weatherstruck/files/departures_json.h"

#include "weatherstruck/base/text.h"

namespace weatherstruck::files {
namespace {

std::string day_text(base::LocalDay day) {
  return base::iso_local(base::LocalTime(day)).substr(0, 10);
}

}  // namespace

Json departures_json(const std::vector<programme::Departure>& departures) {
  Json list = Json::array();
  for (const programme::Departure& one : departures) {
    list.push_back({{"day", day_text(one.day)},
                    {"years", one.years},
                    {"good", one.good},
                    {"chance", one.chance()},
                    {"error", one.error()},
                    {"frost_nights", one.frost_nights},
                    {"wet_hours", one.wet_hours},
                    {"light_hours", one.light_hours}});
  }
  return list;
}

std::optional<std::vector<programme::Departure>> read_departures(std::string_view text) {
  const Json list = Json::parse(text, nullptr, false);
  if (!list.is_array()) return std::nullopt;
  std::vector<programme::Departure> out;
  try {
    for (const Json& one : list) {
      const auto day = base::parse_iso_day(one.at("day").get<std::string>());
      if (!day) return std::nullopt;
      programme::Departure made;
      made.day = *day;
      one.at("years").get_to(made.years);
      one.at("good").get_to(made.good);
      one.at("frost_nights").get_to(made.frost_nights);
      one.at("wet_hours").get_to(made.wet_hours);
      one.at("light_hours").get_to(made.light_hours);
      out.push_back(made);
    }
  } catch (const Json::exception&) {
    return std::nullopt;
  }
  return out;
}

}  // namespace weatherstruck::files
