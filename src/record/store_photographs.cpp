// Photographs that go with lines of the book: the rows, and their files beside the record.
#include <fmt/format.h>

#include "store_inside.h"
#include "weatherstruck/record/folder.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

constexpr std::string_view unfinished = ".unfinished";

// What a program left that was killed while it wrote. Nobody else writes here now: the record is held.
void clear_unfinished(const std::filesystem::path& folder) {
  std::error_code ignored;
  std::vector<std::filesystem::path> left;
  for (const auto& entry : std::filesystem::directory_iterator(folder, ignored)) {
    if (entry.path().extension() == unfinished) left.push_back(entry.path());
  }
  for (const std::filesystem::path& picture : left)
    std::filesystem::remove(picture, ignored);
}

}  // namespace

bool Store::Inside::put_photograph(const Photograph& photograph, std::string_view bytes) {
  const std::filesystem::path picture = photograph_file(connection.path(), photograph);
  const PhotographState before = state_of(connection.path(), photograph);
  if (before == PhotographState::whole) {
    // Whoever gave it its name may have been killed before that was on the disk.
    flush_to_disk(picture);
    return false;
  }
  make_private_folder(picture.parent_path());
  clear_unfinished(picture.parent_path());
  if (before == PhotographState::missing) made.push_back(picture);
  replace_file(picture, bytes);
  if (state_of(connection.path(), photograph) != PhotographState::whole)
    throw RecordError(Kind::io, picture, "it does not read back as it was written");
  return true;
}

void Store::Inside::take_away_made() noexcept {
  // Only while the record is held: another program may rely on the picture as soon as it is let go.
  if (connection.in_transaction()) {
    std::error_code ignored;
    for (const std::filesystem::path& picture : made)
      std::filesystem::remove(picture, ignored);
  }
  made.clear();
}

KeptPhotograph Store::keep_photograph(JobId job, EntryId entry, std::string_view bytes, base::Instant at) {
  return inside_->write([&] {
    const std::optional<PhotographKind> kind = photograph_kind(bytes);
    if (!kind) inside_->refuse(fmt::format("the photograph is no {}", photograph_kinds_allowed()));
    if (bytes.size() > most_photograph_bytes) inside_->refuse("the photograph is too large");
    Statement line =
        inside_->ask("SELECT revision FROM entry WHERE job = ? AND id = ?", number_of(job), number_of(entry));
    if (!line.step()) inside_->refuse("the entry of the photograph is not in the book of this job");
    KeptPhotograph kept{
        {entry, line.integer(0), content_of_bytes(bytes), *kind, static_cast<std::int64_t>(bytes.size()), at},
        true};
    Photograph& photograph = kept.photograph;
    inside_->put_photograph(photograph, bytes);
    Statement earlier =
        inside_->ask("SELECT kept_at FROM photograph WHERE job = ? AND entry = ? AND content = ?",
                     number_of(job), number_of(entry), std::string_view(photograph.content));
    if (earlier.step()) {
      kept.added = false;
      photograph.kept_at = earlier.instant(0);
      return kept;
    }
    inside_
        ->ask("INSERT INTO photograph (job, entry, content, kind, size, kept_at) VALUES (?, ?, ?, ?, ?, ?)",
              number_of(job), number_of(entry), std::string_view(photograph.content), word_of(*kind),
              photograph.size, at)
        .step();
    return kept;
  });
}

std::vector<Photograph> Store::photographs(JobId job) {
  std::vector<Photograph> found;
  Statement rows = inside_->ask(
      "SELECT p.entry, e.revision, p.content, p.kind, p.size, p.kept_at FROM photograph p "
      "JOIN entry e ON e.id = p.entry WHERE p.job = ? ORDER BY p.id",
      number_of(job));
  while (rows.step()) {
    const std::optional<PhotographKind> kind = photograph_kind_named(rows.text(3));
    if (!kind)
      throw RecordError(Kind::corrupt, path(), "the file is damaged (a photograph of an unknown kind)");
    found.push_back(
        {EntryId{rows.integer(0)}, rows.integer(1), rows.text(2), *kind, rows.integer(4), rows.instant(5)});
  }
  return found;
}

std::vector<LostPhotograph> Store::lost_photographs(JobId job) {
  std::vector<LostPhotograph> lost;
  for (const Photograph& photograph : photographs(job)) {
    const PhotographState state = state_of(path(), photograph);
    if (state != PhotographState::whole) lost.push_back({photograph, state});
  }
  return lost;
}

}  // namespace weatherstruck::record
