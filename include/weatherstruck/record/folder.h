#pragma once
// Where the record lies (XDG Base Directory Specification 0.8) and who may read it: nobody but its owner.
#include <filesystem>
#include <map>
#include <string>
#include <string_view>

namespace weatherstruck::record {

using Environment = std::map<std::string, std::string>;

/// $XDG_DATA_HOME/weatherstruck, or $HOME/.local/share/weatherstruck where XDG_DATA_HOME is unset, empty or
/// relative (the specification has relative values ignored). Touches no disk.
/// @throws RecordError other where HOME is no absolute path either
[[nodiscard]] std::filesystem::path data_folder(const Environment& environment);

/// data_folder() / "record.db".
[[nodiscard]] std::filesystem::path record_file(const Environment& environment);

/// Makes the folder and those above it that are missing, each 0700; one that is there keeps its rights.
/// @throws RecordError
void make_private_folder(const std::filesystem::path& folder);

/// Makes an empty file with rights 0600 where there is none; one that is there is left alone.
/// @return whether it was made
/// @throws RecordError
bool make_private_file(const std::filesystem::path& file);

/// Writes a file that was not there, with rights 0600, and has it on the disk before it returns: whole under
/// its name, or not there. A program that is killed leaves "NAME.unfinished" at most, which the next one
/// writes over.
/// @throws RecordError conflict where a file of that name is there; full, read_only or io
void write_new_file(const std::filesystem::path& file, std::string_view bytes);

/// The same where a file of that name may be there: it is written over, the old one or the new one whole at
/// every moment. @throws RecordError full, read_only or io
void replace_file(const std::filesystem::path& file, std::string_view bytes);

/// All bytes of a file. @throws RecordError io
[[nodiscard]] std::string read_whole_file(const std::filesystem::path& file);

/// Has the file and its entry in the folder on the disk before it returns. Not for a file that this process
/// has open as a database: closing any descriptor of a file drops all the process's locks on it (POSIX
/// fcntl).
/// @throws RecordError
void flush_to_disk(const std::filesystem::path& file);

/// Whether the folder lies on a file system of another machine (NFS, SMB, CIFS, 9p, AFS), where the shared
/// memory of the write-ahead log does not work (sqlite.org/wal.html).
[[nodiscard]] bool lies_on_network(const std::filesystem::path& folder);

}  // namespace weatherstruck::record
