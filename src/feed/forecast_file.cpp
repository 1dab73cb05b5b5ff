#include "weatherstruck/feed/forecast_file.h"

#include <algorithm>
#include <utility>

#include "csv_columns.h"
#include "packed.h"
#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/feed/csv_weather.h"
#include "weatherstruck/feed/file_source.h"
#include "weatherstruck/feed/isd_lite.h"
#include "weatherstruck/feed/met_norway.h"
#include "weatherstruck/feed/mosmix.h"
#include "weatherstruck/feed/nws_grid.h"
#include "weatherstruck/feed/nws_observations.h"
#include "weatherstruck/feed/open_meteo.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::feed {
namespace {

using base::Fault;
using files::Json;

constexpr std::string_view kWhatIsRead =
    "an answer of MET Norway, of the US National Weather Service (grid data or observations) or in the shape "
    "of "
    "Open-Meteo, a MOSMIX forecast (KMZ), ISD-Lite, or a CSV table";

std::string_view first_text(std::string_view bytes) {
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  const auto start = bytes.find_first_not_of(" \t\r\n");
  return start == std::string_view::npos ? std::string_view{} : bytes.substr(start);
}

// One line of a message a service sent in place of a forecast.
std::string first_words(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (out.size() >= 80) break;
    if (c == '\n' || c == '\r' || c == '\t')
      out += ' ';
    else
      out += c >= ' ' && c < 0x7f ? c : '?';
  }
  while (!out.empty() && out.back() == ' ')
    out.pop_back();
  return out;
}

std::string web_page_title(std::string_view page) {
  const auto open = page.find("<title>");
  const auto close = page.find("</title>");
  if (open == std::string_view::npos || close == std::string_view::npos || close < open + 7) return {};
  return first_words(page.substr(open + 7, close - open - 7));
}

const Json* member(const Json& object, const char* key) {
  if (!object.is_object()) return nullptr;
  const auto found = object.find(key);
  return found == object.end() || found->is_null() ? nullptr : &*found;
}

// Observations of a station: a list of reports, each with its moment.
bool are_reports(const Json& document) {
  const Json* features = member(document, "features");
  if (features == nullptr || !features->is_array() || features->empty()) return false;
  const Json* properties = member(features->front(), "properties");
  return properties != nullptr && member(*properties, "timestamp") != nullptr;
}

std::optional<ForecastKind> kind_of(const Json& document) {
  if (are_reports(document)) return ForecastKind::nws_observations;
  const Json* hourly = member(document, "hourly");
  if (hourly != nullptr && member(*hourly, "time") != nullptr) return ForecastKind::open_meteo;
  const Json* properties = member(document, "properties");
  if (properties == nullptr || !properties->is_object()) return std::nullopt;
  if (member(*properties, "timeseries") != nullptr) return ForecastKind::met_norway;
  const bool layers = std::any_of(properties->begin(), properties->end(),
                                  [](const Json& value) { return member(value, "values") != nullptr; });
  if (layers) return ForecastKind::nws_grid;
  // A grid that is empty for an hour still says for when it would be; the text forecast says so too.
  if (member(*properties, "validTimes") != nullptr && member(*properties, "periods") == nullptr) {
    return ForecastKind::nws_grid;
  }
  return std::nullopt;
}

std::string text_of(const Json& object, const char* key) {
  const Json* value = member(object, key);
  if (value == nullptr) return {};
  return value->is_string() ? first_words(value->get<std::string>()) : files::shown(*value);
}

// JSON that is no forecast: say what it is.
Fault other_json(const Json& document) {
  if (member(document, "status") != nullptr && member(document, "title") != nullptr) {
    // application/problem+json (RFC 7807), as the US service sends it.
    std::string found = text_of(document, "title") + " (" + text_of(document, "status") + ")";
    if (const std::string detail = text_of(document, "detail"); !detail.empty()) found += ": " + detail;
    return {"service-error", "", found, "a forecast",
            "Check the place; where the service was unavailable, fetch again in some minutes."};
  }
  if (const std::string reason = text_of(document, "reason"); !reason.empty()) {
    return {"service-error", "/reason", reason, "a forecast", "Put the request right and fetch again."};
  }
  if (const Json* properties = member(document, "properties")) {
    if (member(*properties, "periods") != nullptr) {
      return {"no-amounts", "/properties/periods",
              "an hourly text forecast, which has no rain amounts or gusts", "grid data",
              "Fetch the address under forecastGridData of the points answer."};
    }
    if (const std::string grid = text_of(*properties, "forecastGridData"); !grid.empty()) {
      return {"not-a-forecast", "/properties/forecastGridData",
              "a points answer, which only names where forecasts are", "grid data",
              "Fetch " + grid + " and save that."};
    }
  }
  return {"not-a-forecast", "", files::shown(document), std::string(kWhatIsRead),
          "Check that this is the right file."};
}

