#pragma once
// The sheet that goes with him beside the mixer: one HTML file with everything for the day, good without any
// network. What he ticks is kept on the phone and becomes a short text that the site book reads back.
#include <string>

#include "weatherstruck/render/morning_lines.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

struct PhoneFacts {
  std::string take_in;  ///< what to type on the laptop to take the text in; empty: not said
};

/// A whole HTML 5 document in UTF-8: the sections of the morning sheet, each task, cover and canopy of the
/// day with its boxes, the days of the trip, sizes and gauge marks, the forecast it rests on. Every entry is
/// a line as works::exact_line writes it, dated on the day of the sheet; no two are the same, so that taking
/// the text in twice, or a longer one later, counts nothing twice. Without script or storage all of it can be
/// read and ticked, and the page says that ticks are not kept.
/// @throws std::out_of_range where the trip has no such day
[[nodiscard]] std::string phone_sheet(const TripFacts& facts, const MorningFacts& morning,
                                      const PhoneFacts& phone);

}  // namespace weatherstruck::render
