#pragma once
// What is measured with tape, line and gauge rod: rough lines for digging first, with the steps of each
// trench; then, on the hard concrete, the true lines with their diagonals and a 3-4-5 to square them; then
// the marks of each course on the rod, from one datum, with the bricks that go into it.
#include <string>
#include <vector>

#include "weatherstruck/render/page.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

struct SettingOutSheet {
  /// A course right round a part, lowest first.
  struct Mark {
    int course = 0;    ///< from 1 at the lowest concrete
    int top = 0;       ///< mm above the datum; below it negative
    double below = 0;  ///< bricks to the brick, in halves
    double seen = 0;
  };
  struct Part {
    std::string title;
    std::vector<std::string> rough;  ///< sentences, in the order of work
    std::vector<std::string> true_lines;
    std::vector<std::string> openings;  ///< reveals, piers, weep holes
    std::vector<Mark> marks;
  };
  std::string job;
  std::vector<Part> parts;  ///< bases, beds, boxes, footings with their walls; paths and steps have none
};

/// The datum of a part is the top of its concrete at its high end.
[[nodiscard]] SettingOutSheet setting_out_sheet_of(const works::Job& job, const works::Expansion& expansion);
[[nodiscard]] std::string setting_out_text(const SettingOutSheet& sheet, Ink ink);
/// A whole HTML 5 document in UTF-8, without script.
[[nodiscard]] std::string setting_out_html(const SettingOutSheet& sheet);

}  // namespace weatherstruck::render
