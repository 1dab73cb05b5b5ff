#pragma once
// What the answers of commands share in JSON.
#include <optional>

#include "weatherstruck/base/text.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/files/json.h"

namespace weatherstruck::app {

/// In UTC, or null.
[[nodiscard]] inline files::Json moment(const std::optional<base::Instant>& t) {
  return t ? files::Json(base::iso_utc(*t)) : files::Json(nullptr);
}

/// `make` of each of a list.
template <class List, class Make>
[[nodiscard]] files::Json each(const List& list, Make make) {
  files::Json out = files::Json::array();
  for (const auto& item : list)
    out.push_back(make(item));
  return out;
}

}  // namespace weatherstruck::app
