#pragma once
// Will the top of a new strip freeze? Asked in two ways that share the balance of heat and nothing else.
//
// *Clocks* do not know when the pour was, nor which covers lay before. They ask the fast filter
// (matter/strip_tops.h) for the top in the whole weather: under each cover on all along, with no more heat of
// its own than any strip gives off in its first nights (heat::young_share), from the ground's own temperature
// or that of the coldest concrete that may be placed, whichever is less. Where a gust takes the cover it is
// bare. Tops that are so kept above `strip-top-above` do not freeze in the full balance (docs/heat.md says
// how that was held against real winters, and where it failed). Bare tops are reckoned without any heat; by
// daylight as covered in the dark, by the best that the kit has, for nobody leaves a young strip bare in a
// cold night.
//
// *The site checker*, the sheets and the verdicts know all that. They follow the full balance from the pour,
// with its heat, evaporation and the covers that are on.
//
// Both take the sky as overcast while the sun is up: what the sun gives is not counted on, but that it makes
// up for what a clear sky takes (assumption). In both the rule of practice stays beside the balance: a strip
// is not bare while the air is below freezing. The balance decides what cover is enough.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/matter/heat.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/programme/slots.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::programme {

/// What a cover is to the balance; a canopy keeps nothing in.
[[nodiscard]] matter::HeatCover heat_cover(trade::CoverKind kind);

/// A strip of the job in its ground. Cement of the job's mix, none where it hardens slowly: its heat comes
/// late. Placed at the mean of the air of the day before, but no colder than concrete may be.
[[nodiscard]] matter::StripCase strip_case(const works::Job& job, const trade::LimitValues& limits,
                                           const matter::StripShape& shape, base::Instant placed,
                                           base::Celsius air_before);

/// Place in table.strips of a shape like this, which is added where there is none: rounded to thinner,
/// narrower and shallower, so that a job has few. Its tops are worked out.
[[nodiscard]] std::size_t strip_like(SlotTable& table, const works::Job& job,
                                     const trade::LimitValues& limits, const matter::StripShape& shape);

/// Works out the tops of all strips of the table for its weather; nothing where no hour comes near freezing.
void put_tops(SlotTable& table, const works::Job& job, const trade::LimitValues& limits);

/// Lanes of StripHours::tops.
inline constexpr std::size_t lane_bare_night = 0;  ///< bare all along
inline constexpr std::size_t lane_bare_day = 1;    ///< bare by daylight, covered in the dark
/// Of a cover on all along. @throws std::logic_error for bare and canopy
[[nodiscard]] std::size_t lane_of(trade::CoverKind cover);

/// A new strip in one night.
struct StripNight {
  works::Name task;
  works::Name part;
  base::Celsius coldest;  ///< of its top
  base::Instant when;
  base::Celsius air;         ///< lowest of the night
  trade::CoverKind cover{};  ///< on it at that hour; bare: none, or a gust has it
  base::Celsius left_bare;   ///< what its top would come to with no cover from the evening on
};

/// Strips that are not yet safe from frost (their nights, their strength or brickwork on them), each with its
/// coldest hour of the night by the full balance; those alone for which `night` holds frost or comes near it:
/// air at or below 1 C, or a top at or below 2. Empty without weather.
[[nodiscard]] std::vector<StripNight> strip_nights(const works::Job& job, const works::TaskList& list,
                                                   const sky::Series& weather,
                                                   const trade::LimitValues& limits, const Plan& plan,
                                                   const Span& night);

}  // namespace weatherstruck::programme
