#include "csv_row_times.h"

#include <array>

#include <fmt/format.h>

#include "csv_lines.h"
#include "csv_times.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::feed {

using base::Instant;

std::string RowTimes::text_of(const std::vector<std::string>& fields) const {
  constexpr std::array<ColumnKind, 6> order{ColumnKind::date_and_time, ColumnKind::date,
                                            ColumnKind::year,          ColumnKind::month,
                                            ColumnKind::day_of_month,  ColumnKind::clock};
  std::string text;
  for (const ColumnKind kind : order) {
    for (const Column& column : header_.columns) {
      if (column.kind != kind) continue;
      std::string_view field = trimmed(fields[column.index]);
      const bool part = kind == ColumnKind::month || kind == ColumnKind::day_of_month;
      if (!text.empty()) text += part ? '-' : ' ';
      if (part && field.size() == 1) text += '0';
      text += field;
    }
  }
  return text;
}

std::optional<Instant> RowTimes::read(const std::vector<std::string>& fields, const std::string& place) {
  const std::string text = text_of(fields);
  const Stamp stamp = read_stamp(text, header_.epoch);
  switch (stamp.kind) {
    case Stamp::Kind::moment:
      return stamp.moment;
    case Stamp::Kind::unclear:
      add_({"unclear-date", place, fit_to_show(text), "a date such as 2026-02-09 or 9.2.2026",
            "Write dates year first: day and month cannot be told apart."});
      return std::nullopt;
    case Stamp::Kind::unreadable:
      add_({"bad-time", place, fit_to_show(text), "a time such as 2026-02-09T05:00Z or 2026-02-09 05:00",
            "Write times in ISO 8601."});
      return std::nullopt;
    case Stamp::Kind::local:
      break;
  }
  if (header_.utc) return Instant(stamp.local.time_since_epoch());
  return in_zone(stamp.local, place);
}

std::optional<Instant> RowTimes::in_zone(base::LocalTime local, const std::string& place) {
  if (!zone_) {
    if (!zone_told_) {
      add_({"no-zone", place, base::iso_local(local), "a time with Z or an offset, or a zone to read it in",
            "Name the time zone of the table, or write UTC in the heading of the time column."});
    }
    zone_told_ = true;  // it is the same fault on every line
    return std::nullopt;
  }
  const base::LocalMeaning meaning = zone_->meaning(local);
  switch (meaning.kind) {
    case base::LocalMeaning::Kind::unique:
      return meaning.first;
    case base::LocalMeaning::Kind::ambiguous: {
      Twice& twice = twice_[local];
      if (++twice.rows == 1) twice.place = place;
      if (twice.rows <= 2) return twice.rows == 1 ? meaning.first : meaning.second;
      break;
    }
    default:
      break;
  }
  const bool thrice = meaning.kind == base::LocalMeaning::Kind::ambiguous;
  add_({thrice ? "ambiguous-time" : "nonexistent-time", place, base::iso_local(local),
        thrice ? "this hour twice, once before and once after the clocks go back"
               : fmt::format("a time that comes once in {}", zone_->name()),
        thrice ? "Give times in UTC or with an offset."
               : "This hour is skipped, the clocks go forward: give times in UTC or with an offset."});
  return std::nullopt;
}

void RowTimes::finish() {
  for (const auto& [local, twice] : twice_) {
    if (twice.rows != 1) continue;
    add_({"ambiguous-time", twice.place, base::iso_local(local),
          fmt::format("a time that comes once in {}, or a row for each of the two", zone_->name()),
          "This hour comes twice, the clocks go back: give times in UTC or with an offset."});
  }
}

}  // namespace weatherstruck::feed
