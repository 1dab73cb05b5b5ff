#pragma once
// One screen for the day.
#include <string>
#include <vector>

#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"
#include "weatherstruck/trade/cautions.h"

namespace weatherstruck::render {

/// What today's tasks take, amounts with waste.
struct DayNeeds {
  struct Line {
    std::string material;  ///< key of the materials table
    double amount = 0;
  };
  std::vector<Line> bricks;       ///< in the order of the table
  std::vector<Line> other;        ///< likewise; cement, sand and so on
  base::CubicMetres concrete{0};  ///< wet
  base::CubicMetres mortar{0};    ///< wet
};
[[nodiscard]] DayNeeds needs_of(const TripFacts& facts, const TripDay& day);

/// What the cautions table wants to know about the day.
[[nodiscard]] trade::DayFacts caution_facts(const TripFacts& facts, const TripDay& day,
                                            base::Metres deepest_trench);

struct MorningFacts {
  std::size_t day = 0;  ///< in trip_days()
  std::vector<const trade::CautionRow*> cautions;
};

/// @throws std::out_of_range where the trip has no such day
[[nodiscard]] std::string morning_sheet(const TripFacts& facts, const MorningFacts& morning, Ink ink);

}  // namespace weatherstruck::render
