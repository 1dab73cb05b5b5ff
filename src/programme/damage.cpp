#include "weatherstruck/programme/damage.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "damage_words.h"
#include "site_check_view.h"
#include "weatherstruck/matter/concrete.h"
#include "weatherstruck/matter/mortar.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/mortar_behaviour.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using Kind = works::FreshWork::Kind;
using site::View;
namespace limit = trade::limit;

constexpr double enough = 1e-9;
// A strip has had its nights of hessian and sheet at this hour of the morning after the last of them.
constexpr std::chrono::hours morning_after{12};

double class_s(trade::CementSpeed speed) {
  switch (speed) {
    case trade::CementSpeed::rapid:
      return matter::s_rapid;
    case trade::CementSpeed::normal:
      return matter::s_normal;
    case trade::CementSpeed::slow:
      return matter::s_slow;
  }
  return matter::s_normal;
}

double canopy_limit(const works::Job& job, const trade::LimitValues& limits) {
  const double set = limits.at(limit::canopy_gust);
  return job.kit.canopy ? std::min(job.kit.canopy->gust_limit.value(), set) : set;
}

struct Shelter {
  double rain_through = 1;
  base::Kelvins lift{0};
  trade::CoverKind cover = trade::CoverKind::bare;  ///< the warmest of those that lie on it
  bool roofed = false;                              ///< by a canopy
};

/// Grows while something goes on.
struct Stretch {
  std::optional<Span> span;
  void add(Instant from, Instant to) {
    if (!span) span = Span{from, to};
    span->to = to;
  }
};

class PieceJudge {
 public:
  PieceJudge(const NightRequest& request, const View& view, const FreshPiece& piece)
      : request_(request), view_(view), piece_(piece), concrete_(piece.kind == Kind::concrete) {
    out_.part = piece.part;
    out_.title = piece.title;
    out_.kind = piece.kind;
    out_.laid = piece.laid;
    out_.amount = piece.amount;
    out_.unit = piece.unit;
    lying_.reserve(piece.over.size());
    for (const OverIt& over : piece.over)
      lying_.push_back({over, {}, 0});
    set_limits();
    if (piece.strip) balance_.emplace(view, *piece.strip, piece.laid.to);
  }

  /// nullopt where it was safe before anybody asked.
  std::optional<Verdict> judge(Instant since) {
    site::walk({piece_.laid.to, request_.now}, [&](Instant t, base::Hours dt) {
      if (!soft() && !freezable(t)) {
        out_.safe = t;
        return false;
      }
      step(t, dt);
      return true;
    });
    if (!out_.safe && !soft() && !freezable(request_.now)) out_.safe = request_.now;
    if (out_.safe && *out_.safe <= since) return std::nullopt;
    look_at_hours();
    find_rain();
    find_frost();
    find_covers();
    settle();
    return out_;
  }

 private:
  struct Lying {
    OverIt it;
    std::optional<Instant> gone;  ///< taken by a gust
    double gust = 0;
  };

  void set_limits() {
    if (!concrete_) {
      const trade::Binder binder = request_.job.practice.binder;
      const auto suction = piece_.quick_suction ? matter::Suction::quick : matter::Suction::slow;
      hard_at_ = trade::thumbprint_hours(piece_.mortar, binder, suction).usual.value();
      safe_at_ = trade::frost_safe_amount(piece_.mortar, binder).value();
      if (piece_.kind == Kind::flags)
        kept_until_ = piece_.laid.to +
                      std::chrono::minutes(std::lround(request_.limits.at(limit::flags_keep_hours) * 60));
      return;
    }
    hard_at_ = matter::initial_set(base::Celsius(20)).value();
    const works::Practice& practice = request_.job.practice;
    const auto law = matter::early_age_law(trade::row_for(practice.concrete).cube, class_s(practice.cement));
    const auto age = matter::equivalent_hours_to(
        law, base::Megapascals(request_.limits.at(limit::concrete_frost_strength)));
    safe_at_ = age ? age->value() : HUGE_VAL;
    const auto nights = static_cast<int>(std::lround(request_.limits.at(limit::strip_frost_nights)));
    const base::LocalDay poured = view_.zone().day_of(piece_.laid.to);
    kept_until_ = std::min<Instant>(view_.zone().start_of(poured + std::chrono::days(nights)) + morning_after,
                                    piece_.laid.to + std::chrono::hours(24 * nights));
  }

