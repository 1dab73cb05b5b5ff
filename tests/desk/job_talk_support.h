#pragma once
// Talks about a job for tests, on the evening of Saturday 7 February 2026.
#include <string>
#include <vector>

#include "desk/talk_support.h"
#include "weatherstruck/desk/job_talk.h"
#include "weatherstruck/desk/me_talk.h"

namespace weatherstruck::desk {

const files::SystemZones& zones();
/// As the demonstration has him.
const files::MeDocument& me();
base::Instant saturday_evening();

struct AskedJob {
  JobTalk talk;
  std::string said;
};
AskedJob ask_for(const std::string& input, const std::vector<std::string>& taken = {},
                 const files::MeDocument& who = me());

/// The demonstration's.
const std::vector<std::string>& job_answers();
/// The shortest talk that makes a job.
std::string least_job(const std::string& parts = "path\n6 x 0.75\n\n");

}  // namespace weatherstruck::desk
