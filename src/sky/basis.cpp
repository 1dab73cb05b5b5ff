#include "weatherstruck/sky/basis.h"

#include <algorithm>
#include <chrono>

namespace weatherstruck::sky {
namespace {

using base::Instant;
using std::chrono::hours;

template <class T>
bool is(const Maybe<T>& value, Origin origin) {
  return value && value->origin == origin;
}

bool any(const Hour& hour, Origin origin) {
  return is(hour.temperature, origin) || is(hour.rain, origin) || is(hour.wind, origin);
}

Basis basis_of(const Series& series, const Hour& hour) {
  Basis out;
  if (!hour.temperature || !hour.rain || !hour.wind) {
    out.kind = Basis::Kind::nothing;
    return out;
  }
  const Part own = part_of(series, hour.part);
  out.source = own.source;
  out.issued = own.issued;
  if (hour.filled_from) {
    const Part other = part_of(series, *hour.filled_from);
    out.filled_from = other.source;
    out.filled_issued = other.issued;
  }
  if (any(hour, Origin::climate)) out.kind = Basis::Kind::past_years;
  if (!any(hour, Origin::measured)) return out;
  // Nobody reads wind or dew point on site.
  const bool by_station = is(hour.wind, Origin::measured) || is(hour.dew_point, Origin::measured);
  out.kind = by_station ? Basis::Kind::observed : Basis::Kind::read_on_site;
  if (!by_station) return out;
  // Under a later forecast it fills that up; what it measured was never issued.
  if (!out.filled_from.empty()) out.source = out.filled_from;
  out.issued.reset();
  out.filled_from.clear();
  out.filled_issued.reset();
  return out;
}

}  // namespace

Part part_of(const Series& series, std::uint16_t number) {
  if (number < series.parts.size()) return series.parts[number];
  return {series.source, series.attribution, series.issued};
}

bool only_readings(const Series& series) {
  bool any = false;
  for (const Hour& hour : series.hours) {
    if (!hour.temperature) continue;
    const bool measured = is(hour.temperature, Origin::measured);
    if (!measured && !is(hour.temperature, Origin::held)) return false;
    any = any || measured;
  }
  return any;
}

std::vector<Basis> bases_of(const Series& series, Instant from, Instant to) {
  std::vector<Basis> out;
  const auto put = [&](Basis next) {
    if (next.from >= next.to) return;
    if (!out.empty()) {
      Basis& last = out.back();
      Basis same = next;
      same.from = last.from;
      same.to = last.to;
      if (same == last) {
        last.to = next.to;
        return;
      }
    }
    out.push_back(std::move(next));
  };
  Instant reached = from;
  const auto nothing_until = [&](Instant end) {
    Basis none;
    none.kind = Basis::Kind::nothing;
    none.from = reached;
    none.to = end;
    put(none);
  };
  for (const Hour& hour : series.hours) {
    const Instant begin = std::max(hour.start, from);
    const Instant end = std::min(hour.start + hours(1), to);
    if (begin >= end) continue;
    nothing_until(begin);
    Basis next = basis_of(series, hour);
    next.from = begin;
    next.to = end;
    put(std::move(next));
    reached = end;
  }
  nothing_until(to);
  return out;
}

}  // namespace weatherstruck::sky
