// Whatever bytes come, a reader gives a series or faults. Which reader, WEATHERSTRUCK_FUZZ says; fuzz/run
// goes through all of them. What it finds is kept in found/ and read by tests/feed/found_inputs_test.cpp ever
// after.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/feed/csv_weather.h"
#include "weatherstruck/feed/isd_lite.h"
#include "weatherstruck/feed/met_norway.h"
#include "weatherstruck/feed/mosmix.h"
#include "weatherstruck/feed/nws_grid.h"
#include "weatherstruck/feed/nws_observations.h"
#include "weatherstruck/feed/open_meteo.h"
#include "weatherstruck/files/json.h"

namespace {

namespace feed = weatherstruck::feed;
using weatherstruck::base::Faults;
using weatherstruck::sky::Series;

template <Series (*read)(const weatherstruck::files::Json&, const feed::ReadOptions&, Faults&)>
Series json(std::string_view text, const feed::ReadOptions& options, Faults& faults) {
  const auto parsed = weatherstruck::files::parse_json(text, weatherstruck::files::JsonLimits::forecast());
  if (parsed.value) return read(*parsed.value, options, faults);
  faults = parsed.faults;
  return {};
}

Series csv(std::string_view text, const feed::ReadOptions& options, Faults& faults) {
  return feed::read_csv_weather("fuzz", text, options, faults);
}
Series isd_lite(std::string_view text, const feed::ReadOptions& options, Faults& faults) {
  return feed::read_isd_lite("fuzz", text, options, faults);
}

struct Kind {
  std::string_view name;
  Series (*read)(std::string_view, const feed::ReadOptions&, Faults&);
};
constexpr Kind kinds[] = {{"met_norway", &json<&feed::read_met_norway>},
                          {"nws_grid", &json<&feed::read_nws_grid>},
                          {"nws_observations", &json<&feed::read_nws_observations>},
                          {"open_meteo", &json<&feed::read_open_meteo>},
                          {"mosmix", &feed::read_mosmix},
                          {"archive", &feed::read_mosmix_archive},
                          {"isd_lite", &isd_lite},
                          {"csv", &csv}};

const Kind& chosen() {
  const char* name = std::getenv("WEATHERSTRUCK_FUZZ");
  for (const Kind& kind : kinds) {
    if (name != nullptr && kind.name == name) return kind;
  }
  std::fputs("WEATHERSTRUCK_FUZZ names the reader; fuzz/run has them.\n", stderr);
  std::exit(2);
}

feed::ReadOptions options() {
  feed::ReadOptions out;
  out.zone = weatherstruck::base::Zone::fixed("UTC", std::chrono::seconds(0));
  return out;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  static const feed::ReadOptions how = options();
  Faults faults;
  static const Kind kind = chosen();
  const Series series = kind.read(text, how, faults);
  // Both at once would let half a forecast through; neither would be silence.
  if (!faults.empty() && !series.empty()) std::abort();
  for (std::size_t i = 1; i < series.hours.size(); ++i) {
    if (series.hours[i].start - series.hours[i - 1].start != std::chrono::hours(1)) std::abort();
  }
  for (const auto& hour : series.hours) {
    if (hour.rain && !(hour.rain->value.value() >= 0)) std::abort();
  }
  return 0;
}
