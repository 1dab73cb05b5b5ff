#include "weatherstruck/desk/shelf.h"

#include <fmt/format.h>

#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/pace_desk.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/record/daily_copy.h"

namespace weatherstruck::desk {
namespace {

[[noreturn]] void refuse(const std::string& source, std::string code, std::string found, std::string expected,
                         std::string remedy) {
  throw base::InputError(source,
                         {{std::move(code), "", std::move(found), std::move(expected), std::move(remedy)}});
}

works::Book book_of(const std::vector<record::Entry>& rows, const std::string& source) {
  works::Book book;
  for (const record::Entry& row : rows) {
    std::optional<works::EntryKey> corrects;
    if (row.corrects) {
      for (const record::Entry& earlier : rows) {
        if (earlier.id == *row.corrects) corrects = earlier.key;
      }
    }
    book.append({row.key, files::what_of(row.kind, row.body, source), row.at, row.noted_at, corrects});
  }
  return book;
}

}  // namespace

bool is_path(std::string_view word) {
  return word.find('/') != std::string_view::npos || word.find('.') != std::string_view::npos;
}

record::Store& Shelf::store() {
  if (store_) return *store_;
  const std::filesystem::path file = file_();
  record::OpenOptions options;
  if (now_ && record::is_copied(file, *now_)) options.check = record::OpenOptions::Check::copied;
  return store_.emplace(file, options);
}

OpenJob open_kept(record::Store& store, const std::string& name, const files::ZoneSource& zones) {
  const std::optional<record::Job> job = store.job(name);
  if (!job) {
    const std::vector<std::string> names = store.job_names();
    const std::optional<std::string> nearest = base::nearest_name(name, names);
    refuse(name, "no-such-job", fmt::format("no job \"{}\" is kept", name),
           nearest ? fmt::format("the name of a kept job, perhaps \"{}\"", *nearest)
                   : "the name of a kept job, or the path of a file (with a dot or a slash in it)",
           "\"weatherstruck job list\" lists them, \"job ask\" and \"job add FILE\" keep one.");
  }
  OpenJob open = read_open_job(job->document.text, name, zones);
  const std::vector<record::Entry> rows = store.entries(job->id);
  open.book = book_of(rows, name);
  open.kept = KeptAs{job->id, job->document.version, rows.empty() ? 0 : rows.back().revision};
  return open;
}

OpenJob Shelf::open(const std::string& word, const files::ZoneSource& zones) {
  if (is_path(word)) return open_job(word, zones);
  OpenJob open = open_kept(store(), word, zones);
  put_own_pace(store(), zones, open);
  return open;
}

OpenJob Shelf::add(const std::string& document, const std::string& source, const files::ZoneSource& zones,
                   base::Instant now) {
  OpenJob open = read_open_job(document, source, zones);
  const std::string name = open.job.name;
  if (store().job(name)) {
    refuse(source, "name-taken", fmt::format("a job \"{}\" is kept already", name),
           "a name that no kept job has",
           fmt::format("Change \"name\" in the document, or put the document in its place with "
                       "\"job add {} --replace\".",
                       source));
  }
  const record::JobId id = store().add_job(name, document, files::job_schema_version, now);
  open.source = name;
  open.kept = KeptAs{id, 1, 0};
  return open;
}

OpenJob Shelf::replace(const std::string& name, const std::string& document, const files::ZoneSource& zones,
                       base::Instant now) {
  OpenJob open = read_open_job(document, name, zones);
  const std::optional<record::Job> job = store().job(name);
  if (!job || open.job.name != name) {
    refuse(name, "no-such-job", fmt::format("the document is of \"{}\"", open.job.name),
           fmt::format("a document of the kept job \"{}\"", name), "Keep it as a new job instead.");
  }
  store().replace_job(job->id, document, files::job_schema_version, now);
  return this->open(name, zones);
}

}  // namespace weatherstruck::desk
