#pragma once
// What can go wrong with the record itself: disk, rights, other programs, a damaged file. Faults of the world
// and not of what somebody wrote, so an exception, caught once, in app.
#include <exception>
#include <filesystem>
#include <string>
#include <string_view>

namespace weatherstruck::record {

/// One exception for the floor. Whatever its kind, nothing of the failed write has been kept.
class RecordError : public std::exception {
 public:
  enum class Kind {
    busy,             ///< another program was writing for longer than the time allowed to wait
    locked,           ///< this program is in its own way: a write while it still reads
    full,             ///< no room on the disk, or the cap of OpenOptions::most_pages reached
    read_only,        ///< the file, its folder or the disk may not be written
    corrupt,          ///< the file is damaged
    not_ours,         ///< a file of something else lies there
    from_the_future,  ///< written by a newer version of the program, perhaps while this one was running
    conflict,         ///< the name, key or number is taken, or what is referred to does not exist
    io,               ///< the disk failed, or the file cannot be opened
    other,
  };

  /// @param found what was found, a clause without a full stop; the rest of the message goes with `kind`
  RecordError(Kind kind, std::filesystem::path path, std::string found);
  /// The same with a remedy of its own (whole sentences).
  RecordError(Kind kind, std::filesystem::path path, std::string found, std::string remedy);

  [[nodiscard]] Kind kind() const { return kind_; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] const std::string& found() const { return found_; }
  /// What to do, one or two imperative sentences.
  [[nodiscard]] const std::string& remedy() const { return remedy_; }
  /// "PATH: FOUND. REMEDY"
  [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

 private:
  Kind kind_;
  std::filesystem::path path_;
  std::string found_;
  std::string remedy_;
  std::string text_;
};

/// "busy", "read-only": stable, for --json.
[[nodiscard]] std::string_view word_of(RecordError::Kind kind);

}  // namespace weatherstruck::record