  [[nodiscard]] bool soft() const { return set_ < hard_at_ && piece_.kind != Kind::plate_bed; }
  [[nodiscard]] bool freezable(Instant t) const {
    if (concrete_) return aged_ < safe_at_ && t < kept_until_ && !(piece_.covered && t >= *piece_.covered);
    return aged_ < safe_at_ || (kept_until_ != Instant{} && t < kept_until_);
  }

  Shelter shelter_at(Instant t, double gust) {
    Shelter shelter;
    for (Lying& lying : lying_) {
      if (lying.gone || t < lying.it.span.from || t >= lying.it.span.to) continue;
      const trade::CoverRow& row = request_.job.covers.at(lying.it.kind);
      const bool canopy = lying.it.kind == trade::CoverKind::canopy;
      const double most = canopy ? canopy_limit(request_.job, request_.limits) : row.gust_limit.value();
      if (!out_.gust_limit || most < out_.gust_limit->value()) out_.gust_limit = base::MetresPerSecond(most);
      if (canopy ? gust >= most - enough : gust > most + enough) {
        lying.gone = t;
        lying.gust = gust;
        continue;
      }
      shelter.rain_through = std::min(shelter.rain_through, row.rain_through);
      if (canopy) {
        shelter.roofed = true;
      } else if (row.lift > request_.job.covers.at(shelter.cover).lift) {
        shelter.cover = lying.it.kind;
      }
      shelter.lift = std::max(shelter.lift, row.lift);
    }
    return shelter;
  }

  // Of a strip in the ground its top, by the balance of heat; bare, it is held against the air as well, as
  // the site checker has it.
  base::Celsius coldest_of(Instant t, base::Hours dt, const Shelter& shelter, base::Celsius reckoned) {
    if (!balance_) return reckoned;
    balance_->step(t, dt, shelter.cover, shelter.roofed);
    return shelter.cover == trade::CoverKind::bare ? std::min(reckoned, balance_->top()) : balance_->top();
  }

  void step(Instant t, base::Hours dt) {
    const site::AirHour& air = view_.air(t);
    const Instant next = t + std::chrono::seconds(std::lround(dt.value() * 3600));
    const Shelter shelter = shelter_at(t, air.gust.value());
    const base::Celsius reckoned = trade::under_cover(air.temperature, shelter.lift);
    const base::Celsius work = coldest_of(t, dt, shelter, reckoned);
    out_.gust = std::max(out_.gust, air.gust);
    until_ = next;
    if (soft()) {
      soft_until_ = next;
      const double rate = air.rain.value() * shelter.rain_through;
      out_.rain += base::Millimetres(rate * dt.value());
      out_.rain_fell += base::Millimetres(air.rain.value() * dt.value());
      if (rate > 0) wet_.add(t, next);
      hardest_ = std::max(hardest_, rate);
    }
    if (freezable(t)) {
      if (!out_.coldest || work < *out_.coldest) out_.coldest = work;
      if (work.value() < 0) {
        out_.frost += base::KelvinHours(-work.value() * dt.value());
        frozen_hours_ += dt.value();
        cold_.add(t, next);
        froze_soft_ = froze_soft_ || set_ < hard_at_;
        froze_hard_ = froze_hard_ || (concrete_ && matter::setting_rate(work) <= 0);
      }
      const bool bed = piece_.kind == Kind::flags && t < kept_until_;
      if (bed && air.temperature.value() < request_.limits.at(limit::flags_keep_above) &&
          shelter.lift.value() <= 0) {
        bare_bed_.add(t, next);
      }
    }
    set_ += dt.value() * (concrete_ ? matter::setting_rate(reckoned)
                                    : matter::stiffening_rate(air.temperature, air.humidity, air.near_wind));
    if (!concrete_) {
      aged_ += matter::mortar_frost_rate(reckoned) * dt.value();
    } else {
      aged_ += matter::fhp_rate(reckoned) * dt.value();
    }
  }

