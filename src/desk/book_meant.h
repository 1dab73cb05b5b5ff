#pragma once
// Which of several tasks or covers is meant, by how the job stood then.
#include <optional>
#include <string>

#include "weatherstruck/programme/plan.h"
#include "weatherstruck/works/book_words.h"
#include "weatherstruck/works/standing.h"

namespace weatherstruck::desk {

struct Meant {
  std::string choice;   ///< one of the question's candidates
  std::string because;  ///< "bed-dig is finished"
};

/// The one task that was not finished and could have begun before the moment of the question, else the one
/// planned for it; the cover planned for it. Nothing where that leaves more than one.
/// @param book with whatever else the same text says
/// @param plan may be nullptr
[[nodiscard]] std::optional<Meant> meant_by(const works::Question& question, const works::Standing& standing,
                                            const works::Book& book, const programme::Plan* plan);

}  // namespace weatherstruck::desk
