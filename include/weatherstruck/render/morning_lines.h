#pragma once
// The day's sheet as sentences and rows, before anybody lays them out: the sheet of 80 columns and the one
// for a phone say the same.
#include <cstddef>
#include <string>
#include <vector>

#include "weatherstruck/render/day_needs.h"
#include "weatherstruck/render/trip.h"
#include "weatherstruck/trade/cautions.h"

namespace weatherstruck::render {

struct MorningFacts {
  std::size_t day = 0;  ///< in trip_days()
  std::vector<const trade::CautionRow*> cautions;
};

/// What a section is about, in the order of the sheet; each comes at most once.
enum class MorningPart {
  light,
  weather,
  tonight,
  last_night,  ///< what the night did, and what to look at
  tasks,
  leave,
  cover,
  canopy,
  turns,  ///< what to do instead if it turns
  needs,
  stock,
  by_tonight,  ///< what has to be done, and by when the last of it begun, to stay on course
  home,
  left_out,
  changed,
  stands_on,  ///< which forecast of when, what was measured
  mind,
  caution
};

struct MorningLines {
  /// A task of the day.
  struct Row {
    char letter = '?';
    std::string time;   ///< "07:45-09:00"
    std::string words;  ///< in full
    std::string brief;  ///< without sizes where they would not fit beside letter and time
    works::Name task;
  };
  struct Section {
    MorningPart part{};
    std::string label;                   ///< "Weather"; empty for the tasks
    std::vector<std::string> sentences;  ///< each is a paragraph of its own
    std::vector<Row> rows;
  };
  std::string title;  ///< "Morning sheet, Mon 9 Feb"
  std::string which;  ///< "day 1 of 4"
  std::string job;
  std::string warning;            ///< empty where the plan is sound
  std::vector<Section> sections;  ///< those that have something to say, in the order of MorningPart

  /// nullptr where the day has nothing to say about it.
  [[nodiscard]] const Section* find(MorningPart part) const;
};

/// @throws std::out_of_range where the trip has no such day
[[nodiscard]] MorningLines morning_lines(const TripFacts& facts, const MorningFacts& morning);

}  // namespace weatherstruck::render
