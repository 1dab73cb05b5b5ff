#pragma once
// A folder that goes when the test ends, and records to put in it.
#include <filesystem>
#include <stdexcept>
#include <string>

#include "record/numbered_entry.h"
#include "weatherstruck/record/store.h"

namespace weatherstruck::record {

/// 2026-02-09T08:00:00Z and so many minutes.
inline base::Instant at_minute(std::int64_t minutes) {
  return base::Instant(std::chrono::seconds(1770624000 + 60 * minutes));
}

class Scratch {
 public:
  Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch();
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  [[nodiscard]] std::filesystem::path file() const { return folder_ / "data" / "record.db"; }

 private:
  std::filesystem::path folder_;
};

/// Drops the rights of root for as long as it lives, so that rights of files mean something; everything in
/// `folder` is given to the user that is left.
class WithoutRoot {
 public:
  explicit WithoutRoot(const std::filesystem::path& folder);
  WithoutRoot(const WithoutRoot&) = delete;
  WithoutRoot& operator=(const WithoutRoot&) = delete;
  ~WithoutRoot();

 private:
  bool dropped_ = false;
};

/// Adds the job "wall".
JobId add_wall(Store& store);
/// A plan on the book, document and forecast of now; a forecast for "wall" is put first where there is none.
NewPlan plan_for(Store& store, JobId job);

/// What `work` threw. Fails the test where it threw nothing.
template <class Work>
RecordError::Kind kind_thrown(const Work& work, std::string* text = nullptr);

std::string bytes_of(const std::filesystem::path& path);
void write_bytes(const std::filesystem::path& path, const std::string& bytes);
/// Rights of a file or folder, the lowest nine bits.
unsigned rights(const std::filesystem::path& path);

template <class Work>
RecordError::Kind kind_thrown(const Work& work, std::string* text) {
  try {
    work();
  } catch (const RecordError& error) {
    if (text != nullptr) *text = error.what();
    return error.kind();
  }
  throw std::logic_error("nothing was thrown");
}

}  // namespace weatherstruck::record
