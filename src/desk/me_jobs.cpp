#include "weatherstruck/desk/me_jobs.h"

#include "job_ask.h"
#include "weatherstruck/files/job_writer.h"

namespace weatherstruck::desk {
namespace {

works::Job with_his(works::Job job, const works::Me& me) {
  job.crew = me.crew;
  job.kit = me.kit;
  job.limits = me.limits;
  job.practice = me.practice;
  job.trip.working_day = me.working_day;
  job.trip.longest_day = me.longest_day;
  fit_days(job);
  return job;
}

}  // namespace

std::vector<std::string> jobs_unlike(Shelf& shelf, const works::Me& me, const files::ZoneSource& zones,
                                     base::Instant now) {
  std::vector<std::string> names;
  for (const std::string& name : shelf.names()) {
    const OpenJob open = shelf.open(name, zones);
    if (open.job.trip.home_by <= now) continue;
    if (files::write_job(open.job) != files::write_job(with_his(open.job, me))) names.push_back(name);
  }
  return names;
}

bool put_into_job(Shelf& shelf, const std::string& name, const works::Me& me, const files::ZoneSource& zones,
                  base::Instant now) {
  const OpenJob open = shelf.open(name, zones);
  const std::string document = files::write_job(with_his(open.job, me));
  if (document == files::write_job(open.job)) return false;
  (void)shelf.replace(name, document, zones, now);
  return true;
}

}  // namespace weatherstruck::desk
