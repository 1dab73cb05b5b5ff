#pragma once
// The time stamps of tables.
#include <string>
#include <string_view>

#include "weatherstruck/base/zone.h"

namespace weatherstruck::feed {

/// What a stamp says: a moment, a local time that needs a zone, a date whose order is anyone's guess, or
/// nothing.
struct Stamp {
  enum class Kind { unreadable, moment, local, unclear };
  Kind kind = Kind::unreadable;
  base::Instant moment{};
  base::LocalTime local{};
};

/// Reads ISO 8601 (with or without offset), "dd.mm.yyyy hh:mm", "dd.mm.yy hh:mm", "dd-mon-yyyy hh:mm"
/// (English months), "yyyymmdd hh", "yyyymmddhh", "yyyymmddhhmm", a date alone (midnight), or, where `epoch`,
/// seconds since 1970. "3/4/2026" is UnclearDate.
[[nodiscard]] Stamp read_stamp(std::string_view text, bool epoch);

/// An ISO 8601 time without its fraction of a second ("2026-02-09T10:00:00.000Z"); other text as it is.
[[nodiscard]] std::string without_fraction(std::string_view text);

}  // namespace weatherstruck::feed
