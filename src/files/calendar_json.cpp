#include "weatherstruck/files/calendar_json.h"

#include <array>
#include <cmath>
#include <utility>

#include "weatherstruck/files/export.h"
#include "weatherstruck/files/reader.h"

namespace weatherstruck::files {
namespace {

using render::EventKind;

constexpr std::array<Word<EventKind>, 5> kinds{{{"work", EventKind::work},
                                                {"cover", EventKind::cover},
                                                {"canopy", EventKind::canopy},
                                                {"merchant", EventKind::merchant},
                                                {"leaving", EventKind::leaving}}};
constexpr std::size_t longest_text = 2000;
constexpr std::size_t most_events = 100'000;
constexpr int most_changes = 1'000'000;
constexpr int longest_alarm = 24 * 60;
constexpr double furthest = 253402300800.0;  // the year 10000, in seconds of UTC

base::Instant moment(ObjectReader& from, std::string_view key) {
  return base::Instant(std::chrono::seconds(std::llround(from.number(key, {0, furthest, "s"}))));
}

}  // namespace

Json calendar_to_json(const render::Calendar& calendar) {
  Json out = {{"schema", "weatherstruck/calendar"}, {"version", calendar_schema_version}};
  out["events"] = Json::array();
  for (const render::KeptEvent& kept : calendar.events) {
    out["events"].push_back({{"uid", kept.uid},
                             {"sequence", kept.sequence},
                             {"changed", kept.stamp.time_since_epoch().count()},
                             {"gone", kept.gone},
                             {"key", kept.event.key},
                             {"kind", std::string(render::word_of(kept.event.kind))},
                             {"from", kept.event.from.time_since_epoch().count()},
                             {"to", kept.event.to.time_since_epoch().count()},
                             {"title", kept.event.title},
                             {"note", kept.event.note},
                             {"alarm_minutes", kept.event.alarm.count()}});
  }
  return out;
}

render::Calendar read_calendar(std::string_view text, const std::string& source) {
  ParsedJson parsed = parse_json(text, {});
  if (!parsed.value) throw base::InputError(source, std::move(parsed.faults));
  Reading reading;
  render::Calendar calendar;
  ObjectReader in(reading, *parsed.value, "", "calendar");
  in.text("schema", longest_text);
  in.whole("version", 1, calendar_schema_version);
  const Json::array_t& list = in.list("events", most_events);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader from(reading, list[i], pointer_to("/events", i), "event");
    render::KeptEvent kept;
    kept.uid = from.text("uid", longest_text);
    kept.sequence = from.whole("sequence", 0, most_changes);
    kept.stamp = moment(from, "changed");
    kept.gone = from.truth("gone", false);
    kept.event.key = from.text("key", longest_text);
    kept.event.kind = from.word<EventKind>("kind", kinds);
    kept.event.from = moment(from, "from");
    kept.event.to = moment(from, "to");
    kept.event.title = from.text("title", longest_text);
    kept.event.note = from.text("note", longest_text, "");
    kept.event.alarm = std::chrono::minutes(from.whole("alarm_minutes", 0, longest_alarm));
    from.finish();
    calendar.events.push_back(std::move(kept));
  }
  in.finish();
  if (!reading.faults().empty()) throw base::InputError(source, reading.take_faults());
  return calendar;
}

}  // namespace weatherstruck::files
