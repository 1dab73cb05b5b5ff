#pragma once
// The system's time zone database, read through the date library: the one place that knows it. What
// comes out is plain data (base::Zone), so that no floor below needs the database.
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/zone.h"

namespace weatherstruck::files {

/// Either a zone or a fault.
struct ZoneRead {
  std::optional<base::Zone> zone;
  std::optional<base::Fault> fault;  ///< code "unknown-zone", place empty: the caller knows where
};

/// Where zones come from; tests hand in their own.
class ZoneSource {
 public:
  virtual ~ZoneSource() = default;
  /// The zone of an IANA name such as "Europe/London"; the case counts. An unknown name comes back as a
  /// fault that names the nearest known ones.
  [[nodiscard]] virtual ZoneRead find(std::string_view name) const = 0;
  /// The release of the data, such as "2025b"; "unknown" where it cannot be told.
  [[nodiscard]] virtual std::string version() const = 0;
};

/// /usr/share/zoneinfo through the date library; changes from 1970 to the end of 2100. The version is
/// that of the first line of tzdata.zi ("# version 2025b").
class SystemZones final : public ZoneSource {
 public:
  [[nodiscard]] ZoneRead find(std::string_view name) const override;
  [[nodiscard]] std::string version() const override;
  /// Every name the system knows, sorted.
  [[nodiscard]] std::vector<std::string> names() const;
};

/// The name of the zone by which the machine goes: that of TZ, else the one that `link` leads to in the
/// folder of zones. Empty where neither names one, and for UTC, which nobody lives by.
[[nodiscard]] std::string machine_zone(std::string_view tz,
                                       const std::filesystem::path& link = "/etc/localtime");

}  // namespace weatherstruck::files
