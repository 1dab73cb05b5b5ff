#pragma once
// His own pace from all that is kept. What was timed on a job is reckoned once for each state of its book and
// kept, since the books of years are long.
#include <optional>
#include <string_view>
#include <vector>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/record/store.h"
#include "weatherstruck/works/own_pace.h"

namespace weatherstruck::desk {

/// What was timed on every kept job, in the order they were added. A job whose document no longer reads is
/// passed over.
/// @param but_not that job; nullopt: all
/// @throws record::RecordError where the record cannot be read; that what was reckoned could not be kept is
/// no fault
[[nodiscard]] std::vector<works::TimedWork> timed_on_jobs(record::Store& store,
                                                          const files::ZoneSource& zones,
                                                          std::optional<record::JobId> but_not = {});

/// Puts what was learnt before the job's trip into it: the trip's own entries are for the next one, so that
/// its plans stand on the same pace from its first morning to its last. For a job that one person does alone.
void put_own_pace(record::Store& store, const files::ZoneSource& zones, OpenJob& open);

/// All that is known of him, for a look at it.
/// @param now entries dated later do not count
[[nodiscard]] std::vector<works::LearntPace> own_paces(record::Store& store, const files::ZoneSource& zones,
                                                       base::Instant now);

/// The kind of work of a key. @throws base::InputError "unknown-work", with the nearest
[[nodiscard]] trade::Operation work_of(std::string_view key);

/// Forgets what was logged before `from`. Keeps a new version of his document.
/// @param work key of a kind of work; empty: all
/// @throws base::InputError "unknown-work"; "nobody" where he has not said who he is
void forget_pace(record::Store& store, const files::ZoneSource& zones, std::string_view work,
                 base::Instant from);

}  // namespace weatherstruck::desk
