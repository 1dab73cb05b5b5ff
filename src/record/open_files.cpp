#include "open_files.h"

#include <map>
#include <mutex>

namespace weatherstruck::record {
namespace {

struct Counts {
  std::mutex mutex;
  std::map<std::string, int> of;
};

Counts& counts() {
  static Counts all;
  return all;
}

}  // namespace

OpenFile::OpenFile(const std::filesystem::path& file)
    : key_(std::filesystem::weakly_canonical(file).string()) {
  const std::scoped_lock lock(counts().mutex);
  int& count = counts().of[key_];
  if (count == 0) tail_ = wal_tail_of(file);
  ++count;
}

OpenFile::~OpenFile() {
  const std::scoped_lock lock(counts().mutex);
  --counts().of[key_];
}

}  // namespace weatherstruck::record
