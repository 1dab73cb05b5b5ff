// Reasons drawn together, and a day at a time.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <string_view>

#include "weatherstruck/base/text.h"
#include "weatherstruck/programme/why.h"

namespace weatherstruck::programme {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;

constexpr minutes next_to{15};
constexpr minutes step{5};  ///< of the engine's clock

/// "rain 2.1 mm/h, stops at 0.5" as what stands before its first figure, the figure, and what stands behind.
struct Figured {
  std::string before;
  std::optional<double> figure;
  std::string behind;
};

Figured figured(const std::string& text) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  std::size_t from = 0;
  while (from < text.size() && !digit(text[from]))
    ++from;
  if (from == text.size()) return {text, {}, {}};
  std::size_t to = from;
  while (to < text.size() &&
         (digit(text[to]) || (text[to] == '.' && to + 1 < text.size() && digit(text[to + 1]))))
    ++to;
  if (from > 0 && text[from - 1] == '-') --from;
  return {text.substr(0, from), base::parse_number(text.substr(from, to - from)), text.substr(to)};
}

bool of_weather(std::string_view code) {
  constexpr std::array<std::string_view, 3> codes{"rain", "cold", "heat"};
  return std::find(codes.begin(), codes.end(), code) != codes.end();
}

}  // namespace

std::vector<Held> drawn_together(const std::vector<Reason>& reasons) {
  struct Open {
    Held held;
    Figured first;
    double low = 0;
    double high = 0;
  };
  std::vector<Open> all;
  std::map<std::string, std::size_t> last;  // of each cause
  std::vector<const Reason*> sorted;
  for (const Reason& reason : reasons)
    sorted.push_back(&reason);
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Reason* a, const Reason* b) { return a->span.from < b->span.from; });
  for (const Reason* reason : sorted) {
    const bool weather = of_weather(reason->code);
    const Figured parts = weather ? figured(reason->text) : Figured{reason->text, {}, {}};
    const std::string cause = reason->code + '\n' + parts.before + '\n' + parts.behind;
    const auto known = last.find(cause);
    if (known != last.end() && reason->span.from <= all[known->second].held.span.to + next_to) {
      Open& open = all[known->second];
      open.held.span.to = std::max(open.held.span.to, reason->span.to);
      open.low = std::min(open.low, parts.figure.value_or(open.low));
      open.high = std::max(open.high, parts.figure.value_or(open.high));
      continue;
    }
    last[cause] = all.size();
    const double figure = parts.figure.value_or(0);
    all.push_back({{reason->span, reason->code, reason->text, reason->by}, parts, figure, figure});
  }
  std::vector<Held> out;
  for (Open& open : all) {
    if (open.low < open.high)
      open.held.text = fmt::format("{}{} to {}{}", open.first.before, base::plain_number(open.low, 1),
                                   base::plain_number(open.high, 1), open.first.behind);
    out.push_back(std::move(open.held));
  }
  return out;
}

std::vector<HeldDay> day_by_day(const std::vector<Reason>& reasons, const works::Job& job) {
  std::vector<HeldDay> out;
  if (reasons.empty()) return out;
  const base::Zone& zone = job.site.zone;
  base::Instant from = reasons.front().span.from;
  base::Instant to = reasons.front().span.to;
  for (const Reason& reason : reasons) {
    from = std::min(from, reason.span.from);
    to = std::max(to, reason.span.to);
  }
  for (base::LocalDay day = zone.day_of(from); day <= zone.day_of(to); day += std::chrono::days(1)) {
    HeldDay one{day, {}};
    const works::DaySpan& hours = job.trip.working_day;
    const base::Instant stop = zone.to_instant_earliest(base::LocalTime(day) + hours.to);
    for (base::Instant t = zone.to_instant_earliest(base::LocalTime(day) + hours.from); t < stop; t += step) {
      const auto holds = [&](const Reason& reason) { return reason.span.from <= t && t < reason.span.to; };
      const auto first = std::find_if(reasons.begin(), reasons.end(), holds);
      if (first == reasons.end()) continue;
      const auto known = std::find_if(one.shares.begin(), one.shares.end(),
                                      [&](const auto& share) { return share.code == first->code; });
      if (known == one.shares.end()) {
        one.shares.push_back({first->code, step});
      } else {
        known->time += step;
      }
    }
    std::stable_sort(one.shares.begin(), one.shares.end(),
                     [](const auto& a, const auto& b) { return a.time > b.time; });
    if (!one.shares.empty()) out.push_back(std::move(one));
  }
  return out;
}

}  // namespace weatherstruck::programme
