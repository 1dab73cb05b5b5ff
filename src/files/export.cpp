#include "weatherstruck/files/export.h"

#include <fmt/format.h>

namespace weatherstruck::files {

Json export_document(std::string_view kind) {
  return {{"schema", fmt::format("weatherstruck/{}", kind)}, {"version", export_schema_version}};
}

Json faults_to_json(const base::Faults& faults, const JsonLines& lines) {
  Json out = Json::array();
  for (const auto& fault : faults) {
    Json one = {{"code", fault.code},
                {"pointer", fault.place},
                {"found", fault.found},
                {"expected", fault.expected},
                {"hint", fault.remedy}};
    if (const auto line = line_of(lines, fault.place)) one["line"] = *line;
    out.push_back(std::move(one));
  }
  return out;
}

std::string export_text(const Json& document) {
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace weatherstruck::files
