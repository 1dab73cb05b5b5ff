#include "weatherstruck/base/zone.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace weatherstruck::base {

namespace {

using std::chrono::seconds;

// RFC 8536 asks for offsets within -25 h .. +26 h.
constexpr std::chrono::hours widest_offset{26};

LocalTime shift_to_local(Instant t, seconds offset) {
  return LocalTime(t.time_since_epoch() + offset);
}
Instant shift_to_utc(LocalTime t, seconds offset) {
  return Instant(t.time_since_epoch() - offset);
}

}  // namespace

Zone::Zone(std::string name, seconds initial, std::string initial_abbreviation, std::vector<Change> changes)
    : name_(std::move(name)),
      initial_(initial),
      initial_abbreviation_(std::move(initial_abbreviation)),
      changes_(std::move(changes)) {
  const auto too_wide = [](seconds offset) { return offset > widest_offset || offset < -widest_offset; };
  if (too_wide(initial_)) throw std::invalid_argument("zone " + name_ + ": an offset exceeds 26 hours");
  for (std::size_t i = 0; i < changes_.size(); ++i) {
    if (i > 0 && changes_[i].at <= changes_[i - 1].at) {
      throw std::invalid_argument("zone " + name_ + ": changes are not strictly rising");
    }
    if (too_wide(changes_[i].offset)) {
      throw std::invalid_argument("zone " + name_ + ": an offset exceeds 26 hours");
    }
  }
}

Zone Zone::fixed(std::string name, seconds offset) {
  std::string abbreviation = name;
  return {std::move(name), offset, std::move(abbreviation), {}};
}

const Zone::Change* Zone::change_at(Instant t) const {
  const auto after =
      std::upper_bound(changes_.begin(), changes_.end(), t,
                       [](Instant moment, const Change& change) { return moment < change.at; });
  return after == changes_.begin() ? nullptr : &*(after - 1);
}

seconds Zone::offset_at(Instant t) const {
  const Change* change = change_at(t);
  return change != nullptr ? change->offset : initial_;
}

const std::string& Zone::abbreviation_at(Instant t) const {
  const Change* change = change_at(t);
  return change != nullptr ? change->abbreviation : initial_abbreviation_;
}

LocalTime Zone::to_local(Instant t) const {
  return shift_to_local(t, offset_at(t));
}

LocalMeaning Zone::meaning(LocalTime t) const {
  // Only offsets that hold somewhere within reach of t can give it a moment.
  const Instant reach_begin = shift_to_utc(t, widest_offset);
  const Instant reach_end = shift_to_utc(t, -widest_offset);
  const Change* const begin = changes_.data();
  const Change* const end = begin + changes_.size();
  const Change* change = change_at(reach_begin);
  seconds offset = change != nullptr ? change->offset : initial_;
  const Change* next = change != nullptr ? change + 1 : begin;
  Instant holds_from = Instant::min();
  LocalMeaning result{LocalMeaning::Kind::nonexistent, {}, {}};
  Instant jumped_at{};
  while (true) {
    const Instant holds_until = next != end ? next->at : Instant::max();
    const Instant moment = shift_to_utc(t, offset);
    if (moment >= holds_from && moment < holds_until) {
      if (result.kind == LocalMeaning::Kind::nonexistent) {
        result = {LocalMeaning::Kind::unique, moment, moment};
      } else {
        result.kind = LocalMeaning::Kind::ambiguous;
        result.second = moment;
      }
    }
    if (next == end || next->at > reach_end) break;
    if (shift_to_local(next->at, offset) <= t && t < shift_to_local(next->at, next->offset)) {
      jumped_at = next->at;
    }
    holds_from = next->at;
    offset = next->offset;
    ++next;
  }
  if (result.kind == LocalMeaning::Kind::nonexistent) result.first = result.second = jumped_at;
  return result;
}

Instant Zone::to_instant_earliest(LocalTime t) const {
  return meaning(t).first;
}

LocalDay Zone::day_of(Instant t) const {
  return std::chrono::floor<std::chrono::days>(to_local(t));
}

Instant Zone::start_of(LocalDay day) const {
  return to_instant_earliest(LocalTime(day));
}

Instant Zone::end_of(LocalDay day) const {
  return start_of(day + std::chrono::days(1));
}

seconds Zone::time_of_day(Instant t) const {
  const LocalTime local = to_local(t);
  return local - std::chrono::floor<std::chrono::days>(local);
}

}  // namespace weatherstruck::base
