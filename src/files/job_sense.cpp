#include "job_sense.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/clock_text.h"

namespace weatherstruck::files {
namespace {

bool is_within(std::string_view place, std::string_view object) {
  return place.substr(0, object.size()) == object &&
         (place.size() == object.size() || place[object.size()] == '/');
}

// The object that holds the member at a place, or the list that holds the entry.
std::string_view around(std::string_view place) {
  return place.substr(0, std::min(place.find_last_of('/'), place.size()));
}

std::string_view last_key(std::string_view place) {
  return place.substr(place.find_last_of('/') + 1);
}

// The checks name members as the structs do; the document gathers three of them elsewhere.
std::string document_place(const std::string& place, const works::Job& job) {
  static constexpr std::string_view fixed = "/fixed";
  static constexpr std::string_view importance = "/importance/";
  if (is_within(place, fixed)) return "/fixed_times" + place.substr(fixed.size());
  if (place == "/name" || place == "/title") return "/job" + place;
  if (place.rfind(importance, 0) == 0) {
    const auto rest = std::string_view(place).substr(importance.size());
    for (std::size_t i = 0; i < job.importance.size(); ++i) {
      if (rest.substr(0, rest.find('/')) != std::to_string(i)) continue;
      for (std::size_t part = 0; part < job.parts.size(); ++part) {
        if (works::name_of(job.parts[part]) == job.importance[i].part)
          return fmt::format("/parts/{}/importance", part);
      }
    }
  }
  return place;
}

// The checks know moments only; a person is told the clock times in which he wrote.
std::string with_clock_times(std::string text, const base::Zone& zone) {
  constexpr std::size_t length = std::string_view("2026-02-09T05:30:00Z").size();
  for (std::size_t i = 0; i + length <= text.size(); ++i) {
    const auto moment = base::parse_iso_instant(std::string_view(text).substr(i, length));
    if (moment && text[i + length - 1] == 'Z') text.replace(i, length, moment_text(*moment, zone));
  }
  return text;
}

// A check's finding is worth telling beside faults of shape only where it rests on no stand-in: not within an
// object that is at fault; none that compares times while the place or the trip is at fault; none on parts
// and what refers to them while a name is at fault.
class Trust {
 public:
  explicit Trust(const base::Faults& shape) {
    for (const auto& fault : shape) {
      if (fault.code == "unknown-key") continue;
      const auto object = around(fault.place);
      doubted_.emplace_back(object.empty() ? fault.place : object);
      if (is_within(fault.place, "/site") || is_within(fault.place, "/trip"))
        doubt({"/trip", "/supplies", "/fixed_times"});
      if (is_within(fault.place, "/crew")) doubt({"/tasks"});
      parts_known_ = parts_known_ && !is_within(fault.place, "/parts");
      const auto key = last_key(fault.place);
      const bool names =
          key == "name" || key == "kind" || key == "parts" || key == "tasks" || key == "routes";
      if (names || fault.place.empty()) doubt({"/parts", "/tasks", "/fallbacks", "/site"});
    }
  }
  [[nodiscard]] bool holds(const base::Fault& found) const {
    // The one check that holds the sizes of two parts against each other.
    if (found.code == "wall-longer-than-footing" && !parts_known_) return false;
    return std::none_of(doubted_.begin(), doubted_.end(),
                        [&found](const std::string& object) { return is_within(found.place, object); });
  }

 private:
  void doubt(std::initializer_list<std::string_view> objects) {
    doubted_.insert(doubted_.end(), objects.begin(), objects.end());
  }
  std::vector<std::string> doubted_;
  bool parts_known_ = true;
};

}  // namespace

works::CheckResult findings_beside(works::CheckResult found, const works::Job& job,
                                   const base::Faults& shape) {
  const Trust trust(shape);
  works::CheckResult out;
  const auto tell = [&job, &trust](base::Faults& from, base::Faults& to) {
    for (auto& one : from) {
      one.place = document_place(one.place, job);
      if (!trust.holds(one)) continue;
      const auto& zone = is_within(one.place, "/trip") ? job.trip.home_zone : job.site.zone;
      one.found = with_clock_times(std::move(one.found), zone);
      one.expected = with_clock_times(std::move(one.expected), zone);
      to.push_back(std::move(one));
    }
  };
  tell(found.faults, out.faults);
  tell(found.advice, out.advice);
  return out;
}

}  // namespace weatherstruck::files
