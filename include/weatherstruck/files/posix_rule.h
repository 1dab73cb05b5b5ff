#pragma once
// The rule for years beyond the listed changes of a zone: the last line of a time zone file (RFC 9636
// 3.3), in the form POSIX gives for TZ. The date library lists changes and stops there, in 2037 for the
// usual files; this carries them on.
#include <optional>
#include <string_view>
#include <vector>

#include "weatherstruck/base/zone.h"

namespace weatherstruck::files {

/// The changes of the years `first` to `last` under a rule such as "GMT0BST,M3.5.0/1,M10.5.0", in order of
/// time; none for a rule without summer time ("CET-1"). nullopt where the text is no such rule, or counts
/// days of the year instead of naming month, week and weekday (no zone does today).
[[nodiscard]] std::optional<std::vector<base::Zone::Change>> changes_by_rule(std::string_view rule, int first,
                                                                             int last);

}  // namespace weatherstruck::files