sky::Series read_as(std::optional<ForecastKind> kind, const Json& document, const ReadOptions& options,
                    base::Faults& faults) {
  if (kind == ForecastKind::met_norway) return read_met_norway(document, options, faults);
  if (kind == ForecastKind::nws_grid) return read_nws_grid(document, options, faults);
  if (kind == ForecastKind::nws_observations) return read_nws_observations(document, options, faults);
  if (kind == ForecastKind::open_meteo) return read_open_meteo(document, options, faults);
  faults.push_back(other_json(document));
  return {};
}

// Text that is neither JSON nor a table.
Fault other_text(std::string_view bytes) {
  const std::string_view text = first_text(bytes);
  if (text.empty()) {
    return {"empty-input", "", "nothing but blanks", std::string(kWhatIsRead), "Fetch the forecast again."};
  }
  if (bytes.find('\0') != std::string_view::npos) {
    return {"not-a-forecast", "", "bytes that are no UTF-8 text", std::string(kWhatIsRead),
            "Save the table as CSV in UTF-8."};
  }
  if (text.front() == '<') {
    const std::string title = web_page_title(text);
    return {"service-error", "line 1", title.empty() ? "a web page or XML" : "a web page: " + title,
            std::string(kWhatIsRead), "The service answered with a page: fetch the forecast again."};
  }
  const bool few_lines = std::count(text.begin(), text.end(), '\n') <= 3 && text.size() <= 400;
  if (few_lines) {
    return {"service-error", "line 1", first_words(text), std::string(kWhatIsRead),
            "The service sent this message in place of a forecast: fetch again."};
  }
  return {"not-a-forecast", "line 1", fit_to_show(text.substr(0, text.find('\n'))), std::string(kWhatIsRead),
          "For a table, put a header such as \"time,temperature,wind,rain\" above the rows."};
}

}  // namespace

std::optional<ForecastKind> recognise(std::string_view bytes) {
  if (is_zip(bytes)) return ForecastKind::mosmix;
  if (is_gzip(bytes)) {
    const Unpacked unpacked = gunzipped(bytes, kMostForecastBytes);
    return is_gzip(unpacked.bytes) ? std::nullopt : recognise(unpacked.bytes);
  }
  const std::string_view text = first_text(bytes);
  if (text.starts_with("<"))
    return looks_like_mosmix(text) ? std::optional(ForecastKind::mosmix) : std::nullopt;
  if (text.starts_with("{")) {
    const files::ParsedJson parsed = files::parse_json(bytes, files::JsonLimits::forecast());
    return parsed.value ? kind_of(*parsed.value) : std::nullopt;
  }
  if (bytes.find('\0') != std::string_view::npos) return std::nullopt;
  if (looks_like_isd_lite(bytes)) return ForecastKind::isd_lite;
  return looks_like_csv_weather(bytes) ? std::optional(ForecastKind::csv) : std::nullopt;
}

sky::Series read_forecast(std::string_view name, std::string_view bytes, const ReadOptions& options) {
  base::Faults faults;
  sky::Series series;
  if (!(options.gust_factor >= 1.0 && options.gust_factor <= 5.0)) {
    faults.push_back({"out-of-range", "gust factor", base::plain_number(options.gust_factor, 2), "1 to 5",
                      "Leave it out to take the usual factor."});
    throw base::InputError(std::string(name), std::move(faults));
  }
  if (is_gzip(bytes)) {
    const Unpacked unpacked = gunzipped(bytes, kMostForecastBytes);
    if (!unpacked.trouble.empty() || is_gzip(unpacked.bytes)) {
      faults.push_back({"bad-archive", "",
                        unpacked.trouble.empty() ? "a gzip file in a gzip file" : unpacked.trouble,
                        "a gzip file with one forecast in it", "Fetch it again, or unpack it first."});
      throw base::InputError(std::string(name), std::move(faults));
    }
    return read_forecast(name, unpacked.bytes, options);
  }
  const std::string_view text = first_text(bytes);
  if (is_zip(bytes)) {
    series = read_mosmix_archive(bytes, options, faults);
  } else if (text.starts_with("<") && looks_like_mosmix(text)) {
    series = read_mosmix(text, options, faults);
  } else if (text.starts_with("{") || text.starts_with("[")) {
    files::ParsedJson parsed = files::parse_json(bytes, files::JsonLimits::forecast());
    if (!parsed.value) throw base::InputError(std::string(name), std::move(parsed.faults));
    series = read_as(kind_of(*parsed.value), *parsed.value, options, faults);
  } else if (const auto kind = recognise(bytes); kind == ForecastKind::isd_lite) {
    series = read_isd_lite(name, bytes, options, faults);
  } else if (kind == ForecastKind::csv) {
    series = read_csv_weather(name, bytes, options, faults);
  } else {
    faults.push_back(other_text(bytes));
  }
  if (faults.empty() && series.empty()) {
    faults.push_back(
        {"empty-forecast", "", "no hour with a value", "at least one", "Fetch the forecast again."});
  }
  if (!faults.empty()) throw base::InputError(std::string(name), std::move(faults));
  return series;
}

}  // namespace weatherstruck::feed
