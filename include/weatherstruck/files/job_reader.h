#pragma once
// The job document: JSON text in, works::Job out, or every fault at once. What a key means and may be
// stands in docs/job.schema.json, which a test holds against this reader. Lengths are metres, durations
// hours ("1.5" or "1:30"), moments clock times of the site ("2026-02-09T05:30"; of home for the trip).
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// The version of the document's shape: its first member, "weatherstruck".
inline constexpr int job_schema_version = 1;

/// Either a job and no faults, or faults and no job.
struct JobRead {
  std::optional<works::Job> job;
  base::Faults faults;  ///< in the order of the text; places are JSON pointers, or line and column where the
                        ///< text is no JSON
  base::Faults advice;  ///< of the works checks: worth showing, stops nothing
  JsonLines lines;      ///< line of each value, for showing beside a fault; see line_of()
  /// The keys each shape of the document was asked for, for the test against the schema.
  std::map<std::string, std::set<std::string>, std::less<>> shapes;
};

/// Reads a whole document: the text (parse_json), its shape (ObjectReader), its sense (works checks).
[[nodiscard]] JobRead read_job(std::string_view text, const ZoneSource& zones);

/// The line on which the value at `pointer`, or the nearest object around it, stands; nullopt for places
/// that are no pointer.
[[nodiscard]] std::optional<std::size_t> line_of(const JsonLines& lines, std::string_view pointer);

}  // namespace weatherstruck::files
