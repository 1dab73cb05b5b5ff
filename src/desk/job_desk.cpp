#include "weatherstruck/desk/job_desk.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

namespace weatherstruck::desk {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const fs::path& path, std::string code, std::string found, std::string remedy) {
  throw base::InputError(path.string(),
                         {{std::move(code), "", std::move(found), "a job document", std::move(remedy)}});
}

// No more than the reader of the document takes, and one byte to let it see that there is more.
std::string text_of(const fs::path& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) {
    refuse(path, "no-such-file", "no such file",
           "Check the path; \"weatherstruck job blank\" prints a job to fill in.");
  }
  if (status.type() == fs::file_type::directory)
    refuse(path, "not-a-file", "a folder", "Name the file in it.");
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in)
    refuse(path, "unreadable", errno != 0 ? std::strerror(errno) : "cannot be opened",
           "Check who may read it.");
  std::string text(files::JsonLimits::job_document().most_bytes + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (in.bad()) refuse(path, "unreadable", "reading stopped half way", "Try again.");
  text.resize(static_cast<std::size_t>(in.gcount()));
  return text;
}

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

OpenJob open_job(const fs::path& path, const files::ZoneSource& zones) {
  return read_open_job(text_of(path), path.string(), zones);
}

}  // namespace weatherstruck::desk
