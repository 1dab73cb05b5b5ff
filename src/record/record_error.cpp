#include "weatherstruck/record/record_error.h"

#include <array>
#include <utility>

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

struct Row {
  Kind kind;
  std::string_view word;
  std::string_view remedy;
};

constexpr std::array<Row, 10> table{{
    {Kind::busy, "busy", "Nothing was kept. Wait for the other program or close it, then do it again."},
    {Kind::locked, "locked", "Nothing was kept. Do it again; if it comes back, close the program first."},
    {Kind::full, "full",
     "Nothing of this was kept; all that was kept before is safe. Make room, then do it again."},
    {Kind::read_only, "read-only",
     "Nothing was kept. Give yourself the right to write the file, those beside it and their folder, or name "
     "another "
     "folder in XDG_DATA_HOME."},
    {Kind::corrupt, "corrupt",
     "Do not write to it any more. Put it aside with its -wal and -shm files and take the newest kept copy."},
    {Kind::not_ours, "not-ours",
     "Move it away to begin a new record, or put a kept copy of your record in its place."},
    {Kind::from_the_future, "from-the-future",
     "Nothing was changed. Install that version or a newer one; an older copy kept beside the file still "
     "opens with "
     "this one."},
    {Kind::conflict, "conflict", "Nothing was kept. Take another name or key, or look at what is there."},
    {Kind::io, "io", "Nothing of this was kept. Check the disk and who may open the file, then do it again."},
    {Kind::other, "other", "Nothing was kept. Do it again; if it comes back, report it with these words."},
}};

const Row& row_of(Kind kind) {
  for (const Row& row : table) {
    if (row.kind == kind) return row;
  }
  return table.back();
}

}  // namespace

RecordError::RecordError(Kind kind, std::filesystem::path path, std::string found)
    : RecordError(kind, std::move(path), std::move(found), std::string(row_of(kind).remedy)) {}

RecordError::RecordError(Kind kind, std::filesystem::path path, std::string found, std::string remedy)
    : kind_(kind),
      path_(std::move(path)),
      found_(std::move(found)),
      remedy_(std::move(remedy)),
      text_(path_.string() + ": " + found_ + ". " + remedy_) {}

std::string_view word_of(Kind kind) {
  return row_of(kind).word;
}

}  // namespace weatherstruck::record
