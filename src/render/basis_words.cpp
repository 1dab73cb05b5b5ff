#include "weatherstruck/render/basis_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/sky/basis.h"

namespace weatherstruck::render {
namespace {

using base::Instant;
using sky::Basis;

// More would not be read.
constexpr std::size_t most_told = 3;

class Words {
 public:
  Words(const sky::Series& series, const base::Zone& zone) : series_(series), zone_(zone) {}

  // One after the other, each to its end: what he plans by.
  [[nodiscard]] std::string to_come(Instant from, Instant to) const {
    const std::vector<Basis> all = sky::bases_of(series_, from, to);
    std::vector<Basis> list;
    for (const Basis& next : all) {
      if (!list.empty() && same_line(list.back(), next))
        list.back().to = next.to;
      else
        list.push_back(next);
    }
    std::string words;
    for (std::size_t i = 0; i < list.size() && i < most_told; ++i) {
      const bool last = list[i].to == to;
      words += fmt::format("{}{}{}", words.empty() ? "" : "; then ", named(list[i]),
                           last ? std::string(list.size() == 1 ? ", to the end of the trip" : "")
                                : " to " + moment(list[i].to));
    }
    if (list.size() > most_told) words += fmt::format("; then {} more changes", list.size() - most_told);
    return words + lacking(all);
  }

  // How much of it was what; empty where all was as forecast.
  [[nodiscard]] std::string gone_by(Instant from, Instant to) const {
    using Kind = Basis::Kind;
    std::string words;
    bool more = false;
    const std::vector<Basis> list = sky::bases_of(series_, from, to);
    for (const auto& [kind, name] : {std::pair{Kind::forecast, "as forecast then"},
                                     {Kind::read_on_site, "read on site"},
                                     {Kind::observed, "a station's readings"},
                                     {Kind::past_years, "past years"},
                                     {Kind::nothing, "not known"}}) {
      std::chrono::seconds time{0};
      for (const Basis& one : list)
        time += one.kind == kind ? one.to - one.from : std::chrono::seconds(0);
      if (time.count() == 0) continue;
      more = more || kind != Kind::forecast;
      words += fmt::format("{}{} {}", words.empty() ? "" : ", ", name, duration(time));
    }
    return more ? words : std::string();
  }

 private:
  [[nodiscard]] std::string moment(Instant t) const { return base::day_and_time(zone_.to_local(t)); }

  static bool same_line(const Basis& a, const Basis& b) {
    return a.kind == b.kind && a.source == b.source && a.issued == b.issued;
  }

  [[nodiscard]] std::string named(const Basis& one) const {
    std::string forecast = one.source + (one.issued ? " of " + moment(*one.issued) : std::string());
    switch (one.kind) {
      case Basis::Kind::forecast:
        break;
      case Basis::Kind::read_on_site:
        return "what was read on site";
      case Basis::Kind::observed:
        return "a station's readings";
      case Basis::Kind::past_years:
        return "past years";
      case Basis::Kind::nothing:
        return "no forecast, each hour as that of the day before";
    }
    return forecast;
  }

  // What fills up a forecast that has not everything.
  [[nodiscard]] std::string lacking(const std::vector<Basis>& list) const {
    for (const Basis& one : list) {
      if (one.filled_from.empty() || one.kind != Basis::Kind::forecast) continue;
      return fmt::format("; what that lacks, {}{}", one.filled_from,
                         one.filled_issued ? " of " + moment(*one.filled_issued) : std::string());
    }
    return {};
  }

  const sky::Series& series_;
  const base::Zone& zone_;
};

}  // namespace

std::string basis_line(const sky::Series& series, const base::Zone& zone, const BasisSpan& span) {
  if (span.from >= span.to) return {};
  const Words words(series, zone);
  const Instant now = std::clamp(span.now, span.from, span.to);
  std::string line = now < span.to ? words.to_come(now, span.to) : std::string();
  const std::string before = now > span.from ? words.gone_by(span.from, now) : std::string();
  if (!before.empty()) line += (line.empty() ? "gone by: " : "; gone by: ") + before;
  return line;
}

}  // namespace weatherstruck::render
