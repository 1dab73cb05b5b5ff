#pragma once
// Entries and amounts put back into words: as they are shown before they count, and in the exact form that
// the reader of dictated text takes back without loss.
#include <optional>
#include <string>
#include <string_view>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/book.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::works {

/// The title without its amounts in brackets: "Pour the north footing of the shelter".
[[nodiscard]] std::string short_title(const Task& task);

/// "all", "3 courses", "0.4 m3", "60 %". `unit` stands in for a unit that is not named.
[[nodiscard]] std::string said(const Amount& amount, const std::string& unit = "");

/// A sentence that shows the entry to the one who said it: "Lay courses 1 to 5 of the bed, all walls
/// together: 3 courses done at 16:10. Right?" Times of another day than that of `now` carry the day.
[[nodiscard]] std::string shown_back(const What& what, base::Instant at, const TaskList& tasks,
                                     const base::Zone& zone, base::Instant now);

/// One line that BookWords::read takes back as the same entry, to the minute (a gauge's and a stand-down's
/// too), where names are those of the job, free text is one line without edge spaces, and a cause, expense or
/// extra holds no digits, commas, quotes or words of the grammar (at, to, with, on, by, receipt). Nothing for
/// Struck.
[[nodiscard]] std::optional<std::string> exact_line(const What& what, base::Instant at,
                                                    const base::Zone& zone);

}  // namespace weatherstruck::works