  void look_at_hours() {
    out_.below_zero = std::chrono::minutes(std::lround(frozen_hours_ * 60));
    const auto read = [](const auto& value) { return value && value->origin == sky::Origin::measured; };
    out_.air_measured = until_ > piece_.laid.to;
    out_.rain_measured = soft_until_ > piece_.laid.to;
    for (Instant t = std::chrono::floor<std::chrono::hours>(piece_.laid.to); t < until_;
         t += std::chrono::hours(1)) {
      const sky::Hour* hour = request_.weather.at(t);
      if (hour == nullptr || !hour->rain || !hour->temperature) ++out_.hours_unknown;
      out_.air_measured = out_.air_measured && hour != nullptr && read(hour->temperature);
      if (t < soft_until_) out_.rain_measured = out_.rain_measured && hour != nullptr && read(hour->rain);
    }
  }

  void harm(Harm::Cause cause, Finding finding, const Span& span, std::string text) {
    out_.harms.push_back({cause, finding, span, std::move(text)});
  }

  void find_rain() {
    const double look = request_.limits.at(limit::soft_joint_inspect);
    const double remake = request_.limits.at(limit::soft_joint_remake);
    const double spoils = request_.limits.at(limit::rain_pour_stop);
    const double rain = out_.rain.value();
    const bool heavy = concrete_ && hardest_ >= spoils - enough;
    if (!wet_.span || !(rain > look + enough || heavy)) return;
    std::string text = fmt::format("{:.1f} mm of rain on {} ({:g} mm: look at it, {:g} mm: make good)", rain,
                                   concrete_ ? "concrete that had not set" : "soft joints", look, remake);
    if (heavy) text += fmt::format(", up to {:.1f} mm/h (at most {:g})", hardest_, spoils);
    if (out_.rain_fell.value() > rain + 0.05)
      text += fmt::format("; {:.1f} mm fell in the open", out_.rain_fell.value());
    harm(Harm::Cause::rain, rain > remake + enough ? Finding::make_good : Finding::inspect, *wet_.span,
         std::move(text));
  }

  void find_frost() {
    if (cold_.span) {
      harm(Harm::Cause::frost, froze_soft_ || froze_hard_ ? Finding::make_good : Finding::inspect,
           *cold_.span,
           fmt::format("{:.1f} \u00b0C at the work, {} min below zero ({:.1f} K h) before it was safe from "
                       "frost{}",
                       out_.coldest->value(), out_.below_zero.count(), out_.frost.value(),
                       froze_soft_ ? (concrete_ ? ", not yet set" : ", still soft") : ""));
    } else if (bare_bed_.span) {
      harm(Harm::Cause::cold_bed, Finding::inspect, *bare_bed_.span,
           fmt::format("its bed lay bare below {:g} \u00b0C", request_.limits.at(limit::flags_keep_above)));
    }
  }

  void find_covers() {
    for (const Lying& lying : lying_) {
      if (!lying.gone) continue;
      const bool canopy = lying.it.kind == trade::CoverKind::canopy;
      const trade::CoverRow& row = request_.job.covers.at(lying.it.kind);
      const double most = canopy ? canopy_limit(request_.job, request_.limits) : row.gust_limit.value();
      // A cover that is off leaves the work no worse than bare; a canopy may have come down on it.
      harm(canopy ? Harm::Cause::canopy : Harm::Cause::cover, canopy ? Finding::inspect : Finding::sound,
           {*lying.gone, std::max(until_, *lying.gone)},
           canopy
               ? fmt::format("the canopy stood over it in gusts of {:.1f} m/s (down before {:g}); it counts "
                             "as down from then on",
                             lying.gust, most)
               : fmt::format("gusts of {:.1f} m/s ({} holds to {:g}); the cover counts as off from then on",
                             lying.gust, row.title, most));
    }
  }

  void settle() {
    std::stable_sort(out_.harms.begin(), out_.harms.end(),
                     [](const Harm& a, const Harm& b) { return a.finding > b.finding; });
    if (out_.harms.empty()) return;
    const Harm& worst = out_.harms.front();
    out_.finding = worst.finding;
    for (const Harm& one : out_.harms) {
      const std::string look = damage::what_to_look_for(piece_.kind, one.cause);
      if (out_.look.find(look) != std::string::npos) continue;
      out_.look += (out_.look.empty() ? "" : " ") + look;
    }
    if (worst.finding == Finding::make_good) {
      out_.make_good =
          damage::what_to_do(piece_.kind, worst.cause, damage::amount_words(piece_.amount, piece_.unit));
    }
  }

