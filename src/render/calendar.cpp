#include "weatherstruck/render/calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <utility>

namespace weatherstruck::render {
namespace {

constexpr std::size_t longest_line = 75;  // octets, RFC 5545 section 3.1

class Renewal {
 public:
  Renewal(const Calendar& before, base::Instant now, const std::string& mark, const base::Zone& zone)
      : calendar_(before), now_(now), mark_(mark), zone_(zone), taken_(before.events.size(), false) {}

  Calendar run(const std::vector<CalendarEvent>& events) {
    std::vector<bool> placed(events.size(), false);
    const auto pass = [&](const std::function<bool(const KeptEvent&, const CalendarEvent&)>& fits) {
      for (std::size_t i = 0; i < events.size(); ++i)
        placed[i] = placed[i] || match(events[i], fits);
    };
    pass([](const KeptEvent& kept, const CalendarEvent& event) {
      return !kept.gone && kept.event.from == event.from;
    });
    pass([&](const KeptEvent& kept, const CalendarEvent& event) {
      return !kept.gone && zone_.day_of(kept.event.from) == zone_.day_of(event.from);
    });
    pass([](const KeptEvent& kept, const CalendarEvent&) { return !kept.gone; });
    // One that was given up and comes back is the same one again.
    pass([](const KeptEvent&, const CalendarEvent&) { return true; });
    for (std::size_t i = 0; i < taken_.size(); ++i) {
      KeptEvent& kept = calendar_.events[i];
      if (taken_[i] || kept.gone || over(kept)) continue;
      kept.gone = true;
      raise(kept);
    }
    for (std::size_t i = 0; i < events.size(); ++i) {
      if (!placed[i]) calendar_.events.push_back({events[i], new_uid(events[i].key), 0, now_, false});
    }
    std::sort(calendar_.events.begin(), calendar_.events.end(), [](const KeptEvent& a, const KeptEvent& b) {
      return a.event.from != b.event.from ? a.event.from < b.event.from : a.uid < b.uid;
    });
    return std::move(calendar_);
  }

 private:
  [[nodiscard]] bool over(const KeptEvent& kept) const { return kept.event.to <= now_; }
  void raise(KeptEvent& kept) const {
    ++kept.sequence;
    kept.stamp = now_;
  }

  bool match(const CalendarEvent& event,
             const std::function<bool(const KeptEvent&, const CalendarEvent&)>& fits) {
    for (std::size_t i = 0; i < taken_.size(); ++i) {
      KeptEvent& kept = calendar_.events[i];
      if (taken_[i] || over(kept) || kept.event.key != event.key || !fits(kept, event)) continue;
      taken_[i] = true;
      if (kept.gone || !(kept.event == event)) {
        kept.event = event;
        kept.gone = false;
        raise(kept);
      }
      return true;
    }
    return false;
  }

  std::string new_uid(const std::string& key) {
    std::string plain = key;
    std::replace(plain.begin(), plain.end(), '/', '-');
    for (int number = 1;; ++number) {
      std::string uid = fmt::format("{}-{}.{}@weatherstruck", plain, number, mark_);
      const bool known = std::any_of(calendar_.events.begin(), calendar_.events.end(),
                                     [&](const KeptEvent& kept) { return kept.uid == uid; });
      if (!known) return uid;
    }
  }

  Calendar calendar_;
  base::Instant now_;
  const std::string& mark_;
  const base::Zone& zone_;
  std::vector<bool> taken_;
};

/// RFC 5545 section 3.3.11; other control characters have no place in a text.
std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') {
      out += "\\n";
    } else if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) >= ' ' && c != '\x7f') {
      out += c;
    }
  }
  return out;
}

/// The line, folded before the character that would not fit.
std::string folded(const std::string& line) {
  std::string out;
  std::size_t octets = 0;
  for (std::size_t at = 0; at < line.size();) {
    std::size_t next = at + 1;
    while (next < line.size() && (static_cast<unsigned char>(line[next]) & 0xC0U) == 0x80U)
      ++next;
    if (octets + (next - at) > longest_line) {
      out += "\r\n ";
      octets = 1;
    }
    out.append(line, at, next - at);
    octets += next - at;
    at = next;
  }
  return out + "\r\n";
}

std::string utc(base::Instant at) {
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day date{std::chrono::sys_days(day.time_since_epoch())};
  const std::chrono::hh_mm_ss time(at - day);
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

std::string event_text(const KeptEvent& kept) {
  const CalendarEvent& event = kept.event;
  std::string out = folded("BEGIN:VEVENT");
  out += folded("UID:" + kept.uid) + folded("DTSTAMP:" + utc(kept.stamp)) +
         folded("LAST-MODIFIED:" + utc(kept.stamp)) + folded(fmt::format("SEQUENCE:{}", kept.sequence)) +
         folded("DTSTART:" + utc(event.from)) + folded("DTEND:" + utc(event.to)) +
         folded("SUMMARY:" + escaped(event.title));
  if (!event.note.empty()) out += folded("DESCRIPTION:" + escaped(event.note));
  out += folded("CATEGORIES:" + escaped(std::string(word_of(event.kind))));
  out += folded(kept.gone ? "STATUS:CANCELLED" : "STATUS:CONFIRMED");
  if (event.alarm.count() > 0 && !kept.gone) {
    out += folded("BEGIN:VALARM") + folded("ACTION:DISPLAY") +
           folded(fmt::format("TRIGGER:-PT{}M", event.alarm.count())) +
           folded("DESCRIPTION:" + escaped(event.title)) + folded("END:VALARM");
  }
  return out + folded("END:VEVENT");
}

}  // namespace

Calendar renewed(const Calendar& before, const std::vector<CalendarEvent>& events, base::Instant now,
                 const std::string& mark, const base::Zone& zone) {
  return Renewal(before, now, mark, zone).run(events);
}

std::string calendar_text(const Calendar& calendar, const std::string& title) {
  // No METHOD: what is sent under one needs an organizer (RFC 5546), and he may have no mail address.
  std::string out = folded("BEGIN:VCALENDAR") + folded("VERSION:2.0") +
                    folded("PRODID:-//Weatherstruck//Trip//EN") + folded("CALSCALE:GREGORIAN") +
                    folded("NAME:" + escaped(title));
  for (const KeptEvent& kept : calendar.events)
    out += event_text(kept);
  return out + folded("END:VCALENDAR");
}

}  // namespace weatherstruck::render
