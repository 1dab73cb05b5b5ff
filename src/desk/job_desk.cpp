#include "weatherstruck/desk/job_desk.h"

#include <utility>

#include "weatherstruck/desk/file_text.h"

namespace weatherstruck::desk {
namespace {

trade::LimitValues limits_of(const works::Limits& limits, const std::string& source) {
  std::vector<trade::LimitSetting> settings;
  for (const works::LimitOverride& one : limits.overrides)
    settings.push_back({one.key, one.value});
  trade::ResolvedLimits resolved = trade::limits_for(limits.set, limits.cold_rule, settings);
  if (!resolved.faults.empty()) throw base::InputError(source, std::move(resolved.faults));
  return std::move(resolved.values);
}

}  // namespace

OpenJob read_open_job(std::string document, const std::string& source, const files::ZoneSource& zones) {
  files::JobRead read = files::read_job(document, zones);
  if (!read.job) throw JobRefused(source, std::move(read.faults), std::move(read.lines));
  trade::LimitValues limits = limits_of(read.job->limits, source);
  return {source,
          std::move(*read.job),
          std::move(limits),
          std::move(read.advice),
          std::move(read.lines),
          std::move(document),
          std::nullopt,
          {}};
}

OpenJob open_job(const std::filesystem::path& path, const files::ZoneSource& zones) {
  return read_open_job(text_of_file(path, "a job document", files::JsonLimits::job_document().most_bytes),
                       path.string(), zones);
}

}  // namespace weatherstruck::desk
