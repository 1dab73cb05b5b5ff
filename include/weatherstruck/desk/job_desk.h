#pragma once
// A job taken from its file, with the limits in force.
#include <filesystem>
#include <string>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::desk {

/// The faults of a job document, with the line of each place.
class JobRefused : public base::InputError {
 public:
  JobRefused(std::string source, base::Faults faults, files::JsonLines lines)
      : InputError(std::move(source), std::move(faults)), lines_(std::move(lines)) {}
  [[nodiscard]] const files::JsonLines& lines() const { return lines_; }

 private:
  files::JsonLines lines_;
};

struct OpenJob {
  std::string source;  ///< the path as given
  works::Job job;
  trade::LimitValues limits;
  base::Faults advice;  ///< stops nothing
  files::JsonLines lines;
};

/// @throws JobRefused with every fault of the document
/// @throws base::InputError where the file cannot be read
[[nodiscard]] OpenJob open_job(const std::filesystem::path& path, const files::ZoneSource& zones);

}  // namespace weatherstruck::desk