  const NightRequest& request_;
  const View& view_;
  const FreshPiece& piece_;
  bool concrete_;
  Verdict out_;
  std::vector<Lying> lying_;
  std::optional<site::StripBalance> balance_;
  double hard_at_ = 0;    // hours at 20 degrees
  double safe_at_ = 0;    // likewise
  Instant kept_until_{};  // concrete: its nights are over; flags: their cold hours; else never set
  Instant until_{};
  Instant soft_until_{};
  double set_ = 0;
  double aged_ = 0;
  double hardest_ = 0;
  double frozen_hours_ = 0;
  bool froze_soft_ = false;
  bool froze_hard_ = false;
  Stretch wet_;
  Stretch cold_;
  Stretch bare_bed_;
};

Verdict canopy_verdict(const View& view, const NightRequest& request, const works::Name& part, Span up,
                       bool& harmed) {
  const double most = canopy_limit(request.job, request.limits);
  Verdict verdict;
  verdict.part = part;
  verdict.title = "the canopy";
  verdict.laid = up;
  verdict.gust_limit = base::MetresPerSecond(most);
  site::walk(up, [&](Instant t, base::Hours) {
    const double gust = view.air(t).gust.value();
    verdict.gust = std::max(verdict.gust, base::MetresPerSecond(gust));
    if (gust < most - enough || harmed) return true;
    harmed = true;
    verdict.finding = Finding::inspect;
    verdict.look = damage::look_at_canopy();
    verdict.harms.push_back({Harm::Cause::canopy, Finding::inspect, {t, up.to}, {}});
    return true;
  });
  if (harmed) {
    verdict.harms.front().text =
        fmt::format("left up in gusts of {:.1f} m/s (down before {:g})", verdict.gust.value(), most);
  }
  return verdict;
}

Instant usual_since(const NightRequest& request) {
  const base::Zone& zone = request.job.site.zone;
  const base::LocalDay before = zone.day_of(request.now) - std::chrono::days(1);
  return zone.to_instant_earliest(base::LocalTime(before) + request.job.trip.working_day.from);
}

}  // namespace

std::vector<Verdict> judge_night(const NightRequest& request, const SiteState& state) {
  if (state.pieces.empty() && state.canopy.empty()) return {};
  const Instant since = request.since.value_or(usual_since(request));
  // All that the view has to reach over.
  PlannedTask reach;
  Instant first = std::min(since, request.now);
  for (const FreshPiece& piece : state.pieces)
    first = std::min(first, piece.laid.from);
  reach.runs.push_back({});
  reach.runs.front().span = {first, request.now};
  Plan span;
  span.tasks.push_back(std::move(reach));
  span.horizon_to = request.now;
  const View view(request.job, request.list, request.weather, request.limits, span);
  if (!view.has_weather()) return {};

  std::vector<Verdict> verdicts;
  for (const FreshPiece& piece : state.pieces) {
    if (auto verdict = PieceJudge(request, view, piece).judge(since)) verdicts.push_back(std::move(*verdict));
  }
  for (const auto& [part, up] : state.canopy) {
    const Span seen{std::max(up.from, since), std::min(up.to, request.now)};
    bool harmed = false;
    if (seen.from >= seen.to) continue;
    Verdict verdict = canopy_verdict(view, request, part, seen, harmed);
    if (harmed) verdicts.push_back(std::move(verdict));
  }
  std::stable_sort(verdicts.begin(), verdicts.end(), [](const Verdict& a, const Verdict& b) {
    return a.finding != b.finding ? a.finding > b.finding : a.laid.to < b.laid.to;
  });
  return verdicts;
}

std::vector<Verdict> judge_night(const NightRequest& request, const works::Progress& progress) {
  return judge_night(request, site_state(request.job, request.list, progress, request.now));
}

std::vector<Verdict> judge_night(const NightRequest& request, const Plan& followed) {
  return judge_night(request, site_state(request.job, request.list, followed, request.now));
}

}  // namespace weatherstruck::programme
