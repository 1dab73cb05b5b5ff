#pragma once
// A change of a job tried before it is made: planned beside the job as it is, kept beside it until it is kept
// or dropped.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/desk/trip_desk.h"
#include "weatherstruck/files/job_alter.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/render/try_sheet.h"

namespace weatherstruck::desk {

/// The changes put to a job, against its document and, of a kept job, against what its book says is begun.
/// @param changes as files::changes_said gives them; not empty
/// @throws base::InputError with every fault: those of files::alter_job, "begun-already", "more-is-done"
[[nodiscard]] files::Altered try_on(const OpenJob& open, const std::vector<std::string>& changes,
                                    const files::ZoneSource& zones, base::Instant now);

/// The job as it is and as tried, both planned anew from what is done at `trip.now` and followed through the
/// same weathers. nullopt for a job from a file whose trip has begun, since nobody knows what is done.
/// @param trip of the job as it is
/// @param rates nullptr: what he charges is not kept
[[nodiscard]] std::optional<render::TryFacts> tried(const PlannedTrip& trip, const files::Altered& altered,
                                                    const account::Rates* rates, std::uint64_t seed);

/// The changes that stand beside a kept job.
struct StandingTrial {
  std::vector<std::string> changes;
  std::int64_t version = 0;  ///< of the job's document when they were tried
  base::Instant at{};
};
[[nodiscard]] std::optional<StandingTrial> standing_trial(Shelf& shelf, const OpenJob& open);
/// In the place of what stood. @pre open.kept
void stand(Shelf& shelf, const OpenJob& open, const std::vector<std::string>& changes, base::Instant now);
/// Writes the job with what stands, as a new version of it; then nothing stands.
/// @pre open.kept
/// @throws base::InputError "nothing-tried", "job-changed" (since it was tried), and what try_on throws
files::Altered keep_trial(Shelf& shelf, const OpenJob& open, const files::ZoneSource& zones,
                          base::Instant now);
/// @return what stood; nullopt where nothing did. @pre open.kept
std::optional<StandingTrial> drop_trial(Shelf& shelf, const OpenJob& open, base::Instant now);

}  // namespace weatherstruck::desk
