#pragma once
// Shared by the tests and by the program that they kill.
#include <string>

#include "weatherstruck/record/rows.h"

namespace weatherstruck::record {

/// A different entry for each number, of a few bytes up to several pages.
inline NewEntry numbered_entry(std::int64_t number) {
  const auto length = static_cast<std::size_t>(number * 2711 % 15000);
  NewEntry entry;
  entry.key = "key-" + std::to_string(number);
  entry.kind = "note";
  entry.at = base::Instant(std::chrono::seconds(1770624000 + 60 * number));
  entry.zone = "Europe/London";
  entry.noted_at = entry.at + std::chrono::seconds(5);
  entry.body = "{\"number\":" + std::to_string(number) + ",\"text\":\"" +
               std::string(length, static_cast<char>('a' + number % 26)) + "\"}";
  return entry;
}

/// Bytes that begin as a JPEG does, different for each number, of a few bytes up to many pages.
inline std::string numbered_photograph(std::int64_t number) {
  const auto length = static_cast<std::size_t>(number * 7919 % 90000);
  return "\xFF\xD8\xFF" + std::to_string(number) + std::string(length, static_cast<char>('A' + number % 26));
}

}  // namespace weatherstruck::record
