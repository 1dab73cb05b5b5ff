#pragma once
// A job asked for: about fourteen matters, each with what is usual in brackets. At the end what he names is
// asked again, and the rest stays.
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "weatherstruck/desk/talk.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::desk {

struct JobTalk {
  TalkEnd end = TalkEnd::cut_off;
  std::optional<works::Job> job;  ///< nullopt unless the talk went through and he kept it
  std::string document;           ///< the job as it is to be kept; it reads without a fault
};

/// Asks for a job and shows it whole before it asks whether to keep it. Keeps nothing itself.
/// @param now times such as "Thu 21:00" are the next after it
/// @param taken names that kept jobs have
/// @param all false: what is mostly as usual is not asked, but shown at the end as taken so and asked for
/// once
///   he names it (short name, customer, strips of bases, hours of noise, merchant, price)
[[nodiscard]] JobTalk ask_job(Talk& talk, const files::MeDocument& me, base::Instant now,
                              const std::vector<std::string>& taken, const files::ZoneSource& zones,
                              bool all = true);

/// The same job under another name and for another trip: asks when he leaves and when he has to be home.
/// Deliveries move by as many days as the leaving does; appointments are left off.
[[nodiscard]] JobTalk ask_copy(Talk& talk, const works::Job& job, const std::string& name, base::Instant now,
                               const files::ZoneSource& zones);

}  // namespace weatherstruck::desk
