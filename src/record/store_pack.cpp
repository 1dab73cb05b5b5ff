// A job packed away, and brought in.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "job_rows.h"
#include "pack_file.h"
#include "store_inside.h"
#include "weatherstruck/record/folder.h"

namespace weatherstruck::record {
namespace {

using Kind = RecordError::Kind;

// What a job gathers in the course of time; the other tables are looked up.
constexpr std::array<JobTable, 6> gathered{JobTable::job_version, JobTable::entry,   JobTable::plan,
                                           JobTable::sheet,       JobTable::invoice, JobTable::photograph};

// How many rows of the two are the same from the first on.
std::size_t common(const std::vector<KnownRow>& one, const std::vector<KnownRow>& other) {
  std::size_t same = 0;
  while (same < std::min(one.size(), other.size()) && one[same].key == other[same].key)
    ++same;
  return same;
}

// How far two records of a job agree.
struct Compared {
  bool here_has_more = false;
  bool packed_has_more = false;
};

Compared compare(const JobRows& here, const JobRows& packed) {
  Compared out;
  for (const JobTable table : gathered) {
    const std::size_t same = common(rows_of(here, table), rows_of(packed, table));
    out.here_has_more = out.here_has_more || rows_of(here, table).size() > same;
    out.packed_has_more = out.packed_has_more || rows_of(packed, table).size() > same;
  }
  return out;
}

void refuse_what_moved_on(const std::filesystem::path& source, const std::string& name, const JobRows& here,
                          const JobRows& packed) {
  const auto refuse = [&](std::string found, std::string remedy) {
    throw RecordError(Kind::conflict, source, std::move(found), std::move(remedy));
  };
  if (common(rows_of(here, JobTable::job), rows_of(packed, JobTable::job)) == 0) {
    refuse(fmt::format("another job \"{}\" is kept here", name),
           "Nothing was changed. Bring it in with another folder named in XDG_DATA_HOME.");
  }
  const Compared found = compare(here, packed);
  if (!found.here_has_more) return;
  const std::string lines =
      fmt::format("the book here has {} lines and {} plans, the packed one {} and {}",
                  rows_of(here, JobTable::entry).size(), rows_of(here, JobTable::plan).size(),
                  rows_of(packed, JobTable::entry).size(), rows_of(packed, JobTable::plan).size());
  if (found.packed_has_more) {
    refuse(fmt::format("the job \"{}\" went on here and in the packed copy as well ({})", name, lines),
           "Nothing was changed. Two that went on cannot be made one: look at the packed one with another "
           "folder "
           "named in XDG_DATA_HOME, and log here what only it has.");
  }
  refuse(fmt::format("the job \"{}\" has gone on here since it was packed ({})", name, lines),
         "Nothing was changed: what is here holds all that was packed. To see the job as it was then, bring "
         "it in "
         "with another folder named in XDG_DATA_HOME.");
}

// Numbers of rows that are here already, for those that come to refer to.
void know(Renumbered& numbers, JobTable table, const JobRows& packed, const JobRows& here) {
  const std::vector<KnownRow>& theirs = rows_of(packed, table);
  const std::vector<KnownRow>& ours = rows_of(here, table);
  const bool in_order = table != JobTable::forecast && table != JobTable::person;
  for (std::size_t i = 0; i < theirs.size(); ++i) {
    if (in_order) {
      if (i < ours.size()) numbers[static_cast<std::size_t>(table)][theirs[i].number] = ours[i].number;
      continue;
    }
    const auto same =
        std::find_if(ours.begin(), ours.end(), [&](const KnownRow& row) { return row.key == theirs[i].key; });
    if (same != ours.end()) numbers[static_cast<std::size_t>(table)][theirs[i].number] = same->number;
  }
}

std::vector<std::string> series_of(Connection& connection, std::int64_t job) {
  std::vector<std::string> found;
  Statement rows = connection.prepare("SELECT DISTINCT series FROM invoice WHERE job = ? ORDER BY series");
  rows.bind(1, job);
  while (rows.step())
    found.push_back(rows.text(0));
  return found;
}

void close_series(Connection& connection, const std::string& series, std::int64_t job, base::Instant at) {
  Statement put = connection.prepare("INSERT INTO closed_series (series, job, closed_at) VALUES (?, ?, ?)");
  put.bind(1, std::string_view(series));
  put.bind(2, job);
  put.bind(3, at);
  put.step();
}

// Brings persons in; who he is here stays who he is.
void bring_persons(RowCopier& copier, Connection& here) {
  const std::int64_t last = here.number("SELECT coalesce(max(version), 0) FROM person");
  if (copier.copy(JobTable::person) == 0 || last == 0) return;
  Statement again = here.prepare(
      "INSERT INTO person (version, document, schema_version, made_at) SELECT (SELECT max(version) + 1 FROM "
      "person), document, schema_version, made_at FROM person WHERE version = ?");
  again.bind(1, last);
  again.step();
}

// Brings forecasts in. What is newest of a source is told by the order kept, so an issue here that is newer
// than those brought is said once more after them.
std::int64_t bring_forecasts(RowCopier& copier, Connection& packed, Connection& here) {
  struct Newer {
    std::string place;
    std::string source;
  };
  std::vector<Newer> said_again;
  {
    Statement brought =
        packed.prepare("SELECT place, source, max(fetched_at) FROM forecast GROUP BY place, source");
    while (brought.step()) {
      Statement newest = here.prepare(
          "SELECT fetched_at FROM forecast WHERE place = ? AND source = ? AND body IS NOT NULL ORDER BY id "
          "DESC "
          "LIMIT 1");
      const std::string place = brought.text(0);
      const std::string source = brought.text(1);
      newest.bind(1, std::string_view(place));
      newest.bind(2, std::string_view(source));
      if (newest.step() && newest.instant(0) > brought.instant(2)) said_again.push_back({place, source});
    }
  }
  const std::int64_t before = here.number("SELECT coalesce(max(id), 0) FROM forecast");
  const std::int64_t copied = copier.copy(JobTable::forecast);
  if (copied == 0) return 0;
  for (const Newer& newer : said_again) {
    Statement again = here.prepare(
        "INSERT INTO forecast (job, place, source, url, status, body, last_modified, etag, expires, "
        "fetched_at) "
        "SELECT job, place, source, url, status, body, last_modified, etag, expires, fetched_at FROM "
        "forecast "
        "WHERE id = (SELECT max(id) FROM forecast WHERE place = ?1 AND source = ?2 AND body IS NOT NULL AND "
        "id "
        "<= ?3)");
    again.bind(1, std::string_view(newer.place));
    again.bind(2, std::string_view(newer.source));
    again.bind(3, before);
    again.step();
  }
  return copied;
}

// @return the series that this record gives no numbers in from now on
std::vector<std::string> bring_invoices(RowCopier& copier, std::size_t known, PackFile& file,
                                        Connection& here, const std::filesystem::path& source,
                                        std::int64_t job, base::Instant now) {
  std::vector<std::string> closed;
  std::set<std::string> seen;
  Statement rows = file.rows().prepare("SELECT series, number FROM invoice ORDER BY id LIMIT -1 OFFSET ?");
  rows.bind(1, static_cast<std::int64_t>(known));
  while (rows.step()) {
    const std::string series = rows.text(0);
    const std::int64_t number = rows.integer(1);
    Statement taken = here.prepare(
        "SELECT job.name FROM invoice JOIN job ON job.id = invoice.job WHERE series = ? AND number = ?");
    taken.bind(1, std::string_view(series));
    taken.bind(2, number);
    if (taken.step()) {
      throw RecordError(
          Kind::conflict, source,
          fmt::format("its invoice {} of series \"{}\" bears a number that the job \"{}\" has here", number,
                      series, taken.text(0)),
          "Nothing was changed. Two invoices of one number cannot lie in one record: bring it in with "
          "another "
          "folder named in XDG_DATA_HOME.");
    }
    if (!seen.insert(series).second) continue;
    Statement shut = here.prepare("SELECT 1 FROM closed_series WHERE series = ?");
    shut.bind(1, std::string_view(series));
    if (shut.step()) continue;
    close_series(here, series, job, now);
    closed.push_back(series);
  }
  copier.brought = 1;
  copier.copy(JobTable::invoice, known);
  return closed;
}

// What was brought in reads back as what was packed.
void compare_with_packed(Connection& here, const JobPlace& where, const JobRows& packed,
                         const std::filesystem::path& source) {
  const JobRows now = job_rows(here, where);
  bool same = rows_of(now, JobTable::job).size() == 1 &&
              rows_of(now, JobTable::job)[0].key == rows_of(packed, JobTable::job)[0].key;
  const Compared found = compare(now, packed);
  same = same && !found.here_has_more && !found.packed_has_more;
  std::set<std::string> forecasts;
  for (const KnownRow& row : rows_of(now, JobTable::forecast))
    forecasts.insert(row.key);
  for (const KnownRow& row : rows_of(packed, JobTable::forecast))
    same = same && forecasts.count(row.key) > 0;
  if (!same) {
    throw RecordError(Kind::other, source, "what was brought in does not read back as it was packed");
  }
}

[[noreturn]] void refuse_lost(const std::filesystem::path& record, const std::string& job,
                              const std::vector<LostPhotograph>& lost) {
  constexpr std::size_t most_named = 5;
  std::string which;
  for (std::size_t i = 0; i < lost.size() && i < most_named; ++i) {
    which +=
        fmt::format("{}line {}, {} ({})", i == 0 ? "" : "; ", lost[i].photograph.line,
                    photograph_file(record, lost[i].photograph).filename().string(), words_of(lost[i].state));
  }
  if (lost.size() > most_named) which += fmt::format("; and {} more", lost.size() - most_named);
  throw RecordError(
      Kind::corrupt, photographs_folder(record),
      fmt::format("{} of the job's photographs {} lost: {}", lost.size(), lost.size() == 1 ? "is" : "are",
                  which),
      fmt::format("Nothing was written. Put the same picture back with \"weatherstruck log {} --photo FILE "
                  "--line {}\", or pack the rest with --without-lost.",
                  job, lost.front().photograph.line));
}

// Puts the files in, in the order of their names. @return those that are lost
std::vector<LostPhotograph> put_photographs(PackFile& file, const std::filesystem::path& record,
                                            const std::vector<Photograph>& photographs) {
  std::vector<LostPhotograph> lost;
  std::map<std::string, PhotographState> seen;
  for (const Photograph& photograph : photographs)
    seen.emplace(photograph.content, PhotographState::whole);
  for (auto& [content, state] : seen) {
    const auto first = std::find_if(photographs.begin(), photographs.end(),
                                    [&](const Photograph& one) { return one.content == content; });
    state = state_of(record, *first);
    if (state != PhotographState::whole) continue;
    const std::string bytes = read_whole_file(photograph_file(record, *first));
    // Read twice, so looked at twice.
    state = content_of_bytes(bytes) == content ? PhotographState::whole : PhotographState::changed;
    if (state == PhotographState::whole) file.put_photograph(content, bytes);
  }
  for (const Photograph& photograph : photographs) {
    if (const PhotographState state = seen.at(photograph.content); state != PhotographState::whole)
      lost.push_back({photograph, state});
  }
  return lost;
}

}  // namespace

PackedJob Store::pack(JobId job, std::string_view place, std::string_view program, base::Instant made_at,
                      LostOnes lost) {
  Connection& from = inside_->connection;
  PackFile file(inside_->steps);
  PackedLabel label;
  label.place = place;
  label.program = program;
  label.made_at = made_at;
  PackedJob out;
  const std::int64_t id = number_of(job);
  // One moment of the record, without holding up whoever writes.
  from.run("SAVEPOINT packing");
  try {
    Statement name = inside_->ask("SELECT name FROM job WHERE id = ?", id);
    if (!name.step()) inside_->refuse("the job to be packed is not in the record");
    label.job = name.text(0);
    const JobPlace where{id, label.place};
    RowCopier copier(from, where, file.rows());
    Transaction together(file.rows());
    for (const JobTable table : {JobTable::person, JobTable::job, JobTable::job_version, JobTable::forecast,
                                 JobTable::entry, JobTable::plan, JobTable::sheet}) {
      copier.copy(table);
    }
    // One job's numbers leave gaps in a series; so they lie here as they will where they are brought in.
    for (const std::string& series : series_of(from, id))
      close_series(file.rows(), series, 1, base::Instant{});
    copier.brought = 1;
    copier.copy(JobTable::invoice);
    copier.copy(JobTable::photograph);
    out.lost = put_photographs(file, path(), photographs(job));
    if (!out.lost.empty() && lost == LostOnes::refuse) refuse_lost(path(), label.job, out.lost);
    together.commit();
  } catch (...) {
    from.run("ROLLBACK TO packing; RELEASE packing");
    throw;
  }
  from.run("RELEASE packing");
  out.bytes = file.seal(std::move(label));
  out.label = file.label();
  return out;
}

Unpacked Store::unpack(std::string_view bytes, const std::filesystem::path& source, base::Instant now) {
  PackFile file(bytes, source, inside_->steps);
  Unpacked done;
  done.label = file.label();
  Connection& here = inside_->connection;
  const JobPlace there{1, done.label.place};
  const JobRows packed = job_rows(file.rows(), there);
  return inside_->write([&] {
    std::int64_t id = 0;
    {
      Statement known = inside_->ask("SELECT id FROM job WHERE name = ?", std::string_view(done.label.job));
      if (known.step()) id = known.integer(0);
    }
    done.fresh = id == 0;
    const JobRows before = job_rows(here, {id, done.label.place});
    if (!done.fresh) refuse_what_moved_on(source, done.label.job, before, packed);
    RowCopier copier(file.rows(), there, here);
    for (std::size_t table = 0; table < job_table_count; ++table)
      know(copier.numbers, static_cast<JobTable>(table), packed, before);
    bring_persons(copier, here);
    if (done.fresh) copier.copy(JobTable::job);
    id = copier.numbers[static_cast<std::size_t>(JobTable::job)].at(1);
    done.added.forecasts = bring_forecasts(copier, file.rows(), here);
    const auto rest = [&](JobTable table) { return copier.copy(table, rows_of(before, table).size()); };
    done.added.documents = rest(JobTable::job_version);
    done.added.entries = rest(JobTable::entry);
    done.added.plans = rest(JobTable::plan);
    done.added.sheets = rest(JobTable::sheet);
    const std::size_t invoices = rows_of(before, JobTable::invoice).size();
    done.closed_series = bring_invoices(copier, invoices, file, here, source, id, now);
    done.added.invoices = static_cast<std::int64_t>(rows_of(packed, JobTable::invoice).size() - invoices);
    done.added.photographs = rest(JobTable::photograph);
    compare_with_packed(here, {id, done.label.place}, packed, source);
    // The files last, when nothing else can go wrong any more, and before the rows count.
    for (const Photograph& photograph : photographs(JobId{id})) {
      if (const std::optional<std::string> picture = file.photograph(photograph.content)) {
        if (inside_->put_photograph(photograph, *picture)) ++done.photograph_files;
      } else if (const PhotographState state = state_of(path(), photograph);
                 state != PhotographState::whole) {
        done.lost.push_back({photograph, state});
      }
    }
    return done;
  });
}

std::optional<std::string> Store::series_closed_by(std::string_view series) {
  Statement row = inside_->ask(
      "SELECT job.name FROM closed_series JOIN job ON job.id = closed_series.job WHERE series = ?", series);
  if (!row.step()) return std::nullopt;
  return row.text(0);
}

}  // namespace weatherstruck::record
