#pragma once
// What stands when he drives off, for the next trip and the next trade: sizes and diagonals, levels read,
// courses at each corner, openings, and from when it carries what.
#include <string>
#include <vector>

#include "weatherstruck/render/page.h"
#include "weatherstruck/render/trip.h"

namespace weatherstruck::render {

struct AsBuiltSheet {
  struct Corner {
    std::string which;  ///< "north-west"
    int courses = 0;    ///< of brickwork above the concrete there, when finished
    double height = 0;  ///< mm
  };
  /// A level of the ground read beside a footing.
  struct Read {
    std::string footing;  ///< "north footing"
    double along = 0;     ///< m from its high end
    double below = 0;     ///< mm below its high end; negative above
  };
  struct Part {
    std::string title;               ///< "The shelter"
    std::string standing;            ///< "finished", "to course 3 of 8", "not begun"
    std::vector<std::string> sizes;  ///< sentences: outside, inside, diagonals, concrete
    std::vector<Corner> corners;     ///< those at which two built sides meet, clockwise from north-west
    std::vector<Read> levels;        ///< empty: none was read, the corners are by the guessed fall
    std::string level_note;          ///< which of both it is
    std::vector<std::string> openings;
    std::vector<std::string> bears;  ///< "soil to the top from about 18:00 on Sat 14 Feb"
  };
  std::string title;
  std::string job;
  std::string warning;
  std::string state;  ///< what it rests on: the site book until then, or the plan
  std::vector<Part> parts;
  std::vector<std::string> left;   ///< work left for the next trip
  std::vector<std::string> notes;  ///< notes of the site book, with their day
};

[[nodiscard]] AsBuiltSheet as_built_sheet_of(const TripFacts& facts);
[[nodiscard]] std::string as_built_text(const AsBuiltSheet& sheet, Ink ink);
/// A whole HTML 5 document in UTF-8, without script.
[[nodiscard]] std::string as_built_html(const AsBuiltSheet& sheet);

}  // namespace weatherstruck::render
