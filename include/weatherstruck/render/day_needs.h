#pragma once
// What a day of the plan takes, and what of it calls for a caution.
#include <string>
#include <vector>

#include "weatherstruck/render/trip.h"
#include "weatherstruck/trade/cautions.h"
#include "weatherstruck/works/mortar_batch.h"

namespace weatherstruck::render {

/// What a day's tasks take, amounts with waste.
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

/// "4 mixes"; in cubic metres where the job has no mixer.
[[nodiscard]] std::string mixes_of(base::CubicMetres wet, base::CubicMetres mixer);

/// "M4, 1:5½ mortar keeps 2 h: mix at most 58 litres at once", for each class of mortar
/// (works/mortar_batch.h).
[[nodiscard]] std::vector<std::string> batch_words(const works::Job& job,
                                                   const std::vector<works::MortarBatch>& batches);
/// " in lots of 45 litres": of the mortar of a day's bricklaying, what is laid while it keeps in the warmest
/// hour of its work, the least of its classes. Empty where a full mix is laid in time.
[[nodiscard]] std::string lots_of_mortar(const TripFacts& facts, const TripDay& day);

/// What the cautions table wants to know about the day.
[[nodiscard]] trade::DayFacts caution_facts(const TripFacts& facts, const TripDay& day,
                                            base::Metres deepest_trench);

}  // namespace weatherstruck::render
