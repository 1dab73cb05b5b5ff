#pragma once
// A job taken from its file, with the limits in force.
#include <filesystem>
#include <string>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/zone_source.h"
#include "weatherstruck/record/rows.h"
#include "weatherstruck/trade/limits.h"
#include "weatherstruck/works/book.h"
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

/// Where in the record a job was taken from.
struct KeptAs {
  record::JobId id{};
  std::int64_t version = 0;        ///< of its document
  std::int64_t book_revision = 0;  ///< of the entries read with it
};

struct OpenJob {
  std::string source;  ///< the path as given, or the name of a kept job
  works::Job job;
  trade::LimitValues limits;
  base::Faults advice;  ///< stops nothing
  files::JsonLines lines;
  std::string document;        ///< the text it was read from
  std::optional<KeptAs> kept;  ///< nullopt: from a file
  works::Book book;            ///< empty for one from a file
};

/// Reads a document that came from `source`. @throws JobRefused with every fault of it
[[nodiscard]] OpenJob read_open_job(std::string document, const std::string& source,
                                    const files::ZoneSource& zones);

/// @throws JobRefused with every fault of the document
/// @throws base::InputError where the file cannot be read
[[nodiscard]] OpenJob open_job(const std::filesystem::path& path, const files::ZoneSource& zones);

}  // namespace weatherstruck::desk
