#pragma once
// What the log command asks about words that could mean two things.
#include <string>
#include <vector>

#include "weatherstruck/app/command.h"
#include "weatherstruck/desk/book_desk.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::app {

/// What was understood, and under a heading of its own what was not: its words, what is asked, what would do.
void show_heard(render::Page& page, const desk::HeardText& heard);

/// The former alone.
void show_understood(render::Page& page, const desk::HeardText& heard);

struct Settled {
  desk::HeardText heard;              ///< no doubts are left
  std::vector<std::string> left_out;  ///< pieces that he chose to leave out
  bool cut_off = false;               ///< the input ended before the last answer
};

/// Asks about each doubt in turn: a number, other words, or nothing to leave the piece out.
[[nodiscard]] Settled settle_doubts(const Setting& setting, const desk::OpenJob& open,
                                    const works::Standing& standing, desk::HearRequest request,
                                    desk::HeardText heard);

}  // namespace weatherstruck::app
