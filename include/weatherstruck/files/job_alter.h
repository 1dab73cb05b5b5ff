#pragma once
// Changes of a job said in a few plain words, in the words of its document: "bed +3 courses", "turn shelter",
// "path gravel", "bed length 3.5 m", "without path", "path must".
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// Keys of changes that are no member of a part.
inline constexpr std::string_view altered_by_turning = "turn";
inline constexpr std::string_view altered_by_leaving_out = "without";
inline constexpr std::string_view altered_importance = "importance";

/// One change, understood.
struct Alteration {
  works::Name part;
  std::string key;   ///< a member of the part in the job document, or one of the above
  std::string said;  ///< "bed: 6 courses instead of 3"
};

struct Altered {
  works::Job job;
  std::vector<Alteration> changes;  ///< in the order said; each on the job with those before it
  base::Faults advice;              ///< of the check of the changed job
};

/// What was typed, one text a change: a word with a space in it stands for itself, others are joined up to
/// it; commas and semicolons part changes.
[[nodiscard]] std::vector<std::string> changes_said(const std::vector<std::string>& words);

/// The job with all of the changes, checked as a document is. Faults of every change at once, each with its
/// words as its place: "no-such-part", "unclear-change" (with what of the part may be changed, and to what),
/// "out-of-range", "bad-word", "no-change", "cannot-turn", "cannot-leave-out"; or those of the check.
[[nodiscard]] std::variant<Altered, base::Faults> alter_job(const works::Job& job,
                                                            const std::vector<std::string>& changes,
                                                            const ZoneSource& zones);

}  // namespace weatherstruck::files
