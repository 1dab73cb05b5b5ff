#pragma once
// The time stamps of tables.
#include <optional>
#include <string_view>
#include <variant>

#include "weatherstruck/base/zone.h"

namespace weatherstruck::feed {

/// A moment, or a local time that needs a zone, or nothing that can be read, or a date whose order is
/// anyone's guess.
struct UnclearDate {};
using Stamp = std::variant<std::monostate, base::Instant, base::LocalTime, UnclearDate>;

/// Reads ISO 8601 (with or without offset), "dd.mm.yyyy hh:mm", "dd.mm.yy hh:mm", "dd-mon-yyyy hh:mm"
/// (English months), a date alone (midnight), or, where `epoch`, seconds since 1970. "3/4/2026" is
/// UnclearDate.
[[nodiscard]] Stamp read_stamp(std::string_view text, bool epoch);

}  // namespace weatherstruck::feed
