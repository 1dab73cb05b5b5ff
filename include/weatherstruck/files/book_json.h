#pragma once
// What an entry of the site book says, as the record keeps it: a word for its kind and a JSON object.
#include <string>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/works/book.h"

namespace weatherstruck::files {

/// "begin", "done", "stood-down", "level", "count", "arrived", "note", "expense", "extra", "cover-on",
/// "cover-off", "canopy-up", "canopy-down", "thermometer", "gauge", "struck". Stable: they lie in records.
[[nodiscard]] std::string kind_of(const works::What& what);
/// The rest of it; moments in UTC. Members are never renamed: old records hold them.
[[nodiscard]] Json body_of(const works::What& what);

/// The way back. @throws base::InputError where kind or body are not what this version writes ("bad-entry";
/// a newer program may have written it)
[[nodiscard]] works::What what_of(const std::string& kind, const std::string& body,
                                  const std::string& source);

}  // namespace weatherstruck::files
