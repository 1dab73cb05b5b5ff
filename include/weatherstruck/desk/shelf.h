#pragma once
// The jobs kept in the record, by name, and jobs that are files.
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/desk/job_desk.h"
#include "weatherstruck/record/store.h"

namespace weatherstruck::desk {

/// Whether a word on the command line is a file's path rather than the name of a job: names hold neither
/// dots nor slashes.
[[nodiscard]] bool is_path(std::string_view word);

/// A kept job with its site book, by the norms of the tables.
/// @throws base::InputError ("no-such-job", with the nearest name)
[[nodiscard]] OpenJob open_kept(record::Store& store, const std::string& name,
                                const files::ZoneSource& zones);

/// The record, opened when something is first asked of it. Holds no job in memory.
class Shelf {
 public:
  /// @param file where the record lies; called once, by the first use
  /// @param now on a day whose copy of the record is made already, opening does not read it through again
  explicit Shelf(std::function<std::filesystem::path()> file, std::optional<base::Instant> now = {})
      : file_(std::move(file)), now_(now) {}

  /// @throws record::RecordError
  [[nodiscard]] record::Store& store();
  /// The store if it has been opened already, else nullptr.
  [[nodiscard]] const record::Store* opened() const { return store_ ? &*store_ : nullptr; }

  /// The job of that name with its site book and his own pace (desk/pace_desk.h), or the job in that file
  /// (without either).
  /// @throws base::InputError ("no-such-job", with the nearest name; what open_job throws for a file)
  [[nodiscard]] OpenJob open(const std::string& word, const files::ZoneSource& zones);

  /// Keeps a document under the name that stands in it, after reading it whole.
  /// @throws base::InputError for a document with faults, or "name-taken"
  OpenJob add(const std::string& document, const std::string& source, const files::ZoneSource& zones,
              base::Instant now);
  /// A new version of a kept job; the name in the document has to be the job's.
  /// @throws base::InputError for a document with faults
  OpenJob replace(const std::string& name, const std::string& document, const files::ZoneSource& zones,
                  base::Instant now);
  [[nodiscard]] std::vector<std::string> names() { return store().job_names(); }

 private:
  std::function<std::filesystem::path()> file_;
  std::optional<base::Instant> now_;
  std::optional<record::Store> store_;
};

}  // namespace weatherstruck::desk
