#pragma once
// The sections that the job document and his own have in common, read and written; and what writing shares.
#include <cstdint>
#include <string_view>
#include <vector>

#include "weatherstruck/files/json.h"
#include "weatherstruck/files/reader.h"
#include "weatherstruck/files/words.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

template <class E>
E word(ObjectReader& from, std::string_view key, E fallback) {
  return from.word<E>(key, words_of<E>(), fallback);
}

/// An absent section reads as an empty object: its defaults stand in one place, and what it needs is told
/// member by member.
[[nodiscard]] ObjectReader section(ObjectReader& parent, std::string_view key, std::string_view shape);

/// The zone named under a key; without `fallback` the key is needed, and UTC stands in.
[[nodiscard]] base::Zone read_zone(ObjectReader& from, std::string_view key, const ZoneSource& zones,
                                   const base::Zone* fallback);
/// The list under "crew"; one mason where it is absent.
[[nodiscard]] std::vector<works::Person> read_crew(ObjectReader& document);
[[nodiscard]] works::Kit read_kit(ObjectReader from);
[[nodiscard]] works::Limits read_limits(ObjectReader from);
[[nodiscard]] works::Practice read_practice(ObjectReader from);

/// The version number under "weatherstruck", a fault unless it is `known`.
void read_version(ObjectReader& document, int known);

/// By the line each place stands on; what has none comes last.
void in_order_of_text(base::Faults& faults, const JsonLines& lines);

/// A whole number is written without a decimal point, as people write it.
[[nodiscard]] Json number(double value);
template <class Unit>
[[nodiscard]] Json number(base::Quantity<Unit> value) {
  return number(value.value());
}
/// Hours that are no short decimal are written as "h:mm", if they are whole minutes.
[[nodiscard]] Json duration(base::Hours value);
[[nodiscard]] Json spans_json(const std::vector<works::DaySpan>& list);
[[nodiscard]] Json crew_json(const std::vector<works::Person>& crew);
[[nodiscard]] Json kit_json(const works::Kit& kit);
[[nodiscard]] Json limits_json(const works::Limits& limits);
[[nodiscard]] Json practice_json(const works::Practice& practice);

}  // namespace weatherstruck::files
