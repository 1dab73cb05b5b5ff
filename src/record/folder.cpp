#include "weatherstruck/record/folder.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/statfs.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <functional>

#include "weatherstruck/record/record_error.h"

namespace weatherstruck::record {
namespace {

namespace fs = std::filesystem;

constexpr mode_t private_folder = 0700;
constexpr mode_t private_file = 0600;

// File systems of other machines; numbers from linux/magic.h and statfs(2).
constexpr std::array<std::uint32_t, 6> network_types{
    0x6969,      // NFS
    0x517B,      // SMB
    0xFF534D42,  // CIFS
    0xFE534D42,  // SMB2
    0x01021997,  // 9p
    0x5346414F,  // AFS
};

RecordError::Kind kind_of(int reason) {
  if (reason == ENOSPC || reason == EDQUOT || reason == EFBIG) return RecordError::Kind::full;
  if (reason == EROFS || reason == EACCES || reason == EPERM) return RecordError::Kind::read_only;
  return RecordError::Kind::io;
}

[[noreturn]] void fail(const fs::path& path, const char* what) {
  const int reason = errno;
  throw RecordError(kind_of(reason), path, fmt::format("{} ({})", what, std::strerror(reason)));
}

fs::path absolute_or_empty(const Environment& environment, const char* name) {
  const auto found = environment.find(name);
  if (found == environment.end()) return {};
  fs::path path = found->second;
  return path.is_absolute() ? path : fs::path();
}

// A descriptor that is closed whatever happens.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  [[nodiscard]] int number() const { return number_; }

 private:
  int number_;
};

void flush(const fs::path& path, int flags) {
  const Descriptor opened(::open(path.c_str(), flags | O_CLOEXEC));
  if (opened.number() < 0) fail(path, "it cannot be opened to bring it to the disk");
  // A file system that cannot flush a folder says EINVAL; nothing more can be done there.
  if (::fsync(opened.number()) != 0 && errno != EINVAL) fail(path, "it could not be brought to the disk");
}

// Written and on the disk under another name before `name` gives it its own.
void write_by_the_side(const fs::path& file, std::string_view bytes,
                       const std::function<void(const fs::path&)>& name) {
  const fs::path unfinished = file.string() + ".unfinished";
  try {
    const Descriptor opened(
        ::open(unfinished.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW | O_CLOEXEC, private_file));
    if (opened.number() < 0) fail(file, "the file cannot be made");
    while (!bytes.empty()) {
      const ssize_t written = ::write(opened.number(), bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) fail(file, "the file could not be written");
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    if (::fsync(opened.number()) != 0) fail(file, "it could not be brought to the disk");
    name(unfinished);
    flush(file.has_parent_path() ? file.parent_path() : fs::path("."), O_RDONLY | O_DIRECTORY);
  } catch (...) {
    std::error_code ignored;
    fs::remove(unfinished, ignored);
    throw;
  }
}

}  // namespace

fs::path data_folder(const Environment& environment) {
  const fs::path data = absolute_or_empty(environment, "XDG_DATA_HOME");
  if (!data.empty()) return data / "weatherstruck";
  const fs::path home = absolute_or_empty(environment, "HOME");
  if (!home.empty()) return home / ".local" / "share" / "weatherstruck";
  throw RecordError(RecordError::Kind::other, "HOME",
                    "neither XDG_DATA_HOME nor HOME is set to a path that begins with /",
                    "Set one of them, so that there is a place for the record.");
}

fs::path record_file(const Environment& environment) {
  return data_folder(environment) / "record.db";
}

void make_private_folder(const fs::path& folder) {
  std::error_code error;
  if (fs::is_directory(folder, error)) return;
  const fs::path above = folder.parent_path();
  if (!above.empty() && above != folder) make_private_folder(above);
  // Another program may have made it meanwhile.
  if (::mkdir(folder.c_str(), private_folder) != 0 && !(errno == EEXIST && fs::is_directory(folder, error))) {
    fail(folder, "the folder cannot be made");
  }
}

bool make_private_file(const fs::path& file) {
  const Descriptor made(::open(file.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, private_file));
  if (made.number() >= 0) return true;
  if (errno != EEXIST) fail(file, "the file cannot be made");
  return false;
}

void write_new_file(const fs::path& file, std::string_view bytes) {
  const auto refuse_taken = [&] {
    throw RecordError(RecordError::Kind::conflict, file, "a file of this name is there",
                      "Nothing was written. Name another file, or move that one away.");
  };
  std::error_code ignored;
  if (fs::exists(fs::symlink_status(file, ignored))) refuse_taken();
  write_by_the_side(file, bytes, [&](const fs::path& unfinished) {
    // File systems without this kind of renaming (EINVAL) get the plain one.
    if (::renameat2(AT_FDCWD, unfinished.c_str(), AT_FDCWD, file.c_str(), RENAME_NOREPLACE) == 0) return;
    if (errno == EEXIST) refuse_taken();
    if (errno != EINVAL || ::rename(unfinished.c_str(), file.c_str()) != 0)
      fail(file, "the file could not be given its name");
  });
}

void replace_file(const fs::path& file, std::string_view bytes) {
  write_by_the_side(file, bytes, [&](const fs::path& unfinished) {
    if (::rename(unfinished.c_str(), file.c_str()) != 0) fail(file, "the file could not be given its name");
  });
}

std::string read_whole_file(const fs::path& file) {
  const Descriptor opened(::open(file.c_str(), O_RDONLY | O_CLOEXEC));
  if (opened.number() < 0) fail(file, "it cannot be opened");
  std::string bytes;
  std::array<char, 65536> part{};
  for (;;) {
    const ssize_t got = ::read(opened.number(), part.data(), part.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) fail(file, "it cannot be read");
    if (got == 0) return bytes;
    bytes.append(part.data(), static_cast<std::size_t>(got));
  }
}

void flush_to_disk(const fs::path& file) {
  flush(file, O_RDONLY);
  flush(file.has_parent_path() ? file.parent_path() : fs::path("."), O_RDONLY | O_DIRECTORY);
}

bool lies_on_network(const fs::path& folder) {
  struct statfs about {};
  if (::statfs(folder.c_str(), &about) != 0) return false;
  const auto type = static_cast<std::uint32_t>(about.f_type);
  return std::find(network_types.begin(), network_types.end(), type) != network_types.end();
}

}  // namespace weatherstruck::record
