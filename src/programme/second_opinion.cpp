#include "weatherstruck/programme/second_opinion.h"

#include <algorithm>
#include <chrono>

#include "plan_genes.h"
#include "weatherstruck/engine/decode.h"
#include "weatherstruck/programme/build.h"
#include "weatherstruck/programme/damage.h"
#include "weatherstruck/sky/assemble.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using std::chrono::hours;

// Less is the noise of two forecasts that agree.
constexpr std::chrono::minutes told_difference{30};

// The other on top where it reaches, whenever it was issued; what is gone by stays.
sky::Series laid_over(const sky::Series& weather, const sky::Series& other, Instant from) {
  sky::Series top = sky::cut(other, std::chrono::floor<hours>(from), other.end_time());
  top.issued = std::max(weather.issued.value_or(from), from) + std::chrono::seconds(1);
  return sky::join(weather, top);
}

struct Outcome {
  std::optional<Instant> home;
  bool musts = true;
  std::vector<char> placed;
};

class Holder {
 public:
  explicit Holder(const SecondRequest& request)
      : r_(request), from_(std::max(request.now, request.job.trip.leave_home)) {}

  std::optional<SecondOpinion> hold() {
    if (r_.other.empty() || r_.other.end_time() <= from_ || r_.other.begin_time() >= r_.job.trip.home_by)
      return std::nullopt;
    const sky::Series over = laid_over(r_.weather, r_.other, from_);
    const auto by_own = in(r_.weather);
    const auto by_other = in(over);
    if (!by_own || !by_other) return std::nullopt;
    SecondOpinion out;
    out.source = r_.other.source;
    out.issued = r_.other.issued;
    out.until = r_.other.end_time();
    out.home = by_other->home;
    out.in_time = in_time(*by_other);
    out.was_in_time = in_time(*by_own);
    if (by_own->home && by_other->home) out.later = *by_other->home - *by_own->home;
    for (std::size_t i = 0; i < by_own->placed.size(); ++i) {
      if (by_own->placed[i] != 0 && by_other->placed[i] == 0) out.left_out.push_back(r_.list.tasks[i].name);
    }
    const std::vector<std::string> anyway = spoilt_in(r_.weather);
    for (std::string& title : spoilt_in(over)) {
      if (std::find(anyway.begin(), anyway.end(), title) == anyway.end())
        out.spoilt.push_back(std::move(title));
    }
    return out;
  }

 private:
  [[nodiscard]] bool in_time(const Outcome& outcome) const {
    return outcome.musts && outcome.home && *outcome.home <= r_.job.trip.home_by;
  }

  [[nodiscard]] std::optional<Outcome> in(const sky::Series& weather) const {
    const bool under_way = from_ > r_.job.trip.leave_home;
    const Programme programme = build_programme(r_.job, r_.list, weather, r_.limits, from_,
                                                under_way ? &r_.plan : nullptr, Causes::untold);
    const engine::Genes genes = genes_of(r_.plan, programme, 0);
    if (genes.order.empty()) return std::nullopt;
    engine::StandingDecoder decoder(programme.network);
    const engine::Decoded& done = decoder.decode(genes);
    Outcome out;
    out.musts = done.value.must_unplaced == 0;
    for (const engine::Placement& task : done.schedule.tasks)
      out.placed.push_back(task.placed() ? 1 : 0);
    if (programme.drive_home) {
      const engine::Placement& drive = done.schedule.tasks[static_cast<std::size_t>(*programme.drive_home)];
      if (drive.placed()) out.home = programme.table.at_tick(drive.finish());
    }
    return out;
  }

  // Followed to the hour, with its covers and no other.
  [[nodiscard]] std::vector<std::string> spoilt_in(const sky::Series& weather) const {
    const Instant end = r_.plan.home.value_or(r_.plan.horizon_to);
    std::vector<std::string> titles;
    for (const Verdict& verdict :
         judge_night({r_.job, r_.list, weather, r_.limits, std::max(end, from_), from_}, r_.plan)) {
      if (verdict.finding == Finding::make_good &&
          std::find(titles.begin(), titles.end(), verdict.title) == titles.end())
        titles.push_back(verdict.title);
    }
    return titles;
  }

  const SecondRequest& r_;
  Instant from_;
};

}  // namespace

bool SecondOpinion::differs() const {
  if (in_time != was_in_time || !left_out.empty() || !spoilt.empty()) return true;
  return later && (*later >= told_difference || -*later >= told_difference);
}

std::optional<SecondOpinion> second_opinion(const SecondRequest& request) {
  return Holder(request).hold();
}

}  // namespace weatherstruck::programme
